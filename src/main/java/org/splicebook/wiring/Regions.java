package org.splicebook.wiring;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/**
 * The regions of a netlist: what is left connected, every lever joined, when buses and bars are cut out. Regions do not depend on
 * lever positions; each is judged by itself.
 */
final class Regions {
    /** One region. */
    static final class Region {
        final int index;
        int[] vertices = new int[0];
        /** Levers inside it. */
        int[] levers = new int[0];
        /** Poles (and source poles) that may bring a hot into it. */
        int[] hotRoots = new int[0];
        /** Vertices that touch a neutral bar. */
        int[] neutralRoots = new int[0];
        /** Vertices that touch a ground bar, or the bonding panel's neutral bar where the region is ground. */
        int[] groundRoots = new int[0];
        /** Vertices at which a protective device watches a current. */
        int[] sensors = new int[0];

        boolean hotFeeder;
        boolean neutralFeeder;
        /** Vertices that touch the neutral bar of the panel with the main bond. */
        int[] bondRoots = new int[0];

        boolean holdsLoadTerminal;
        boolean groundOnly;

        Region(int index) {
            this.index = index;
        }
    }

    final int[] of;
    final List<Region> all = new ArrayList<>();

    private final Net net;
    private final boolean[] groundTerminals;
    private final boolean[] loadTerminals;
    private final Set<String> bondPanels = new HashSet<>();

    Regions(Net net) {
        this.net = net;
        this.of = new int[net.size];
        Arrays.fill(of, -1);
        net.house.sources().values().forEach(s -> {
            if (s.bond() != null) {
                bondPanels.add(s.bond());
            }
        });
        groundTerminals = new boolean[net.size];
        loadTerminals = new boolean[net.size];
        for (int v : net.groundTerminals) {
            groundTerminals[v] = true;
        }
        for (Net.LoadPoint lp : net.loadPoints) {
            for (int t : lp.terminals()) {
                loadTerminals[t] = true;
            }
        }
        flood();
        all.forEach(this::describe);
        markNeutralFeeders();
    }

    boolean holdsMainBond(String panel) {
        return bondPanels.contains(panel);
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

    private void describe(Region r) {
        List<Integer> hot = new ArrayList<>();
        List<Integer> neutral = new ArrayList<>();
        List<Integer> ground = new ArrayList<>();
        List<Integer> bondNeutral = new ArrayList<>();
        Set<Integer> levers = new HashSet<>();
        Set<String> busPanels = new HashSet<>();
        List<Integer> sensors = new ArrayList<>();
        boolean groundThing = false;
        boolean loadTerminal = false;
        boolean feeder = false;
        for (int v : r.vertices) {
            Net.Kind k = net.kind[v];
            if (net.lever[v] >= 0) {
                levers.add(net.lever[v]);
            }
            if (net.sensors.contains(v)) {
                sensors.add(v);
            }
            if (k == Net.Kind.SOURCE_POLE) {
                hot.add(v);
            }
            if (k == Net.Kind.SOURCE_NEUTRAL) {
                neutral.add(v);
            }
            if (k == Net.Kind.SOURCE_GROUND) {
                ground.add(v);
            }
            feeder |= k == Net.Kind.SOURCE_POLE || k == Net.Kind.LUG;
            groundThing |= k == Net.Kind.METAL || groundTerminals[v];
            loadTerminal |= loadTerminals[v];
            for (int i = net.start[v]; i < net.start[v + 1]; i++) {
                int u = net.adjacent[i];
                switch (net.kind[u]) {
                    case BUS -> {
                        busPanels.add(net.panels.get(u));
                        if (k == Net.Kind.POLE) {
                            hot.add(v);
                        }
                        feeder |= k == Net.Kind.TERMINAL;
                    }
                    case NEUTRAL_BAR -> {
                        if (holdsMainBond(net.panels.get(u))) {
                            bondNeutral.add(v);
                        }
                        neutral.add(v);
                    }
                    case GROUND_BAR -> ground.add(v);
                    default -> {}
                }
            }
        }
        r.hotFeeder = feeder || busPanels.size() > 1;
        groundThing |= !ground.isEmpty();
        r.groundOnly = groundThing && !loadTerminal && !bondNeutral.isEmpty();
        if (r.groundOnly) {
            ground.addAll(bondNeutral);
            neutral.removeAll(bondNeutral);
        }
        r.bondRoots = ints(bondNeutral);
        r.holdsLoadTerminal = loadTerminal;
        r.sensors = ints(sensors);
        r.levers = ints(levers);
        r.hotRoots = ints(hot);
        r.neutralRoots = ints(neutral);
        r.groundRoots = ints(ground);
    }

    private void markNeutralFeeders() {
        Set<String> feederCables = new HashSet<>();
        for (Region r : all) {
            if (r.hotFeeder) {
                for (int v : r.vertices) {
                    if (net.kind[v] == Net.Kind.WIRE) {
                        feederCables.add(cableOf(net.names.get(v)));
                    }
                }
            }
        }
        for (Region r : all) {
            for (int v : r.vertices) {
                r.neutralFeeder |= net.kind[v] == Net.Kind.SOURCE_NEUTRAL
                        || net.kind[v] == Net.Kind.SOURCE_GROUND
                        || (net.kind[v] == Net.Kind.WIRE && feederCables.contains(cableOf(net.names.get(v))));
            }
        }
    }

    static String cableOf(String wire) {
        return wire.substring(0, wire.indexOf('.'));
    }

    /** {@return the numbers, each once, in order} */
    static int[] ints(java.util.Collection<Integer> c) {
        int[] all = new int[c.size()];
        int n = 0;
        for (int v : c) {
            all[n++] = v;
        }
        Arrays.sort(all);
        int kept = 0;
        for (int i = 0; i < n; i++) {
            if (i == 0 || all[i] != all[i - 1]) {
                all[kept++] = all[i];
            }
        }
        return kept == n ? all : Arrays.copyOf(all, kept);
    }
}
