package org.splicebook.rewire.search;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.PriorityQueue;
import java.util.Set;
import java.util.function.IntPredicate;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.problem.Where;
import org.splicebook.record.Box;
import org.splicebook.record.DeviceKind;
import org.splicebook.record.House;
import org.splicebook.record.Move;
import org.splicebook.rewire.Moves;
import org.splicebook.rewire.Worklist;
import org.splicebook.rules.Finding;
import org.splicebook.rules.Pack;
import org.splicebook.wiring.LoadPointWiring;
import org.splicebook.wiring.ThingKind;
import org.splicebook.wiring.Way;

/**
 * Looks for changes: all of one step first, then those of two that are cheaper than the best found, each in order of cost; new cable
 * last. From a house that is not yet in order the second step is looked for where its open findings are.
 */
public final class Search {
    /** How many proposals and rejections are told. */
    private static final int TOLD = 5;

    /** How many steps, each of one or several moves that belong together, a proposal may have. */
    private static final int DEPTH = 2;

    /** A house with more wrong than before is given up: no second step will mend it. */
    private static final int STILL_OPEN = 2;

    private final House house;
    private final Pack pack;
    private final Wish wish;
    private final Map<String, DeviceKind> kinds;
    private final List<Proposal> proposals = new ArrayList<>();
    /** How much is protected after a proposal: of two that cost the same the better one goes first. */
    private final Map<Proposal, Integer> protections = new HashMap<>();

    private final List<Rejected> rejected = new ArrayList<>();

    private record Node(List<Move> moves, Cost cost, int depth, int order, House house) {}

    private Search(House house, Pack pack, Wish wish, Map<String, DeviceKind> kinds) {
        this.house = house;
        this.pack = pack;
        this.wish = wish;
        this.kinds = kinds;
    }

    /**
     * {@return what was found, or what is wrong with the wish}
     *
     * @param kinds the kinds of devices that may be put in, by name
     * @param most how many houses are judged at most; half of them without new cable
     * @param carryOn asked before each with how many were judged; false ends the search with what is found so far
     */
    public static Result<Found> of(
            House house, Pack pack, Wish wish, Map<String, DeviceKind> kinds, int most, IntPredicate carryOn) {
        State before = State.of(house, pack);
        List<String> known = wish instanceof Wish.Protect
                ? List.copyOf(before.points().keySet())
                : before.findings().stream().map(Finding::key).toList();
        List<String> asked = wish instanceof Wish.Protect p ? p.points() : List.of(((Wish.Cure) wish).finding());
        for (String a : asked) {
            if (!known.contains(a)) {
                return new Result.Failed<>(List.of(Problem.error(
                        ProblemKind.NOT_FOUND,
                        Where.field(wish instanceof Wish.Protect ? "wish" : "cure"),
                        a + " is not in " + house.said() + ".",
                        "One of: " + String.join(", ", known) + ".")));
            }
        }
        return Result.ok(new Search(house, pack, wish, kinds).run(before, most, carryOn));
    }

    private Found run(State before, int most, IntPredicate carryOn) {
        Validation validation = new Validation(before, pack, wish);
        PriorityQueue<Node> queue = new PriorityQueue<>(Comparator.comparing((Node n) -> n.cost.cables() > 0)
                .thenComparing(Node::depth)
                .thenComparing(Node::cost)
                .thenComparing(Node::order));
        Set<List<Object>> seen = new HashSet<>();
        int[] order = {0};
        boolean exhausted = true;
        expand(before, start(before), new Node(List.of(), Cost.of(house, house, List.of()), 0, 0, house), queue, order);
        int looked = 0;
        while (!queue.isEmpty()) {
            Node n = queue.remove();
            boolean isCable = n.cost.cables() > 0;
            if (!proposals.isEmpty() && isCable && proposals.get(0).cost().cables() == 0) {
                break;
            }
            if (!isCable && looked >= most / 2) {
                exhausted = false;
                continue;
            }
            if (looked >= most || !carryOn.test(looked)) {
                exhausted = false;
                break;
            }
            boolean isCheaper =
                    n.depth == 1 || proposals.stream().noneMatch(p -> p.cost().compareTo(n.cost) <= 0);
            if (!isCheaper
                    || !seen.add(List.of(n.house.panels(), n.house.cables(), n.house.boxes()))
                    || proposals.stream().anyMatch(p -> n.moves.containsAll(p.moves()))) {
                continue;
            }
            looked++;
            look(n, before, validation, queue, order);
        }
        proposals.sort(Comparator.comparing(Proposal::cost).thenComparing(p -> -protections.getOrDefault(p, 0)));
        rejected.sort(Comparator.comparing((Rejected r) -> r.reasons().size()).thenComparing(Rejected::cost));
        return new Found(first(proposals), first(rejected), looked, exhausted);
    }

