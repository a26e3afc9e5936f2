package org.splicebook.oracle;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.splicebook.oracle.Netlist.Kind;
import org.splicebook.oracle.Netlist.Load;
import org.splicebook.oracle.Netlist.Vertex;
import org.splicebook.oracle.Removals.Removal;
import org.splicebook.record.House;
import org.splicebook.wiring.Supply;
import org.splicebook.wiring.Sureness;

/**
 * The relations of a complete house, found by flooding the raw netlist in every lever position, and "relies on" and "lost" by taking
 * the thing away and flooding again.
 *
 * <p>Readings, where the words leave room:
 *
 * <ul>
 *   <li>Each exclusive group is one more lever: in a position one of its members is closed. As-found positions play no part.
 *   <li>No bond conducts. A ground bar goes on to ground by its source, over a feeder's ground wire, or by a bond in its panel whose
 *       neutral bar goes on.
 *   <li>A load point's levers are those in the parts that its terminals lie in when all levers conduct, and those of the feeders.
 *   <li>A return over ground: a ground bar that goes on, in a position in which that terminal reaches no neutral bar that goes on.
 *   <li>Lost and yet live through a load: with all levers conducting, a load terminal lies in a part that touches no live bus and no
 *       bar that holds it at neutral or ground, and is reached from a live bus through loads over such parts only. A bus that
 *       nothing feeds any more, and a neutral bar that goes on nowhere, join like a wire.
 *   <li>Protections are judged by taking the sensor away: overcurrent if some hot terminal goes dead, ground-fault if every hot
 *       terminal goes dead and every neutral one loses its neutral.
 * </ul>
 */
public final class Oracle {
    final Netlist net;
    final Removals removals;
    final BitSet feederPart;
    final Set<String> feederCables;
    final BitSet feederLevers = new BitSet();
    final Set<Integer> bondBars = new TreeSet<>();
    final Positions positions;
    final Facts facts = new Facts();
    final Protections protections;
    private final Losses losses;
    final Map<String, TreeSet<String>> feeds = new LinkedHashMap<>();
    private final Map<List<Object>, Feeders> feeders = new HashMap<>();

    /** What one terminal reaches in one world. */
    record Reach(BitSet seen, TreeSet<String> poles, BitSet neutralBars, BitSet groundBars) {
        boolean hot() {
            return !poles.isEmpty();
        }

        boolean neutral() {
            return !neutralBars.isEmpty();
        }
    }

    /** What a load point reaches in one world, by terminal; its ground terminal too. */
    record Seen(Map<Integer, Reach> load, boolean grounded, BitSet groundBars, BitSet all) {
        boolean live() {
            return load.values().stream().anyMatch(Reach::hot);
        }

        boolean neutral() {
            return load.values().stream().anyMatch(Reach::neutral);
        }
    }

    Oracle(House house) {
        net = new Netlist(house);
        removals = new Removals(net);
        feederPart = Feeders.part(net);
        feederCables = Feeders.cables(net);
        positions = new Positions(net, feederLevers);
        protections = new Protections(this);
        losses = new Losses(this);
        for (Vertex v : net.vertices) {
            if (feederPart.get(v.id)) {
                v.conditions.forEach(c -> feederLevers.set(c.lever()));
            }
        }
        for (int i = 0; i < net.levers.size(); i++) {
            if (net.levers.get(i).exclusive()) {
                feederLevers.set(i);
            }
        }
        house.sources().values().forEach(s -> {
            if (s.bond() != null) {
                bondBars.add(net.at(s.bond() + ".n"));
            }
        });
    }

    /**
     * {@return every relation of that house}
     *
     * @throws World.TooMany where it has too many positions or ways to try them one by one
     */
    static Facts facts(House house) {
        return facts(new Oracle(house), true);
    }

    /** {@return every relation of that house, where not asked for without those that tell what is lost with a thing} */
    static Facts facts(Oracle o, boolean withRemovals) {
        Map<BitSet, List<Load>> together = new LinkedHashMap<>();
        for (Load l : o.net.loads) {
            together.computeIfAbsent(o.positions.levers(terminals(l)), x -> new ArrayList<>())
                    .add(l);
        }
        together.forEach((levers, loads) -> o.loadPoints(loads, o.positions.of(levers), withRemovals));
        o.wires();
        new Islands(o).find();
        return o.facts;
    }

    List<World> positions(Iterable<Integer> vertices) {
        return positions.of(positions.levers(vertices));
    }

    /** {@return the feeders of a world; kept by the positions of the levers and the vertices that matter to them} */
    Feeders feeders(World w) {
        List<Object> key = new ArrayList<>();
        feederLevers.stream().forEach(l -> key.add(w.position[l]));
        BitSet gone = (BitSet) w.removed.clone();
        gone.and(feederPart);
        key.add(gone);
        Feeders f = feeders.get(key);
        if (f == null) {
            f = new Feeders(w, feederPart, feederCables);
            feeders.put(key, f);
        }
        return f;
    }

