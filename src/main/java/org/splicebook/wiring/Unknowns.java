package org.splicebook.wiring;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.Basis;

/**
 * What is not known, what it may join, and so which of the recorded relations hold whatever it is. Nothing here changes what the
 * record shows; it adds what is possible and takes MUST back where an unlisted way would break it.
 */
final class Unknowns {
    private static final Way UNKNOWN_WAY = new Way(List.of(), Basis.ASSUMED, true);

    private final Reach reach;
    private final Net net;
    private final MayGraph graph;
    private final int[] group;
    private final List<Wiring.OpenRegion> regions;
    private final Set<String> onAssumedSupply;
    /** Load points with a terminal in an open region. */
    private final BitSet open;

    private final int[] poles;
    private final int[] neutralBars;
    /** Ground bars, and the neutral bars that hold a main bond. */
    private final int[] groundBars;

    private final Map<Integer, BitSet> neutralFrom = new HashMap<>();
    private final Map<Integer, BitSet> groundFrom = new HashMap<>();
    private final Map<Integer, BitSet> reachedFrom = new TreeMap<>();
    private final Map<Thing, int[]> protectors = new HashMap<>();
    private @Nullable MayDominators hot;
    private @Nullable MayDominators neutral;
    private @Nullable MayDominators ground;

    Unknowns(Reach reach) {
        this.reach = reach;
        this.net = reach.net;
        this.graph = net.mayGraph();
        OpenRegions open = new OpenRegions(reach, graph);
        this.group = open.group;
        this.regions = open.told();
        this.onAssumedSupply = net.assumedFed.isEmpty() ? Set.of() : open.onAssumedSupply();
        this.open = openLoadPoints();
        this.poles = all(v -> net.kind[v] == Net.Kind.POLE || net.kind[v] == Net.Kind.SOURCE_POLE);
        this.neutralBars = all(v -> net.kind[v] == Net.Kind.NEUTRAL_BAR);
        this.groundBars = all(v -> net.kind[v] == Net.Kind.GROUND_BAR
                || (net.kind[v] == Net.Kind.NEUTRAL_BAR && reach.regions.holdsMainBond(net.panel(v))));
        if (graph.any) {
            hot = new MayDominators(graph, poles);
            neutral = new MayDominators(graph, withBond(r -> r.neutralRoots));
            ground = new MayDominators(graph, withBond(r -> r.groundRoots));
        }
    }

    private int[] all(java.util.function.IntPredicate wanted) {
        return java.util.stream.IntStream.range(0, net.size).filter(wanted).toArray();
    }

    /** The roots of all regions; at the bonding panel's neutral bar an open region may turn out to be neutral or ground. */
    private int[] withBond(java.util.function.Function<Regions.Region, int[]> of) {
        return reach.regions.all.stream()
                .flatMapToInt(r -> java.util.stream.IntStream.concat(
                        Arrays.stream(of.apply(r)),
                        group[r.index] < 0 ? java.util.stream.IntStream.empty() : Arrays.stream(r.bondRoots)))
                .distinct()
                .toArray();
    }

    /** Whether it is open whether a vertex is neutral or ground: its region lands at the bond and no load terminal is known in it. */
    private boolean isUndecided(int v) {
        if (!isOpen(v)) {
            return false;
        }
        Regions.Region r = reach.regions.all.get(reach.regions.of[v]);
        return r.bondRoots.length > 0 && !r.holdsLoadTerminal;
    }

    private boolean isOpen(int vertex) {
        return vertex >= 0 && !net.cut[vertex] && group[reach.regions.of[vertex]] >= 0;
    }

    private BitSet openLoadPoints() {
        BitSet found = new BitSet();
        if (!graph.any) {
            return found;
        }
        for (int lp = 0; lp < net.loadPoints.size(); lp++) {
            Net.LoadPoint p = net.loadPoints.get(lp);
            found.set(lp, Arrays.stream(p.terminals()).anyMatch(this::isOpen) || isOpen(p.ground()));
        }
        return found;
    }

