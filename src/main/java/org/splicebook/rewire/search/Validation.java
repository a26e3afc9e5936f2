package org.splicebook.rewire.search;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.IntPredicate;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.House;
import org.splicebook.record.Move;
import org.splicebook.rewire.Renamed;
import org.splicebook.rules.Certainty;
import org.splicebook.rules.Checks;
import org.splicebook.rules.Comparison;
import org.splicebook.rules.Finding;
import org.splicebook.rules.Pack;
import org.splicebook.rules.Remembered;
import org.splicebook.rules.Severity;
import org.splicebook.wiring.Conductor;
import org.splicebook.wiring.LoadPointWiring;
import org.splicebook.wiring.Sureness;
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
    private final Map<Slices.Part, Flood> floods = new ConcurrentHashMap<>();
    private final Remembered remembered = new Remembered();
    private final Goal goal;
    private @Nullable Currents whole;

    /**
     * What came out.
     *
     * @param afterOrNull the house after the change; null where a first look turned it away
     * @param isReached whether what is wanted is reached
     * @param reasons why the change may not be made; none where it may
     * @param beside lesser findings that come with it
     * @param open findings that the next move might go for
     * @param isIdle whether it has come no nearer to what is wished for
     */
    record Verdict(
            @Nullable State afterOrNull,
            boolean isReached,
            List<String> reasons,
            List<String> beside,
            List<Finding> open,
            boolean isIdle) {
        /** Of a house that the first look turned away. */
        static final Verdict TURNED_AWAY = new Verdict(null, false, List.of(), List.of(), List.of(), true);

        boolean isTurnedAway() {
            return afterOrNull == null;
        }

        State after() {
            return Objects.requireNonNull(afterOrNull);
        }
    }

    Validation(State before, Pack pack, Wish wish) {
        this.before = before;
        this.pack = pack;
        this.wish = wish;
        this.goal = new Goal(before, pack, wish);
        Finding target = goal.target();
        this.cured = target == null ? Severity.FAULT : target.severity();
        this.slices = new Slices(before.house());
        this.local = Checks.withoutWide(pack);
        this.isWide = target != null && !local.rules().containsKey(target.rule());
        before.findings().forEach(f -> known.put(f.key(), f));
    }

    /**
     * {@return the verdict by the part that the change can reach, and where that lets it pass by the whole house}
     *
     * @param isLast whether no further step follows, so that what is not reached needs no reasons
     * @param isEnough whether a change against which so many reasons speak is given up, whatever else the checks would find
     */
    Verdict of(House house, List<Move> moves, boolean isLast, IntPredicate isEnough) {
        Slices.Part part = isWide ? null : slices.of(house);
        if (part == null) {
            return whole(house, moves, isLast, isEnough);
        }
        Verdict v = part(part, house, moves, isLast, isEnough);
        return v.isReached && v.reasons.isEmpty() ? whole(house, moves, isLast, isEnough) : v;
    }

    /** {@return what it judges changes for} */
    Goal goal() {
        return goal;
    }

    /** {@return the verdict by the whole house, with all reasons: nothing is proposed without} */
    Verdict whole(House house, List<Move> moves) {
        return whole(house, moves, false, many -> false);
    }

    private Verdict whole(House house, List<Move> moves, boolean isLast, IntPredicate isEnough) {
        State after = State.unchecked(house);
        List<String> worse = worse(before, after);
        if (isEnough.test(worse.size()) || (isLast && !goal.isReached(before, after, moves))) {
            return unreached(after);
        }
        Verdict v = verdict(before, after.checked(pack, remembered), moves, worse);
        if (v.isReached && v.reasons.isEmpty()) {
            v.reasons.addAll(wholeCurrents().added(house, moves));
        }
        return v;
    }

    /**
     * {@return the verdict by the part of the house that the change can reach, without the checks that look at houses at large; by all
     * of it where that is what can be reached}
     */
    Verdict part(House house, List<Move> moves) {
        Slices.Part part = isWide ? null : slices.of(house);
        return part == null ? whole(house, moves) : part(part, house, moves, false, many -> false);
    }

    private Verdict part(Slices.Part part, House house, List<Move> moves, boolean isLast, IntPredicate isEnough) {
        State was = parts.computeIfAbsent(part, p -> State.of(Slices.cut(before.house(), p), local, remembered));
        House cut = Slices.cut(house, part);
        if (isLast && isHopeless(was, floods.computeIfAbsent(part, p -> Flood.of(was.house())), Flood.of(cut))) {
            return Verdict.TURNED_AWAY;
        }
        State after = State.unchecked(cut);
        List<String> worse = worse(was, after);
        if (isEnough.test(worse.size()) || (isLast && !goal.isReached(was, after, moves))) {
            return unreached(after);
        }
        Verdict v = verdict(was, after.checked(local, remembered), moves, worse);
        if (v.isReached && v.reasons.isEmpty()) {
            v.reasons.addAll(currents.computeIfAbsent(part, p -> new Currents(was.house()))
                    .added(cut, moves));
        }
        return v;
    }

    /** {@return all that a change in a part does: wiring, checks, all load cases in all positions, whether it passes before or not} */
    int everything(House house, List<Move> moves) {
        Slices.Part part = slices.of(house);
        State was = part == null
                ? before
                : parts.computeIfAbsent(part, p -> State.of(Slices.cut(before.house(), p), local, remembered));
        House cut = part == null ? house : Slices.cut(house, part);
        State after = State.of(cut, part == null ? pack : local, remembered);
        Verdict v = verdict(was, after, moves, worse(was, after));
        Currents then = part == null ? wholeCurrents() : currents.computeIfAbsent(part, p -> new Currents(was.house()));
        return v.reasons.size() + then.added(cut, moves).size();
    }

    private synchronized Currents wholeCurrents() {
        whole = whole == null ? new Currents(before.house()) : whole;
        return whole;
    }

    private static Verdict unreached(State after) {
        return new Verdict(after, false, new ArrayList<>(), List.of(), List.of(), true);
    }

    /** Whether a first look shows that a load is no more served as before, or a short. */
    private static boolean isHopeless(State was, Flood before, Flood after) {
        if (after.isShort() && !before.isShort()) {
            return true;
        }
        for (LoadPointWiring l : was.points().values()) {
            Flood.Reached now =
                    after.reached().getOrDefault(l.id(), after.reached().get(l.device()));
            if (now == null
                    || (!now.isPowered() && Service.works(was.tables().get(l.id())))
                    || (!now.hasNeutral() && Service.has(l.returns(), Conductor.NEUTRAL))
                    || (!now.hasGround() && Service.certain(l.grounds()))) {
                return true;
            }
        }
        return false;
    }

    /** What the wiring alone shows to be worse. */
    private List<String> worse(State was, State after) {
        List<String> all = new ArrayList<>(Service.worse(was, after, waived()));
        all.addAll(loops(was, after));
        Set<String> shorted = shorts(was);
        shorts(after).stream()
                .filter(w -> !shorted.contains(w))
                .forEach(w -> all.add(w + " would be hot and neutral at once: a short."));
        return all;
    }

    private Verdict verdict(State was, State after, List<Move> moves, List<String> worse) {
        List<String> reasons = new ArrayList<>(worse);
        List<String> beside = new ArrayList<>();
        List<Finding> open = new ArrayList<>();
        Comparison found = Renamed.compare(was.house(), moves, was.findings(), after.findings());
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
        boolean isReached = goal.isReached(was, after, found);
        if (!isReached && wish instanceof Wish.Cure c) {
            after.findings().stream().filter(f -> f.key().equals(c.finding())).forEach(open::add);
        }
        return new Verdict(after, isReached, reasons, beside, open, goal.isIdle(was, after, found));
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
}
