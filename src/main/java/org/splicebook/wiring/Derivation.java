package org.splicebook.wiring;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import org.splicebook.record.House;

/** Derives the wiring from a record. A pure function, close to linear in the number of wires. */
public final class Derivation {
    private final Net net;
    private final Reach reach;
    private final Ways ways;
    private final LoadPoints loadPoints;
    private final Effects effects;
    private final Unknowns unknowns;
    /** By load point. */
    private final List<Relied> relies = new ArrayList<>();

    private final Map<Thing, int[]> wholeThings = new HashMap<>();
    private final Map<Integer, Map<Thing, Sureness>> overcurrent = new HashMap<>();

    private Derivation(House house) {
        this.net = NetBuilder.build(house);
        this.reach = new Reach(net);
        this.ways = new Ways(reach);
        this.loadPoints = new LoadPoints(reach, ways);
        this.effects = new Effects(reach);
        this.unknowns = new Unknowns(reach);
    }

    /**
     * {@return all that is derived from a record}
     *
     * @param house a validated record; the same record gives an equal result
     */
    public static Wiring derive(House house) {
        return new Derivation(house).derive(true);
    }

    /**
     * What a judge of many like houses needs of each.
     *
     * @param wiring all that is derived, without what goes when something is lost
     * @param tables what each load point does in every position of the levers, as {@link LeverTables#of} tells it
     */
    public record Judged(Wiring wiring, List<LeverTables.Table> tables) {}

    /** {@return what is derived from a record, without losses, and its tables: over one netlist, in a good part of the time} */
    public static Judged judged(House house) {
        Derivation d = new Derivation(house);
        return new Judged(d.derive(false), LeverTables.of(d.reach));
    }

    private Wiring derive(boolean withLosses) {
        reliance();
        Protections protections = new Protections(reach, ways);
        List<List<Feed>> feeds = new ArrayList<>();
        List<LoadPointWiring> told = new ArrayList<>();
        for (int lp = 0; lp < net.loadPoints.size(); lp++) {
            List<Feed> recorded = loadPoints.feeds(lp);
            feeds.add(recorded);
            told.add(loadPoint(lp, recorded, protections));
        }
        NeutralIslands islands = new NeutralIslands(reach);
        Loops loops = new Loops(reach, ways);
        List<Crossing> crossings = new Crossings(reach, islands, loops, loadPoints, protections, feeds).all();
        return new Wiring(
                net.house,
                told,
                unknowns.wireUses(loadPoints.wireUses()),
                islands.told(feeds),
                crossings,
                withLosses ? losses() : List.of(),
                unknowns.regions());
    }

    private LoadPointWiring loadPoint(int lp, List<Feed> feeds, Protections protections) {
        Net.LoadPoint p = net.loadPoints.get(lp);
        List<ProtectedBy> by = protections.of(lp, feeds, overcurrent.getOrDefault(lp, Map.of()));
        return new LoadPointWiring(
                p.id(),
                p.device(),
                p.box(),
                p.place(),
                loadPoints.supply(lp),
                unknowns.feeds(lp, feeds, loadPoints),
                unknowns.returns(lp, loadPoints.returns(lp)),
                unknowns.grounds(lp, loadPoints.grounds(lp)),
                unknowns.relies(lp, relies.get(lp).all(), wholeThings),
                unknowns.protections(lp, by, wholeThings));
    }

    /** Things come in order, so that what each load point relies on does too. */
    private void reliance() {
        net.loadPoints.forEach(lp -> relies.add(new Relied()));
        List<Things.Lossy> things = Things.reliable(net);
        things.sort(Comparator.comparing(Things.Lossy::thing));
        for (Things.Lossy x : things) {
            wholeThings.put(x.thing(), x.vertices());
            boolean breaker = x.thing().kind() == ThingKind.BREAKER || x.thing().kind() == ThingKind.MAIN;
            Relied.On on = new Relied.On(x.thing());
            for (Effects.Effect e : effects.of(x.vertices())) {
                relies.get(e.loadPoint()).add(e, on);
                if (breaker && e.terminalFewer()) {
                    overcurrent
                            .computeIfAbsent(e.loadPoint(), k -> new TreeMap<>())
                            .put(x.thing(), e.always() ? Sureness.MUST : Sureness.MAY);
                }
            }
        }
    }

    private List<Loss> losses() {
        List<Loss> found = new ArrayList<>();
        // Things with the same effects share their rows, unless what is unknown makes a difference between them.
        IdentityHashMap<List<Effects.Effect>, List<LossRow>> shared = new IdentityHashMap<>();
        boolean whole = unknowns.regions().isEmpty() && net.assumedFed.isEmpty();
        for (Things.Lossy x : Things.losses(net)) {
            List<Effects.Effect> changes = effects.of(x.vertices());
            List<LossRow> rows = whole
                    ? shared.computeIfAbsent(changes, c -> List.copyOf(rows(c, x.vertices())))
                    : possible(x, rows(changes, x.vertices()));
            if (!rows.isEmpty()) {
                found.add(new Loss(x.mode(), x.thing(), rows));
            }
        }
        return found;
    }

    private List<LossRow> rows(List<Effects.Effect> changes, int[] gone) {
        List<LossRow> rows = new ArrayList<>();
        for (Effects.Effect e : changes) {
            if (e.changes()) {
                rows.add(new LossRow(
                        net.loadPoints.get(e.loadPoint()).id(),
                        e.hot(),
                        e.neutral(),
                        e.ground(),
                        unknowns.sureness(e, gone)));
            }
        }
        return rows;
    }

    /** A breaker may also feed what hangs on something that is not recorded. */
    private List<LossRow> possible(Things.Lossy x, List<LossRow> rows) {
        if (!unknowns.mayHang(x.vertices())) {
            return rows;
        }
        Set<String> already = new HashSet<>();
        rows.forEach(r -> already.add(r.loadPoint()));
        Set<String> hanging = unknowns.mayHang(x.vertices(), already);
        hanging.forEach(lp ->
                rows.add(new LossRow(lp, LossRow.Hot.LOST, LossRow.Neutral.KEPT, LossRow.Ground.KEPT, Sureness.MAY)));
        if (!hanging.isEmpty()) {
            rows.sort(Comparator.comparing(LossRow::loadPoint));
        }
        return rows;
    }
}
