package org.splicebook.web.view;

import java.util.List;

/**
 * A form that writes to the record.
 *
 * @param action where it is sent
 * @param words what it does
 * @param inputs what has to be said
 * @param button the words on its button
 */
public record Entry(String action, String words, List<Input> inputs, String button) {
    public Entry {
        inputs = List.copyOf(inputs);
    }

    /** {@return whether a file goes with it} */
    public boolean hasFile() {
        return inputs.stream()
                .anyMatch(i ->
                        i.kind() == Input.Kind.FILE || i.kind() == Input.Kind.LINES || i.kind() == Input.Kind.PHOTO);
    }
}
