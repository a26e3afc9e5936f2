package org.splicebook.wiring;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.House;

/**
 * Derives the wiring from a record. A pure function, close to linear in the number of wires.
 *
 * <p>What most who ask for a wiring never look at, what is lost with each thing and what each load point relies on, is derived when it is
 * first looked at; until then the wiring holds on to the netlist.
 */
public final class Derivation {
    private final Net net;
    private final Reach reach;
    private final Ways ways;
    private final LoadPoints loadPoints;
    private final AfterLoss afterLoss;
    private final Unknowns unknowns;
    private @Nullable Effects effects;
    private @Nullable Reliance reliance;

    private Derivation(House house) {
        this.net = NetBuilder.build(house);
        this.reach = new Reach(net);
        this.ways = new Ways(reach);
        this.loadPoints = new LoadPoints(reach, ways);
        this.afterLoss = new AfterLoss(reach);
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
        List<Things.Lossy> breakers = Things.overcurrent(net);
        Overcurrent overcurrent = new Overcurrent(reach, afterLoss, breakers);
        Protections protections = new Protections(reach, ways, breakers);
        List<List<LoadPoints.Fed>> feeds = new ArrayList<>();
        List<LoadPointWiring> told = new ArrayList<>();
        for (int lp = 0; lp < net.loadPoints.size(); lp++) {
            List<LoadPoints.Fed> recorded = loadPoints.feeds(lp);
            feeds.add(recorded);
            told.add(loadPoint(lp, recorded, protections.of(lp, recorded, overcurrent.of(lp))));
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
                withLosses ? new Later<>(net, () -> new Losses(net, effects(), unknowns).all()) : List.of(),
                unknowns.regions());
    }

    private LoadPointWiring loadPoint(int lp, List<LoadPoints.Fed> feeds, List<ProtectedBy> by) {
        Net.LoadPoint p = net.loadPoints.get(lp);
        return new LoadPointWiring(
                p.id(),
                p.device(),
                p.box(),
                p.place(),
                loadPoints.supply(lp),
                unknowns.feeds(lp, feeds.stream().map(LoadPoints.Fed::feed).toList(), loadPoints),
                unknowns.returns(lp, loadPoints.returns(lp)),
                unknowns.grounds(lp, loadPoints.grounds(lp)),
                new Later<>(net, () -> reliance().of(lp)),
                unknowns.protections(lp, by));
    }

    /** Losses and reliance share them; under the lock of what is put off. */
    private Effects effects() {
        if (effects == null) {
            effects = new Effects(reach, afterLoss);
        }
        return effects;
    }

    /** Found for all load points at once; under the lock of what is put off. */
    private Reliance reliance() {
        if (reliance == null) {
            reliance = new Reliance(net, effects(), unknowns);
        }
        return reliance;
    }
}
