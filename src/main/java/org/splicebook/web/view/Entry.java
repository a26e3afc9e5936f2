package org.splicebook.web.view;

import java.util.List;

/**
 * A form that writes to the record.
 *
 * @param action where it is sent
 * @param words what it does
 * @param inputs what has to be said
 * @param button the words on its button
 * @param isAsking whether it only asks: what it says then stands in the address
 */
public record Entry(String action, String words, List<Input> inputs, String button, boolean isAsking) {
    /** A form that writes. */
    public Entry(String action, String words, List<Input> inputs, String button) {
        this(action, words, inputs, button, false);
    }

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
