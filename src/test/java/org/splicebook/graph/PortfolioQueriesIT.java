package org.splicebook.graph;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.splicebook.answer.Listing;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.housefile.PropertyFiles;
import org.splicebook.property.Properties;
import org.splicebook.record.Acceptance;
import org.splicebook.record.House;
import org.splicebook.rules.Severity;

/** The questions of queries/ across units, asked of a row of two flats. */
class PortfolioQueriesIT {
    @TempDir
    static Path folder;

    static Neo4jHouseStore store;

    @BeforeAll
    static void open() {
        store = QuestionHouses.store(folder, List.of());
        put(Properties.text("common.yaml"));
        put(Properties.text("unit-14a.yaml")
                        .replace("K1: {kind: NM, wires: 12/2+ground", "K1: {kind: NM, since: 1967, wires: 12/2+ground")
                + "\ntests: [{id: t1, date: 2019-03-01, what: trip-button, device: counter-gf, result: passed}]\n");
        put(Properties.text("unit-14b.yaml")
                .replace(
                        "      - [K2.white, bed-1.neutral]\n",
                        "      - [K2.white]\n      - [K4.white, bed-1.neutral]\n")
                .replace(
                        "  K3: {kind: NM",
                        "  K4: {kind: NM, wires: 14/2+ground, ends: [bed, party-wall]}\n  K3: {kind: NM")
                .replace("[K3.white, next-door.n]", "[K3.white, K4.white, next-door.n]"));
        store.properties()
                .put(
                        PropertyFiles.parse("row", Properties.text("alder-row.yaml"))
                                .get()
                                .property(),
                        0,
                        "Rowan",
                        "")
                .get();
    }

    private static void put(String text) {
        House house = HouseFiles.parse("house", text).get();
        store.put(house, 0, "Rowan", "").get();
    }

    @AfterAll
    static void close() {
        store.close();
    }

    private static List<List<Object>> ask(String id, String house, Map<String, String> parameters) {
        return ((Listing) store.ask(id, house, parameters).get()).rows();
    }

    @Test
    void protectionThatWasNotTestedIsToldByUnitWithTheOldestTest() {
        assertThat(ask("protection-not-tested", "", Map.of()))
                .containsExactly(
                        List.of(
                                "alder-row-14a",
                                "14A, ground floor",
                                "14a",
                                "row",
                                1L,
                                0L,
                                "2019-03-01",
                                List.of("counter-gf")),
                        List.of("alder-row-14b", "14B, upper floor", "14b", "row", 1L, 1L, "", List.of("counter-gf")));
        assertThat(ask("protection-not-tested", "", Map.of("days", "36500")))
                .extracting(r -> r.get(2))
                .containsExactly("14b");
    }

    @Test
    void neutralsThatReturnOverAnotherSourceAreToldByUnit() {
        assertThat(ask("neutrals-across-units", "", Map.of()))
                .singleElement()
                .satisfies(r -> assertThat(r)
                        .containsExactly(
                                "alder-row-14b",
                                "14B, upper floor",
                                "14b",
                                "row",
                                List.of("bed-1.bottom", "bed-1.top"),
                                2L,
                                List.of("next-door")));
    }

    @Test
    void wiresOfTheAluminiumYearsAreAskedForWhereTheirMetalIsNotRecorded() {
        assertThat(ask("aluminium-branch", "", Map.of()))
                .extracting(r -> r.get(0))
                .contains("alder-row-14a");
    }

    @Test
    void theUnitsThatARiserFeedsAreTold() {
        assertThat(ask("feeds-units", "alder-row-common", Map.of("thing", "R1")))
                .extracting(r -> r.get(0) + " " + r.get(3) + " " + r.get(4) + " " + r.get(5))
                .containsExactly("14a riser cable-cut lost");
        assertThat(ask("feeds-units", "alder-row-common", Map.of("thing", "H1")))
                .isEmpty();
        assertThat(ask("feeds-units", "alder-row-14a", Map.of("thing", "main.2")))
                .extracting(r -> r.get(0) + " " + r.get(3) + " " + r.get(4))
                .contains("14b next-door off-by-hand");
    }

    /** What is counted for each house when it is stored is what its findings come to, after an acceptance too. */
    @ParameterizedTest
    @EnumSource(Severity.class)
    void countsOfFindingsAreThoseOfTheFindings(Severity severity) {
        House flat = store.findHouse("alder-row-14b").orElseThrow().house();
        List<Object> one = look("MATCH (f:Finding {severity: '" + severity.word()
                        + "'}) WHERE f.house = 'alder-row-14b' AND NOT f.accepted"
                        + " RETURN f.name AS name, f.certainty AS certainty, f.said AS said ORDER BY name LIMIT 1")
                .get(0);
        List<Acceptance> accepted = new ArrayList<>(flat.accepted());
        accepted.add(new Acceptance(
                String.valueOf(one.get(0)),
                String.valueOf(one.get(1)),
                String.valueOf(one.get(2)),
                "It may stand.",
                null,
                "2026-02-03"));
        long revision =
                store.findHouse("alder-row-14b").orElseThrow().revision().number();
        store.put(flat.withAccepted(accepted), revision, "Rowan", "").get();

        String counted = """
                count(CASE WHEN f.certainty = 'found' AND NOT f.accepted THEN 1 END) AS found,
                count(CASE WHEN f.certainty = 'possible' AND NOT f.accepted THEN 1 END) AS possible,
                count(CASE WHEN f.certainty = 'asked' AND NOT f.accepted THEN 1 END) AS asked""";
        List<List<Object>> rules = look("MATCH (f:Finding {severity: '" + severity.word()
                + "'}) RETURN f.rule AS rule, head(collect(f.title)) AS title, count(DISTINCT f.house) AS houses, "
                + counted
                + ", count(CASE WHEN f.accepted THEN 1 END) AS accepted ORDER BY found DESC, rule");
        assertThat(rules).anyMatch(r -> !r.get(6).equals(0L));
        assertThat(ask("findings-across-houses", "", Map.of("severity", severity.word())))
                .isEqualTo(rules);
        assertThat(ask("worst-houses", "", Map.of("severity", severity.word())))
                .isEqualTo(look("MATCH (f:Finding {severity: '" + severity.word()
                        + "'}) WHERE NOT f.accepted WITH f ORDER BY f.rule WITH f.house AS house, " + counted
                        + ", collect(DISTINCT f.rule) AS rules MATCH (h:House {key: house})"
                        + " RETURN house, h.title AS name, found, possible, asked, rules ORDER BY found DESC, house"));
    }

    private static List<List<Object>> look(String cypher) {
        return store.look(cypher, 1000).get().rows();
    }
}
