package org.splicebook.survey;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.splicebook.loadflow.Fault;

/**
 * A fault that may be there, or two at once.
 *
 * @param words what it is, for people: {@code open: bench:K1.white}
 * @param at every branch where it may sit without any difference, named as the load flow names them
 * @param boxes the boxes and panels in which it may sit
 * @param faults what the load flow is given for it
 * @param opened breakers and protective devices that it has open
 * @param weight how often it is met beside others
 */
public record Suspect(
        String words, List<String> at, Set<String> boxes, List<Fault> faults, List<String> opened, double weight) {
    /** Nothing wrong. */
    static final Suspect NONE = new Suspect("nothing", List.of(), Set.of(), List.of(), List.of(), 1);

    public Suspect {
        at = List.copyOf(at);
        boxes = Set.copyOf(boxes);
        faults = List.copyOf(faults);
        opened = List.copyOf(opened);
    }

    static Suspect of(FaultKind kind, List<String> at, Set<String> boxes, List<Fault> faults, List<String> opened) {
        return new Suspect(
                kind.words() + ": " + String.join(", ", at),
                at,
                boxes,
                faults,
                opened,
                kind.weight() * Math.max(1, at.size()));
    }

    /** {@return whether it may be there by more or less, such as a loose connection} */
    boolean isGraded() {
        return faults.stream().anyMatch(Fault.Loose.class::isInstance);
    }

    /** {@return both at once} */
    Suspect and(Suspect other) {
        Set<String> both = new TreeSet<>(boxes);
        both.addAll(other.boxes);
        return new Suspect(
                words + "; and " + other.words,
                joined(at, other.at),
                both,
                joined(faults, other.faults),
                joined(opened, other.opened),
                weight * other.weight * FaultKind.two());
    }

    private static <T> List<T> joined(List<T> a, List<T> b) {
        return new ArrayList<>(Stream.concat(a.stream(), b.stream()).toList());
    }
}