    /** Vertices that a root may reach, levers joined. */
    private BitSet from(int root) {
        return reachedFrom.computeIfAbsent(root, this::flood);
    }

    private BitSet flood(int root) {
        BitSet seen = new BitSet(graph.nodes);
        BitSet reached = new BitSet(net.size);
        int[] queue = new int[graph.nodes];
        int[] n = {0};
        queue[n[0]++] = root;
        seen.set(root);
        for (int i = 0; i < n[0]; i++) {
            if (queue[i] < net.size) {
                reached.set(queue[i]);
            }
            graph.forEachNext(queue[i], u -> {
                if (!seen.get(u)) {
                    seen.set(u);
                    queue[n[0]++] = u;
                }
            });
        }
        graph.arrivals().forEach((v, a) -> {
            if (seen.get(a)) {
                reached.set(v);
            }
        });
        return reached;
    }

    /** Whether a pole is fed only as far as we take it to be. */
    private boolean isAssumed(@Nullable String pole) {
        if (pole == null || net.assumedFed.isEmpty()) {
            return false;
        }
        return pole.startsWith("?.") || net.assumedFed.contains(pole.substring(0, pole.indexOf('.')));
    }

    List<Feed> feeds(int lp, List<Feed> asRecorded, LoadPoints loadPoints) {
        Net.LoadPoint p = net.loadPoints.get(lp);
        if (net.assumedFed.isEmpty() && !open.get(lp)) {
            return asRecorded;
        }
        List<Feed> recorded = asRecorded.stream()
                .map(f -> isAssumed(f.pole())
                        ? new Feed(f.breaker(), f.pole(), f.sourcePoles(), f.terminal(), Sureness.MAY, f.way())
                        : f)
                .toList();
        if (!open.get(lp)) {
            return recorded;
        }
        List<Feed> all = new ArrayList<>(recorded);
        Set<String> known = new HashSet<>();
        recorded.forEach(f -> known.add(f.pole() + " " + f.terminal()));
        for (int root : poles) {
            if (!isOpen(root)) {
                continue;
            }
            for (int t : p.terminals()) {
                if (from(root).get(t) && known.add(net.name(root) + " " + net.name(t))) {
                    all.add(new Feed(
                            loadPoints.breaker(root),
                            net.name(root),
                            List.copyOf(loadPoints.sourcePolesOf(root)),
                            net.name(t),
                            Sureness.MAY,
                            UNKNOWN_WAY));
                }
            }
        }
        all.sort(java.util.Comparator.comparing(Feed::pole).thenComparing(Feed::terminal));
        return all;
    }

    List<Return> returns(int lp, List<Return> recorded) {
        Net.LoadPoint p = net.loadPoints.get(lp);
        if (!open.get(lp)) {
            return recorded;
        }
        List<Return> judged = recorded.stream()
                .map(r -> r.over() == Conductor.GROUND && mayReachNeutral(r.terminal()) ? possible(r) : r)
                .toList();
        return withMay(p.terminals(), judged, Conductor.NEUTRAL);
    }

    private boolean mayReachNeutral(String terminal) {
        int v = net.terminal(terminal);
        return v >= 0 && neutral != null && isOpen(v) && neutral.reaches(v);
    }

    private static Return possible(Return r) {
        return new Return(r.over(), r.bar(), r.terminal(), Sureness.MAY, r.way());
    }

    List<Return> grounds(int lp, List<Return> recorded) {
        int g = net.loadPoints.get(lp).ground();
        if (!isOpen(g)) {
            return recorded;
        }
        List<Return> judged =
                isUndecided(g) ? recorded.stream().map(Unknowns::possible).toList() : recorded;
        return withMay(new int[] {g}, judged, Conductor.GROUND);
    }

