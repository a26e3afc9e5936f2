package org.splicebook.panelplan;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.panelplan.Demand.Verdict;
import org.splicebook.panelplan.DemandLoad.Kind;
import org.splicebook.problem.Problem;
import org.splicebook.record.House;
import org.splicebook.wiring.Derivation;

/** What a record gives a calculation, what is asked beside it, and how it is told. */
class RecordedDwellingTest {
    private static final House SAMPLE = HouseFiles.read(Path.of("sample-house")).get();

    private static House house(String rating, String main, String devices) {
        return HouseFiles.parse("house", """
                        splicebook: 1
                        house: small
                        area: 1400 ft2
                        sources:
                          service: {system: split-phase 120/240, rating: %s, bond: main}
                        places:
                          room: {kind: utility}
                        panels:
                          main:
                            supply: [service]
                            %s
                            breakers: {1: {rating: 20 A}}
                        boxes:
                          box:
                            place: room
                            devices:
                              %s
                        """.formatted(rating, main, devices)).get();
    }

    private static final String MAIN = "main: {poles: 2, rating: 100 A}";

    private static Dwelling dwelling(House house, Told told) {
        return RecordedDwelling.of(Derivation.derive(house), told);
    }

    private static Map<String, DemandLoad> byName(Dwelling d) {
        return d.loads().stream().collect(Collectors.toMap(DemandLoad::name, l -> l));
    }

    @Test
    void sampleHouseGivesItsPlatesAndAsksForTheRest() {
        Dwelling d = dwelling(SAMPLE, Told.nothing());
        Map<String, DemandLoad> loads = byName(d);
        assertThat(d.area()).isCloseTo(168 / 0.09290304, within(1e-6));
        assertThat(d.rating()).isEqualTo(150);
        assertThat(loads.get("heater").va()).isEqualTo(4500);
        assertThat(loads.get("heat-pump").kind()).isEqualTo(Kind.HEAT_PUMP);
        assertThat(loads.get("furnace").kind()).isEqualTo(Kind.AIR_HANDLER);
        assertThat(loads.get("bath-heater").onNeutral())
                .as("a heater on one leg")
                .isTrue();
        assertThat(loads.get("heater").onNeutral())
                .as("a water heater between legs")
                .isFalse();
        assertThat(loads).doesNotContainKeys("fridge", "freezer", "washer", "smoke-1", "bell");
        assertThat(String.join("\n", d.asked()))
                .contains("dryer", "range", "vehicle", "opener", "small-appliance", "laundry", "all-listed")
                .doesNotContain("floor area");
        for (int edition : Demands.editions()) {
            assertThat(Demands.standard(d, edition).verdict()).isNotEqualTo(Verdict.FITS);
            assertThat(Demands.optional(d, edition).verdict()).isNotEqualTo(Verdict.FITS);
        }
    }

    @Test
    void onceAllIsToldTheSampleHouseIsJudged() {
        TellReader reader = new TellReader(SAMPLE);
        reader.nameplate("dryer", "5 kW");
        reader.nameplate("range", "12 kW");
        reader.nameplate("microwave", "1.6 kVA");
        reader.nameplate("opener", "5 A");
        reader.without("vehicle");
        reader.smallAppliance(3);
        reader.laundry(1);
        reader.allListed();
        Dwelling d = dwelling(SAMPLE, reader.read().get());
        assertThat(d.asked()).isEmpty();
        assertThat(byName(d).get("opener").va()).as("5 A on one leg").isEqualTo(600);
        assertThat(d.loads()).noneMatch(l -> l.name().equals("vehicle"));
        // 10,000 + 40 % of the rest of 5,425 + 6,000 + 9,180 + 17,000, and 4,812.5 of heat.
        double bucket = 168 / 0.09290304 * 3 + 6000 + 250 + 4500 + 800 + 200 + 1200 + 1600 + 600 + 30 + 17000;
        assertThat(Demands.optional(d, 2023).va())
                .isCloseTo(10000 + 0.4 * (bucket - 10000) + 600 + 3400 + 0.65 * 1250, within(0.01));
        assertThat(Demands.optional(d, 2023).verdict()).isEqualTo(Verdict.FITS);
    }

    @Test
    void hardWiredLoadOfUnknownKindIsAskedFor() {
        Dwelling d = dwelling(house("100 A", MAIN, "thing: {kind: appliance-240, watts: 3000 W}"), Told.nothing());
        assertThat(d.loads()).isEmpty();
        assertThat(d.asked()).anyMatch(q -> q.contains("thing"));
    }

