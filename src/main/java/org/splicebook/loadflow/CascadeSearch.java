package org.splicebook.loadflow;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.Function;
import org.splicebook.loadflow.Cascade.End;
import org.splicebook.loadflow.Cascade.Trip;

/**
 * Follows trips from state to state. The unit that opens first is any whose band begins before every band that must end has ended; what
 * it leaves keeps the heat it had. States with the same units open are followed once, with the widest bands of all ways that led there,
 * so the ends may be too many and are never too few.
 */
final class CascadeSearch {
    /** More states than this, and the rest is not followed. */
    private static final int MOST_STATES = 512;

    private final Function<Set<String>, List<Drive>> solve;
    private final List<End> ends = new ArrayList<>();

    private CascadeSearch(Function<Set<String>, List<Drive>> solve) {
        this.solve = solve;
    }

    /**
     * Follows all trips from the state in which nothing has tripped.
     *
     * @param solve what drives each unit that has not tripped, given those that have
     */
    static Cascade follow(Function<Set<String>, List<Drive>> solve) {
        return new CascadeSearch(solve).run();
    }

    /** What one drive has taken so far, as parts of what opens it: at most, by the quickest unit, and at least, by the slowest. */
    private record Heat(double most, double least) {
        static final Heat NONE = new Heat(0, 0);

        Heat and(Heat o) {
            return new Heat(Math.max(most, o.most), Math.min(least, o.least));
        }
    }

    private record State(Set<String> open, List<Trip> trips, Map<String, Heat> heat, double earliest, double latest) {
        State and(State o) {
            Map<String, Heat> both = new HashMap<>(heat);
            o.heat.forEach((k, h) -> both.merge(k, h, Heat::and));
            both.replaceAll((k, h) -> heat.containsKey(k) && o.heat.containsKey(k) ? h : h.and(Heat.NONE));
            return new State(open, trips, both, Math.min(earliest, o.earliest), Math.max(latest, o.latest));
        }
    }

    private Cascade run() {
        Map<Set<String>, State> level = Map.of(Set.of(), new State(Set.of(), List.of(), Map.of(), 0, 0));
        int states = 0;
        while (!level.isEmpty()) {
            states += level.size();
            if (states > MOST_STATES) {
                return cascade(false);
            }
            Map<Set<String>, State> next = new TreeMap<>(Comparator.comparing(Set::toString));
            level.values().forEach(s -> step(s).forEach(t -> next.merge(t.open, t, State::and)));
            level = next;
        }
        return cascade(true);
    }

    private Cascade cascade(boolean whole) {
        ends.sort(Comparator.comparingInt(e -> e.open().size()));
        return new Cascade(ends, whole);
    }

    /** A unit's band from now on, and the drive that opens it first. */
    private record Next(Drive drive, double earliest, double latest) {}

    private List<State> step(State s) {
        List<Drive> drives = solve.apply(s.open).stream()
                .filter(d -> !s.open.contains(d.unit()) && d.time().may())
                .toList();
        Map<String, Next> units = new TreeMap<>();
        for (Drive d : drives) {
            Heat h = s.heat.getOrDefault(key(d), Heat.NONE);
            double earliest = left(d.time().earliest(), h.most);
            units.merge(
                    d.unit(),
                    new Next(d, earliest, Math.max(earliest, left(d.time().latest(), h.least))),
                    (a, b) -> new Next(
                            a.earliest <= b.earliest ? a.drive : b.drive,
                            Math.min(a.earliest, b.earliest),
                            Math.min(a.latest, b.latest)));
        }
        double firstBound =
                units.values().stream().mapToDouble(n -> n.latest).min().orElse(Double.POSITIVE_INFINITY);
        if (Double.isInfinite(firstBound)) {
            ends.add(new End(s.open, s.trips, drives));
        }
        List<State> after = new ArrayList<>();
        for (Next n : units.values()) {
            if (n.earliest <= firstBound) {
                after.add(after(s, drives, n, firstBound));
            }
        }
        return after;
    }

    private static State after(State s, List<Drive> drives, Next n, double firstBound) {
        Set<String> open = new TreeSet<>(s.open);
        open.add(n.drive.unit());
        Map<String, Heat> heat = new HashMap<>();
        s.heat.forEach((k, h) -> {
            if (k.startsWith(Drive.Cause.OVERLOAD.name())) {
                heat.put(k, h);
            }
        });
        for (Drive d : drives) {
            Heat h = s.heat.getOrDefault(key(d), Heat.NONE);
            heat.put(
                    key(d),
                    new Heat(
                            Math.min(1, h.most + part(firstBound, d.time().earliest())),
                            Math.min(1, h.least + part(n.earliest, d.time().latest()))));
        }
        double earliest = s.earliest + n.earliest;
        double latest = s.latest + firstBound;
        List<Trip> trips = new ArrayList<>(s.trips);
        trips.add(new Trip(n.drive, earliest, latest));
        return new State(open, trips, heat, earliest, latest);
    }

    /** What a unit has taken is heat for an overload and a running clock for a residual; a clock starts anew when the residual is gone. */
    private static String key(Drive d) {
        return d.cause() + " " + d.unit() + " " + d.at();
    }

    private static double left(double whole, double taken) {
        return taken >= 1 ? 0 : Double.isInfinite(whole) ? whole : whole * (1 - taken);
    }

    private static double part(double time, double whole) {
        return Double.isInfinite(whole) ? 0 : time >= whole ? 1 : time / whole;
    }
}
