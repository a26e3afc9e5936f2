package org.splicebook.property;

import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.splicebook.record.Basis;
import org.splicebook.record.Property;
import org.splicebook.wiring.Feed;
import org.splicebook.wiring.LoadPointWiring;
import org.splicebook.wiring.Sureness;

/** Which meters count what a source gives: its own, or that of what feeds it, link by link. */
final class Counted {
    /** Stands for a meter that is not recorded. */
    static final String UNKNOWN = "?";

    /** How surely a meter counts it, on what basis, over which links. */
    record How(boolean isSure, Basis basis, List<String> way) {}

    private final Joined joined;

    Counted(Joined joined) {
        this.joined = joined;
    }

    /** {@return the meters that count a load point, by name; one that is not recorded as {@link #UNKNOWN}} */
    Map<String, How> point(String part, LoadPointWiring point) {
        return point(part, point, new HashSet<>());
    }

    private Map<String, How> point(String part, LoadPointWiring point, Set<String> seen) {
        Map<String, How> meters = new LinkedHashMap<>();
        for (Feed f : point.feeds()) {
            boolean isSure = f.sureness() != Sureness.MAY;
            Set<String> sources = GoesDark.sources(f);
            if (sources.isEmpty()) {
                add(meters, UNKNOWN, new How(isSure, f.way().basis(), List.of()));
            }
            for (String source : sources) {
                source(part, source, seen)
                        .forEach((meter, how) -> add(
                                meters,
                                meter,
                                new How(
                                        how.isSure() && isSure,
                                        how.basis().weaker(f.way().basis()),
                                        how.way())));
            }
        }
        return meters;
    }

    private Map<String, How> source(String part, String source, Set<String> seen) {
        for (Property.Meter m : joined.property().meters().values()) {
            if (m.in().equals(part) && m.source().equals(source)) {
                return Map.of(m.name(), new How(true, joined.property().basis(m), List.of()));
            }
        }
        Map<String, How> meters = new LinkedHashMap<>();
        if (seen.add(part + "/" + source)) {
            for (Property.Link l : joined.into(part, source)) {
                Map<String, How> further = joined.point(l.from(), l.point())
                        .map(p -> point(l.from(), p, seen))
                        .orElse(Map.of());
                further.forEach((meter, how) -> add(meters, meter, over(l, how)));
            }
        }
        return meters.isEmpty() ? Map.of(UNKNOWN, new How(true, Basis.ASSUMED, List.of())) : meters;
    }

    private How over(Property.Link l, How how) {
        List<String> way = new java.util.ArrayList<>(List.of(l.said()));
        way.addAll(how.way());
        return new How(how.isSure(), how.basis().weaker(joined.property().basis(l)), way);
    }

    private static void add(Map<String, How> meters, String meter, How how) {
        meters.merge(meter, how, (a, b) -> a.isSure() || !b.isSure() ? a : b);
    }
}
