package org.splicebook.property;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.splicebook.record.Basis;
import org.splicebook.record.Property;
import org.splicebook.wiring.Feed;
import org.splicebook.wiring.LoadPointWiring;
import org.splicebook.wiring.Loss;
import org.splicebook.wiring.LossMode;
import org.splicebook.wiring.LossRow;
import org.splicebook.wiring.Sureness;
import org.splicebook.wiring.Wiring;

/**
 * What changes in all parts when one thing of one part is lost: what each record loses is its own derivation's, and where it loses a
 * boundary, the source beyond is lost in the next record. Never less than may be so: of a source that keeps a leg, all that hangs on it
 * may go; of two sources lost in one record, all that hangs on either may go.
 */
final class GoesDark {
    /** What becomes of a load point. */
    enum Change {
        OFF("should be off", "may go off"),
        LIVE_THROUGH_LOAD(
                "its own feed is lost, yet it is live through another load",
                "its own feed may be lost while it stays live through another load"),
        PARTLY(
                "one of its hots is lost; the rest stays live",
                "may go off, or lose one of its hots: a leg of its feed is lost"),
        FLOATS(
                "stays live with its neutral lost: it floats, and its volts may be far too high",
                "may stay live with its neutral lost: it may float, and its volts may be far too high"),
        OVER_GROUND("stays live and returns over ground", "may stay live and return over ground"),
        FEWER("live in fewer switch positions", "may be live in fewer switch positions"),
        GROUND_LOST("stays live with its ground lost", "may stay live with its ground lost");

        private final String shown;
        private final String possible;

        Change(String shown, String possible) {
            this.shown = shown;
            this.possible = possible;
        }

        String said(Sureness sureness) {
            return sureness == Sureness.MAY ? possible : shown;
        }
    }

    /**
     * What a source loses.
     *
     * @param hot all, some, or none of its hot poles
     * @param neutral whether its neutral goes
     * @param ground whether its ground goes
     * @param sureness how surely
     */
    private record Cut(
            String part,
            String source,
            Hot hot,
            boolean neutral,
            boolean ground,
            Sureness sureness,
            Basis basis,
            List<String> way) {
        Cut unsure() {
            return new Cut(part, source, hot, neutral, ground, Sureness.MAY, basis, way);
        }

        String what() {
            return part + "/" + source + "/" + hot + neutral + ground;
        }
    }

    private enum Hot {
        ALL,
        SOME,
        NONE
    }

    /** What becomes of a load point, how surely, on what basis, over which links. */
    record Effect(Sureness sureness, Basis basis, List<String> way) {}

    private final Joined joined;
    private final Map<String, Map<String, Map<Change, Effect>>> effects = new TreeMap<>();
    private final Map<String, Effect> unrecorded = new TreeMap<>();
    private final Set<String> endsNowhere = new TreeSet<>();
    private final Deque<Cut> waiting = new ArrayDeque<>();
    private final Map<String, Sureness> done = new HashMap<>();
    private final Map<String, Set<String>> cutSources = new HashMap<>();

    private GoesDark(Joined joined) {
        this.joined = joined;
    }

    /** {@return what changes when this is lost} */
    static GoesDark of(Joined joined, String part, Loss loss) {
        GoesDark g = new GoesDark(joined);
        loss.rows().forEach(r -> g.row(part, r, r.sureness(), Basis.SEEN, List.of()));
        while (!g.waiting.isEmpty()) {
            g.cut(g.waiting.poll());
        }
        return g;
    }

    /** {@return by part and load point what becomes of it} */
    Map<String, Map<String, Map<Change, Effect>>> effects() {
        return effects;
    }

    /** {@return the parts that are fed from what is lost and whose record is not stored} */
    Map<String, Effect> unrecorded() {
        return unrecorded;
    }

    /** {@return the boundaries that are lost and of which no link says what they feed} */
    Set<String> endsNowhere() {
        return endsNowhere;
    }