    private List<Return> withMay(int[] terminals, List<Return> recorded, Conductor over) {
        List<Return> all = new ArrayList<>(recorded);
        Set<String> known = new HashSet<>();
        recorded.forEach(r -> known.add(r.bar() + " " + r.terminal()));
        for (int bar : over == Conductor.NEUTRAL ? neutralBars : groundBars) {
            BitSet reached = fromBar(bar, over);
            for (int t : terminals) {
                if (reached.get(t) && known.add(net.name(bar) + " " + net.name(t))) {
                    all.add(new Return(over, net.name(bar), net.name(t), Sureness.MAY, UNKNOWN_WAY));
                }
            }
        }
        return all;
    }

    /** What a bar may reach; over ground, what lands on a bonding neutral bar and is neutral for sure is left out. */
    private BitSet fromBar(int bar, Conductor over) {
        return (over == Conductor.NEUTRAL ? neutralFrom : groundFrom).computeIfAbsent(bar, k -> {
            BitSet reached = (BitSet) from(bar).clone();
            for (int i = net.start[bar]; i < net.start[bar + 1]; i++) {
                int u = net.adjacent[i];
                boolean neutralForSure = over == Conductor.GROUND
                        && net.kind[bar] == Net.Kind.NEUTRAL_BAR
                        && reach.regions.all.get(reach.regions.of[u]).holdsLoadTerminal;
                if (!neutralForSure) {
                    reached.or(from(u));
                }
            }
            return reached;
        });
    }

    /** Whether, whatever is unknown, taking these away takes the conductor of a load point away. */
    private boolean surely(int lp, Conductor conductor, int[] gone) {
        Net.LoadPoint p = net.loadPoints.get(lp);
        if (!open.get(lp)) {
            return true;
        }
        if (conductor == Conductor.GROUND && isUndecided(p.ground())) {
            return false;
        }
        MayDominators d = conductor == Conductor.HOT ? hot : conductor == Conductor.NEUTRAL ? neutral : ground;
        int[] terminals = conductor == Conductor.GROUND ? new int[] {p.ground()} : p.terminals();
        for (int t : terminals) {
            if (t >= 0 && d != null && isOpen(t) && d.reaches(t) && !d.passes(t, gone)) {
                return false;
            }
        }
        return true;
    }

    List<ReliesOn> relies(int lp, List<ReliesOn> recorded, Map<Thing, int[]> vertices) {
        if (!open.get(lp)) {
            return recorded;
        }
        return recorded.stream()
                .map(r -> r.sureness() == Sureness.MUST
                                && !surely(lp, r.conductor(), vertices.getOrDefault(r.thing(), new int[0]))
                        ? new ReliesOn(r.conductor(), r.thing(), Sureness.MAY)
                        : r)
                .toList();
    }

    List<ProtectedBy> protections(int lp, List<ProtectedBy> recorded) {
        if (!open.get(lp)) {
            return recorded;
        }
        return recorded.stream()
                .map(b -> {
                    int[] v = protectors().getOrDefault(b.by(), new int[0]);
                    boolean sure = surely(lp, Conductor.HOT, v)
                            && (b.function() == org.splicebook.record.Protection.OVERCURRENT
                                    || surely(lp, Conductor.NEUTRAL, v));
                    return b.sureness() == Sureness.MUST && !sure
                            ? new ProtectedBy(b.function(), b.by(), Sureness.MAY, b.nearness())
                            : b;
                })
                .toList();
    }

    /** The vertices of all that may protect. */
    private Map<Thing, int[]> protectors() {
        if (protectors.isEmpty()) {
            Things.overcurrent(net).forEach(x -> protectors.put(x.thing(), x.vertices()));
            Things.devices(net).forEach(x -> protectors.put(x.thing(), x.vertices()));
        }
        return protectors;
    }

