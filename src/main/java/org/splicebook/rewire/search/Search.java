package org.splicebook.rewire.search;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.PriorityQueue;
import java.util.Set;
import java.util.function.IntPredicate;
import org.jspecify.annotations.Nullable;
import org.splicebook.problem.Problem;
import org.splicebook.problem.Result;
import org.splicebook.record.Box;
import org.splicebook.record.Cable;
import org.splicebook.record.DeviceKind;
import org.splicebook.record.House;
import org.splicebook.record.Move;
import org.splicebook.record.Panel;
import org.splicebook.rewire.Moves;
import org.splicebook.rewire.Worklist;
import org.splicebook.rules.Pack;

/**
 * Looks for changes: all of one step first, then those of two that are cheaper than the best found, each in order of cost; new cable
 * last. From a house that is not yet in order the second step is looked for where its open findings are.
 */
public final class Search {
    /** How many proposals and rejections are told. */
    private static final int TOLD = 5;

    /** How many steps, each of one or several moves that belong together, a proposal may have. */
    private static final int DEPTH = 2;

    /** A house with more wrong is given up: no second step will mend it. */
    private static final int STILL_OPEN = 2;

    /** So many are judged at a time, on all processors. */
    private static final int BATCH = 16;

    private final House house;
    private final Wish wish;
    private final Steps steps;
    private final Validation validation;
    private final State before;
    private final List<Proposal> proposals = new ArrayList<>();
    /** How much is protected after a proposal: of two that cost the same the better one goes first. */
    private final Map<Proposal, Integer> protections = new HashMap<>();

    /** The best of those that reach what is wished for and may not be made, no more than are told. */
    private final List<Rejected> rejected = new ArrayList<>();

    private final PriorityQueue<Node> queue = new PriorityQueue<>(Comparator.comparing((Node n) -> n.cost.cables() > 0)
            .thenComparing(Node::depth)
            .thenComparing(Node::cost)
            .thenComparing(Node::order));
    private final Set<List<Object>> seen = new HashSet<>();
    private int order;
    private int looked;
    private int judged;
    private boolean exhausted = true;

    /** Moves to be tried: those of one step on a house that earlier ones were made on. */
    private record Node(List<Move> moves, Cost cost, int depth, int order, House from, List<Move> step) {
        /** Whether no further step follows. */
        boolean isLast() {
            return depth == DEPTH || cost.cables() > 0;
        }
    }

    /** A node whose moves could be made. */
    private record Made(Node node, House house) {}

    private Search(State before, Pack pack, Wish wish, Map<String, DeviceKind> kinds) {
        this.house = before.house();
        this.before = before;
        this.wish = wish;
        this.steps = new Steps(wish, kinds);
        this.validation = new Validation(before, pack, wish);
    }

    /**
     * {@return what was found, or what is wrong with the wish}
     *
     * @param kinds the kinds of devices that may be put in, by name
     * @param most how many houses are judged at most beyond a first look; half of them without new cable
     * @param carryOn asked before each with how many were judged; false ends the search with what is found so far
     */
    public static Result<Found> of(
            House house, Pack pack, Wish wish, Map<String, DeviceKind> kinds, int most, IntPredicate carryOn) {
        State before = State.of(house, pack);
        Problem wrong = Wishes.wrong(wish, before, kinds);
        return wrong != null
                ? new Result.Failed<>(List.of(wrong))
                : Result.ok(new Search(before, pack, wish, kinds).run(most, carryOn));
    }

    private Found run(int most, IntPredicate carryOn) {
        seen.add(List.of());
        Node root = new Node(List.of(), Cost.of(house, List.of()), 0, 0, house, List.of());
        expand(before, steps.about(before), root, house);
        boolean goesOn = true;
        while (goesOn && judged < most) {
            List<Made> batch = next(most);
            goesOn = !batch.isEmpty() && carryOn.test(judged);
            if (goesOn) {
                List<Validation.Verdict> verdicts = batch.parallelStream()
                        .map(m -> validation.of(m.house, m.node.moves, m.node.isLast(), n -> isEnough(m.node, n)))
                        .toList();
                for (int i = 0; i < batch.size(); i++) {
                    look(batch.get(i), verdicts.get(i));
                }
                looked += batch.size();
                judged += (int) verdicts.stream().filter(v -> !v.isTurnedAway()).count();
            } else {
                exhausted &= batch.isEmpty();
            }
        }
        exhausted &= next(1).isEmpty();
        proposals.sort(Comparator.comparing(Proposal::cost, Cost.TOLD)
                .thenComparing(p -> -protections.getOrDefault(p, 0))
                .thenComparing(Proposal::cost));
        return new Found(first(proposals), List.copyOf(rejected), looked, exhausted);
    }

