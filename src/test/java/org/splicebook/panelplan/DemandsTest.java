package org.splicebook.panelplan;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.splicebook.panelplan.Demand.Verdict;
import org.splicebook.panelplan.DemandLoad.Kind;

/** Load calculations against cases that were worked by hand, and laws that hold for every dwelling. */
class DemandsTest {
    private static final double CENT = 0.005001;

    private static DemandLoad load(String name, Kind kind, @Nullable Double va, boolean isNew) {
        return new DemandLoad(name, kind, va, isNew, RecordedDwelling.isMotor(kind), false, null);
    }

    private static DemandLoad on120(String name, Kind kind, double va, boolean motor) {
        return new DemandLoad(name, kind, va, false, motor, true, null);
    }

    private static final DemandLoad CHARGER = load("charger", Kind.VEHICLE, 11520.0, true);

    /** 2,000 square feet with gas heat and an air conditioner. */
    private static final Dwelling HOUSE = new Dwelling(
            2000.0,
            2,
            1,
            List.of(
                    on120("dishwasher", Kind.APPLIANCE, 1200, false),
                    on120("disposer", Kind.APPLIANCE, 900, true),
                    on120("microwave", Kind.APPLIANCE, 1600, false),
                    load("water heater", Kind.APPLIANCE, 4500.0, false),
                    load("range", Kind.RANGE, 12000.0, false),
                    load("dryer", Kind.DRYER, 5000.0, false),
                    load("condenser", Kind.COOLING, 5760.0, false),
                    on120("blower", Kind.AIR_HANDLER, 600, false)),
            Dwelling.SPLIT_PHASE,
            150.0,
            List.of());

    /** 1,400 square feet on 100 A. */
    private static final Dwelling SMALL = new Dwelling(
            1400.0,
            2,
            1,
            List.of(
                    on120("dishwasher", Kind.APPLIANCE, 1200, false),
                    load("water heater", Kind.APPLIANCE, 4500.0, false),
                    load("dryer", Kind.DRYER, 5000.0, false),
                    load("condenser", Kind.COOLING, 3840.0, false)),
            Dwelling.SPLIT_PHASE,
            100.0,
            List.of());

    private static final Dwelling APARTMENT = new Dwelling(
            900.0,
            2,
            1,
            List.of(
                    on120("dishwasher", Kind.APPLIANCE, 1200, false),
                    load("water heater", Kind.APPLIANCE, 4500.0, false),
                    load("range", Kind.RANGE, 12000.0, false),
                    load("dryer", Kind.DRYER, 5000.0, false),
                    load("air conditioner", Kind.COOLING, 2496.0, false)),
            Dwelling.WYE,
            150.0,
            List.of());

    private static void is(Demand demand, double va, double amps) {
        assertThat(demand.va()).isCloseTo(va, within(0.5));
        assertThat(demand.amps()).isCloseTo(amps, within(CENT));
    }

    @Test
    void standardMethodGivesTheWorkedHouse() {
        for (int edition : new int[] {2014, 2017, 2020, 2023}) {
            is(Demands.standard(HOUSE, edition), 32575, 135.73);
            is(Demands.standard(HOUSE.with(CHARGER), edition), 44095, 183.73);
        }
        is(Demands.standard(HOUSE, 2026), 31875, 132.81);
        assertThat(Demands.standard(HOUSE, 2023).neutral()).isCloseTo(76.35, within(CENT));
        assertThat(ServiceSize.of(Demands.standard(HOUSE, 2023)).orElseThrow().rating())
                .isEqualTo(150);
        assertThat(ServiceSize.of(Demands.standard(HOUSE.with(CHARGER), 2023)).orElseThrow())
                .isEqualTo(new ServiceSize(200, "2/0", "4/0", "4", "4"));
    }

    @Test
    void optionalMethodGivesTheWorkedHouseInEachEdition() {
        is(Demands.optional(HOUSE, 2014), 26640, 111.00);
        is(Demands.optional(HOUSE.with(CHARGER), 2023), 31248, 130.20);
        is(Demands.optional(HOUSE, 2026), 24640, 102.67);
        is(Demands.optional(HOUSE.with(CHARGER), 2026), 36160, 150.67);
        assertThat(Demands.optional(HOUSE.with(CHARGER), 2023).verdict()).isEqualTo(Verdict.FITS);
        assertThat(Demands.optional(HOUSE.with(CHARGER), 2026).verdict())
                .as("151 A on 150")
                .isEqualTo(Verdict.TOO_MUCH);
    }

    @Test
    void existingDwellingGivesItsThreeReadings() {
        DemandLoad charger = load("charger", Kind.VEHICLE, 7680.0, true);
        is(Demands.existing(SMALL, 2023).get(0), 12560, 52.33);
        List<Demand> readings = Demands.existing(SMALL.with(charger), 2023);
        assertThat(readings).hasSize(3);
        is(readings.get(0), 15632, 65.13);
        is(readings.get(1), 17168, 71.53);
        is(readings.get(2), 19472, 81.13);
    }

