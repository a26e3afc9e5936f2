package org.splicebook.visits;

import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Objects;

/**
 * One thing that a step says.
 *
 * @param name its name
 * @param label what people call it
 * @param meaning what it means; may be empty
 * @param needed whether it has to be said
 * @param isLong whether it may have several lines
 * @param choices what may be said; empty where it is free
 */
public record Field(String name, String label, String meaning, boolean needed, boolean isLong, List<String> choices) {
    public Field {
        choices = List.copyOf(choices);
    }

    static Field of(Object name, Map<?, ?> said) {
        String choices = text(said, "choices");
        return new Field(
                String.valueOf(name),
                text(said, "label"),
                text(said, "meaning"),
                text(said, "needed").equals("yes"),
                text(said, "long").equals("yes"),
                choices.isEmpty() ? List.of() : Arrays.asList(choices.split(", ")));
    }

    static String text(Map<?, ?> map, String key) {
        return Objects.requireNonNullElse(map.get(key), "").toString();
    }
}
