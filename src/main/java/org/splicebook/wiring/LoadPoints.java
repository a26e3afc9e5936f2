package org.splicebook.wiring;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;

/** Feeds, returns and grounds of every load point, and how it is fed. */
final class LoadPoints {
    private final Reach reach;
    private final Net net;
    private final Ways ways;
    private final Map<Integer, Set<String>> sourcePoles;

    LoadPoints(Reach reach, Ways ways) {
        this.reach = reach;
        this.net = reach.net;
        this.ways = ways;
        this.sourcePoles = reach.trunk.sourcePoles(reach.state);
    }

    /** A terminal and a root that it reaches, in how many cases, and one case in which it does. */
    @SuppressWarnings("ArrayRecordComponent") // a counter, never compared
    private record Touch(Part part, int terminal, int root, int[] count) {}

    private static final int COUNT = 0;
    private static final int FIRST = 1;

    private List<Touch> touches(int loadPoint, java.util.function.Function<Part, int[][][]> roots, boolean ground) {
        List<Touch> found = new ArrayList<>();
        for (Part p : reach.partsOfLoadPoint.get(loadPoint)) {
            Map<Long, Touch> byKey = new TreeMap<>();
            int[][][] byCase = roots.apply(p);
            for (int c = 0; c < byCase.length; c++) {
                if (byCase[c] == null) {
                    continue;
                }
                for (int i = 0; i < byCase[c].length; i++) {
                    if (byCase[c][i] == null) {
                        continue;
                    }
                    int terminal = ground ? p.ground : p.terminals[i];
                    for (int root : byCase[c][i]) {
                        int at = c;
                        byKey.computeIfAbsent(
                                        (long) i << 32 | root, k -> new Touch(p, terminal, root, new int[] {0, at}))
                                .count()[COUNT]++;
                    }
                }
            }
            found.addAll(byKey.values());
        }
        return found;
    }

    private static int trunkPosition(Touch t) {
        return t.count()[FIRST] / t.part().positions;
    }

    private static Sureness sureness(Touch t) {
        if (t.part().joined) {
            return Sureness.MAY;
        }
        return t.count()[COUNT] == t.part().cases() ? Sureness.MUST : Sureness.SHOWN;
    }

    List<Feed> feeds(int loadPoint) {
        List<Feed> feeds = new ArrayList<>();
        for (Touch t : touches(loadPoint, p -> p.hotRoots, false)) {
            int bus = ways.touches(t.root(), Net.Kind.BUS);
            int[] inside = ways.inCase(t.part(), t.count()[FIRST], t.terminal(), t.root());
            feeds.add(new Feed(
                    breaker(t.root()),
                    net.names.get(t.root()),
                    List.copyOf(sourcePolesOf(t.root())),
                    net.names.get(t.terminal()),
                    sureness(t),
                    ways.hops(inside, bus, trunkPosition(t))));
        }
        feeds.sort(Comparator.comparing(Feed::pole).thenComparing(Feed::terminal));
        return feeds;
    }

    /** {@return the breaker of a pole; of a source pole, its source} */
    String breaker(int root) {
        String b = net.breakerOf.get(root);
        return b == null ? net.thing(root).name() : b;
    }

    Set<String> sourcePolesOf(int root) {
        if (net.kind[root] == Net.Kind.SOURCE_POLE) {
            return Set.of(net.names.get(root));
        }
        return sourcePoles.getOrDefault(ways.touches(root, Net.Kind.BUS), Set.of());
    }

    List<Return> returns(int loadPoint) {
        List<Return> found = new ArrayList<>();
        for (Touch t : touches(loadPoint, p -> p.neutralRoots, false)) {
            found.add(back(Conductor.NEUTRAL, t, Net.Kind.NEUTRAL_BAR));
        }
        for (Touch t : touches(loadPoint, LoadPoints::overGroundOnly, false)) {
            found.add(back(Conductor.GROUND, t, Net.Kind.GROUND_BAR, Net.Kind.NEUTRAL_BAR));
        }
        return merged(found);
    }

