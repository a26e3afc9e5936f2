package org.splicebook.wiring;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;

/** Feeds, returns and grounds of every load point, and how it is fed. */
final class LoadPoints {
    private static final Comparator<Touch> BY_PLACE =
            Comparator.comparingInt((Touch t) -> t.place).thenComparingInt(t -> t.root);

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

    /** A terminal (by its place in a part) and a root that it reaches: in how many cases, and the first. */
    private static final class Touch {
        final Part part;
        final int place;
        final int terminal;
        final int root;
        final int first;
        int count;

        Touch(Part part, int place, int terminal, int root, int first) {
            this.part = part;
            this.place = place;
            this.terminal = terminal;
            this.root = root;
            this.first = first;
        }
    }

    /** The roots that a part's terminals reach in one case, in one respect. */
    private interface Roots {
        int @Nullable [] of(Part p, int at, int place);
    }

    private static int @Nullable [] in(int[][][] byCase, int at, int place) {
        int[][] roots = byCase[at];
        return roots == null ? null : roots[place];
    }

    /** Part by part, in order of terminals and roots. */
    private List<Touch> touches(int loadPoint, Roots roots, boolean ground) {
        List<Touch> found = new ArrayList<>(4);
        for (Part p : reach.partsOfLoadPoint.get(loadPoint)) {
            int before = found.size();
            int places = p.terminals.length;
            if (ground) {
                places = p.ground < 0 ? 0 : 1;
            }
            for (int c = 0; c < p.cases(); c++) {
                for (int i = 0; i < places; i++) {
                    int[] reached = roots.of(p, c, i);
                    for (int root : reached == null ? Regions.NONE : reached) {
                        count(found, before, p, i, ground ? p.ground : p.terminals[i], root, c);
                    }
                }
            }
            if (found.size() - before > 1) {
                found.subList(before, found.size()).sort(BY_PLACE);
            }
        }
        return found;
    }

    private static void count(List<Touch> found, int from, Part p, int place, int terminal, int root, int at) {
        for (int k = from; k < found.size(); k++) {
            Touch t = found.get(k);
            if (t.place == place && t.root == root) {
                t.count++;
                return;
            }
        }
        Touch t = new Touch(p, place, terminal, root, at);
        t.count = 1;
        found.add(t);
    }

    private static int trunkPosition(Touch t) {
        return t.first / t.part.positions;
    }

    private static Sureness sureness(Touch t) {
        if (t.part.joined) {
            return Sureness.MAY;
        }
        return t.count == t.part.cases() ? Sureness.MUST : Sureness.SHOWN;
    }

    /** A feed, and its way as vertices: inside its region, and the bus it comes to (-1: none). */
    @SuppressWarnings("ArrayRecordComponent") // a way, never compared
    record Fed(Feed feed, int[] inside, int bus) {}

    List<Fed> feeds(int loadPoint) {
        List<Fed> feeds = new ArrayList<>();
        for (Touch t : touches(loadPoint, (p, at, i) -> in(p.hotRoots, at, i), false)) {
            int bus = ways.bus(t.root);
            int[] inside = ways.inCase(t.part, t.first, t.terminal, t.root);
            feeds.add(new Fed(
                    new Feed(
                            breaker(t.root),
                            net.name(t.root),
                            List.copyOf(sourcePolesOf(t.root)),
                            net.name(t.terminal),
                            sureness(t),
                            ways.way(inside, bus, trunkPosition(t))),
                    inside,
                    bus));
        }
        if (feeds.size() > 1) {
            feeds.sort(Comparator.comparing((Fed f) -> f.feed().pole())
                    .thenComparing(f -> f.feed().terminal()));
        }
        return feeds;
    }

    /** {@return the breaker of a pole; of a source pole, its source} */
    String breaker(int root) {
        String b = net.breakerOf.get(root);
        return b == null ? net.thing(root).name() : b;
    }

    Set<String> sourcePolesOf(int root) {
        if (net.kind[root] == Net.Kind.SOURCE_POLE) {
            return Set.of(net.name(root));
        }
        return sourcePoles.getOrDefault(ways.bus(root), Set.of());
    }

    /** A return, and its way as vertices: inside its region, and the bar it comes to (-1: none) in a position of the trunk. */
    @SuppressWarnings("ArrayRecordComponent") // a way, never compared
    private record Back(Return told, int[] inside, int bar, int position) {}

