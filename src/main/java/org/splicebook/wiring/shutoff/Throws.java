package org.splicebook.wiring.shutoff;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.splicebook.record.Panel;
import org.splicebook.wiring.MayNet;
import org.splicebook.wiring.Sureness;
import org.splicebook.wiring.Thing;
import org.splicebook.wiring.ThingKind;
import org.splicebook.wiring.evidence.Bars;
import org.splicebook.wiring.evidence.Exclusions;

/** Handles told as throws, in order. */
final class Throws {
    private final ShutOffs of;
    private final MayNet net;

    Throws(ShutOffs of) {
        this.of = of;
        this.net = of.net;
    }

    /**
     * {@return the throws in order: breakers before mains, so that no main breaks the load, panels farther from the source first}
     *
     * @param handles what is thrown
     * @param needed the poles for which
     * @param shown the breakers that the record shows to reach the target
     */
    List<ShutOff.Throw> inOrder(Collection<MayNet.Handle> handles, BitSet needed, Set<String> shown) {
        Map<String, Integer> depth = depths();
        List<MayNet.Handle> ordered = new ArrayList<>(handles);
        ordered.sort(Comparator.<MayNet.Handle>comparingInt(h -> h.isMain() ? 1 : 0)
                .thenComparing(h -> -depth.getOrDefault(h.panel(), 0))
                .thenComparing(MayNet.Handle::panel)
                .thenComparing(h -> number(h.breakers().get(0)))
                .thenComparing(h -> h.breakers().get(0)));
        return ordered.stream().map(h -> told(h, needed, shown)).toList();
    }

    private ShutOff.Throw told(MayNet.Handle h, BitSet needed, Set<String> shown) {
        List<String> partners = h.breakers().stream()
                .filter(b ->
                        !h.isMain() && h.poles().stream().noneMatch(p -> needed.get(p) && isPoleOf(net.name(p), b)))
                .toList();
        Panel panel = of.house.panels().get(h.panel());
        return new ShutOff.Throw(
                h.panel(),
                panel == null ? null : panel.place(),
                h.isMain(),
                h.breakers(),
                h.breakers().stream().anyMatch(shown::contains) ? Sureness.SHOWN : Sureness.MAY,
                partners);
    }

    /** Whether {@code main.2} is a pole of {@code main.2+4}. */
    static boolean isPoleOf(String pole, String breaker) {
        int dot = breaker.indexOf('.');
        return dot >= 0
                && pole.startsWith(breaker.substring(0, dot + 1))
                && List.of(breaker.substring(dot + 1).split("\\+")).contains(pole.substring(dot + 1));
    }

    private static int number(String breaker) {
        String digits = breaker.substring(breaker.indexOf('.') + 1).replaceFirst("\\D.*", "");
        return digits.isEmpty() || digits.length() > 6 ? 0 : Integer.parseInt(digits);
    }

    /** How many panels lie between a panel and its source. */
    private Map<String, Integer> depths() {
        Map<String, Integer> depth = new TreeMap<>();
        for (Panel p : of.house.panels().values()) {
            if (p.supply().stream().anyMatch(of.house.sources()::containsKey)) {
                depth.put(p.name(), 0);
            }
        }
        int before = -1;
        while (before != depth.size()) {
            before = depth.size();
            for (Panel p : of.house.panels().values()) {
                p.supply().stream()
                        .map(of.house.cables()::get)
                        .filter(java.util.Objects::nonNull)
                        .flatMap(c -> c.ends().stream())
                        .map(e -> e.boxOrNull())
                        .filter(b -> b != null && !b.equals(p.name()) && depth.containsKey(b))
                        .forEach(b -> depth.putIfAbsent(p.name(), depth.getOrDefault(b, 0) + 1));
            }
        }
        of.house.panels().keySet().forEach(p -> depth.putIfAbsent(p, 1));
        return depth;
    }

    /** {@return the throws that clear every source: the first that can be opened from each} */
    List<ShutOff.Throw> everything() {
        Flood first = fromSources(new BitSet());
        Set<String> all = new TreeSet<>();
        net.handles().forEach(h -> all.addAll(h.breakers()));
        return inOrder(of.handlesOf(first.poles), first.poles, all);
    }

    private Flood fromSources(BitSet thrown, int... only) {
        BitSet none = new BitSet();
        Flood.Setting s = new Flood.Setting(thrown, none, Bars.held(net, none, none), none, Flood.Extent.RECORDED);
        return Flood.from(net, s, Exclusions.none(net), only.length == 0 ? sourcePoles("") : only);
    }

    private int[] sourcePoles(String source) {
        BitSet poles = new BitSet();
        for (int v = 0; v < net.size(); v++) {
            if (net.kind(v) == MayNet.Kind.SOURCE_POLE
                    && (source.isEmpty() || ShutOffs.sourceOf(net, v).equals(source))) {
                poles.set(v);
            }
        }
        return poles.stream().toArray();
    }

    /** {@return what each source keeps live when every source is cleared as far as the record can} */
    List<ShutOff.StaysLive> staysLive(List<ShutOff.Throw> everything) {
        BitSet thrown = new BitSet();
        Set<String> named = new TreeSet<>();
        everything.forEach(t -> named.addAll(t.breakers()));
        net.handles().stream()
                .filter(h -> named.containsAll(h.breakers()))
                .forEach(h -> h.poles().forEach(thrown::set));
        Set<String> sources = new TreeSet<>();
        for (int v : sourcePoles("")) {
            sources.add(ShutOffs.sourceOf(net, v));
        }
        return sources.stream().map(s -> live(s, thrown)).toList();
    }

    private ShutOff.StaysLive live(String source, BitSet thrown) {
        Flood flood = fromSources(thrown, sourcePoles(source));
        Set<Thing> things = new TreeSet<>();
        Set<String> boxes = new TreeSet<>();
        flood.seen.stream().filter(v -> v < net.size()).forEach(v -> {
            switch (net.kind(v)) {
                case LUG, TERMINAL, BUS -> things.add(net.thing(v));
                case WIRE ->
                    things.add(new Thing(
                            ThingKind.CABLE,
                            net.name(v).substring(0, net.name(v).indexOf('.'))));
                default -> {}
            }
            if (!net.box(v).isEmpty() && !isHeld(v)) {
                boxes.add(net.box(v));
            }
        });
        return new ShutOff.StaysLive(source, List.copyOf(things), List.copyOf(boxes));
    }

    private boolean isHeld(int v) {
        return net.kind(v) == MayNet.Kind.NEUTRAL_BAR || net.kind(v) == MayNet.Kind.GROUND_BAR;
    }
}
