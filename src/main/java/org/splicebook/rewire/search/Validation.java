package org.splicebook.rewire.search;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.ConcurrentHashMap;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.House;
import org.splicebook.record.Move;
import org.splicebook.record.Protection;
import org.splicebook.rewire.Renamed;
import org.splicebook.rules.Certainty;
import org.splicebook.rules.Checks;
import org.splicebook.rules.Comparison;
import org.splicebook.rules.Finding;
import org.splicebook.rules.Pack;
import org.splicebook.rules.Severity;
import org.splicebook.wiring.Conductor;
import org.splicebook.wiring.LoadPointWiring;
import org.splicebook.wiring.Sureness;
import org.splicebook.wiring.ThingKind;
import org.splicebook.wiring.WireUse;

/**
 * Judges a house after a change as a whole: what is wanted is reached; every load is served as before or better; nothing new is found
 * that is a fault or worse, or as bad as what is cured; nothing trips or is overloaded that did not before.
 */
final class Validation {
    private final State before;
    private final Pack pack;
    private final Pack local;
    private final Wish wish;
    private final Severity cured;
    private final Slices slices;
    private final boolean isWide;
    private final Map<String, Finding> known = new HashMap<>();
    private final Map<Slices.Part, State> parts = new ConcurrentHashMap<>();
    private final Map<Slices.Part, Currents> currents = new ConcurrentHashMap<>();
    private @Nullable Currents whole;

    /**
     * What came out.
     *
     * @param after the house after the change
     * @param isReached whether what is wanted is reached
     * @param reasons why the change may not be made; none where it may
     * @param beside lesser findings that come with it
     * @param open findings that the next move might go for
     */
    record Verdict(State after, boolean isReached, List<String> reasons, List<String> beside, List<Finding> open) {}

    Validation(State before, Pack pack, Wish wish) {
        this.before = before;
        this.pack = pack;
        this.wish = wish;
        this.cured = wish instanceof Wish.Cure c ? target(c, before.findings()).severity() : Severity.FAULT;
        this.slices = new Slices(before.house());
        this.local = Checks.withoutWide(pack);
        this.isWide = wish instanceof Wish.Cure c
                && !local.rules().containsKey(target(c, before.findings()).rule());
        before.findings().forEach(f -> known.put(f.key(), f));
    }

