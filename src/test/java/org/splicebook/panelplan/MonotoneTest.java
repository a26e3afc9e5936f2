package org.splicebook.panelplan;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.splicebook.panelplan.Demand.Verdict;
import org.splicebook.panelplan.DemandLoad.Kind;

/**
 * More never demands less: more area, a larger load, a further one, a tighter rating. Left out is where the code itself is not monotone:
 * the fourth appliance and the fourth heater bring the percentage of all down, and a second range changes the row of the table.
 */
class MonotoneTest {
    private static final List<Kind> STEPPED = List.of(Kind.APPLIANCE, Kind.ROOM_HEATER, Kind.RANGE, Kind.DRYER);

    private static Dwelling random(Random r) {
        List<DemandLoad> loads = new ArrayList<>();
        for (int i = r.nextInt(9); i > 0; i--) {
            Kind kind = Kind.values()[r.nextInt(Kind.values().length)];
            boolean isOnce = kind == Kind.RANGE || kind == Kind.DRYER;
            if (!isOnce || loads.stream().noneMatch(l -> l.kind() == kind)) {
                loads.add(load("l" + i, kind, 600 + r.nextInt(9000), r.nextInt(4) == 0));
            }
        }
        return new Dwelling(
                500.0 + r.nextInt(3500),
                2 + r.nextInt(3),
                1 + r.nextInt(2),
                loads,
                r.nextBoolean() ? Dwelling.SPLIT_PHASE : Dwelling.WYE,
                100.0 + 25 * r.nextInt(5),
                List.of());
    }

    private static DemandLoad load(String name, Kind kind, double va, boolean isNew) {
        return new DemandLoad(name, kind, va, isNew, RecordedDwelling.isMotor(kind), false, null);
    }

    private static List<Demand> all(Dwelling d, int edition) {
        List<Demand> all = new ArrayList<>(List.of(Demands.standard(d, edition), Demands.optional(d, edition)));
        all.addAll(Demands.existing(d, edition));
        all.addAll(Demands.metered(d, Metering.of(8400), edition));
        all.add(Demands.units(List.of(d, d, d), edition));
        return all;
    }

    private static void notLess(Dwelling less, Dwelling more, String about) {
        for (int edition : Demands.editions()) {
            List<Demand> a = all(less, edition);
            List<Demand> b = all(more, edition);
            for (int i = 0; i < Math.min(a.size(), b.size()); i++) {
                if (a.get(i).reading().equals(b.get(i).reading())) {
                    assertThat(b.get(i).va())
                            .as("%s %s %d", about, a.get(i).method(), edition)
                            .isGreaterThanOrEqualTo(a.get(i).va() - 1e-6);
                }
            }
        }
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5})
    void moreAreaAndMoreCircuitsNeverDemandLess(long seed) {
        Random r = new Random(seed);
        for (int round = 0; round < 100; round++) {
            Dwelling d = random(r);
            Dwelling wide = new Dwelling(
                    d.area() + r.nextInt(2000),
                    d.smallAppliance() + r.nextInt(2),
                    d.laundry() + r.nextInt(2),
                    d.loads(),
                    d.volts(),
                    d.rating(),
                    List.of());
            notLess(d, wide, "seed " + seed + " round " + round);
        }
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5})
    void aLargerLoadNeverDemandsLess(long seed) {
        Random r = new Random(seed);
        for (int round = 0; round < 100; round++) {
            Dwelling d = random(r);
            if (d.loads().isEmpty()) {
                continue;
            }
            DemandLoad one = d.loads().get(r.nextInt(d.loads().size()));
            double more = one.counted() + r.nextInt(5000);
            notLess(
                    d,
                    d.map(l -> l.name().equals(one.name()) ? l.withVa(more) : l),
                    "seed " + seed + " round " + round + " " + one.kind());
        }
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5})
    void aFurtherLoadNeverDemandsLess(long seed) {
        Random r = new Random(seed);
        for (int round = 0; round < 100; round++) {
            Dwelling d = random(r);
            Kind kind = Kind.values()[r.nextInt(Kind.values().length)];
            if (!STEPPED.contains(kind)) {
                notLess(
                        d,
                        d.with(load("x", kind, r.nextInt(9000), r.nextBoolean())),
                        "seed " + seed + " round " + round);
            }
        }
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3})
    void aHigherRatingNeverRefusesAndHoldingALoadNeverDemandsMore(long seed) {
        Random r = new Random(seed);
        for (int round = 0; round < 100; round++) {
            Dwelling d = random(r).with(load("ev", Kind.VEHICLE, 2000 + r.nextInt(9000), true));
            Dwelling strong = new Dwelling(
                    d.area(), d.smallAppliance(), d.laundry(), d.loads(), d.volts(), d.rating() + 50, List.of());
            double hold = 1000 + r.nextInt(5000);
            Dwelling held = d.map(l -> l.name().equals("ev") ? l.heldTo(hold) : l);
            notLess(held, d, "seed " + seed + " round " + round + " held");
            for (int edition : Demands.editions()) {
                List<Demand> weak = all(d, edition);
                List<Demand> more = all(strong, edition);
                for (int i = 0; i < weak.size(); i++) {
                    if (weak.get(i).verdict() == Verdict.FITS) {
                        assertThat(more.get(i).verdict())
                                .as("seed %d round %d", seed, round)
                                .isEqualTo(Verdict.FITS);
                    }
                }
            }
        }
    }
}
