package org.splicebook.wiring.evidence;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.splicebook.record.House;
import org.splicebook.record.Sighting;
import org.splicebook.record.SourceSystem;
import org.splicebook.wiring.MayNet;

/** What sightings and record claim of the poles that feed each point, for finding contradictions. */
final class Claims {
    /** Volts from which two hots are on unlike legs. */
    private static final double UNLIKE = 200;
    /** Volts up to which two live hots are on one leg. */
    private static final double ONE_LEG = 10;

    private final House house;
    private final MayNet net;
    private final Points points;
    private final Supplied supplied;
    private final BitSet held;
    private final BitSet everyPole = new BitSet();
    /** Stands for a source that nobody listed. */
    private final int unlisted;
    /** Stands for whatever lights a point through a load, which no claim on poles speaks of. */
    private final int throughLoad;

    private final List<Claim> all = new ArrayList<>();
    /** By name of a point as claims call it: its nodes. */
    private final Map<String, List<Integer>> nodesOf = new LinkedHashMap<>();

    /** By such a name: the lever positions in it. */
    private final Map<String, String> positionOf = new java.util.HashMap<>();

    private final Map<List<Integer>, BitSet> comingThroughLoads = new java.util.HashMap<>();
    private final Map<List<Integer>, Direct> direct = new java.util.HashMap<>();

    Claims(House house, MayNet net) {
        this.house = house;
        this.net = net;
        this.points = new Points(house, net);
        this.supplied = new Supplied(house, net);
        BitSet none = new BitSet();
        this.held = Bars.held(net, none, none);
        this.unlisted = net.size();
        this.throughLoad = net.size() + 1;
        net.handles()
                .forEach(h -> h.poles().stream()
                        .filter(p -> net.kind(p) == MayNet.Kind.POLE)
                        .forEach(everyPole::set));
        everyPole.set(unlisted);
    }

    /** {@return the contradictions among sightings and record} */
    Conflicts conflicts(List<Sighting> sightings) {
        sightings.forEach(this::sighting);
        record();
        BitSet any = (BitSet) everyPole.clone();
        any.set(throughLoad);
        return new Consistency(all, any, this::leg).conflicts();
    }

    private String leg(int pole) {
        if (pole == unlisted || pole == throughLoad) {
            return "";
        }
        for (int i = 0; i < net.recordedCount(pole); i++) {
            int u = net.recorded(pole, i);
            if (net.kind(u) == MayNet.Kind.BUS) {
                String bus = net.name(u);
                return bus.substring(bus.lastIndexOf('.') + 1);
            }
        }
        return "";
    }

    private Direct direct(List<Integer> nodes) {
        return direct.computeIfAbsent(nodes, k -> Direct.ofAny(net, held, new BitSet(), k));
    }

    private void claim(Sighting s, Claim.Kind kind, BitSet poles, String... at) {
        all.add(new Claim(new Fact.Sighted(s.id()), kind, List.of(at), poles));
    }

    private void sighting(Sighting s) {
        Sighting.Seen seen = s.seen();
        if (seen instanceof Sighting.Lit l) {
            lit(s, l);
        } else if (seen instanceof Sighting.Volts v) {
            volts(s, v);
        } else if (seen instanceof Sighting.LoadStep step) {
            step(s, step);
        } else if (seen instanceof Sighting.Pressed p) {
            pressed(s, p);
        } else if (seen instanceof Sighting.Continuity c) {
            continuity(s, c);
        } else if (seen instanceof Sighting.Lamps l
                && l.hotNeutral()
                && !name(s, l.at()).isEmpty()) {
            claim(s, Claim.Kind.SOME, lighting(everyPole, name(s, l.at())), name(s, l.at()));
        }
    }

    /** The name of a point as claims call it: its node and the positions in which it was read of the switches that matter; empty for none. */
    private String name(Sighting s, String point) {
        List<Integer> nodes = points.nodes(point);
        if (nodes.isEmpty()) {
            return "";
        }
        Map<String, String> levers = new TreeMap<>(s.levers());
        levers.keySet().retainAll(direct(nodes).levers());
        boolean allNoted = levers.size() == direct(nodes).levers().size();
        String position = (levers.isEmpty() ? "" : " " + levers) + (allNoted ? "" : " (" + s.id() + ")");
        String name = (points.loadPoint(point) == null ? net.name(nodes.get(0)) : point) + position;
        nodesOf.put(name, nodes);
        positionOf.put(name, position);
        return name;
    }

