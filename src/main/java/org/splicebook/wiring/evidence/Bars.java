package org.splicebook.wiring.evidence;

import java.util.BitSet;
import org.splicebook.wiring.MayNet;

/** Which bars stay joined to a source's neutral or ground, and so hold what hangs on them near 0 V. */
public final class Bars {
    private Bars() {}

    /**
     * {@return the bars, with what lands on them, and source terminals, that are held: over recorded wires, with every switch open}
     *
     * @param net the graph
     * @param gone what is taken away
     * @param lifted wire ends that are out of their joints
     */
    public static BitSet held(MayNet net, BitSet gone, BitSet lifted) {
        BitSet seen = new BitSet(net.size());
        int[] queue = new int[net.size()];
        int n = 0;
        for (int v = 0; v < net.size(); v++) {
            boolean root = net.kind(v) == MayNet.Kind.SOURCE_NEUTRAL || net.kind(v) == MayNet.Kind.SOURCE_GROUND;
            if (root && !net.isSupplyUnknown(net.name(v)) && !gone.get(v)) {
                seen.set(v);
                queue[n++] = v;
            }
        }
        for (int i = 0; i < n; i++) {
            int v = queue[i];
            for (int k = 0; k < net.recordedCount(v); k++) {
                int u = net.recorded(v, k);
                if (!seen.get(u) && !gone.get(u) && carries(net, u) && !isParted(net, lifted, v, u)) {
                    seen.set(u);
                    queue[n++] = u;
                }
            }
            int bonded = acrossBond(net, v);
            if (bonded >= 0 && !seen.get(bonded) && !gone.get(bonded)) {
                seen.set(bonded);
                queue[n++] = bonded;
            }
        }
        BitSet held = new BitSet(net.size());
        seen.stream()
                .filter(v -> isBar(net, v) || (net.kind(v) == MayNet.Kind.JOINT && isOnBar(net, v)))
                .forEach(held::set);
        return held;
    }

    private static boolean isBar(MayNet net, int v) {
        return switch (net.kind(v)) {
            case NEUTRAL_BAR, GROUND_BAR, SOURCE_NEUTRAL, SOURCE_GROUND -> true;
            default -> false;
        };
    }

    private static boolean isOnBar(MayNet net, int joint) {
        for (int k = 0; k < net.recordedCount(joint); k++) {
            int u = net.recorded(joint, k);
            if (isBar(net, u) && net.box(u).equals(net.box(joint))) {
                return true;
            }
        }
        return false;
    }

    private static boolean carries(MayNet net, int v) {
        return switch (net.kind(v)) {
            case POLE, MAIN_POLE, BUS, SOURCE_POLE -> false;
            default -> !net.isOnLever(v);
        };
    }

    /** {@return the other bar of a panel in which neutral and ground are joined; -1 for anything else} */
    public static int acrossBond(MayNet net, int v) {
        MayNet.Kind k = net.kind(v);
        if (k != MayNet.Kind.NEUTRAL_BAR && k != MayNet.Kind.GROUND_BAR) {
            return -1;
        }
        String panel = net.box(v);
        return net.bondedPanels().contains(panel)
                ? net.terminal(panel + (k == MayNet.Kind.NEUTRAL_BAR ? ".g" : ".n"))
                : -1;
    }

    /** {@return whether one of two neighbours is a wire end lifted out of its joint, and the other that joint} */
    public static boolean isParted(MayNet net, BitSet lifted, int a, int b) {
        return (lifted.get(a) && net.kind(b) == MayNet.Kind.JOINT)
                || (lifted.get(b) && net.kind(a) == MayNet.Kind.JOINT);
    }
}