    private void row(String part, LossRow row, Sureness sureness, Basis basis, List<String> way) {
        List<Change> changes = new ArrayList<>();
        switch (row.hot()) {
            case LOST -> changes.add(Change.OFF);
            case LOST_LIVE_THROUGH_LOAD -> changes.add(Change.LIVE_THROUGH_LOAD);
            case ONE_OF_TWO -> changes.add(Change.PARTLY);
            case IMPAIRED -> changes.add(Change.FEWER);
            case KEPT -> {}
        }
        boolean isLive = row.hot() != LossRow.Hot.LOST;
        switch (row.neutral()) {
            case LOST -> add(changes, isLive, Change.FLOATS);
            case OVER_GROUND -> add(changes, isLive, Change.OVER_GROUND);
            case IMPAIRED -> add(changes, isLive, Change.FEWER);
            case KEPT -> {}
        }
        add(changes, isLive && row.ground() == LossRow.Ground.LOST, Change.GROUND_LOST);
        changes.forEach(c -> note(part, row.loadPoint(), c, sureness, basis, way));
        follow(part, row, sureness, basis, way);
    }

    private static void add(List<Change> changes, boolean when, Change change) {
        if (when && !changes.contains(change)) {
            changes.add(change);
        }
    }

    private void note(String part, String point, Change change, Sureness sureness, Basis basis, List<String> way) {
        Map<Change, Effect> of = effects.computeIfAbsent(part, k -> new TreeMap<>())
                .computeIfAbsent(point, k -> new EnumMap<>(Change.class));
        Effect known = of.get(change);
        if (known == null || sureness.compareTo(known.sureness()) < 0) {
            of.put(change, new Effect(sureness, basis, way));
        }
    }

    /** What a boundary loses, the source beyond it loses. */
    private void follow(String part, LossRow row, Sureness sureness, Basis basis, List<String> way) {
        List<Property.Link> links = joined.from(part, row.loadPoint());
        if (links.isEmpty() && Boundaries.is(joined, part, row.loadPoint())) {
            endsNowhere.add(part + ":" + row.loadPoint());
        }
        Hot hot = switch (row.hot()) {
            case LOST -> Hot.ALL;
            case KEPT -> Hot.NONE;
            default -> Hot.SOME;
        };
        boolean neutral = row.neutral() != LossRow.Neutral.KEPT;
        boolean ground = row.ground() != LossRow.Ground.KEPT;
        for (Property.Link l : links) {
            Basis linkBasis = basis.weaker(joined.property().basis(l));
            List<String> further = new ArrayList<>(way);
            further.add(l.from() + ":" + l.point() + " feeds " + l.to() + ":" + l.source() + " ("
                    + joined.property().basis(l).word() + ")");
            // What fed from several links is fed still when one is lost.
            boolean isAlone = joined.into(l.to(), l.source()).size() == 1;
            waiting.add(new Cut(
                    l.to(),
                    l.source(),
                    hot,
                    neutral,
                    ground,
                    isAlone ? sureness : Sureness.MAY,
                    linkBasis,
                    List.copyOf(further)));
        }
    }

    private void cut(Cut cut) {
        Sureness before = done.get(cut.what());
        if (before != null && before.compareTo(cut.sureness()) <= 0) {
            return;
        }
        done.put(cut.what(), cut.sureness());
        if (joined.wiring(cut.part()).isEmpty()) {
            unrecorded.merge(
                    cut.part(),
                    new Effect(cut.sureness(), cut.basis(), cut.way()),
                    (a, b) -> a.sureness().compareTo(b.sureness()) <= 0 ? a : b);
            return;
        }
        Wiring wiring = joined.wiring(cut.part()).get();
        List<LossRow> rows = wiring.losses().stream()
                .filter(l ->
                        l.mode() == LossMode.SOURCE_LOST && l.thing().name().equals(cut.source()))
                .flatMap(l -> l.rows().stream())
                .toList();
        for (LossRow r : rows) {
            beyond(cut, r);
        }
        if (cut.hot() != Hot.NONE) {
            Set<String> cuts = cutSources.computeIfAbsent(cut.part(), k -> new HashSet<>());
            cuts.add(cut.source());
            if (cuts.size() > 1) {
                together(cut.unsure(), wiring, cuts);
            }
        }
    }

