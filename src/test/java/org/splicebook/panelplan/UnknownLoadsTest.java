package org.splicebook.panelplan;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.splicebook.panelplan.Demand.Verdict;
import org.splicebook.panelplan.DemandLoad.Kind;

/** What is not known is never taken for nothing: the least that is told holds whatever the unknown turns out to be. */
class UnknownLoadsTest {
    private static final List<Kind> ONCE = List.of(Kind.RANGE, Kind.DRYER);

    private static DemandLoad load(String name, Kind kind, Double va, boolean isNew) {
        return new DemandLoad(name, kind, va, isNew, RecordedDwelling.isMotor(kind), false, null);
    }

    private static Dwelling random(Random random) {
        List<DemandLoad> loads = new ArrayList<>();
        int n = random.nextInt(12);
        for (int i = 0; i < n; i++) {
            // Appliances and heaters are where more can mean less.
            Kind kind = random.nextInt(3) > 0
                    ? (random.nextBoolean() ? Kind.APPLIANCE : Kind.ROOM_HEATER)
                    : Kind.values()[random.nextInt(Kind.values().length)];
            if (!ONCE.contains(kind) || loads.stream().noneMatch(l -> l.kind() == kind)) {
                loads.add(load("l" + i, kind, (double) (100 + random.nextInt(9000)), random.nextInt(4) == 0));
            }
        }
        double volts = random.nextBoolean() ? Dwelling.SPLIT_PHASE : Dwelling.WYE;
        return new Dwelling((double) random.nextInt(4000), 2, 1, loads, volts, 150.0, List.of());
    }

    private static List<Demand> all(Dwelling d, int edition) {
        return List.of(Demands.standard(d, edition), Demands.optional(d, edition));
    }

    /** The same dwelling before the plates of some loads were read, and before others were found. */
    private static Dwelling partlyKnown(Dwelling whole, Random random) {
        boolean open = random.nextBoolean();
        List<DemandLoad> known = new ArrayList<>();
        for (DemandLoad l : whole.loads()) {
            int what = random.nextInt(3);
            if (what == 0) {
                known.add(load(l.name(), l.kind(), null, l.isNew()));
            } else if (what == 1 || !open) {
                known.add(l);
            }
        }
        return new Dwelling(
                whole.area(), 2, 1, known, whole.volts(), whole.rating(), List.of("what else?"), open, List.of());
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10})
    void leastHoldsForEveryCompletion(long seed) {
        Random random = new Random(seed);
        for (int round = 0; round < 300; round++) {
            Dwelling whole = random(random);
            Dwelling partly = partlyKnown(whole, random);
            for (int edition : Demands.editions()) {
                List<Demand> known = all(partly, edition);
                List<Demand> truth = all(whole, edition);
                for (int i = 0; i < known.size(); i++) {
                    String about = "seed " + seed + " round " + round + " "
                            + known.get(i).method() + " " + edition;
                    assertThat(known.get(i).least())
                            .as(about)
                            .isLessThanOrEqualTo(truth.get(i).amps() + 1e-9);
                    assertThat(known.get(i).verdict()).as(about).isNotEqualTo(Verdict.FITS);
                    if (known.get(i).verdict() == Verdict.TOO_MUCH) {
                        assertThat(truth.get(i).verdict()).as(about).isEqualTo(Verdict.TOO_MUCH);
                    }
                }
            }
        }
    }

    @Test
    void fourthHeaterThatMayBeThereBringsTheLeastDown() {
        List<DemandLoad> one = List.of(load("a", Kind.ROOM_HEATER, 10000.0, false));
        List<DemandLoad> four = new ArrayList<>(one);
        for (String name : List.of("b", "c", "d")) {
            four.add(load(name, Kind.ROOM_HEATER, null, false));
        }
        Demand known =
                Demands.optional(new Dwelling(0.0, 2, 1, four, 240, 100.0, List.of("sizes"), false, List.of()), 2023);
        // By what is known 65 %; with all four at work 40 % of at least the one.
        assertThat(known.va()).isCloseTo(4500 + 6500, within(1e-6));
        assertThat(known.least() * 240).isCloseTo(4500 + 4000, within(1e-6));
        Demand sure = Demands.optional(new Dwelling(0.0, 2, 1, one, 240, 100.0, List.of()), 2023);
        assertThat(sure.least()).isEqualTo(sure.amps());
    }

    @Test
    void vehicleOfUnknownSizeByEdition() {
        Dwelling d = new Dwelling(
                0.0, 2, 1, List.of(load("charger", Kind.VEHICLE, null, true)), 240, 100.0, List.of("charger?"));
        double base = Demands.standard(d.keep(l -> false), 2023).va();
        assertThat(Demands.standard(d, 2020).va()).isEqualTo(base);
        assertThat(Demands.standard(d, 2023).va()).isEqualTo(base + 7200);
        assertThat(Demands.standard(d, 2023).least() * 240).isCloseTo(base + 7200, within(1e-6));
        assertThat(Demands.standard(d, 2026).va()).isEqualTo(base + 7200);
        assertThat(Demands.standard(d, 2026).least() * 240).isCloseTo(base, within(1e-6));
    }

    @ParameterizedTest
    @ValueSource(longs = {11, 12, 13})
    void optionalMethodChangedIn2026ByArea(long seed) {
        Random random = new Random(seed);
        for (int round = 0; round < 300; round++) {
            double charger = random.nextInt(3) * 5760;
            Dwelling d =
                    random(random).keep(l -> l.kind() != Kind.VEHICLE).with(load("big", Kind.APPLIANCE, 9000.0, false));
            double area = d.area() == null ? 0 : d.area();
            Dwelling with = d.with(load("charger", Kind.VEHICLE, charger, true));
            assertThat(Demands.optional(with, 2026).va())
                    .as("seed %d round %d", seed, round)
                    .isCloseTo(Demands.optional(with, 2023).va() - 0.4 * area - 1200 + 0.6 * charger, within(1e-6));
        }
    }

    @Test
    void optionalMethodIsNotForSmallServices() {
        Dwelling d = new Dwelling(100.0, 2, 1, List.of(), 240, 60.0, List.of());
        assertThat(Demands.optional(d, 2023).verdict()).isEqualTo(Verdict.NOT_FOR_THIS);
        assertThat(Demands.standard(d, 2023).verdict()).isEqualTo(Verdict.FITS);
    }
}