    @Test
    void receptacleOfTwoLegsWithNothingSaidOfItsLoadIsAskedFor() {
        Dwelling d = dwelling(house("100 A", MAIN, "plug: {kind: receptacle-240}"), Told.nothing());
        assertThat(d.asked()).anyMatch(q -> q.contains("plug"));
    }

    @Test
    void furnaceOfTwoLegsIsNotTakenForABlower() {
        Dwelling d = dwelling(
                house("100 A", MAIN, "heat: {kind: appliance-240, load: furnace, watts: 10 kW}"), Told.nothing());
        assertThat(d.loads()).isEmpty();
        assertThat(d.asked()).anyMatch(q -> q.contains("heat"));
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            nullValues = "none",
            value = {
                "100 A|main: {poles: 2, rating: 125 A}|100",
                "200 A|main: {poles: 2, rating: 100 A}|100",
                "200 A|{rating: 90 A, main: {poles: 2, rating: 100 A}}|90",
                "200 A|main: {poles: 2}|none",
                "200 A|spaces: 20|none"
            })
    void ratingIsTheLeastOfServiceMainAndBusOrAskedFor(String service, String main, @Nullable Double rating) {
        String panel = main.startsWith("{") ? "rating: 90 A\n    main: {poles: 2, rating: 100 A}" : main;
        Dwelling d = dwelling(house(service, panel, "lamp: {kind: luminaire}"), Told.nothing());
        assertThat(d.rating()).isEqualTo(rating);
        assertThat(d.asked().stream().anyMatch(q -> q.contains("rating"))).isEqualTo(rating == null);
        TellReader reader = new TellReader(SAMPLE);
        reader.rating("200 A");
        assertThat(dwelling(
                                house(service, panel, "lamp: {kind: luminaire}"),
                                reader.read().get())
                        .rating())
                .isEqualTo(200);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "ev 48 A|ev|VEHICLE|11520",
                "EV 48A|EV|VEHICLE|11520",
                "heat pump 5.76 kVA|heat pump|HEAT_PUMP|5760",
                "hot tub: appliance 6 kW|hot tub|APPLIANCE|6000",
                "dishwasher 10 A at 120 V|dishwasher 2|APPLIANCE|1200",
                "range 12000 W|range 2|RANGE|12000"
            })
    void loadsAreAddedInWords(String said, String name, Kind kind, double va) {
        TellReader reader = new TellReader(SAMPLE);
        reader.add(said);
        List<DemandLoad> loads = reader.read().get().loads();
        assertThat(loads).hasSize(1);
        assertThat(loads.get(0).name()).isEqualTo(name);
        assertThat(loads.get(0).kind()).isEqualTo(kind);
        assertThat(loads.get(0).va()).isCloseTo(va, within(1e-9));
        assertThat(loads.get(0).isNew()).isTrue();
    }

    @Test
    void heldLoadCountsAtItsSetPointAndUnknownOneIsAsked() {
        TellReader reader = new TellReader(SAMPLE);
        reader.add("ev 48 A held to 16 A");
        reader.add("heat pump");
        Told told = reader.read().get();
        assertThat(told.loads().get(0).counted()).isEqualTo(3840);
        assertThat(dwelling(SAMPLE, told).asked()).anyMatch(q -> q.contains("heat pump, which is to be added"));
    }

    @ParameterizedTest
    @ValueSource(strings = {"spaceship 3 kW", "ev 48", "ev forty A", "", ":", "ev 48 A held to much", "ev -3 A"})
    void whatIsNoLoadIsRefusedWithExamples(String said) {
        TellReader reader = new TellReader(SAMPLE);
        reader.add(said);
        assertThat(reader.read().problems())
                .singleElement()
                .satisfies(p -> assertThat(p.cure()).contains("ev 48 A"));
    }

    @Test
    void allProblemsAreToldAtOnce() {
        TellReader reader = new TellReader(SAMPLE);
        reader.area("1800");
        reader.rating("0 A");
        reader.nameplate("nowhere", "3 kW");
        reader.nameplate("range", "12 km");
        reader.without("nothing");
        reader.laundry(-1);
        assertThat(reader.read().problems())
                .extracting(Problem::where)
                .extracting(w -> w.path())
                .containsExactly("area", "rating", "nameplate", "nameplate.range", "without", "laundry");
    }
}