    List<Return> returns(int loadPoint) {
        List<Back> found = new ArrayList<>();
        for (Touch t : touches(loadPoint, (p, at, i) -> in(p.neutralRoots, at, i), false)) {
            found.add(back(Conductor.NEUTRAL, t));
        }
        for (Touch t : touches(loadPoint, LoadPoints::overGroundOnly, false)) {
            found.add(back(Conductor.GROUND, t));
        }
        return merged(found);
    }

    /** Ground roots of a terminal in a case in which it reaches neither pole nor neutral. */
    private static int @Nullable [] overGroundOnly(Part p, int at, int place) {
        if (((p.hot[at] | p.neutral[at]) >> place & 1) == 0) {
            return in(p.overGroundRoots, at, place);
        }
        return null;
    }

    List<Return> grounds(int loadPoint) {
        List<Back> found = new ArrayList<>();
        for (Touch t : touches(loadPoint, (p, at, i) -> in(p.groundRoots, at, i), true)) {
            found.add(back(Conductor.GROUND, t));
        }
        return merged(found);
    }

    private Back back(Conductor over, Touch t) {
        int bar = ways.bar(t.root, over);
        int[] inside = ways.inCase(t.part, t.first, t.terminal, t.root);
        String name = net.name(bar < 0 ? t.root : bar);
        Way way = ways.way(inside, bar, trunkPosition(t));
        return new Back(new Return(over, name, net.name(t.terminal), sureness(t), way), inside, bar, trunkPosition(t));
    }

    /** One return per terminal and bar: the surest, and of these the shortest. */
    private List<Return> merged(List<Back> all) {
        if (all.size() == 1) {
            return List.of(all.get(0).told);
        }
        Map<String, Back> best = new TreeMap<>();
        Comparator<Back> order = Comparator.comparing((Back b) -> b.told.sureness())
                .thenComparingInt(b -> ways.length(b.inside, b.bar, b.position));
        for (Back b : all) {
            best.merge(
                    b.told.over() + b.told.terminal() + " " + b.told.bar(),
                    b,
                    (x, y) -> order.compare(x, y) <= 0 ? x : y);
        }
        return best.values().stream().map(Back::told).toList();
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
        int first = -1;
        boolean several = false;
        boolean twice = false;
        for (int c = 0; c < p.cases(); c++) {
            int[] roots = in(p.hotRoots, c, terminal);
            if (roots == null) {
                continue;
            }
            for (int root : roots) {
                several |= first >= 0 && root != first;
                first = root;
            }
            if (roots.length < 2) {
                continue;
            }
            Set<String> breakers = new TreeSet<>();
            Set<String> legs = new TreeSet<>();
            Set<Integer> buses = new TreeSet<>();
            for (int root : roots) {
                breakers.add(breaker(root));
                legs.addAll(sourcePolesOf(root));
                buses.add(ways.bus(root));
            }
            if (legs.size() > 1 && buses.size() > 1) {
                return Supply.SHORT;
            }
            twice |= breakers.size() > 1;
        }
        if (twice) {
            return Supply.TWICE;
        }
        if (several) {
            return Supply.EITHER;
        }
        return first < 0 ? Supply.NONE : (p.ring >> terminal & 1) != 0 ? Supply.RING : Supply.ONCE;
    }

    /** {@return what every wire is, by name} */
    List<WireUse> wireUses() {
        List<WireUse> found = new ArrayList<>();
        for (int v = 0; v < net.size; v++) {
            if (net.kind[v] == Net.Kind.WIRE) {
                found.add(new WireUse(net.name(v), uses(v)));
            }
        }
        found.sort(Comparator.comparing(WireUse::wire));
        return found;
    }

    private List<WireUse.Use> uses(int wire) {
        int n = reach.wireUses.size(wire);
        int cases = reach.wireUses.cases(wire);
        List<WireUse.Use> uses = new ArrayList<>(n);
        for (int i = 0; i < n; i++) {
            int root = reach.wireUses.root(wire, i);
            Sureness s = cases == Reach.JOINED
                    ? Sureness.MAY
                    : reach.wireUses.times(wire, i) == cases ? Sureness.MUST : Sureness.SHOWN;
            Conductor c = root >= 0 ? Conductor.HOT : root == WireCounts.NEUTRAL ? Conductor.NEUTRAL : Conductor.GROUND;
            uses.add(new WireUse.Use(c, root >= 0 ? net.name(root) : null, s));
        }
        if (n > 1) {
            uses.sort(
                    Comparator.comparing(WireUse.Use::conductor).thenComparing(u -> u.pole() == null ? "" : u.pole()));
        }
        return uses;
    }
}