    Reach reach(World w, int terminal) {
        return judge(feeders(w), w.flood(terminal));
    }

    /** What a region reaches, as far as the feeders go on. */
    private Reach judge(Feeders f, BitSet seen) {
        TreeSet<String> poles = new TreeSet<>();
        BitSet neutral = new BitSet();
        BitSet ground = new BitSet();
        boolean groundRegion = isGround(seen);
        BitSet ends = (BitSet) seen.clone();
        ends.and(net.ends);
        for (int v = ends.nextSetBit(0); v >= 0; v = ends.nextSetBit(v + 1)) {
            Vertex x = net.vertices.get(v);
            if (x.kind == Kind.POLE && f.live(v)) {
                poles.add(x.name.substring(5));
            } else if (Feeders.isHotSource(x)) {
                poles.add(x.name);
            } else if (x.kind == Kind.NEUTRAL_BAR && f.neutralBars.get(v)) {
                (groundRegion && bondBars.contains(v) ? ground : neutral).set(v);
            } else if (x.kind == Kind.GROUND_BAR && f.groundBars.get(v)) {
                ground.set(v);
            }
        }
        return new Reach(seen, poles, neutral, ground);
    }

    /** A region at the neutral bar of the panel with the main bond, with a ground terminal or metal and no load terminal. */
    boolean isGround(BitSet region) {
        return bondBars.stream().anyMatch(region::get) && groundOnly(region);
    }

    boolean groundOnly(BitSet region) {
        boolean ground = false;
        for (int v = region.nextSetBit(0); v >= 0; v = region.nextSetBit(v + 1)) {
            Vertex x = net.vertices.get(v);
            if (x.loadTerminal) {
                return false;
            }
            ground |= x.groundTerminal || x.kind == Kind.METAL;
        }
        return ground;
    }

    /** What was reached in one world, by region, so that a region is flooded once. */
    private final class Memo {
        final World world;
        final Feeders feeders;
        final List<Reach> known = new ArrayList<>();
        /** The regions before anything was taken away; those that held nothing of it are still the same. */
        final List<Reach> before;

        Memo(World world, List<Reach> before) {
            this.world = world;
            this.feeders = feeders(world);
            this.before = before;
        }

        Reach reach(int terminal) {
            for (Reach r : known) {
                if (r.seen().get(terminal)) {
                    return r;
                }
            }
            BitSet region = null;
            for (Reach b : before) {
                if (b.seen().get(terminal) && !b.seen().intersects(world.removed)) {
                    region = b.seen();
                }
            }
            Reach r = judge(feeders, region == null ? world.flood(terminal) : region);
            known.add(r);
            return r;
        }
    }

    private Seen see(Memo w, Load l) {
        Map<Integer, Reach> load = new LinkedHashMap<>();
        BitSet all = new BitSet();
        for (int t : l.terminals()) {
            Reach r = w.reach(t);
            load.put(t, r);
            all.or(r.seen());
        }
        BitSet bars = new BitSet();
        if (l.ground() >= 0) {
            Reach g = w.reach(l.ground());
            bars = g.groundBars();
            all.or(g.seen());
        }
        return new Seen(load, !bars.isEmpty(), bars, all);
    }

    private static List<Integer> terminals(Load l) {
        List<Integer> terminals = new ArrayList<>(l.terminals());
        if (l.ground() >= 0) {
            terminals.add(l.ground());
        }
        return terminals;
    }

    private static Sureness sure(int times, int of) {
        return times == of ? Sureness.MUST : Sureness.SHOWN;
    }

    /** Counts in how many positions each line holds. */
    static final class Tally extends TreeMap<String, Integer> {
        private static final long serialVersionUID = 1;

        void add(String line) {
            merge(line, 1, Integer::sum);
        }
    }

    /** Load points for which the same levers matter. */
    private void loadPoints(List<Load> loads, List<World> worlds, boolean withRemovals) {
        List<Memo> memos = worlds.stream().map(w -> new Memo(w, List.of())).toList();
        List<List<Seen>> before = new ArrayList<>();
        for (Load l : loads) {
            List<Seen> b = memos.stream().map(m -> see(m, l)).toList();
            before.add(b);
            loadPoint(l, worlds, b);
        }
        if (withRemovals) {
            removals(loads, memos, before);
        }
    }

