package org.splicebook.web.view;

import java.util.List;

/**
 * A form that asks.
 *
 * @param action where it is sent
 * @param words what it asks
 * @param fields what has to be said
 * @param button the word on its button
 */
public record Form(String action, String words, List<Field> fields, String button) {
    private static final int MOST_SHOWN = 30;

    /**
     * One field.
     *
     * @param name its name
     * @param label what it is called on the page
     * @param value what stands in it at first
     * @param meaning what it means
     * @param needed whether it has to be filled
     * @param choices what may be chosen; empty where it is typed
     */
    public record Field(String name, String label, String value, String meaning, boolean needed, List<String> choices) {
        public Field {
            choices = List.copyOf(choices);
        }

        /** {@return whether there are so many choices that typing a part of a name is quicker} */
        public boolean isLong() {
            return choices.size() > MOST_SHOWN;
        }
    }

    public Form {
        fields = List.copyOf(fields);
    }
}
