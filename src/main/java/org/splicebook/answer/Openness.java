package org.splicebook.answer;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.splicebook.record.Basis;
import org.splicebook.wiring.Wiring;

/**
 * What an answer assumes, what it does not prove because the record is open there, and the cheapest test that would settle it.
 *
 * @param regions the parts of the house whose wiring is not wholly known
 */
public record Openness(List<Wiring.OpenRegion> regions) {
    private static final int TOLD = 6;

    public Openness {
        regions = List.copyOf(regions);
    }

    /** {@return what the answer assumes} */
    public static List<String> assumed(List<Row> rows) {
        List<String> all = new ArrayList<>();
        all.add(Assumption.NO_BURIED_TAP);
        all.add(
                "Every breaker that is not named is on, no protective device has tripped, and switches may stand either way.");
        long weak = rows.stream()
                .filter(r -> r.status() != Row.Status.EXCLUDED && r.basis().compareTo(Basis.TESTED) < 0)
                .count();
        if (weak > 0) {
            all.add(weak + " of the rows rest on what nobody has tested or seen.");
        }
        return all;
    }

    /** {@return what the given facts do not prove} */
    public List<String> notProven(List<Row> rows, Collection<String> named) {
        List<String> all = new ArrayList<>();
        long possible =
                rows.stream().filter(r -> r.status() == Row.Status.POSSIBLE).count();
        if (possible > 0) {
            all.add("That the " + possible + " possible rows are so, or are not so.");
        }
        for (Wiring.OpenRegion o : touching(rows, named)) {
            all.add("What is not known "
                    + (o.boxes().isEmpty() ? "of cables " + list(o.cables()) : "in " + list(o.boxes()))
                    + " may join " + list(o.loadPoints()) + " to "
                    + list(o.breakers()) + ": none of these is excluded.");
        }
        return all;
    }

    /** {@return the cheapest test that would settle what is open} */
    public List<String> wouldSettle(List<Row> rows, Collection<String> named) {
        Set<String> possible = rows.stream()
                .filter(r -> r.status() == Row.Status.POSSIBLE)
                .map(Row::subject)
                .collect(Collectors.toCollection(TreeSet::new));
        List<Wiring.OpenRegion> open = touching(rows, named);
        if (possible.isEmpty() || open.isEmpty()) {
            return List.of();
        }
        List<String> points = open.stream()
                .flatMap(o -> o.loadPoints().stream())
                .filter(possible::contains)
                .distinct()
                .toList();
        List<String> thrown = open.stream()
                .flatMap(o -> o.breakers().stream())
                .filter(b -> named.contains(b) || possible.contains(b))
                .distinct()
                .toList();
        List<String> all = new ArrayList<>();
        if (!thrown.isEmpty()) {
            String where = points.isEmpty() ? list(open.get(0).loadPoints()) : list(points);
            all.add("Turn " + thrown.get(0) + " off and look at " + where
                    + ", each before, during and after: out only while it" + " is off shows that it hangs on it.");
        }
        open.stream()
                .filter(o -> !o.boxes().isEmpty())
                .max(Comparator.comparingInt(o -> o.loadPoints().size()))
                .ifPresent(o -> all.add("Open " + list(o.boxes())
                        + ", once what may reach there is off, locked and tested, and record every cable and joint."));
        return all;
    }

    private List<Wiring.OpenRegion> touching(List<Row> rows, Collection<String> named) {
        Set<String> subjects = rows.stream()
                .filter(r -> r.status() != Row.Status.EXCLUDED)
                .map(Row::subject)
                .collect(Collectors.toCollection(TreeSet::new));
        subjects.addAll(named);
        return regions.stream()
                .filter(o -> o.loadPoints().stream().anyMatch(subjects::contains)
                        || o.breakers().stream().anyMatch(subjects::contains)
                        || o.boxes().stream().anyMatch(subjects::contains))
                .toList();
    }

    private static String list(List<String> names) {
        if (names.isEmpty()) {
            return "nothing that is named";
        }
        String some = names.stream().limit(TOLD).collect(Collectors.joining(", "));
        return names.size() <= TOLD ? some : some + " and " + (names.size() - TOLD) + " more";
    }
}
