package org.splicebook.rewire.search;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
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
import org.splicebook.rules.RuleText;
import org.splicebook.rules.Severity;
import org.splicebook.wiring.Conductor;
import org.splicebook.wiring.LoadPointWiring;
import org.splicebook.wiring.Sureness;
import org.splicebook.wiring.ThingKind;
import org.splicebook.wiring.WireUse;
import org.splicebook.wiring.Wiring;

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
    private final @Nullable Pack target;
    private @Nullable Currents whole;

    /**
     * What came out.
     *
     * @param after the house after the change
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
        this.cured = wish instanceof Wish.Cure c ? target(c, before.findings()).severity() : Severity.FAULT;
        this.slices = new Slices(before.house());
        this.local = Checks.withoutWide(pack);
        this.isWide = wish instanceof Wish.Cure c
                && !local.rules().containsKey(target(c, before.findings()).rule());
        before.findings().forEach(f -> known.put(f.key(), f));
        this.target = wish instanceof Wish.Cure c
                ? only(pack, target(c, before.findings()).rule())
                : null;
    }

    /** A pack with nothing but one rule. */
    private static Pack only(Pack pack, String rule) {
        Map<String, RuleText> one = new HashMap<>(pack.rules());
        one.keySet().retainAll(Set.of(rule));
        return new Pack(pack.id(), pack.title(), pack.edition(), one, pack.changes());
    }

    /** {@return whether moves may do what is wished for, by a look at them alone} */
    boolean mayReach(List<Move> moves) {
        return !(wish instanceof Wish.Put p)
                || moves.stream()
                        .anyMatch(m -> m instanceof Move.ChangeKind k
                                && k.device().equals(p.device())
                                && k.kind().name().equals(p.kind()));
    }

    /**
     * {@return the verdict by the part that the change can reach, and where that lets it pass by the whole house}
     *
     * @param isLast whether no further step follows, so that what is not reached needs no reasons
     */
    Verdict of(House house, List<Move> moves, boolean isLast) {
        Slices.Part part = isWide ? null : slices.of(house);
        if (part == null) {
            return whole(house, moves, isLast);
        }
        Verdict v = part(part, house, moves, isLast);
        return v.isReached && v.reasons.isEmpty() ? whole(house, moves, isLast) : v;
    }

    private static Finding target(Wish.Cure c, List<Finding> all) {
        return all.stream()
                .filter(f -> f.key().equals(c.finding()))
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException("not found in the house: " + c.finding()));
    }

    /** {@return the verdict by the whole house, with all reasons: nothing is proposed without} */
    Verdict whole(House house, List<Move> moves) {
        return whole(house, moves, false);
    }

    private Verdict whole(House house, List<Move> moves, boolean isLast) {
        State after = State.unchecked(house);
        if (isLast && !isReached(before, after, moves)) {
            return unreached(after);
        }
        Verdict v = verdict(before, after.checked(pack), moves);
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
        return part == null ? whole(house, moves) : part(part, house, moves, false);
    }

    private Verdict part(Slices.Part part, House house, List<Move> moves, boolean isLast) {
        State was = parts.computeIfAbsent(part, p -> State.of(Slices.cut(before.house(), p), local));
        House cut = Slices.cut(house, part);
        if (isLast && isHopeless(was, floods.computeIfAbsent(part, p -> Flood.of(was.house())), Flood.of(cut))) {
            return Verdict.TURNED_AWAY;
        }
        State after = State.unchecked(cut);
        if (isLast && !isReached(was, after, moves)) {
            return unreached(after);
        }
        Verdict v = verdict(was, after.checked(local), moves);
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
                : parts.computeIfAbsent(part, p -> State.of(Slices.cut(before.house(), p), local));
        House cut = part == null ? house : Slices.cut(house, part);
        Verdict v = verdict(was, State.of(cut, part == null ? pack : local), moves);
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

    /** Whether what is wished for is reached, by the wiring and the rule that is to be satisfied alone. */
    private boolean isReached(State was, State after, List<Move> moves) {
        if (target == null) {
            return isReached(was, after, Renamed.compare(moves, List.of(), List.of()));
        }
        String rule = target.rules().keySet().iterator().next();
        List<Finding> before =
                was.findings().stream().filter(f -> f.rule().equals(rule)).toList();
        return isReached(was, after, Renamed.compare(moves, before, Checks.of(after.wiring(), target)));
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
        return new Verdict(after, isReached, reasons, beside, open, isIdle(was, after, found));
    }

    /** Whether nothing has come nearer to what is wished for: what conducts what is the same, and so is what is to be changed. */
    private boolean isIdle(State was, State after, Comparison found) {
        if (wish instanceof Wish.Cure c
                && found.same().stream().noneMatch(f -> f.key().equals(c.finding()))) {
            return false;
        }
        List<String> about =
                wish instanceof Wish.Cure c ? target(c, before.findings()).outlets() : wish.named();
        for (LoadPointWiring l : was.points().values()) {
            LoadPointWiring is = Service.now(after, l);
            boolean isAbout = about.contains(l.id()) || about.contains(l.device());
            if (isAbout && (is == null || !Service.protections(is).equals(Service.protections(l)))) {
                return false;
            }
        }
        // Wires that idled and now hang on something are no gain by themselves: routes over them are steps of their
        // own.
        Map<String, WireUse> uses = new HashMap<>();
        after.wiring().wires().forEach(w -> uses.put(w.wire(), w));
        return was.wiring().wires().stream().allMatch(w -> w.uses().isEmpty() || w.equals(uses.get(w.wire())))
                && joined(was.wiring()).equals(joined(after.wiring()));
    }

    /** Which loads share a neutral. */
    private static Set<List<List<String>>> joined(Wiring wiring) {
        Set<List<List<String>>> all = new HashSet<>();
        wiring.islands().stream()
                .filter(i -> !i.loadPoints().isEmpty())
                .forEach(i -> all.add(List.of(i.landings(), i.loadPoints(), i.poles())));
        return all;
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
        if (wish instanceof Wish.Onto o) {
            return isOnto(after, o);
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

    /** All that the breaker fed is fed by one of that panel, and returns to it. */
    private boolean isOnto(State after, Wish.Onto o) {
        String in = o.panel() + ".";
        List<LoadPointWiring> its = before.points().values().stream()
                .filter(l -> l.feeds().stream().anyMatch(f -> f.breaker().equals(o.breaker())))
                .toList();
        return !its.isEmpty()
                && its.stream().allMatch(l -> {
                    LoadPointWiring is = Service.now(after, l);
                    return is != null
                            && Service.isServed(after, is)
                            && is.feeds().stream().allMatch(f -> f.breaker().startsWith(in))
                            && is.returns().stream()
                                    .filter(r -> r.over() == Conductor.NEUTRAL)
                                    .allMatch(r -> r.bar().startsWith(in));
                });
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
