package org.splicebook.graph;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.splicebook.answer.Listing;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.housefile.PropertyFiles;
import org.splicebook.property.Properties;
import org.splicebook.record.House;

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
}
