package org.splicebook.wiring.shutoff;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.splicebook.record.Basis;
import org.splicebook.wiring.MayNet;
import org.splicebook.wiring.Sureness;
import org.splicebook.wiring.Way;
import org.splicebook.wiring.evidence.Bars;
import org.splicebook.wiring.evidence.Exclusions;

/** For each wire of a target the breakers that may reach it, and one way of each. */
final class Reasons {
    final List<ShutOff.WireReason> all = new ArrayList<>();
    /** Breakers that the record shows to reach something in the target. */
    final Set<String> shown = new TreeSet<>();
    /** Whether the record shows a source that reaches the target with nothing between that can be opened. */
    final boolean showSource;
    /** By conductor of the target: how many breakers may reach it, and whether something not recorded may. */
    final Map<String, Integer> doubt = new LinkedHashMap<>();

    private final ShutOffs of;
    private final Exclusions tests;
    private final Cut cut;
    /** The target, and how it is walked, in the graph of the whole record. */
    private final Contents asRecorded;

    private final Flood.Setting recordSetting;

    Reasons(ShutOffs of, Exclusions tests, Contents contents, Cut cut) {
        this.of = of;
        this.tests = tests;
        this.cut = cut;
        boolean same = of.recorded == of.net;
        this.asRecorded = same ? contents : Contents.of(of.house, of.recorded, contents.target);
        BitSet none = new BitSet();
        BitSet held = same ? cut.setting.held() : Bars.held(of.recorded, asRecorded.parts, none);
        this.recordSetting = new Flood.Setting(none, none, held, asRecorded.inside, Flood.Extent.RECORDED);
        contents.conductors.forEach(this::conductor);
        int[] things = asRecorded.things.stream().mapToInt(Integer::intValue).toArray();
        Flood whole = recordFlood(things);
        whole.poles.stream().forEach(p -> shown.add(breaker(of.recorded, p)));
        showSource = whole.sources.stream().anyMatch(v -> !of.recorded.isSupplyUnknown(of.recorded.name(v)));
    }

    private Flood recordFlood(int... starts) {
        return Flood.from(of.recorded, recordSetting, Exclusions.none(of.recorded), starts);
    }

    private static String breaker(MayNet net, int pole) {
        MayNet.Handle h = net.handleOf(pole);
        if (h == null) {
            return net.name(pole);
        }
        return h.breakers().stream()
                .filter(b -> h.isMain() || Throws.isPoleOf(net.name(pole), b))
                .findFirst()
                .orElse(h.breakers().get(0));
    }

    private void conductor(String name, int v) {
        MayNet net = of.net;
        Flood may = Flood.from(net, cut.setting, tests, v);
        Flood record = recordFlood(asRecorded.conductors.getOrDefault(name, v));
        Map<String, Integer> shownPoles = new LinkedHashMap<>();
        record.poles.stream().forEach(p -> shownPoles.putIfAbsent(breaker(of.recorded, p), p));
        Map<String, Integer> poles = new LinkedHashMap<>();
        may.poles.stream().filter(cut.needed::get).forEach(p -> poles.putIfAbsent(breaker(net, p), p));
        poles.forEach((breaker, p) -> {
            Integer known = shownPoles.get(breaker);
            all.add(
                    known == null
                            ? reason(net, name, breaker, p, may, false)
                            : reason(of.recorded, name, breaker, known, record, true));
        });
        may.sources.stream().forEach(s -> all.add(reason(net, name, ShutOffs.sourceOf(net, s), s, may, false)));
        doubt.put(name, poles.size() + (may.reachesWorld() ? net.handles().size() : 0));
    }

    private static ShutOff.WireReason reason(
            MayNet net, String wire, String breaker, int goal, Flood flood, boolean isShown) {
        List<Integer> nodes = new ArrayList<>();
        for (int n = goal; n >= 0 && nodes.size() <= net.nodes(); n = flood.before[n]) {
            nodes.add(n);
        }
        Collections.reverse(nodes);
        boolean load = nodes.stream().anyMatch(flood.acrossLoad::get);
        return new ShutOff.WireReason(
                wire,
                breaker,
                load ? ShutOff.How.THROUGH_LOAD : ShutOff.How.OVER_WIRES,
                isShown ? Sureness.SHOWN : Sureness.MAY,
                way(net, nodes, !isShown));
    }

    /** A way in the trade's steps: what is passed, each thing once. */
    private static Way way(MayNet net, List<Integer> nodes, boolean unknown) {
        List<Way.Hop> hops = new ArrayList<>();
        Basis weakest = unknown ? Basis.ASSUMED : Basis.SEEN;
        for (int n : nodes) {
            int v = net.thingOf(n);
            if (v < 0) {
                continue;
            }
            weakest = weakest.weaker(net.basis(v));
            Way.Hop hop = new Way.Hop(net.thing(v), net.box(v), net.basis(v));
            if (hops.isEmpty() || !hops.get(hops.size() - 1).equals(hop)) {
                hops.add(hop);
            }
        }
        return new Way(hops, weakest, unknown);
    }
}
