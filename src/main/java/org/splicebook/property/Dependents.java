package org.splicebook.property;

import java.util.List;
import java.util.function.Predicate;
import org.splicebook.answer.Answer;
import org.splicebook.answer.Dependence;
import org.splicebook.answer.Reply;
import org.splicebook.record.Property;

/** Says with an answer about a property in which parts somebody depends on power. */
public final class Dependents {
    private Dependents() {}

    /**
     * {@return the reply, with a caution where somebody depends on power in a part that it tells of, or whose record it could not use}
     *
     * @param isMarked whether somebody depends on power in a house
     */
    public static Reply told(Reply reply, Joined joined, Predicate<String> isMarked) {
        if (!(reply instanceof Answer a) || !a.heading().question().equals("goes-dark")) {
            return reply;
        }
        List<String> parts = joined.property().parts().values().stream()
                .filter(p -> isMarked.test(p.house()) && isToldOf(a, p))
                .map(Property.Part::said)
                .toList();
        return parts.isEmpty() ? a : Dependence.before(a, Dependence.in(parts));
    }

    private static boolean isToldOf(Answer a, Property.Part p) {
        return a.rows().stream()
                .anyMatch(r -> r.subject().startsWith(p.name() + ":")
                        || r.subject().equals(p.name())
                        || p.said().equals(r.columns().get("part")));
    }
}