    /** {@return these poles, and what stands for a load if one may light the point with what they have behind them} */
    private BitSet lighting(BitSet poles, String point) {
        BitSet all = (BitSet) poles.clone();
        BitSet met = comingThroughLoads.computeIfAbsent(
                nodesOf.getOrDefault(point, List.of()), n -> Direct.throughLoads(net, held, n));
        if (met.intersects(poles) || met.get(unlisted)) {
            all.set(throughLoad);
        }
        return all;
    }

    private void lit(Sighting s, Sighting.Lit l) {
        String at = name(s, l.at());
        Set<MayNet.Handle> off = points.handlesOf(s.withOff());
        MayNet.LoadPoint lp = points.loadPoint(l.at());
        if (at.isEmpty() || off == null || (lp != null && lp.pairs().size() != 1)) {
            return;
        }
        BitSet opened = Outs.poles(off);
        boolean both = lp != null && isAcrossTwoHots(lp);
        if (Outs.isLit(s)) {
            if (both) {
                claim(s, Claim.Kind.NONE, opened, at);
            } else {
                claim(s, Claim.Kind.SOME, lighting(withUnlisted(supplied.perhaps(opened)), at), at);
            }
        } else if (Outs.isPaired(s)) {
            BitSet surely = supplied.surely(opened);
            if (both) {
                BitSet rest = (BitSet) everyPole.clone();
                rest.andNot(surely);
                claim(s, Claim.Kind.SOME, lighting(rest, at), at);
            } else {
                claim(s, Claim.Kind.SOME, lighting(everyPole, at), at);
                claim(s, Claim.Kind.NONE, surely, at);
            }
        }
    }

    private boolean isAcrossTwoHots(MayNet.LoadPoint lp) {
        org.splicebook.record.Device d = points.device(lp.device());
        return d != null
                && d.kind().loadPoints().stream()
                        .flatMap(p -> p.pairs().stream())
                        .anyMatch(p -> p.volts() >= UNLIKE);
    }

    private BitSet withUnlisted(BitSet poles) {
        BitSet b = (BitSet) poles.clone();
        b.set(unlisted);
        return b;
    }

    private void volts(Sighting s, Sighting.Volts v) {
        boolean otherSystem = house.sources().values().stream()
                .anyMatch(x -> x.system() == SourceSystem.SINGLE_230 || x.system() == SourceSystem.WYE_230_400);
        String a = name(s, v.from());
        String b = name(s, v.to());
        if (otherSystem || a.isEmpty() || b.isEmpty() || !s.withOff().isEmpty() || !Instruments.tells(s.instrument())) {
            return;
        }
        double volts = v.volts().value().doubleValue();
        if (volts >= UNLIKE) {
            claim(s, Claim.Kind.SOME, lighting(everyPole, a), a);
            claim(s, Claim.Kind.SOME, lighting(everyPole, b), b);
            claim(s, Claim.Kind.UNLIKE_LEGS, new BitSet(), a, b);
        } else if (volts <= ONE_LEG) {
            claim(s, Claim.Kind.ONE_LEG, new BitSet(), a, b);
        }
    }

    private void step(Sighting s, Sighting.LoadStep step) {
        String at = name(s, step.at());
        MayNet.Handle h = points.handle(step.seenAt());
        if (at.isEmpty() || h == null) {
            return;
        }
        BitSet behind = (BitSet) everyPole.clone();
        BitSet opened = Outs.poles(Set.of(h));
        BitSet still = supplied.perhaps(opened);
        behind.andNot(still);
        claim(s, Claim.Kind.SOME, withUnlisted(behind), at);
    }

    private void pressed(Sighting s, Sighting.Pressed p) {
        BitSet contacts = contacts(p.device());
        if (contacts.isEmpty()) {
            return;
        }
        for (String point : p.wentOut()) {
            through(s, point, p.device(), contacts, true);
        }
        for (String point : p.stayed()) {
            through(s, point, p.device(), contacts, false);
        }
    }