    private void beyond(Cut cut, LossRow r) {
        LossRow.Neutral neutral = cut.neutral() ? r.neutral() : LossRow.Neutral.KEPT;
        LossRow.Ground ground = cut.ground() ? r.ground() : LossRow.Ground.KEPT;
        Sureness sureness = weaker(cut.sureness(), r.sureness());
        Basis basis = cut.basis().weaker(basis(cut.part(), r.loadPoint()));
        switch (cut.hot()) {
            case ALL -> told(cut, new LossRow(r.loadPoint(), r.hot(), neutral, ground, sureness), basis);
            case NONE -> told(cut, new LossRow(r.loadPoint(), LossRow.Hot.KEPT, neutral, ground, sureness), basis);
            case SOME -> {
                told(cut, new LossRow(r.loadPoint(), LossRow.Hot.KEPT, neutral, ground, sureness), basis);
                if (r.hot() != LossRow.Hot.KEPT) {
                    LossRow.Hot some = LossRow.Hot.ONE_OF_TWO;
                    told(
                            cut,
                            new LossRow(r.loadPoint(), some, LossRow.Neutral.KEPT, LossRow.Ground.KEPT, Sureness.MAY),
                            basis);
                }
            }
        }
    }

    private void told(Cut cut, LossRow row, Basis basis) {
        if (row.hot() != LossRow.Hot.KEPT
                || row.neutral() != LossRow.Neutral.KEPT
                || row.ground() != LossRow.Ground.KEPT) {
            row(cut.part(), row, row.sureness(), basis, cut.way());
        }
    }

    /** With several of its sources lost, a point may go off that either alone would have kept live. */
    private void together(Cut cut, Wiring wiring, Set<String> cuts) {
        for (LoadPointWiring p : wiring.loadPoints()) {
            boolean hangs = p.feeds().stream().flatMap(f -> sources(f).stream()).anyMatch(cuts::contains);
            boolean isOff = effects.getOrDefault(cut.part(), Map.of())
                    .getOrDefault(p.id(), Map.of())
                    .containsKey(Change.OFF);
            if (hangs && !isOff) {
                LossRow all =
                        new LossRow(p.id(), LossRow.Hot.LOST, LossRow.Neutral.KEPT, LossRow.Ground.KEPT, Sureness.MAY);
                row(cut.part(), all, Sureness.MAY, cut.basis().weaker(basis(cut.part(), p.id())), cut.way());
            }
        }
    }

    /** {@return the names of the sources that a feed comes from} */
    static Set<String> sources(Feed feed) {
        Set<String> names = new TreeSet<>();
        feed.sourcePoles().forEach(p -> names.add(p.substring(0, Math.max(0, p.lastIndexOf('.')))));
        return names;
    }

    private Basis basis(String part, String point) {
        return joined.point(part, point)
                .map(p -> p.feeds().stream().map(f -> f.way().basis()).reduce(Basis.SEEN, Basis::weaker))
                .orElse(Basis.ASSUMED);
    }

    private static Sureness weaker(Sureness a, Sureness b) {
        return a.compareTo(b) >= 0 ? a : b;
    }

    /** {@return by part how many of its load points should be off, and how many may be} */
    Map<String, int[]> counts() {
        Map<String, int[]> counts = new LinkedHashMap<>();
        effects.forEach((part, points) -> {
            int[] n = new int[3];
            points.forEach((point, changes) -> {
                if (!joined.from(part, point).isEmpty()) {
                    return;
                }
                Effect off = changes.get(Change.OFF);
                n[off == null ? 2 : off.sureness() == Sureness.MAY ? 1 : 0]++;
            });
            if (n[0] + n[1] + n[2] > 0) {
                counts.put(part, n);
            }
        });
        return counts;
    }
}
