package org.splicebook.web.view;

import java.util.List;

/**
 * A form that writes to the record.
 *
 * @param action where it is sent
 * @param words what it does
 * @param inputs what has to be said
 * @param buttons what it can be told to do, the usual first
 * @param isAsking whether it only asks: what it says then stands in the address
 * @param keepsPlace whether the page changes in place, where a script runs, so that nobody loses theirs
 */
public record Entry(
        String action, String words, List<Input> inputs, List<Button> buttons, boolean isAsking, boolean keepsPlace) {
    /**
     * A button that sends the form.
     *
     * @param name the field that it fills in; empty for none
     * @param value what it fills in
     * @param words the words on it
     */
    public record Button(String name, String value, String words) {}

    /** A form that writes, with one button. */
    public Entry(String action, String words, List<Input> inputs, String button) {
        this(action, words, inputs, button, false);
    }

    /** A form with one button. */
    public Entry(String action, String words, List<Input> inputs, String button, boolean isAsking) {
        this(action, words, inputs, List.of(new Button("", "", button)), isAsking, false);
    }

    public Entry {
        inputs = List.copyOf(inputs);
        buttons = List.copyOf(buttons);
    }

    /** {@return the same with these fields} */
    public Entry with(List<Input> its) {
        return new Entry(action, words, its, buttons, isAsking, keepsPlace);
    }

    /** {@return the same, the page of which changes in place} */
    public Entry inPlace() {
        return new Entry(action, words, inputs, buttons, isAsking, true);
    }

    /** {@return the id of a field of the form that stands at that place of its page, from 0} */
    public static String id(int place, String field) {
        StringBuilder id = new StringBuilder("f").append(place).append('-');
        field.chars().forEach(c -> {
            boolean isPlain = c == '-' || (c < 128 && Character.isLetterOrDigit(c));
            id.append(isPlain ? String.valueOf((char) c) : "_" + Integer.toHexString(c));
        });
        return id.toString();
    }

    /** {@return whether the input at that place, from 0, is a further part of a field that one before it is of} */
    public boolean isAgain(int place) {
        String name = inputs.get(place).name();
        return inputs.stream().limit(place).anyMatch(i -> i.name().equals(name));
    }

    /** {@return the name of the first field with which something is wrong; empty for none} */
    public String firstWrong() {
        return inputs.stream()
                .filter(i -> !i.wrong().isEmpty())
                .map(Input::name)
                .findFirst()
                .orElse("");
    }

    /** {@return whether a file goes with it} */
    public boolean hasFile() {
        return inputs.stream()
                .anyMatch(i ->
                        i.kind() == Input.Kind.FILE || i.kind() == Input.Kind.LINES || i.kind() == Input.Kind.PHOTO);
    }
}
