package org.splicebook.wiring.shutoff;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.splicebook.record.House;
import org.splicebook.record.Sighting;
import org.splicebook.record.Source;
import org.splicebook.record.SourceKind;
import org.splicebook.wiring.MayNet;
import org.splicebook.wiring.evidence.Bars;
import org.splicebook.wiring.evidence.Evidence;
import org.splicebook.wiring.evidence.Exclusions;
import org.splicebook.wiring.evidence.SeenOnly;

/** The shut-offs of one house with its sightings; made once, asked often. Not safe for several threads at once. */
public final class ShutOffs {
    /** More throws than this, and clearing every source is the safer order. */
    private static final int MANY = 6;

    final House house;
    /** The house with only what was seen taken as known. */
    final House seen;

    final MayNet net;
    /** The graph of the whole record, for what the record shows. */
    final MayNet recorded;

    final Exclusions tests;

    private ShutOffs(House house, Exclusions tests, House seen, MayNet net) {
        this.house = house;
        this.seen = seen;
        this.net = net;
        this.recorded = seen.equals(house) ? net : MayNet.of(house);
        this.tests = tests;
    }

    /**
     * {@return the shut-offs of a house}
     *
     * @param house the record
     * @param standing the sightings that still stand
     */
    public static ShutOffs of(House house, List<Sighting> standing) {
        House seen = SeenOnly.of(house);
        MayNet net = MayNet.of(seen);
        return new ShutOffs(house, Evidence.exclusions(seen, net, standing), seen, net);
    }

    /**
     * {@return what must be off before hands come to a target}
     *
     * @throws IllegalArgumentException if a box, panel or cable of the target is not in the record
     */
    public ShutOff of(Target target) {
        Contents contents = Contents.of(seen, net, target);
        boolean count = !contents.holdsPanel && tests.countWhere(Bars.held(net, contents.parts, new BitSet()));
        Exclusions told = Exclusions.none(net);
        Cut cut = Cut.of(net, told, contents);
        if (count && !tests.isEmpty()) {
            Cut tested = Cut.of(net, tests, contents);
            // Both are sound; the tests are gone by only where they spare a throw.
            if (handlesOf(tested.needed).size() < handlesOf(cut.needed).size()) {
                told = tests;
                cut = tested;
            }
        }
        Set<MayNet.Handle> needed = handlesOf(cut.needed);
        Throws throwing = new Throws(this);
        Reasons reasons = new Reasons(this, told, contents, cut);
        List<ShutOff.Throw> toThrow = throwing.inOrder(needed, cut.needed, reasons.shown);
        List<ShutOff.Throw> everything = throwing.everything();
        BitSet thrown = poles(needed);
        ShutOff.Proof proof = new Proofs(net, told, contents, thrown).run();
        Verdict verdict = verdict(target, cut, reasons, proof);
        return new ShutOff(
                target,
                verdict,
                toThrow,
                verdict != Verdict.SHOULD_BE_OFF || toThrow.size() > MANY,
                everything,
                reasons.all,
                alternates(cut),
                throwing.staysLive(everything),
                new AffectedPoints(this, told).of(thrown),
                ToTests.of(contents, reasons),
                excluded(contents, cut, told),
                openBoxes(cut.flood),
                proof);
    }

    private Verdict verdict(Target target, Cut cut, Reasons reasons, ShutOff.Proof proof) {
        boolean other = cut.flood.sources.stream().anyMatch(v -> !net.isSupplyUnknown(net.name(v)) && !isUsual(v));
        if (!proof.holds() || other || reasons.showSource) {
            return Verdict.NONE_KNOWN;
        }
        return cut.flood.reachesWorld() || !cut.flood.sources.isEmpty() || target instanceof Target.Spot
                ? Verdict.UNLESS_UNLISTED
                : Verdict.SHOULD_BE_OFF;
    }

    /** Whether a source's terminal is that of a service or riser. */
    private boolean isUsual(int v) {
        Source source = house.sources().get(sourceOf(net, v));
        return source != null && (source.kind() == SourceKind.SERVICE || source.kind() == SourceKind.RISER);
    }

    Set<MayNet.Handle> handlesOf(BitSet poles) {
        Set<MayNet.Handle> handles = new LinkedHashSet<>();
        for (MayNet.Handle h : net.handles()) {
            if (h.poles().stream().anyMatch(poles::get)) {
                handles.add(h);
            }
        }
        return handles;
    }

    static BitSet poles(Set<MayNet.Handle> handles) {
        BitSet all = new BitSet();
        handles.forEach(h -> h.poles().forEach(all::set));
        return all;
    }

    static String sourceOf(MayNet net, int v) {
        String name = net.name(v);
        return name.substring(0, name.lastIndexOf('.'));
    }

    /** Sources from which current may come to the other side of a pole that must be opened, or straight to the target. */
    private List<ShutOff.Alternate> alternates(Cut cut) {
        Map<String, BitSet> poles = new TreeMap<>();
        for (int v = 0; v < net.size(); v++) {
            if (net.kind(v) == MayNet.Kind.SOURCE_POLE) {
                poles.computeIfAbsent(sourceOf(net, v), k -> new BitSet()).set(v);
            }
        }
        List<ShutOff.Alternate> found = new ArrayList<>();
        poles.forEach((source, at) -> {
            boolean straight = at.intersects(cut.flood.sources);
            boolean usual = at.stream().anyMatch(this::isUsual);
            if (straight || (!usual && cut.mayCome(at))) {
                found.add(new ShutOff.Alternate(source, !straight));
            }
        });
        return found;
    }

    private List<String> openBoxes(Flood flood) {
        Set<String> boxes = new TreeSet<>();
        flood.seen.stream().forEach(n -> {
            String box = net.unknownBox(n);
            if (box != null) {
                boxes.add(box);
            }
        });
        return List.copyOf(boxes);
    }

    /** A breaker is excluded if it reaches nothing in the target and what it feeds does not feed a breaker that must be thrown. */
    private List<ShutOff.Excluded> excluded(Contents contents, Cut cut, Exclusions told) {
        BitSet upstream = cut.upstream(told);
        Flood untested = told.isEmpty()
                ? cut.flood
                : Flood.from(net, cut.setting, Exclusions.none(net), contents.starts(new BitSet()));
        List<ShutOff.Excluded> found = new ArrayList<>();
        for (MayNet.Handle h : net.handles()) {
            boolean reaches = h.poles().stream().anyMatch(p -> cut.flood.poles.get(p) || upstream.get(p));
            boolean touched = h.poles().stream().anyMatch(contents.inside::get);
            if (h.isMain() || reaches || touched) {
                continue;
            }
            Set<String> by = new TreeSet<>();
            for (int p : h.poles()) {
                if (untested.poles.get(p)) {
                    by.addAll(told.sightingsAgainst(p));
                }
            }
            h.breakers().forEach(b -> found.add(new ShutOff.Excluded(b, List.copyOf(by))));
        }
        return found;
    }
}
