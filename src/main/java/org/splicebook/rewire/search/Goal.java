package org.splicebook.rewire.search;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.Move;
import org.splicebook.record.Protection;
import org.splicebook.rewire.Renamed;
import org.splicebook.rules.Checks;
import org.splicebook.rules.Comparison;
import org.splicebook.rules.Finding;
import org.splicebook.rules.Pack;
import org.splicebook.rules.RuleText;
import org.splicebook.wiring.Conductor;
import org.splicebook.wiring.LoadPointWiring;
import org.splicebook.wiring.ThingKind;
import org.splicebook.wiring.WireUse;
import org.splicebook.wiring.Wiring;

/** Whether what is wished for is reached, and whether a change has come nearer to it. */
final class Goal {
    private final State before;
    private final Wish wish;
    private final @Nullable Finding target;
    private final @Nullable Pack one;

    Goal(State before, Pack pack, Wish wish) {
        this.before = before;
        this.wish = wish;
        this.target = wish instanceof Wish.Cure c ? target(c, before.findings()) : null;
        this.one = target == null ? null : only(pack, target.rule());
    }

    /** {@return the finding that is to be cured; null where something else is wished for} */
    @Nullable
    Finding target() {
        return target;
    }

    private static Finding target(Wish.Cure c, List<Finding> all) {
        return all.stream()
                .filter(f -> f.key().equals(c.finding()))
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException("not found in the house: " + c.finding()));
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

    /** {@return whether what is wished for is reached, by the wiring and the rule that is to be satisfied alone} */
    boolean isReached(State was, State after, List<Move> moves) {
        if (one == null) {
            return isReached(was, after, Renamed.compare(was.house(), moves, List.of(), List.of()));
        }
        String rule = one.rules().keySet().iterator().next();
        List<Finding> then =
                was.findings().stream().filter(f -> f.rule().equals(rule)).toList();
        return isReached(was, after, Renamed.compare(was.house(), moves, then, Checks.of(after.wiring(), one)));
    }

    /** {@return whether it is reached; a finding is cured when its rule finds nothing of that subject, nor of a load point that it was of} */
    boolean isReached(State was, State after, Comparison found) {
        if (target != null) {
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
            return points.stream().allMatch(Goal::isFree);
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

    /** {@return whether nothing has come nearer: what conducts what is the same, and so is what is to be changed} */
    boolean isIdle(State was, State after, Comparison found) {
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
}
