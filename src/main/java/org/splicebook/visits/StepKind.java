package org.splicebook.visits;

import java.util.List;

/**
 * A kind of step.
 *
 * @param id its word
 * @param title what it does
 * @param from the states that it leads from; an empty word where there is no visit yet
 * @param to the state that it leads to
 * @param fields what it says
 */
public record StepKind(String id, String title, List<String> from, String to, List<Field> fields) {
    public StepKind {
        from = List.copyOf(from);
        fields = List.copyOf(fields);
    }
}