    @ParameterizedTest
    @CsvSource({
        "7680,true,26392,109.97,TOO_MUCH",
        "7680,false,21392,89.13,FITS",
        "5760,true,25624,106.77,TOO_MUCH",
        "0,true,23320,97.17,FITS"
    })
    void newHeatPumpCountsInFull(double charger, boolean strip, double va, double amps, Verdict verdict) {
        Dwelling d = SMALL.keep(l -> l.kind() != Kind.COOLING)
                .with(load("heat pump", Kind.HEAT_PUMP, 5760.0, true))
                .with(load("charger", Kind.VEHICLE, charger, true));
        List<Demand> made = Demands.existing(strip ? d.with(load("strip", Kind.STRIP_HEAT, 5000.0, true)) : d, 2023);
        assertThat(made).hasSize(1);
        is(made.get(0), va, amps);
        assertThat(made.get(0).verdict()).isEqualTo(verdict);
    }

    @Test
    void meteredDemandGivesTheWorkedCases() {
        Dwelling d = SMALL.with(load("charger", Kind.VEHICLE, 7680.0, true));
        List<Demand> low = Demands.metered(d, Metering.of(8400), 2023);
        is(low.get(0), 18180, 75.75);
        is(low.get(1), 20100, 83.75);
        is(Demands.metered(d, Metering.of(16000), 2023).get(0), 27680, 115.33);
    }

    @Test
    void apartmentOnTwoLegsOfAWye() {
        Demand demand = Demands.standard(APARTMENT, 2023);
        is(demand, 26290, 126.39);
        ServiceSize size = ServiceSize.of(demand).orElseThrow();
        assertThat(List.of(size.rating(), String.valueOf(size.copper()), String.valueOf(size.aluminium())))
                .isEqualTo(List.of(150, "1", "2/0"));
    }

    @Test
    void twelveApartments() {
        is(Demands.units(Collections.nCopies(12, APARTMENT), 2023), 159388.32, 442.42);
    }

    @ParameterizedTest
    @CsvSource({"14000,1,8800", "16600,1,10000", "14000,10,27500", "12000,8,23000", "12000,30,45000", "12000,60,70000"})
    void cookingByTheTable(double each, int n, double va) {
        assertThat(Cooking.demand(Collections.nCopies(n, each))).isCloseTo(va, within(0.01));
    }

    @ParameterizedTest
    @CsvSource({"4,100", "5,85", "11,47", "12,46", "23,35", "24,34.5", "42,25.5", "43,25", "80,25"})
    void dryersByTheTable(int n, double percent) {
        assertThat(Cooking.dryerPercent(n)).isEqualTo(percent);
    }

    @Test
    void vehicleChargingByEdition() {
        Dwelling slow = HOUSE.with(load("charger", Kind.VEHICLE, 3840.0, true));
        double base = Demands.standard(HOUSE, 2023).va();
        assertThat(Demands.standard(slow, 2020).va() - base).isCloseTo(3840, within(0.01));
        assertThat(Demands.standard(slow, 2023).va() - base).isCloseTo(7200, within(0.01));
        assertThat(Demands.standard(slow, 2026).va()
                        - Demands.standard(HOUSE, 2026).va())
                .isCloseTo(3840, within(0.01));
    }

    @Test
    void managedLoadCountsAtItsSetPoint() {
        DemandLoad held = new DemandLoad("charger", Kind.VEHICLE, 11520.0, true, false, false, 2880.0);
        assertThat(Demands.optional(HOUSE.with(held), 2026).va()).isCloseTo(24640 + 2880, within(0.01));
    }

    @Test
    void whatIsNotKnownIsNeverCalledFitting() {
        Dwelling d = new Dwelling(
                1400.0, 2, 1, List.of(load("range", Kind.RANGE, null, false)), 240, 200.0, List.of("the range?"));
        assertThat(Demands.optional(d, 2023).verdict()).isEqualTo(Verdict.TO_BE_ASKED);
        assertThat(Demands.optional(d, 2023).lines()).anyMatch(l -> l.what().contains("NOT KNOWN"));
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8})
    void moreNeverDemandsLessAndLinesAddUp(long seed) {
        Random random = new Random(seed);
        for (int round = 0; round < 200; round++) {
            Kind kind = Kind.values()[random.nextInt(Kind.values().length)];
            boolean isNew = random.nextBoolean();
            // One range on top of another changes the table's row, where the code itself is not monotone.
            Dwelling base = kind == Kind.RANGE || kind == Kind.APPLIANCE || kind == Kind.ROOM_HEATER
                    ? HOUSE.keep(l -> l.kind() != kind)
                    : HOUSE;
            double small = random.nextInt(20000);
            double large = small + random.nextInt(5000);
            for (int edition : Demands.editions()) {
                List<Demand> less = all(base.with(load("x", kind, small, isNew)), edition);
                List<Demand> more = all(base.with(load("x", kind, large, isNew)), edition);
                for (int i = 0; i < less.size(); i++) {
                    assertThat(more.get(i).va())
                            .as("seed %d %s %s %d", seed, kind, less.get(i).method(), edition)
                            .isGreaterThanOrEqualTo(less.get(i).va() - 1e-6);
                    double sum = less.get(i).lines().stream()
                            .filter(Demand.Line::counts)
                            .mapToDouble(Demand.Line::va)
                            .sum();
                    assertThat(sum).isCloseTo(less.get(i).va(), within(1e-6));
                }
            }
        }
    }

    private static List<Demand> all(Dwelling d, int edition) {
        List<Demand> all = new ArrayList<>(Demands.existing(d, edition));
        all.add(Demands.standard(d, edition));
        all.add(Demands.optional(d, edition));
        all.addAll(Demands.metered(d, Metering.of(8400), edition));
        return all;
    }
}
