package org.splicebook.wiring.evidence;

import java.util.BitSet;
import java.util.HashMap;
import java.util.Map;
import org.splicebook.record.Breaker;
import org.splicebook.record.House;
import org.splicebook.record.Panel;
import org.splicebook.record.Source;
import org.splicebook.record.SourceKind;
import org.splicebook.wiring.MayNet;

/** Which poles have current behind them with some breakers off: surely, or perhaps. */
final class Supplied {
    private final House house;
    private final MayNet net;
    private final Map<BitSet, BitSet> surely = new HashMap<>();
    private final Map<BitSet, BitSet> perhaps = new HashMap<>();

    Supplied(House house, MayNet net) {
        this.house = house;
        this.net = net;
    }

    /**
     * {@return the poles surely live with these open: on, fed by the service or a riser over seen wires and no switch}
     *
     * @param off the open poles
     */
    BitSet surely(BitSet off) {
        return surely.computeIfAbsent(off, k -> poles(flood(k, true), k, true));
    }

    /** {@return the poles that may be live with these open} */
    BitSet perhaps(BitSet off) {
        return perhaps.computeIfAbsent(off, k -> poles(flood(k, false), k, false));
    }

    private BitSet flood(BitSet off, boolean surely) {
        BitSet seen = new BitSet(net.nodes());
        int[] queue = new int[net.nodes()];
        int[] n = {0};
        for (int v = 0; v < net.size(); v++) {
            if (net.kind(v) == MayNet.Kind.SOURCE_POLE && (!surely || isAlwaysOn(v))) {
                seen.set(v);
                queue[n[0]++] = v;
            }
        }
        if (!surely) {
            seen.set(net.world());
            queue[n[0]++] = net.world();
        }
        for (int i = 0; i < n[0]; i++) {
            int node = queue[i];
            java.util.function.IntConsumer next = u -> {
                if (!seen.get(u) && passes(u, off, surely)) {
                    seen.set(u);
                    queue[n[0]++] = u;
                }
            };
            if (surely) {
                net.forEachRecorded(node, next);
            } else {
                net.forEachNext(node, next);
            }
        }
        return seen;
    }

    private boolean passes(int node, BitSet off, boolean surely) {
        int v = net.thingOf(node);
        if (v < 0) {
            return true;
        }
        return switch (net.kind(v)) {
            case NEUTRAL_BAR, GROUND_BAR, SOURCE_NEUTRAL, SOURCE_GROUND -> false;
            default -> !off.get(v) && !(surely && (net.isOnLever(v) || isFoundOff(v)));
        };
    }

    private boolean isAlwaysOn(int v) {
        String name = net.name(v);
        Source s = house.sources().get(name.substring(0, name.lastIndexOf('.')));
        return s != null && (s.kind() == SourceKind.SERVICE || s.kind() == SourceKind.RISER);
    }

    /** Whether a breaker was found off or tripped, so that a test may have been made with it off unnoticed. */
    private boolean isFoundOff(int v) {
        MayNet.Handle h = net.handleOf(v);
        Panel p = h == null ? null : house.panels().get(h.panel());
        if (h == null || p == null) {
            return false;
        }
        if (h.isMain()) {
            return p.main() != null && p.main().position() != Breaker.Position.ON;
        }
        return p.breakers().values().stream()
                .anyMatch(
                        b -> b.position() != Breaker.Position.ON && h.breakers().contains(p.name() + "." + b.key()));
    }

    private BitSet poles(BitSet live, BitSet off, boolean surely) {
        BitSet found = new BitSet();
        for (MayNet.Handle h : net.handles()) {
            for (int p : h.poles()) {
                if (net.kind(p) == MayNet.Kind.POLE && passes(p, off, surely) && hasLiveBus(live, p)) {
                    found.set(p);
                }
            }
        }
        return found;
    }

    private boolean hasLiveBus(BitSet live, int pole) {
        for (int i = 0; i < net.recordedCount(pole); i++) {
            int u = net.recorded(pole, i);
            if (net.kind(u) == MayNet.Kind.BUS && live.get(u)) {
                return true;
            }
        }
        return false;
    }
}