    private void through(Sighting s, String point, String device, BitSet contacts, boolean wentOut) {
        String at = name(s, point);
        List<Integer> nodes = nodesOf.get(at);
        if (nodes == null) {
            return;
        }
        Direct without = Direct.ofAny(net, held, contacts, nodes);
        String subject = (wentOut ? "past " : "only through ") + device;
        boolean says = wentOut
                ? !without.surePoles.isEmpty()
                : without.poles.isEmpty()
                        && !without.meetsWorld
                        && !without.meetsSource
                        && !direct(nodes).poles.isEmpty();
        if (says) {
            Fact record =
                    new Fact.Recorded(at, wentOut ? Fact.Says.FED_PAST : Fact.Says.FED_ONLY_THROUGH, List.of(device));
            all.add(new Claim(record, Claim.Kind.YES, List.of(at, subject), new BitSet()));
            claim(s, Claim.Kind.NO, new BitSet(), at, subject);
        }
    }

    /** What opens when a device's button is pressed: its links, or a breaker's poles. */
    private BitSet contacts(String device) {
        MayNet.Handle h = points.handle(device);
        BitSet found = new BitSet();
        if (h != null) {
            return Outs.poles(Set.of(h));
        }
        for (int v = 0; v < net.size(); v++) {
            if (net.kind(v) == MayNet.Kind.LINK && net.name(v).equals(device)) {
                found.set(v);
            }
        }
        return found;
    }

    private void continuity(Sighting s, Sighting.Continuity c) {
        String a = name(s, c.from());
        String b = name(s, c.to());
        List<Integer> v = nodesOf.get(a);
        List<Integer> u = nodesOf.get(b);
        if (c.connected() || v == null || u == null || v.size() != 1 || u.size() != 1) {
            return;
        }
        if (!direct(v).sure.get(u.get(0))) {
            return;
        }
        all.add(new Claim(
                new Fact.Recorded(a, Fact.Says.JOINED_TO, List.of(b)), Claim.Kind.YES, List.of(a, b), new BitSet()));
        claim(s, Claim.Kind.NO, new BitSet(), a, b);
    }

    /** What the record says of the points that sightings speak of. */
    private void record() {
        Map<List<Object>, String> first = new java.util.HashMap<>();
        new LinkedHashMap<>(nodesOf).forEach((name, nodes) -> {
            Direct d = direct(nodes);
            BitSet sure = (BitSet) d.surePoles.clone();
            sure.and(everyPole);
            if (!sure.isEmpty()) {
                add(name, Fact.Says.FED_BY, Claim.Kind.ALL, sure, sure);
            }
            BitSet others = (BitSet) everyPole.clone();
            others.andNot(d.poles);
            if (d.meetsWorld || d.meetsSource || d.meetsUnknown) {
                others.clear(unlisted);
            }
            // What no pole reaches over wires may still be lit through a load or a transformer.
            if (!others.isEmpty() && !d.poles.isEmpty()) {
                add(name, Fact.Says.FED_BY_NOTHING_BUT, Claim.Kind.NONE, others, d.poles);
            }
            int stands = nodes.size() == 1 ? d.sure.nextSetBit(0) : -1;
            if (stands < 0) {
                return;
            }
            // What is joined is fed alike only while the switches stand alike.
            String other = first.putIfAbsent(List.of(stands, positionOf.getOrDefault(name, "")), name);
            if (other != null) {
                all.add(new Claim(
                        new Fact.Recorded(name, Fact.Says.JOINED_TO, List.of(other)),
                        Claim.Kind.SAME,
                        List.of(other, name),
                        new BitSet()));
            }
        });
    }

    private void add(String point, Fact.Says says, Claim.Kind kind, BitSet poles, BitSet named) {
        Set<String> breakers = new TreeSet<>();
        named.stream()
                .mapToObj(net::handleOf)
                .filter(java.util.Objects::nonNull)
                .forEach(h -> breakers.addAll(h.breakers()));
        all.add(new Claim(new Fact.Recorded(point, says, List.copyOf(breakers)), kind, List.of(point), poles));
    }
}
