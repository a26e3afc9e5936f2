package org.splicebook.rules;

import java.util.Comparator;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.splicebook.answer.Reason;
import org.splicebook.record.Basis;

/**
 * One thing that a check found.
 *
 * @param rule the rule's id
 * @param title the rule in a few words
 * @param severity how bad it is
 * @param certainty how sure it is
 * @param subject what it is about, by name: a load point, a device, a box, a breaker, a cable
 * @param said what was found, or what has to be known
 * @param place where, if known
 * @param breaker the circuit, if it is of one
 * @param outlets the load points concerned
 * @param boxes the boxes and panels concerned
 * @param ways the ways that show it
 * @param basis the weakest basis it rests on
 * @param judged the three judgements
 * @param article the article in the edition judged by; empty where no code speaks of it
 * @param mark how sure the article is: empty, or in words
 * @param cure what would put it right
 * @param licensed whether the cure needs a licensed person
 * @param local whose local rules altered the rule and why; empty where none did
 */
public record Finding(
        String rule,
        String title,
        Severity severity,
        Certainty certainty,
        String subject,
        String said,
        @Nullable String place,
        @Nullable String breaker,
        List<String> outlets,
        List<String> boxes,
        List<Reason> ways,
        Basis basis,
        Judged judged,
        String article,
        String mark,
        String cure,
        boolean licensed,
        String local) {
    /** What is found before what is possible before what is asked; the worst first; then by rule and subject. */
    public static final Comparator<Finding> ORDER = Comparator.comparing(Finding::certainty)
            .thenComparing(Finding::severity)
            .thenComparing(Finding::rule)
            .thenComparing(Finding::subject);

    public Finding {
        outlets = List.copyOf(outlets);
        boxes = List.copyOf(boxes);
        ways = List.copyOf(ways);
    }

    /** {@return what stays the same when the house is checked again: the rule and what it is about} */
    public String key() {
        return rule + "/" + subject;
    }
}
