package org.splicebook.wiring.shutoff;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.Comparator;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.Box;
import org.splicebook.record.Device;
import org.splicebook.wiring.MayNet;
import org.splicebook.wiring.evidence.Bars;
import org.splicebook.wiring.evidence.Exclusions;

/** Who else is without power: load points whose poles are open, or have lost their supply. */
final class AffectedPoints {
    private final ShutOffs of;
    private final MayNet net;
    private final Exclusions tests;

    AffectedPoints(ShutOffs of, Exclusions tests) {
        this.of = of;
        this.net = of.net;
        this.tests = tests;
    }

    List<ShutOff.Affected> of(BitSet thrown) {
        BitSet dead = deadPoles(thrown);
        List<ShutOff.Affected> found = new ArrayList<>();
        for (MayNet.LoadPoint lp : net.loadPoints()) {
            int fed = 0;
            int lost = 0;
            for (MayNet.Handle h : net.handles()) {
                for (int p : h.poles()) {
                    if (net.kind(p) == MayNet.Kind.POLE && feeds(p, lp)) {
                        fed++;
                        lost += dead.get(p) ? 1 : 0;
                    }
                }
            }
            if (lost > 0) {
                found.add(new ShutOff.Affected(lp.id(), lp.device(), lp.box(), lp.place(), care(lp), lost == fed));
            }
        }
        found.sort(Comparator.comparing(ShutOff.Affected::care, Comparator.nullsLast(Comparator.<Care>naturalOrder()))
                .thenComparing(a -> !a.surely())
                .thenComparing(ShutOff.Affected::loadPoint));
        return found;
    }

    private boolean feeds(int pole, MayNet.LoadPoint lp) {
        BitSet reach = tests.reach(pole);
        return lp.pairs().stream().anyMatch(pair -> pair.stream().anyMatch(reach::get));
    }

    private @Nullable Care care(MayNet.LoadPoint lp) {
        Box box = of.house.boxes().get(lp.box());
        Device device = box == null ? null : box.devices().get(lp.device());
        return device == null ? null : Care.of(device);
    }

    /** The poles that are open, or whose bus no source comes to any more. */
    private BitSet deadPoles(BitSet thrown) {
        BitSet all = new BitSet();
        net.handles().forEach(h -> h.poles().forEach(all::set));
        BitSet none = new BitSet();
        BitSet sources = new BitSet();
        for (int v = 0; v < net.size(); v++) {
            if (net.kind(v) == MayNet.Kind.SOURCE_POLE) {
                sources.set(v);
            }
        }
        Flood live = Flood.from(
                net,
                new Flood.Setting(thrown, none, Bars.held(net, none, none), all, Flood.Extent.WIRES),
                Exclusions.none(net),
                sources.stream().toArray());
        BitSet dead = new BitSet();
        all.stream().filter(p -> thrown.get(p) || !hasLiveBus(live, p)).forEach(dead::set);
        return dead;
    }

    private boolean hasLiveBus(Flood live, int pole) {
        for (int i = 0; i < net.recordedCount(pole); i++) {
            int u = net.recorded(pole, i);
            if (net.kind(u) == MayNet.Kind.BUS && live.seen.get(u)) {
                return true;
            }
        }
        return false;
    }
}