    List<WireUse> wireUses(List<WireUse> recorded) {
        if (!graph.any) {
            return recorded;
        }
        List<WireUse> all = new ArrayList<>();
        Map<String, Integer> wire = new HashMap<>();
        for (int v = 0; v < net.size; v++) {
            if (net.kind[v] == Net.Kind.WIRE) {
                wire.put(net.name(v), v);
            }
        }
        for (WireUse w : recorded) {
            int v = java.util.Objects.requireNonNull(wire.get(w.wire()));
            WireUse judged = new WireUse(
                    w.wire(),
                    w.uses().stream()
                            .map(u -> isAssumed(u.pole()) ? new WireUse.Use(u.conductor(), u.pole(), Sureness.MAY) : u)
                            .toList());
            all.add(isOpen(v) ? withMay(judged, v) : judged);
        }
        return all;
    }

    private WireUse withMay(WireUse w, int v) {
        List<WireUse.Use> uses = new ArrayList<>();
        for (WireUse.Use u : w.uses()) {
            boolean decided = u.conductor() == Conductor.HOT || !isUndecided(v);
            uses.add(decided ? u : new WireUse.Use(u.conductor(), u.pole(), Sureness.MAY));
        }
        for (int root : poles) {
            String pole = net.name(root);
            if (isOpen(root) && from(root).get(v) && uses.stream().noneMatch(u -> pole.equals(u.pole()))) {
                uses.add(new WireUse.Use(Conductor.HOT, pole, Sureness.MAY));
            }
        }
        for (Conductor c : List.of(Conductor.NEUTRAL, Conductor.GROUND)) {
            MayDominators d = c == Conductor.NEUTRAL ? neutral : ground;
            if (d != null && d.reaches(v) && uses.stream().noneMatch(u -> u.conductor() == c)) {
                uses.add(new WireUse.Use(c, null, Sureness.MAY));
            }
        }
        return new WireUse(w.wire(), uses);
    }

    /** {@return whether a row of what is lost holds whatever is unknown} */
    Sureness sureness(Effects.Effect e, int[] gone) {
        if (!open.get(e.loadPoint())) {
            return Sureness.MUST;
        }
        boolean partial = e.hot() == LossRow.Hot.IMPAIRED
                || e.hot() == LossRow.Hot.ONE_OF_TWO
                || e.neutral() == LossRow.Neutral.IMPAIRED
                || e.ground() == LossRow.Ground.IMPAIRED;
        boolean sure = !partial
                && (e.hot() == LossRow.Hot.KEPT || surely(e.loadPoint(), Conductor.HOT, gone))
                && (e.neutral() == LossRow.Neutral.KEPT || surely(e.loadPoint(), Conductor.NEUTRAL, gone))
                && (e.ground() == LossRow.Ground.KEPT || surely(e.loadPoint(), Conductor.GROUND, gone));
        return sure ? Sureness.MUST : Sureness.MAY;
    }

    /** {@return whether more load points than recorded may be fed over one of these} */
    boolean mayHang(int[] gone) {
        for (int v : gone) {
            if (supplies(v) && !(onAssumedSupply.isEmpty() && !isOpen(v))) {
                return true;
            }
        }
        return false;
    }

    private boolean supplies(int v) {
        return net.kind[v] == Net.Kind.POLE || net.kind[v] == Net.Kind.MAIN_POLE || net.kind[v] == Net.Kind.SOURCE_POLE;
    }

    /** {@return the load points that may be fed over one of these poles and are not among the given} */
    Set<String> mayHang(int[] gone, Set<String> already) {
        Set<String> found = new TreeSet<>();
        for (int v : gone) {
            if (supplies(v) && !net.assumedFed.contains(net.panel(v))) {
                onAssumedSupply.stream().filter(lp -> !already.contains(lp)).forEach(found::add);
            }
            if (net.kind[v] == Net.Kind.POLE && isOpen(v)) {
                BitSet reached = from(v);
                for (Net.LoadPoint lp : net.loadPoints) {
                    if (!already.contains(lp.id())
                            && Arrays.stream(lp.terminals()).anyMatch(t -> isOpen(t) && reached.get(t))) {
                        found.add(lp.id());
                    }
                }
            }
        }
        return found;
    }

    List<Wiring.OpenRegion> regions() {
        return regions;
    }
}
