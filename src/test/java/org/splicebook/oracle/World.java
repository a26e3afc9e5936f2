package org.splicebook.oracle;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.List;
import org.splicebook.oracle.Netlist.Condition;
import org.splicebook.oracle.Netlist.Kind;
import org.splicebook.oracle.Netlist.Vertex;

/** The netlist in one position of every lever, with some vertices taken away. */
public final class World {
    /** A lever whose links all conduct at once. */
    static final int ALL = -1;
    /** A lever whose links are all open. */
    static final int NONE = -2;

    /** More ways than this from one terminal, and the house is left out of the comparison. */
    private static final int MOST_WAYS = 500;

    private static final int MOST_STEPS = 200_000;

    /** A house has too many ways or positions to go through one by one. */
    static final class TooMany extends RuntimeException {
        private static final long serialVersionUID = 1;

        TooMany(String what) {
            super(what);
        }
    }

    final Netlist net;
    final int[] position;
    final BitSet removed;
    private final BitSet blocked;

    World(Netlist net, int[] position, BitSet removed) {
        this.net = net;
        this.position = position;
        this.removed = removed;
        this.blocked = (BitSet) removed.clone();
        for (int v : net.conditional) {
            if (open(v)) {
                blocked.set(v);
            }
        }
    }

    static World with(Netlist net, int everyLever) {
        int[] p = new int[net.levers.size()];
        Arrays.fill(p, everyLever);
        return new World(net, p, new BitSet());
    }

    /** {@return all levers open, but every member of an exclusive group closed} */
    static World leversOpen(Netlist net) {
        int[] p = new int[net.levers.size()];
        for (int i = 0; i < p.length; i++) {
            p[i] = net.levers.get(i).exclusive() ? ALL : NONE;
        }
        return new World(net, p, new BitSet());
    }

    World without(BitSet more) {
        if (more.isEmpty()) {
            return this;
        }
        BitSet r = (BitSet) removed.clone();
        r.or(more);
        return new World(net, position, r);
    }

    boolean conducts(int v) {
        return !blocked.get(v);
    }

    private boolean open(int v) {
        for (Condition c : net.vertices.get(v).conditions) {
            int p = position[c.lever()];
            if (p == NONE
                    || p >= 0
                            && !c.positions()
                                    .contains(net.levers
                                            .get(c.lever())
                                            .positions()
                                            .get(p))) {
                return true;
            }
        }
        return false;
    }

    static boolean cuts(Vertex v) {
        return v.kind == Kind.BUS || v.kind == Kind.NEUTRAL_BAR || v.kind == Kind.GROUND_BAR;
    }

    /** {@return what is reached from a vertex, buses and bars included where met but not gone through} */
    BitSet flood(int start) {
        BitSet seen = new BitSet(net.vertices.size());
        if (!conducts(start)) {
            return seen;
        }
        int[] stack = new int[net.vertices.size()];
        int top = 0;
        stack[top++] = start;
        seen.set(start);
        while (top > 0) {
            int v = stack[--top];
            if (v != start && net.cuts[v]) {
                continue;
            }
            for (int w : net.next[v]) {
                if (!seen.get(w) && conducts(w)) {
                    seen.set(w);
                    stack[top++] = w;
                }
            }
        }
        return seen;
    }

    /** {@return every simple way from a vertex to one of the goals, not through buses and bars} */
    List<int[]> ways(int start, BitSet goals) {
        List<int[]> out = new ArrayList<>();
        if (conducts(start)) {
            int[] steps = {0};
            walk(new int[] {start}, goals, out, steps);
        }
        return out;
    }

    private void walk(int[] path, BitSet goals, List<int[]> out, int[] steps) {
        int v = path[path.length - 1];
        if (goals.get(v)) {
            out.add(path);
            if (out.size() > MOST_WAYS) {
                throw new TooMany("ways");
            }
            return;
        }
        if (path.length > 1 && cuts(net.vertices.get(v))) {
            return;
        }
        if (++steps[0] > MOST_STEPS) {
            throw new TooMany("steps");
        }
        for (int w : net.next[v]) {
            if (conducts(w) && Arrays.stream(path).noneMatch(x -> x == w)) {
                int[] longer = Arrays.copyOf(path, path.length + 1);
                longer[path.length] = w;
                walk(longer, goals, out, steps);
            }
        }
    }
}