    private static Finding target(Wish.Cure c, List<Finding> all) {
        return all.stream()
                .filter(f -> f.key().equals(c.finding()))
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException("not found in the house: " + c.finding()));
    }

    /** {@return the verdict by the whole house: nothing is proposed without} */
    Verdict whole(House house, List<Move> moves) {
        State after = State.of(house, pack);
        Verdict v = verdict(before, after, moves);
        if (v.isReached && v.reasons.isEmpty()) {
            synchronized (this) {
                whole = whole == null ? new Currents(before.house()) : whole;
            }
            v.reasons.addAll(whole.added(house, moves));
        }
        return v;
    }

    /**
     * {@return the verdict by the part of the house that the change can reach, without the checks that look at houses at large; by all
     * of it where that is what can be reached}
     */
    Verdict part(House house, List<Move> moves) {
        Slices.Part part = isWide ? null : slices.of(house);
        if (part == null) {
            return whole(house, moves);
        }
        State was = parts.computeIfAbsent(part, p -> State.of(Slices.cut(before.house(), p), local));
        Verdict v = verdict(was, State.of(Slices.cut(house, part), local), moves);
        if (v.isReached && v.reasons.isEmpty()) {
            v.reasons.addAll(currents.computeIfAbsent(part, p -> new Currents(was.house()))
                    .added(v.after.house(), moves));
        }
        return v;
    }

    private Verdict verdict(State was, State after, List<Move> moves) {
        List<String> reasons = new ArrayList<>(Service.worse(was, after, waived()));
        List<String> beside = new ArrayList<>();
        List<Finding> open = new ArrayList<>();
        Comparison found = Renamed.compare(moves, was.findings(), after.findings());
        for (Finding f : found.added()) {
            Finding same = known.get(f.key());
            if (same == null || isWorse(new Comparison.Change(same, f))) {
                judge(f, reasons, beside, open);
            }
        }
        for (Comparison.Change c : found.changed()) {
            if (isWorse(c)) {
                judge(c.after(), reasons, beside, open);
            }
        }
        reasons.addAll(loops(was, after));
        Set<String> shorted = shorts(was);
        shorts(after).stream()
                .filter(w -> !shorted.contains(w))
                .forEach(w -> reasons.add(w + " would be hot and neutral at once: a short."));
        boolean isReached = isReached(was, after, found);
        if (!isReached && wish instanceof Wish.Cure c) {
            after.findings().stream().filter(f -> f.key().equals(c.finding())).forEach(open::add);
        }
        return new Verdict(after, isReached, reasons, beside, open);
    }

    /** Wires that are a hot and a neutral in every position. */
    private static Set<String> shorts(State state) {
        Set<String> all = new TreeSet<>();
        state.wiring().wires().stream()
                .filter(w -> isSurely(w, Conductor.HOT) && isSurely(w, Conductor.NEUTRAL))
                .forEach(w -> all.add(w.wire()));
        return all;
    }

    private static boolean isSurely(WireUse w, Conductor what) {
        return w.uses().stream().anyMatch(u -> u.conductor() == what && u.sureness() == Sureness.MUST);
    }

    /** Load points whose ground-fault protection is given up because that is what is wished for. */
    private List<String> waived() {
        return wish instanceof Wish.Free f ? f.points() : List.of();
    }

    /** Two poles made one breaker hide a loop of their neutrals from the checks; it stays a loop, and no cure of anything. */
    private List<String> loops(State was, State after) {
        boolean isAbout = wish instanceof Wish.Cure c && c.finding().startsWith("neutrals-joined/");
        return after.wiring().islands().stream()
                .filter(i -> i.landings().size() > 1 && i.poles().size() > 1)
                .filter(i -> isAbout
                        || was.wiring().islands().stream()
                                .noneMatch(b ->
                                        b.landings().size() > 1 && b.poles().size() > 1 && b.id().equals(i.id())))
                .map(i -> "The neutrals " + String.join(" and ", i.landings()) + " are joined: a loop.")
                .toList();
    }

    private void judge(Finding f, List<String> reasons, List<String> beside, List<Finding> open) {
        // What a check asks of the house at large, a test of a new device for one, is for after the work.
        boolean isForLater = f.certainty() == Certainty.ASKED && f.subject().equals("house");
        boolean isBad =
                !isForLater && (f.severity() != Severity.ADVICE || f.severity().compareTo(cured) <= 0);
        String said = f.severity().word()
                + (f.certainty() == Certainty.FOUND ? "" : ", " + f.certainty().word()) + ": " + f.title() + ", "
                + f.subject() + ". " + f.said();
        (isBad ? reasons : beside).add(said);
        if (isBad) {
            open.add(f);
        }
    }

    /** Surer than before, or of load points that it was not of before. */
    private static boolean isWorse(Comparison.Change c) {
        return c.after().certainty().compareTo(c.before().certainty()) < 0
                || !c.before().outlets().containsAll(c.after().outlets());
    }

    /** A finding is cured when its rule finds nothing of that subject, nor of any load point that it was of. */
    private boolean isReached(State was, State after, Comparison found) {
        if (wish instanceof Wish.Cure c) {
            Finding target = target(c, before.findings());
            boolean isGone = found.cured().stream().anyMatch(f -> f.key().equals(target.key()));
            return isGone
                    && found.added().stream()
                            .noneMatch(f -> f.rule().equals(target.rule())
                                    && f.outlets().stream().anyMatch(target.outlets()::contains));
        }
        if (wish instanceof Wish.Put p) {
            return isPut(after, p);
        }
        List<LoadPointWiring> points = new ArrayList<>();
        for (String id : wish.named()) {
            LoadPointWiring point =
                    was.points().getOrDefault(id, before.points().get(id));
            LoadPointWiring is =
                    point == null ? null : was.points().containsKey(id) ? Service.now(after, point) : point;
            if (is == null) {
                return false;
            }
            points.add(is);
        }
        if (wish instanceof Wish.Protect p) {
            return points.stream().allMatch(l -> Service.protections(l).contains(p.function()));
        } else if (wish instanceof Wish.Free) {
            return points.stream().allMatch(Validation::isFree);
        }
        return areApart(after, points);
    }

    /** No ground-fault device but its own may cut it off. */
    private static boolean isFree(LoadPointWiring l) {
        return l.protections().stream()
                .noneMatch(p -> p.function() == Protection.GROUND_FAULT
                        && p.by().kind() == ThingKind.DEVICE
                        && !p.by().name().equals(l.device()));
    }

    private static boolean areApart(State after, List<LoadPointWiring> points) {
        Set<String> seen = new HashSet<>();
        for (LoadPointWiring l : points) {
            Set<String> its = new HashSet<>();
            l.feeds().forEach(f -> its.add(f.breaker()));
            after.wiring().islands().stream()
                    .filter(i -> i.loadPoints().contains(l.id()))
                    .forEach(i -> its.add("island " + i.id()));
            if (its.isEmpty() || its.stream().anyMatch(x -> !seen.add(x))) {
                return false;
            }
        }
        return true;
    }

    /** It is there, and what it draws for itself has a hot and its own neutral for certain. */
    private static boolean isPut(State after, Wish.Put p) {
        boolean isThere = after.house().boxes().values().stream()
                .flatMap(b -> b.devices().values().stream())
                .anyMatch(d -> d.name().equals(p.device()) && d.kind().name().equals(p.kind()));
        return isThere
                && after.points().values().stream()
                        .filter(l -> l.device().equals(p.device()))
                        .allMatch(l -> Service.isServed(after, l));
    }
}
