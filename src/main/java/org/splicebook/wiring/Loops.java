package org.splicebook.wiring;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.Cable;

/**
 * The loop that a load point's current runs: out over its feed, back over its return; judged cable by cable by the signed sum of what
 * it carries.
 */
final class Loops {
    /** So many ways of a ring are tried. */
    private static final int WAYS = 24;

    /** A load point whose feed and return part: at which box. */
    record Parting(int loadPoint, int root, String box) {}

    /** A cable passed, forth or back, and the box reached. */
    private record Run(String cable, boolean forth, String box) {}

    private final Reach reach;
    private final Net net;
    private final Ways ways;
    /** By cable. */
    private final boolean[] encloses;

    private final int[] sum;
    private int[] touched = new int[64];

    Loops(Reach reach, Ways ways) {
        this.reach = reach;
        this.net = reach.net;
        this.ways = ways;
        int cables = net.house.cables().size();
        this.sum = new int[cables];
        this.encloses = new boolean[cables];
        int n = 0;
        for (Cable c : net.house.cables().values()) {
            encloses[n++] = c.kind().encloses();
        }
    }

    /** One terminal in one case, and the root it reaches. */
    private record Leg(Part part, int at, int terminal, int root) {}

    /** {@return where feed and return of a load point part, for the return by these roots; null where they do not} */
    @Nullable
    Parting parting(int loadPoint, java.util.Set<Integer> roots) {
        Net.LoadPoint lp = net.loadPoints.get(loadPoint);
        for (int[] pair : lp.pairs()) {
            Parting found = parting(loadPoint, pair[0], pair[1], roots);
            if (found == null) {
                found = parting(loadPoint, pair[1], pair[0], roots);
            }
            if (found != null) {
                return found;
            }
        }
        return null;
    }

    private @Nullable Parting parting(int loadPoint, int hot, int neutral, java.util.Set<Integer> roots) {
        List<Leg> feeds = legs(loadPoint, hot, true);
        List<Leg> returns = feeds.isEmpty() ? List.of() : legs(loadPoint, neutral, false);
        if (feeds.size() == 1 && returns.size() == 1) {
            Leg r = returns.get(0);
            Parting p = goesWith(r, feeds.get(0)) ? judge(loadPoint, feeds.get(0), r) : null;
            return p != null && roots.contains(r.root()) ? p : null;
        }
        Map<Long, Parting> worst = new java.util.TreeMap<>();
        java.util.Set<Long> closed = new java.util.HashSet<>();
        for (Leg f : feeds) {
            for (int k = first(returns, f); k < returns.size() && goesWith(returns.get(k), f); k++) {
                Leg r = returns.get(k);
                long key = (long) f.at() << 32 | r.at();
                if (closed.contains(key)) {
                    continue;
                }
                Parting p = judge(loadPoint, f, r);
                if (p == null) {
                    closed.add(key);
                    worst.remove(key);
                } else if (roots.contains(r.root())) {
                    worst.putIfAbsent(key, p);
                }
            }
        }
        return worst.isEmpty() ? null : worst.values().iterator().next();
    }

    /** Whether a return is there in the same case as a feed: in the same position of the trunk, and of their levers if they share them. */
    private static boolean goesWith(Leg r, Leg f) {
        return f.part() == r.part() ? f.at() == r.at() : trunkCase(f) == trunkCase(r);
    }

    /** Returns are all of one part and in order of their cases, so that those that go with a feed stand together: where they begin. */
    private static int first(List<Leg> returns, Leg f) {
        if (returns.isEmpty()) {
            return 0;
        }
        Part p = returns.get(0).part();
        int at = f.part() == p ? f.at() : trunkCase(f) * p.positions;
        int from = 0;
        int to = returns.size();
        while (from < to) {
            int middle = (from + to) >>> 1;
            if (returns.get(middle).at() < at) {
                from = middle + 1;
            } else {
                to = middle;
            }
        }
        return from;
    }

    private static int trunkCase(Leg l) {
        return l.at() / l.part().positions;
    }

    private List<Leg> legs(int loadPoint, int terminal, boolean hot) {
        List<Leg> found = new ArrayList<>();
        for (Part p : reach.partsOfLoadPoint.get(loadPoint)) {
            for (int i = 0; i < p.terminals.length; i++) {
                if (p.terminals[i] != terminal) {
                    continue;
                }
                for (int c = 0; c < p.cases(); c++) {
                    boolean isHot = (p.hot[c] >> i & 1) != 0;
                    boolean isNeutral = (p.neutral[c] >> i & 1) != 0;
                    if (hot ? isHot : isNeutral && !isHot) {
                        for (int root : hot ? p.hotRoots[c][i] : p.neutralRoots[c][i]) {
                            found.add(new Leg(p, c, terminal, root));
                        }
                    }
                }
            }
        }
        return found;
    }