    /** Ground roots of terminals in the cases in which they reach neither pole nor neutral. */
    static int[][][] overGroundOnly(Part p) {
        int[][][] roots = new int[p.cases()][][];
        for (int c = 0; c < roots.length; c++) {
            if (p.overGroundRoots[c] == null) {
                continue;
            }
            roots[c] = new int[p.terminals.length][];
            for (int i = 0; i < p.terminals.length; i++) {
                if (((p.hot[c] | p.neutral[c]) >> i & 1) == 0) {
                    roots[c][i] = p.overGroundRoots[c][i];
                }
            }
        }
        return roots;
    }

    List<Return> grounds(int loadPoint) {
        List<Return> found = new ArrayList<>();
        for (Touch t : touches(loadPoint, p -> p.groundRoots, true)) {
            found.add(back(Conductor.GROUND, t, Net.Kind.GROUND_BAR, Net.Kind.NEUTRAL_BAR));
        }
        return merged(found);
    }

    private Return back(Conductor over, Touch t, Net.Kind... bars) {
        int bar = ways.touches(t.root(), bars);
        int[] inside = ways.inCase(t.part(), t.count()[FIRST], t.terminal(), t.root());
        String name = bar < 0 ? net.names.get(t.root()) : net.names.get(bar);
        return new Return(
                over, name, net.names.get(t.terminal()), sureness(t), ways.hops(inside, bar, trunkPosition(t)));
    }

    /** One return per terminal and bar: the surest, and of these the shortest. */
    private static List<Return> merged(List<Return> all) {
        Map<String, Return> best = new TreeMap<>();
        Comparator<Return> order = Comparator.comparing(Return::sureness)
                .thenComparingInt(r -> r.way().hops().size());
        for (Return r : all) {
            best.merge(r.over() + r.terminal() + " " + r.bar(), r, (x, y) -> order.compare(x, y) <= 0 ? x : y);
        }
        return List.copyOf(best.values());
    }

    /** How a load point is fed: the first kind of {@link Supply} that holds for one of its terminals. */
    Supply supply(int loadPoint) {
        Supply found = Supply.NONE;
        for (Part p : reach.partsOfLoadPoint.get(loadPoint)) {
            for (int i = 0; i < p.terminals.length; i++) {
                Supply s = supply(p, i);
                found = s.compareTo(found) < 0 ? s : found;
            }
        }
        return found;
    }

    private Supply supply(Part p, int terminal) {
        Set<Integer> ever = new TreeSet<>();
        boolean twice = false;
        for (int[][] byTerminal : p.hotRoots) {
            if (byTerminal == null || byTerminal[terminal] == null) {
                continue;
            }
            Set<String> breakers = new TreeSet<>();
            Set<String> legs = new TreeSet<>();
            Set<Integer> buses = new TreeSet<>();
            for (int root : byTerminal[terminal]) {
                ever.add(root);
                breakers.add(breaker(root));
                legs.addAll(sourcePolesOf(root));
                buses.add(ways.touches(root, Net.Kind.BUS));
            }
            if (legs.size() > 1 && buses.size() > 1) {
                return Supply.SHORT;
            }
            twice |= breakers.size() > 1;
        }
        if (twice) {
            return Supply.TWICE;
        }
        if (ever.size() > 1) {
            return Supply.EITHER;
        }
        return ever.isEmpty() ? Supply.NONE : (p.ring >> terminal & 1) != 0 ? Supply.RING : Supply.ONCE;
    }

    /** {@return what every wire is} */
    List<WireUse> wireUses() {
        Map<String, WireUse> found = new HashMap<>();
        for (int v = 0; v < net.size; v++) {
            if (net.kind[v] != Net.Kind.WIRE) {
                continue;
            }
            List<WireUse.Use> uses = new ArrayList<>();
            int cases = reach.wireCases.getOrDefault(v, 0);
            reach.wireUses.getOrDefault(v, Map.of()).forEach((root, count) -> {
                Sureness s = cases == Reach.JOINED ? Sureness.MAY : count == cases ? Sureness.MUST : Sureness.SHOWN;
                uses.add(
                        root >= 0
                                ? new WireUse.Use(Conductor.HOT, net.names.get(root), s)
                                : new WireUse.Use(root == -1 ? Conductor.NEUTRAL : Conductor.GROUND, null, s));
            });
            uses.sort(
                    Comparator.comparing(WireUse.Use::conductor).thenComparing(u -> u.pole() == null ? "" : u.pole()));
            found.put(net.names.get(v), new WireUse(net.names.get(v), uses));
        }
        return new TreeMap<>(found).values().stream().toList();
    }
}
