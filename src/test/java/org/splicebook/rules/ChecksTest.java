package org.splicebook.rules;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import java.util.TreeSet;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.record.House;

class ChecksTest {
    private static List<Finding> sample;

    @BeforeAll
    static void checkTheSampleHouse() {
        House house = HouseFiles.read(Path.of("sample-house")).get();
        sample = Checks.of(house, Packs.us(2023));
    }

    /** The faults that the sample house's page names. */
    @ParameterizedTest
    @CsvSource({
        "borrowed-neutral, stair-light",
        "multiwire-without-common-disconnect, main:C9a.white",
        "neutral-shared-on-one-leg, main:C13a.white",
        "two-circuits-on-one-yoke, dining-1",
        "hot-in-white, C10b.white",
        "no-neutral-at-switch, dining-sw",
        "line-and-load-reversed, sink-gf",
        "ungrounded-replacement, hall-1",
        "ground-leads-nowhere, hall-1",
        "ground-leads-nowhere, bath-fan",
        "subpanel-bonded, garage-panel",
        "hidden-box, buried-splice",
        "box-too-full, stair-head",
        "live-cable-end-not-found, U1",
        "wire-too-small, C9d.black",
        "spare-that-feeds, main.16",
        "frame-on-neutral, dryer",
        "protective-device-failed-its-test, counter-gf-2",
        "bathroom-circuit, main.18"
    })
    void plantedFaultIsFound(String rule, String subject) {
        assertThat(sample).anySatisfy(f -> {
            assertThat(f.rule()).isEqualTo(rule);
            assertThat(f.subject()).isEqualTo(subject);
        });
    }

    /** What the page says is in order, or is not there. */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "return-in-another-cable",
                "neutrals-joined",
                "multiwire-from-two-panels",
                "fed-by-two-breakers",
                "two-legs-joined",
                "switched-neutral",
                "fused-neutral",
                "false-ground",
                "two-pole-on-one-leg",
                "half-live-two-leg-load",
                "neutral-on-a-breaker"
            })
    void faultThatIsNotThereIsNotFound(String rule) {
        assertThat(sample)
                .filteredOn(f -> f.rule().equals(rule) && f.certainty() == Certainty.FOUND)
                .isEmpty();
    }

    @ParameterizedTest
    @ValueSource(ints = {2014, 2017, 2020, 2023, 2026})
    void everyEditionSaysSomethingOfEveryRuleThatItHas(int edition) {
        Pack pack = Packs.us(edition);
        assertThat(Rules.ids()).containsAll(pack.rules().keySet());
        assertThat(pack.rules().values()).allSatisfy(t -> {
            assertThat(t.title()).isNotBlank();
            assertThat(t.cure()).isNotBlank();
        });
    }

    @Test
    void everyRuleIsInSomePack() {
        TreeSet<String> told = new TreeSet<>();
        Packs.editions().forEach(e -> told.addAll(Packs.us(e).rules().keySet()));
        told.addAll(Packs.iec().rules().keySet());
        assertThat(told).containsExactlyInAnyOrderElementsOf(Rules.ids());
    }

    /** Places of 210.8(A) by edition: asked for, asked about (finished, counter), or neither. */
    @ParameterizedTest
    @CsvSource({
        "2014, bathroom, found", "2014, garage, found", "2014, outdoors, found", "2014, crawl-space, found",
        "2014, laundry, found", "2014, basement, asked", "2014, kitchen, asked", "2014, bedroom, none",
        "2017, basement, asked", "2017, kitchen, asked", "2020, basement, found", "2020, kitchen, asked",
        "2023, basement, found", "2023, kitchen, found", "2023, bedroom, none", "2026, kitchen, found"
    })
    void groundFaultProtectionIsAskedForByPlaceAndEdition(int edition, String place, String outcome) {
        List<Finding> found = of(oneReceptacle(place, ""), edition).stream()
                .filter(f -> f.rule().equals("ground-fault-by-place"))
                .toList();
        if (outcome.equals("none")) {
            assertThat(found).isEmpty();
        } else {
            assertThat(found).extracting(f -> f.certainty().word()).containsOnly(outcome);
        }
    }

    @ParameterizedTest
    @CsvSource({"2017, yes, 0", "2017, no, 2", "2020, yes, 2"})
    void finishedBasementsWereLetOffUntil2020(int edition, String finished, int points) {
        assertThat(of(oneReceptacle("basement", ", finished: " + finished), edition))
                .filteredOn(f -> f.rule().equals("ground-fault-by-place") && f.certainty() == Certainty.FOUND)
                .hasSize(points);
    }

    @Test
    void hazardsAloneNeedNoCode() {
        List<Finding> found = Checks.of(HouseFiles.read(Path.of("sample-house")).get(), Packs.physics());
        assertThat(found).isNotEmpty().allSatisfy(f -> {
            assertThat(f.judged().hazard()).isTrue();
            assertThat(f.article()).isEmpty();
            assertThat(f.judged().newWork()).isFalse();
        });
        assertThat(found).extracting(Finding::rule).contains("borrowed-neutral").doesNotContain("tamper-resistant");
    }

    @Test
    void whatWasLawfulThenAndIsNotNowIsKeptApart() {
        Finding tie = sample.stream()
                .filter(f -> f.rule().equals("multiwire-without-common-disconnect"))
                .findFirst()
                .orElseThrow();
        assertThat(tie.judged()).isEqualTo(new Judged(true, Judged.WhenBuilt.ALLOWED, true));
    }

    private static List<Finding> of(String house, int edition) {
        return Checks.of(HouseFiles.parse("house.yaml", house).get(), Packs.us(edition));
    }

    private static String oneReceptacle(String place, String more) {
        return """
                splicebook: 1
                house: one-receptacle
                basis: seen
                sources: {service: {system: split-phase 120/240, rating: 100 A, bond: main}}
                places: {here: {kind: %s%s}, cellar: {kind: utility}}
                panels:
                  main:
                    place: cellar
                    supply: service
                    breakers: {1: {rating: 20 A, label: Receptacle}}
                    joints: [[1, K1.black], [n, K1.white], [g, K1.bare]]
                    complete: [breakers, landings]
                cables: {K1: {kind: NM-B, wires: 12/2+ground, ends: [main, box], length: 5 m, since: 2001}}
                boxes:
                  box:
                    place: here
                    devices: {r: {kind: duplex-receptacle, tabs: {hot: in, neutral: in}}}
                    joints: [[K1.black, r.hot], [K1.white, r.neutral], [K1.bare, r.ground]]
                    complete: [cables, joints]
                """.formatted(place, more);
    }
}
