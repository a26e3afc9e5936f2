package org.splicebook.wiring;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/**
 * The regions of a netlist: what is left connected, every lever joined, when buses and bars are cut out. Regions do not depend on
 * lever positions; each is judged by itself.
 */
final class Regions {
    static final int[] NONE = {};

    /** One region. */
    static final class Region {
        final int index;
        int[] vertices = NONE;
        /** The wires among them. */
        int[] wires = NONE;
        /** Levers inside it. */
        int[] levers = NONE;
        /** Poles (and source poles) that may bring a hot into it. */
        int[] hotRoots = NONE;
        /** Vertices that touch a neutral bar. */
        int[] neutralRoots = NONE;
        /** Vertices that touch a ground bar, or the bonding panel's neutral bar where the region is ground. */
        int[] groundRoots = NONE;
        /** Vertices at which a protective device watches a current. */
        int[] sensors = NONE;

        boolean hotFeeder;
        boolean neutralFeeder;
        /** Vertices that touch the neutral bar of the panel with the main bond. */
        int[] bondRoots = NONE;

        boolean holdsLoadTerminal;
        boolean groundOnly;

        Region(int index) {
            this.index = index;
        }
    }

    final int[] of;
    final List<Region> all = new ArrayList<>();

    private final Net net;
    private final Set<String> bondPanels = new HashSet<>();
    /** The neutral bars of panels with a main bond. */
    private final BitSet bondBars = new BitSet();

    Regions(Net net) {
        this.net = net;
        this.of = new int[net.size];
        Arrays.fill(of, -1);
        net.house.sources().values().forEach(s -> {
            if (s.bond() != null) {
                bondPanels.add(s.bond());
            }
        });
        for (int v = 0; v < net.size; v++) {
            if (net.kind[v] == Net.Kind.NEUTRAL_BAR && bondPanels.contains(net.panel(v))) {
                bondBars.set(v);
            }
        }
        flood();
        all.forEach(this::describe);
        markNeutralFeeders();
    }

    boolean holdsMainBond(String panel) {
        return bondPanels.contains(panel);
    }

    /** {@return whether it is the neutral bar of a panel with a main bond} */
    boolean isBondBar(int v) {
        return bondBars.get(v);
    }

    private void flood() {
        int[] queue = new int[net.size];
        for (int s = 0; s < net.size; s++) {
            if (net.cut[s] || of[s] >= 0) {
                continue;
            }
            Region r = new Region(all.size());
            int n = 0;
            queue[n++] = s;
            of[s] = r.index;
            for (int i = 0; i < n; i++) {
                int v = queue[i];
                for (int k = net.start[v]; k < net.start[v + 1]; k++) {
                    int u = net.adjacent[k];
                    if (!net.cut[u] && of[u] < 0) {
                        of[u] = r.index;
                        queue[n++] = u;
                    }
                }
            }
            r.vertices = Arrays.copyOf(queue, n);
            all.add(r);
        }
    }

    private final Ints hot = new Ints();
    private final Ints neutral = new Ints();
    private final Ints ground = new Ints();
    private final Ints bondNeutral = new Ints();
    private final Ints levers = new Ints();
    private final Ints sensors = new Ints();
    private final Ints wires = new Ints();

    private void describe(Region r) {
        for (Ints all : List.of(hot, neutral, ground, bondNeutral, levers, sensors, wires)) {
            all.clear();
        }
        String busPanel = null;
        boolean groundThing = false;
        boolean loadTerminal = false;
        boolean feeder = false;
        for (int v : r.vertices) {
            Net.Kind k = net.kind[v];
            if (net.lever[v] >= 0) {
                levers.add(net.lever[v]);
            }
            if (net.sensors.get(v)) {
                sensors.add(v);
            }
            switch (k) {
                case WIRE -> wires.add(v);
                case SOURCE_POLE -> hot.add(v);
                case SOURCE_NEUTRAL -> neutral.add(v);
                case SOURCE_GROUND -> ground.add(v);
                default -> {}
            }
            feeder |= k == Net.Kind.SOURCE_POLE || k == Net.Kind.LUG;
            groundThing |= k == Net.Kind.METAL || net.groundTerminals.get(v);
            loadTerminal |= net.loadTerminals.get(v);
            for (int i = net.start[v]; i < net.start[v + 1]; i++) {
                int u = net.adjacent[i];
                switch (net.kind[u]) {
                    case BUS -> {
                        feeder |= busPanel != null && !busPanel.equals(net.panel(u));
                        busPanel = net.panel(u);
                        if (k == Net.Kind.POLE) {
                            hot.add(v);
                        }
                        feeder |= k == Net.Kind.TERMINAL;
                    }
                    case NEUTRAL_BAR -> (bondBars.get(u) ? bondNeutral : neutral).add(v);
                    case GROUND_BAR -> ground.add(v);
                    default -> {}
                }
            }
        }
        r.hotFeeder = feeder;
        groundThing |= ground.size() > 0;
        r.bondRoots = bondNeutral.distinct();
        r.groundOnly = groundThing && !loadTerminal && r.bondRoots.length > 0;
        if (!r.groundOnly) {
            addAll(neutral, r.bondRoots);
        } else {
            addAll(ground, r.bondRoots);
        }
        int[] neutrals = neutral.distinct();
        r.neutralRoots = r.groundOnly ? without(neutrals, r.bondRoots) : neutrals;
        r.holdsLoadTerminal = loadTerminal;
        r.wires = wires.size() == 0 ? NONE : wires.toArray();
        r.sensors = sensors.distinct();
        r.levers = levers.distinct();
        r.hotRoots = hot.distinct();
        r.groundRoots = ground.distinct();
    }

    private static void addAll(Ints to, int[] numbers) {
        for (int n : numbers) {
            to.add(n);
        }
    }

    private static int[] without(int[] numbers, int[] others) {
        return Arrays.stream(numbers)
                .filter(n -> Arrays.binarySearch(others, n) < 0)
                .toArray();
    }

    private void markNeutralFeeders() {
        boolean[] feederCables = new boolean[net.house.cables().size()];
        for (Region r : all) {
            if (r.hotFeeder) {
                for (int w : r.wires) {
                    feederCables[net.cable[w]] = true;
                }
            }
        }
        for (Region r : all) {
            for (int w : r.wires) {
                r.neutralFeeder |= feederCables[net.cable[w]];
            }
        }
        for (int v = 0; v < net.size; v++) {
            if (net.kind[v] == Net.Kind.SOURCE_NEUTRAL || net.kind[v] == Net.Kind.SOURCE_GROUND) {
                all.get(of[v]).neutralFeeder = true;
            }
        }
    }

    /** {@return the numbers, each once, in order} */
    static int[] ints(java.util.Collection<Integer> c) {
        Ints all = new Ints(c.size());
        for (int v : c) {
            all.add(v);
        }
        return all.distinct();
    }
}