    private static <T> List<T> first(List<T> all) {
        return all.subList(0, Math.min(TOLD, all.size()));
    }

    private void look(Node n, State before, Validation validation, PriorityQueue<Node> queue, int[] order) {
        Validation.Verdict v = validation.part(n.house, n.moves);
        if (v.isReached() && v.reasons().isEmpty()) {
            v = validation.whole(n.house, n.moves);
        }
        List<String> steps = Worklist.of(house, n.house, n.moves).steps();
        if (v.isReached() && v.reasons().isEmpty()) {
            Proposal p = new Proposal(
                    n.moves, n.cost.withMoved(Service.moved(before, v.after(), n.moves)), steps, v.beside());
            proposals.add(p);
            // Who wishes for one protection is not given more than that for the asking.
            if (wish instanceof Wish.Cure) {
                protections.put(
                        p,
                        v.after().points().values().stream()
                                .mapToInt(l -> Service.protections(l).size())
                                .sum());
            }
            return;
        }
        if (v.isReached()) {
            rejected.add(new Rejected(n.cost, steps, v.reasons()));
        }
        if (n.depth < DEPTH && n.cost.cables() == 0 && v.reasons().size() <= STILL_OPEN) {
            expand(v.after(), about(v.after(), v.open()), n, queue, order);
        }
    }

    /** The load points that it is about. */
    private Set<String> start(State before) {
        return wish instanceof Wish.Protect p
                ? new LinkedHashSet<>(p.points())
                : about(
                        before,
                        before.findings().stream()
                                .filter(f -> f.key().equals(((Wish.Cure) wish).finding()))
                                .toList());
    }

    /** The load points and boxes that findings are about. */
    private static Set<String> about(State state, List<Finding> findings) {
        Set<String> all = new LinkedHashSet<>();
        for (Finding f : findings) {
            all.addAll(f.outlets());
            all.addAll(f.boxes());
            all.add(f.subject());
            if (f.breaker() != null) {
                all.add(f.breaker());
            }
            state.house().boxes().values().stream()
                    .filter(b -> b.devices().containsKey(f.subject()))
                    .forEach(b -> all.add(b.name()));
        }
        return all;
    }

    private void expand(State state, Set<String> about, Node n, PriorityQueue<Node> queue, int[] order) {
        Set<String> boxes = new LinkedHashSet<>(about);
        Set<String> breakers = new LinkedHashSet<>(about);
        List<LoadPointWiring> points = new ArrayList<>();
        for (LoadPointWiring l : state.wiring().loadPoints()) {
            if (about.contains(l.id()) || about.contains(l.device())) {
                points.add(l);
                boxes.add(l.box());
                l.feeds().forEach(f -> breakers.add(f.breaker()));
                l.feeds().forEach(f -> along(f.way(), boxes));
                l.returns().forEach(r -> along(r.way(), boxes));
            }
        }
        state.wiring().islands().stream()
                .filter(i -> points.stream().anyMatch(p -> i.loadPoints().contains(p.id())))
                .flatMap(i -> i.poles().stream())
                .forEach(pole -> state.house()
                        .panels()
                        .values()
                        .forEach(p -> p.breakers().values().forEach(b -> {
                            if (b.spaces().stream().anyMatch(s -> pole.equals(p.name() + "." + s))) {
                                breakers.add(p.name() + "." + b.key());
                            }
                        })));
        WireAtoms wires = new WireAtoms(state);
        PartAtoms parts = new PartAtoms(state, kinds);
        List<List<Move>> atoms = new ArrayList<>(parts.breakers(breakers));
        for (String name : boxes) {
            Box box = state.house().boxes().get(name);
            if (box != null) {
                atoms.addAll(parts.devices(box));
            }
            if (box != null || state.house().panels().containsKey(name)) {
                atoms.addAll(wires.in(name));
            }
        }
        if (n.depth == 0) {
            CableAtoms cables = new CableAtoms(state);
            points.forEach(p -> atoms.addAll(cables.to(p)));
        }
        for (List<Move> atom : atoms) {
            Result<House> made = Moves.apply(n.house, atom);
            if (made.isOk() && !made.get().equals(n.house)) {
                List<Move> all = new ArrayList<>(n.moves);
                all.addAll(atom);
                queue.add(new Node(
                        List.copyOf(all), Cost.of(house, made.get(), all), n.depth + 1, order[0]++, made.get()));
            }
        }
    }

    private static void along(Way way, Set<String> boxes) {
        for (Way.Hop h : way.hops()) {
            if (h.thing().kind() == ThingKind.JOINT && !h.box().isEmpty()) {
                boxes.add(h.box());
            }
        }
    }
}