    private void loadPoint(Load l, List<World> worlds, List<Seen> before) {
        Tally tally = new Tally();
        Map<String, TreeSet<String>> sources = new TreeMap<>();
        TreeSet<String> fed = new TreeSet<>();
        for (int i = 0; i < worlds.size(); i++) {
            Feeders f = feeders(worlds.get(i));
            before.get(i).load().forEach((t, r) -> {
                String terminal = net.vertices.get(t).name;
                r.poles().forEach(p -> {
                    tally.add("feed " + l.id() + " " + p + " at " + terminal);
                    fed.add(p);
                    sources.computeIfAbsent("sources " + l.id() + " " + p + " at " + terminal, x -> new TreeSet<>())
                            .addAll(sourcesOf(f, p));
                });
                r.neutralBars().stream()
                        .forEach(b -> tally.add(
                                "return " + l.id() + " NEUTRAL " + net.vertices.get(b).name + " at " + terminal));
                if (!r.neutral()) {
                    r.groundBars().stream()
                            .forEach(b -> tally.add(
                                    "return " + l.id() + " GROUND " + net.vertices.get(b).name + " at " + terminal));
                }
            });
            before.get(i).groundBars().stream()
                    .forEach(b -> tally.add("ground " + l.id() + " " + net.vertices.get(b).name));
        }
        tally.forEach((line, n) -> facts.put(line, sure(n, worlds.size())));
        sources.forEach((line, s) -> facts.put(line, s));
        feeds.put(l.id(), fed);
        facts.put("supply " + l.id(), supply(l, worlds, before));
        protections.find(l, worlds, before);
    }

    Set<String> sourcesOf(Feeders f, String pole) {
        Integer bus = net.busOfPole.get(pole);
        return bus == null ? Set.of(pole) : f.sources(bus);
    }

    private Supply supply(Load l, List<World> worlds, List<Seen> before) {
        Supply best = Supply.NONE;
        for (int t : l.terminals()) {
            TreeSet<String> ever = new TreeSet<>();
            for (int i = 0; i < worlds.size(); i++) {
                Feeders f = feeders(worlds.get(i));
                Reach r = before.get(i).load().get(t);
                ever.addAll(r.poles());
                TreeSet<String> unlike = new TreeSet<>();
                r.poles().forEach(p -> unlike.addAll(sourcesOf(f, p)));
                long buses = r.poles().stream()
                        .map(p -> net.busOfPole.getOrDefault(p, poleVertex(p)))
                        .distinct()
                        .count();
                Supply here;
                if (buses > 1 && unlike.size() > 1) {
                    here = Supply.SHORT;
                } else if (r.poles().size() > 1) {
                    here = Supply.TWICE;
                } else if (r.poles().size() == 1) {
                    BitSet goal = new BitSet();
                    goal.set(poleVertex(r.poles().first()));
                    here = worlds.get(i).ways(t, goal).size() > 1 ? Supply.RING : Supply.ONCE;
                } else {
                    here = Supply.NONE;
                }
                best = here.compareTo(best) < 0 ? here : best;
            }
            if (ever.size() > 1 && Supply.EITHER.compareTo(best) < 0) {
                best = Supply.EITHER;
            }
        }
        return best;
    }

    int poleVertex(String pole) {
        Integer v = net.byName.get("pole " + pole);
        return v == null ? net.at(pole) : v;
    }

    boolean matters(BitSet gone, BitSet seen) {
        return gone.intersects(seen) || gone.intersects(feederPart);
    }

    private void removals(List<Load> loads, List<Memo> worlds, List<List<Seen>> before) {
        List<BitSet> everSeen = new ArrayList<>();
        for (List<Seen> b : before) {
            BitSet ever = new BitSet();
            b.forEach(s -> ever.or(s.all()));
            everSeen.add(ever);
        }
        removals.byGone.forEach((gone, things) -> {
            List<Memo> memos = null;
            for (int n = 0; n < loads.size(); n++) {
                if (!matters(gone, everSeen.get(n))) {
                    continue;
                }
                if (memos == null) {
                    memos = worlds.stream()
                            .map(m -> new Memo(m.world.without(gone), m.known))
                            .toList();
                }
                List<Seen> after = new ArrayList<>();
                for (int i = 0; i < worlds.size(); i++) {
                    Seen b = before.get(n).get(i);
                    after.add(matters(gone, b.all()) ? see(memos.get(i), loads.get(n)) : b);
                }
                for (Removal r : things) {
                    if (r.mode() == null) {
                        losses.relies(loads.get(n), r, before.get(n), after);
                    } else {
                        losses.lost(loads.get(n), r, before.get(n), after);
                    }
                }
            }
        });
    }

    private void wires() {
        for (Vertex v : net.vertices) {
            if (v.kind != Kind.WIRE) {
                continue;
            }
            List<World> worlds = positions(List.of(v.id));
            Tally tally = new Tally();
            for (World w : worlds) {
                Reach r = reach(w, v.id);
                r.poles().forEach(p -> tally.add("use " + v.name + " HOT " + p));
                if (r.neutral()) {
                    tally.add("use " + v.name + " NEUTRAL");
                }
                if (!r.groundBars().isEmpty()) {
                    tally.add("use " + v.name + " GROUND");
                }
            }
            tally.forEach((line, n) -> facts.put(line, sure(n, worlds.size())));
        }
    }
}
