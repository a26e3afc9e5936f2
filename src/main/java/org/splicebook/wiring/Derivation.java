package org.splicebook.wiring;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
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
    private final Map<Integer, List<ReliesOn>> relies = new HashMap<>();
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
        return new Derivation(house).derive();
    }

    private Wiring derive() {
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
        told.sort(Comparator.comparing(LoadPointWiring::id));
        return new Wiring(
                net.house,
                told,
                unknowns.wireUses(loadPoints.wireUses()),
                islands.told(feeds),
                crossings,
                losses(),
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
                unknowns.relies(lp, relies.getOrDefault(lp, List.of()), wholeThings),
                unknowns.protections(lp, by, wholeThings));
    }

    private void reliance() {
        for (Things.Lossy x : Things.reliable(net)) {
            wholeThings.put(x.thing(), x.vertices());
            boolean breaker = x.thing().kind() == ThingKind.BREAKER || x.thing().kind() == ThingKind.MAIN;
            for (Effects.Effect e : effects.of(x.vertices())) {
                List<ReliesOn> list = relies.computeIfAbsent(e.loadPoint(), k -> new ArrayList<>());
                switch (e.hot()) {
                    case LOST, LOST_LIVE_THROUGH_LOAD ->
                        list.add(new ReliesOn(Conductor.HOT, x.thing(), Sureness.MUST));
                    default -> {
                        if (e.fewer()) {
                            list.add(new ReliesOn(Conductor.HOT, x.thing(), Sureness.MAY));
                        }
                    }
                }
                switch (e.neutral()) {
                    case LOST, OVER_GROUND -> list.add(new ReliesOn(Conductor.NEUTRAL, x.thing(), Sureness.MUST));
                    case IMPAIRED -> list.add(new ReliesOn(Conductor.NEUTRAL, x.thing(), Sureness.MAY));
                    default -> {}
                }
                switch (e.ground()) {
                    case LOST -> list.add(new ReliesOn(Conductor.GROUND, x.thing(), Sureness.MUST));
                    case IMPAIRED -> list.add(new ReliesOn(Conductor.GROUND, x.thing(), Sureness.MAY));
                    default -> {}
                }
                if (breaker && e.terminalFewer()) {
                    overcurrent
                            .computeIfAbsent(e.loadPoint(), k -> new TreeMap<>())
                            .put(x.thing(), e.always() ? Sureness.MUST : Sureness.MAY);
                }
            }
        }
        relies.values()
                .forEach(l -> l.sort(Comparator.comparing(ReliesOn::conductor).thenComparing(ReliesOn::thing)));
    }

    private List<Loss> losses() {
        List<Loss> found = new ArrayList<>();
        for (Things.Lossy x : Things.losses(net)) {
            List<LossRow> rows = new ArrayList<>();
            for (Effects.Effect e : effects.of(x.vertices())) {
                if (e.changes()) {
                    rows.add(new LossRow(
                            net.loadPoints.get(e.loadPoint()).id(),
                            e.hot(),
                            e.neutral(),
                            e.ground(),
                            unknowns.sureness(e, x.vertices())));
                }
            }
            addPossible(x, rows);
            rows.sort(Comparator.comparing(LossRow::loadPoint));
            if (!rows.isEmpty()) {
                found.add(new Loss(x.mode(), x.thing(), rows));
            }
        }
        return found;
    }

    /** A breaker may also feed what hangs on something that is not recorded. */
    private void addPossible(Things.Lossy x, List<LossRow> rows) {
        Set<String> already = new HashSet<>();
        rows.forEach(r -> already.add(r.loadPoint()));
        unknowns.mayHang(x.vertices(), already)
                .forEach(lp -> rows.add(
                        new LossRow(lp, LossRow.Hot.LOST, LossRow.Neutral.KEPT, LossRow.Ground.KEPT, Sureness.MAY)));
    }
}