    /** The next few to be judged: of one depth, all with new cable or none. */
    private List<Made> next(int most) {
        List<Made> batch = new ArrayList<>();
        while (!queue.isEmpty() && batch.size() < Math.min(BATCH, most)) {
            Node n = queue.peek();
            boolean isCable = n.cost.cables() > 0;
            Node first = batch.isEmpty() ? n : batch.get(0).node;
            if (first.depth != n.depth || first.cost.cables() != n.cost.cables()) {
                break;
            }
            queue.remove();
            if (isCable && proposals.stream().anyMatch(p -> p.cost().cables() == 0)) {
                queue.clear();
            } else if (!isCable && judged >= most / 2 && most > 1) {
                exhausted = false;
            } else if (isWorthALook(n) && (n.depth < DEPTH || validation.goal().mayReach(n.moves))) {
                Result<House> made = Moves.apply(n.from, n.step);
                if (made.isOk() && seen.add(changed(made.get()))) {
                    batch.add(new Made(n, made.get()));
                }
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
        for (Panel p : after.panels().values()) {
            differing(p, house.panels().get(p.name()), all);
        }
        for (Cable c : after.cables().values()) {
            differing(c, house.cables().get(c.name()), all);
        }
        for (Box b : after.boxes().values()) {
            differing(b, house.boxes().get(b.name()), all);
        }
        house.cables().keySet().stream()
                .filter(k -> !after.cables().containsKey(k))
                .forEach(all::add);
        return all;
    }

    private static void differing(Object is, @Nullable Object was, List<Object> all) {
        if (!Objects.equals(is, was)) {
            all.add(is);
        }
    }

    private static <T> List<T> first(List<T> all) {
        return all.subList(0, Math.min(TOLD, all.size()));
    }

    private void look(Made m, Validation.Verdict v) {
        Node n = m.node;
        if (!isWorthALook(n) || v.isTurnedAway()) {
            return;
        }
        if (v.isReached() && v.reasons().isEmpty()) {
            Proposal p = new Proposal(
                    n.moves,
                    n.cost.withMoved(Service.moved(before, v.after(), n.moves)),
                    Worklist.of(house, m.house, n.moves).steps(),
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
            reject(m, v.reasons());
        }
        if (!n.isLast() && isPromising(n, v)) {
            Set<String> about = new LinkedHashSet<>(Steps.about(v.after(), v.open()));
            if (!(wish instanceof Wish.Cure)) {
                about.addAll(steps.about(before));
            }
            expand(v.after(), about, n, m.house);
        }
    }

    /** Whether a change against which so many reasons speak, or more, leads to no further step and is not told either. */
    private boolean isEnough(Node n, int reasons) {
        return (n.isLast() || reasons > STILL_OPEN) && isBehind(n.cost, reasons);
    }

    /** Whether those that are told already all go before a change that would be rejected for so many reasons. */
    private boolean isBehind(Cost cost, int reasons) {
        if (rejected.size() < TOLD) {
            return false;
        }
        Rejected last = rejected.get(TOLD - 1);
        int order = Integer.compare(last.reasons().size(), reasons);
        return order < 0 || (order == 0 && last.cost().compareTo(cost) <= 0);
    }

    private void reject(Made m, List<String> reasons) {
        if (!isBehind(m.node.cost, reasons.size())) {
            rejected.add(new Rejected(
                    m.node.cost, Worklist.of(house, m.house, m.node.moves).steps(), reasons));
            rejected.sort(
                    Comparator.comparing((Rejected r) -> r.reasons().size()).thenComparing(Rejected::cost));
            rejected.subList(Math.min(TOLD, rejected.size()), rejected.size()).clear();
        }
    }

    /**
     * What is reached with a little left to mend, or has come nearer and done no harm. Of two steps that need each other one at least is
     * such a one: from it the other is found.
     */
    private boolean isPromising(Node n, Validation.Verdict v) {
        boolean isHarmless = v.reasons().isEmpty()
                || (wish instanceof Wish.Put && validation.goal().mayReach(n.moves));
        return v.reasons().size() <= STILL_OPEN && (v.isReached() || (isHarmless && !v.isIdle()));
    }

    private void expand(State state, Set<String> about, Node n, House from) {
        for (List<Move> step : steps.from(state, about, n.depth == 0)) {
            List<Move> all = new ArrayList<>(n.moves);
            all.addAll(step);
            queue.add(new Node(List.copyOf(all), Cost.of(house, all), n.depth + 1, order++, from, step));
        }
    }
}
