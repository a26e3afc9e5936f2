package org.splicebook.wiring.shutoff;

import java.util.BitSet;
import org.splicebook.wiring.MayNet;
import org.splicebook.wiring.evidence.Bars;
import org.splicebook.wiring.evidence.Exclusions;

/** The poles round a target, and which of them must be opened: those to whose other side current may come with all of them open. */
final class Cut {
    final Flood.Setting setting;
    final Flood flood;
    final BitSet needed = new BitSet();

    private final MayNet net;
    private final BitSet held;

    private final boolean isTested;

    private Cut(MayNet net, Flood.Setting setting, Flood flood, BitSet held, boolean isTested) {
        this.isTested = isTested;
        this.net = net;
        this.setting = setting;
        this.flood = flood;
        this.held = held;
    }

    /** {@return the cut round a target with nothing thrown} */
    static Cut of(MayNet net, Exclusions tests, Contents contents) {
        BitSet none = new BitSet();
        return of(net, tests, contents, none, none, none, Bars.held(net, contents.parts, none));
    }

    /**
     * {@return the cut round a target}
     *
     * @param parted joints and wires of the target that are apart
     * @param lifted wire ends of the target that are lifted
     * @param thrown poles that are open
     * @param held bars that end reach
     */
    static Cut of(
            MayNet net, Exclusions tests, Contents contents, BitSet parted, BitSet lifted, BitSet thrown, BitSet held) {
        BitSet gone = (BitSet) parted.clone();
        gone.or(thrown);
        Flood.Setting setting = new Flood.Setting(gone, lifted, held, contents.inside, Flood.Extent.ALL);
        Flood flood = Flood.from(net, setting, tests, contents.starts(gone));
        Cut cut = new Cut(net, setting, flood, held, !tests.isEmpty());
        if (!flood.poles.isEmpty()) {
            cut.findNeeded(gone);
        }
        return cut;
    }

    private void findNeeded(BitSet gone) {
        Flood live = fromSources(gone, sources());
        for (int p = flood.poles.nextSetBit(0); p >= 0; p = flood.poles.nextSetBit(p + 1)) {
            if (hasLiveSide(live, p)) {
                needed.set(p);
            }
        }
    }

    /**
     * Whether current comes to a side of a pole that is no part of what the target is joined to. Where a source may be joined to the target
     * itself, which no throw clears, a bus counts all the same: the rest is to be cleared as if that source were not there. Where tests
     * exclude poles, every side counts: what the flood passed may be joined to the target only by what those tests rule out.
     */
    private boolean hasLiveSide(Flood live, int pole) {
        for (int i = 0; i < net.recordedCount(pole); i++) {
            int u = net.recorded(pole, i);
            boolean beyond =
                    isTested || !flood.seen.get(u) || (!flood.sources.isEmpty() && net.kind(u) == MayNet.Kind.BUS);
            if (live.seen.get(u) && beyond) {
                return true;
            }
        }
        return false;
    }

    /** What current may come to with the poles round the target open. */
    private Flood fromSources(BitSet gone, int... starts) {
        BitSet open = (BitSet) gone.clone();
        flood.poles.stream()
                .filter(p -> flood.sources.isEmpty() || net.kind(p) != MayNet.Kind.MAIN_POLE)
                .forEach(open::set);
        BitSet conducting = new BitSet();
        net.handles().forEach(h -> h.poles().forEach(conducting::set));
        Flood.Setting s = new Flood.Setting(open, setting.lifted(), held, conducting, Flood.Extent.ALL);
        return Flood.from(net, s, Exclusions.none(net), starts);
    }

    private int[] sources() {
        BitSet all = new BitSet();
        all.set(net.world());
        for (int v = 0; v < net.size(); v++) {
            if (net.kind(v) == MayNet.Kind.SOURCE_POLE) {
                all.set(v);
            }
        }
        return all.stream().toArray();
    }

    /** {@return whether current from these source terminals may come to the other side of a pole that must be opened} */
    boolean mayCome(BitSet terminals) {
        Flood live = fromSources(setting.gone(), terminals.stream().toArray());
        return needed.stream().anyMatch(p -> hasLiveSide(live, p));
    }

    /** {@return the poles that feed the buses of the poles that must be opened: with one of them off the target may go off too} */
    BitSet upstream(Exclusions tests) {
        BitSet found = new BitSet();
        java.util.Set<String> panels = new java.util.HashSet<>();
        needed.stream().forEach(p -> panels.add(net.box(p)));
        boolean more = true;
        while (more) {
            more = false;
            for (MayNet.Handle h : net.handles()) {
                for (int p : h.poles()) {
                    if (!found.get(p) && net.kind(p) == MayNet.Kind.POLE && feeds(tests.reach(p), panels)) {
                        found.set(p);
                        panels.add(h.panel());
                        more = true;
                    }
                }
            }
        }
        return found;
    }

    private boolean feeds(BitSet reach, java.util.Set<String> panels) {
        return reach.stream()
                .anyMatch(v -> (net.kind(v) == MayNet.Kind.LUG || net.kind(v) == MayNet.Kind.BUS)
                        && panels.contains(net.box(v)));
    }
}
