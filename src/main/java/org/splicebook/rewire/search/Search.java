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
import org.splicebook.answer.Nearest;
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

    /** So many are judged at a time, on all processors. */
    private static final int BATCH = 16;

    private final House house;
    private final Pack pack;
    private final Wish wish;
    private final Map<String, DeviceKind> kinds;
    private final List<Proposal> proposals = new ArrayList<>();
    /** How much is protected after a proposal: of two that cost the same the better one goes first. */
    private final Map<Proposal, Integer> protections = new HashMap<>();

    private final List<Rejected> rejected = new ArrayList<>();
    private final PriorityQueue<Node> queue = new PriorityQueue<>(Comparator.comparing((Node n) -> n.cost.cables() > 0)
            .thenComparing(Node::depth)
            .thenComparing(Node::cost)
            .thenComparing(Node::order));
    private final Set<List<Object>> seen = new HashSet<>();
    private int order;
    private int looked;
    private boolean exhausted = true;

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
        Set<String> known = new LinkedHashSet<>();
        if (wish instanceof Wish.Cure) {
            before.findings().forEach(f -> known.add(f.key()));
        } else if (wish instanceof Wish.Put p) {
            house.boxes().values().forEach(b -> known.addAll(b.devices().keySet()));
            if (!kinds.containsKey(p.kind())) {
                return unknown(p.kind(), "no kind of device", kinds.keySet());
            }
        } else {
            known.addAll(before.points().keySet());
        }
        for (String a : wish.named()) {
            if (!known.contains(a)) {
                return unknown(a, "not in " + house.said(), known);
            }
        }
        return Result.ok(new Search(house, pack, wish, kinds).run(before, most, carryOn));
    }

    private static Result<Found> unknown(String name, String what, Set<String> known) {
        return new Result.Failed<>(List.of(Problem.error(
                ProblemKind.NOT_FOUND, Where.field("wish"), name + " is " + what + ".", Nearest.cure(name, known))));
    }

    private Found run(State before, int most, IntPredicate carryOn) {
        Validation validation = new Validation(before, pack, wish);
        expand(before, start(before), new Node(List.of(), Cost.of(house, house, List.of()), 0, 0, house));
        boolean goesOn = true;
        while (goesOn && looked < most) {
            List<Node> batch = next(most);
            goesOn = !batch.isEmpty() && carryOn.test(looked);
            if (goesOn) {
                List<Validation.Verdict> verdicts = batch.parallelStream()
                        .map(n -> validation.part(n.house, n.moves))
                        .toList();
                for (int i = 0; i < batch.size(); i++) {
                    look(batch.get(i), verdicts.get(i), before, validation);
                }
                looked += batch.size();
            }
        }
        exhausted &= next(1).isEmpty();
        proposals.sort(Comparator.comparing(Proposal::cost).thenComparing(p -> -protections.getOrDefault(p, 0)));
        rejected.sort(Comparator.comparing((Rejected r) -> r.reasons().size()).thenComparing(Rejected::cost));
        return new Found(first(proposals), first(rejected), looked, exhausted);
    }

    /** The next few to be judged: of one depth, all with new cable or none. */
    private List<Node> next(int most) {
        List<Node> batch = new ArrayList<>();
        while (!queue.isEmpty() && batch.size() < Math.min(BATCH, most)) {
            Node n = queue.peek();
            boolean isCable = n.cost.cables() > 0;
            Node first = batch.isEmpty() ? n : batch.get(0);
            if (first.depth != n.depth || first.cost.cables() != n.cost.cables()) {
                break;
            }
            queue.remove();
            if (isCable && proposals.stream().anyMatch(p -> p.cost().cables() == 0)) {
                queue.clear();
            } else if (!isCable && looked >= most / 2 && most > 1) {
                exhausted = false;
            } else if (isWorthALook(n) && seen.add(changed(n.house))) {
                batch.add(n);
            }
        }
        return batch;
    }

    /** Of one step, or cheaper than all that was found; and not more than one of those. */
    private boolean isWorthALook(Node n) {
        return (n.depth == 1 || proposals.stream().noneMatch(p -> p.cost().compareTo(n.cost) <= 0))
                && proposals.stream().noneMatch(p -> n.moves.containsAll(p.moves()));
    }

    /** {@return what differs from the house, so that two ways to one change are told to be the same} */
    private List<Object> changed(House after) {
        List<Object> all = new ArrayList<>();
        after.panels().values().stream()
                .filter(p -> !p.equals(house.panels().get(p.name())))
                .forEach(all::add);
        after.cables().values().stream()
                .filter(c -> !c.equals(house.cables().get(c.name())))
                .forEach(all::add);
        after.boxes().values().stream()
                .filter(b -> !b.equals(house.boxes().get(b.name())))
                .forEach(all::add);
        return all;
    }

    private static <T> List<T> first(List<T> all) {
        return all.subList(0, Math.min(TOLD, all.size()));
    }

    private void look(Node n, Validation.Verdict part, State before, Validation validation) {
        if (!isWorthALook(n)) {
            return;
        }
        Validation.Verdict v = part.isReached() && part.reasons().isEmpty() ? validation.whole(n.house, n.moves) : part;
        if (v.isReached() && v.reasons().isEmpty()) {
            Proposal p = new Proposal(
                    n.moves,
                    n.cost.withMoved(Service.moved(before, v.after(), n.moves)),
                    Worklist.of(house, n.house, n.moves).steps(),
                    v.beside());
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
            rejected.add(
                    new Rejected(n.cost, Worklist.of(house, n.house, n.moves).steps(), v.reasons()));
        }
        if (n.depth < DEPTH && n.cost.cables() == 0 && v.reasons().size() <= STILL_OPEN) {
            Set<String> about = about(v.after(), v.open());
            if (!(wish instanceof Wish.Cure)) {
                about.addAll(start(before));
            }
            expand(v.after(), about, n);
        }
    }

    /** The load points that it is about. */
    private Set<String> start(State before) {
        if (wish instanceof Wish.Cure c) {
            return about(
                    before,
                    before.findings().stream()
                            .filter(f -> f.key().equals(c.finding()))
                            .toList());
        }
        Set<String> all = new LinkedHashSet<>(wish.named());
        house.boxes().values().stream()
                .filter(b -> wish.named().stream().anyMatch(b.devices()::containsKey))
                .forEach(b -> all.add(b.name()));
        return all;
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

    private void expand(State state, Set<String> about, Node n) {
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
        FaceAtoms faces = new FaceAtoms(state, kinds);
        List<List<Move>> atoms = new ArrayList<>(parts.breakers(breakers));
        if (wish instanceof Wish.Put p) {
            atoms.addAll(faces.put(p));
        }
        for (String name : boxes) {
            Box box = state.house().boxes().get(name);
            if (box != null) {
                atoms.addAll(parts.devices(box));
                atoms.addAll(faces.in(box));
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
                queue.add(
                        new Node(List.copyOf(all), Cost.of(house, made.get(), all), n.depth + 1, order++, made.get()));
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