    private @Nullable Parting judge(int loadPoint, Leg f, Leg r) {
        int[] out = ways.inCase(f.part(), f.at(), f.terminal(), f.root());
        int[] back = ways.inCase(r.part(), r.at(), r.terminal(), r.root());
        if (sumToZero(out, back)) {
            return null;
        }
        List<int[]> outs = f.part().tangled ? simpleWays(f) : List.of(out);
        List<int[]> backs = simpleWays(r);
        for (int[] o : outs) {
            for (int[] b : backs) {
                if (sumToZero(o, b)) {
                    return null;
                }
            }
        }
        List<Run> feedRuns = runs(out);
        List<Run> backRuns = runs(back);
        String box = net.loadPoints.get(loadPoint).box();
        for (int i = 0; i < Math.min(feedRuns.size(), backRuns.size()); i++) {
            if (!feedRuns.get(i).cable().equals(backRuns.get(i).cable())) {
                break;
            }
            box = feedRuns.get(i).box();
        }
        return new Parting(loadPoint, r.root(), box);
    }

    /** Simple ways from a leg's terminal to its root, at most so many. */
    private List<int[]> simpleWays(Leg l) {
        List<int[]> found = new ArrayList<>();
        reach.state.set(reach.trunk.levers, l.at() / l.part().positions);
        reach.state.set(l.part().levers, l.at() % l.part().positions);
        List<Integer> path = new ArrayList<>();
        int[] budget = {20_000};
        walk(l.terminal(), l.root(), path, new java.util.HashSet<>(), found, budget);
        reach.state.join(l.part().levers);
        reach.state.join(reach.trunk.levers);
        return found;
    }

    private void walk(int v, int root, List<Integer> path, java.util.Set<Integer> on, List<int[]> found, int[] budget) {
        if (found.size() >= WAYS || budget[0]-- <= 0) {
            return;
        }
        path.add(v);
        on.add(v);
        if (v == root) {
            found.add(path.stream().mapToInt(Integer::intValue).toArray());
        } else {
            for (int k = net.start[v]; k < net.start[v + 1]; k++) {
                int u = net.adjacent[k];
                if (!net.cut[u] && !on.contains(u) && reach.state.conducts(u)) {
                    walk(u, root, path, on, found, budget);
                }
            }
        }
        on.remove(v);
        path.remove(path.size() - 1);
    }

    /** Whether out and back pass every enclosing cable as often one way as the other: its currents sum to zero. */
    private boolean sumToZero(int[] out, int[] back) {
        int n = add(out, 1, add(back, -1, 0));
        boolean zero = true;
        for (int i = 0; i < n; i++) {
            zero &= sum[touched[i]] == 0;
            sum[touched[i]] = 0;
        }
        return zero;
    }

    /** Adds a way's signed passes, and notes the cables touched from {@code n} on. */
    private int add(int[] way, int sign, int n) {
        int at = n;
        for (int i = 1; i < way.length; i++) {
            if (net.kind[way[i]] == Net.Kind.WIRE && encloses[net.cable[way[i]]]) {
                if (at == touched.length) {
                    touched = java.util.Arrays.copyOf(touched, 2 * at);
                }
                touched[at++] = net.cable[way[i]];
                sum[net.cable[way[i]]] += net.isFirstEnd(way[i - 1]) ? sign : -sign;
            }
        }
        return at;
    }

    /** The cables passed in order, runs there and back left out. */
    private List<Run> runs(int[] way) {
        List<Run> runs = new ArrayList<>();
        for (int i = 1; i + 1 < way.length; i++) {
            if (net.kind[way[i]] != Net.Kind.WIRE) {
                continue;
            }
            String cable = net.cableName(way[i]);
            boolean forth = net.isFirstEnd(way[i - 1]);
            Run last = runs.isEmpty() ? null : runs.get(runs.size() - 1);
            if (last != null && last.cable().equals(cable) && last.forth() != forth) {
                runs.remove(runs.size() - 1);
            } else {
                runs.add(new Run(cable, forth, net.box(way[i + 1])));
            }
        }
        return runs;
    }
}
