package org.splicebook.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.http.HttpResponse;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.housefile.PropertyFiles;
import org.splicebook.property.Properties;
import org.splicebook.record.TestResult;
import org.splicebook.visits.VisitDesk;

/** Two flats, of which the upper one is in a building of its own here: the round with one phone, the open visits, a unit by name. */
class PropertyPagesIT {
    private static final String ROUND = "/properties/alder-row/round";
    private static final String GROUND_FLOOR = "14a|trip-button|counter-gf";
    private static final String UPPER_FLOOR = "14b|trip-button|counter-gf";

    private Served served;

    @BeforeEach
    void start() {
        served = new Served();
        for (String file : List.of("common.yaml", "unit-14a.yaml", "unit-14b.yaml")) {
            served.store
                    .put(HouseFiles.parse(file, Properties.text(file)).get(), 0, "Rowan", "")
                    .get();
        }
        String row = Properties.text("alder-row.yaml")
                .replace("buildings:\n", "buildings:\n  yard: {name: Behind the yard}\n")
                .replace("house: alder-row-14b, building: row", "house: alder-row-14b, building: yard");
        served.store
                .properties()
                .put(PropertyFiles.parse("row", row).get().property(), 0, "Rowan", "")
                .get();
    }

    @AfterEach
    void stop() {
        served.close();
    }

    private List<TestResult> tests(String house) {
        return served.store.findHouse(house).orElseThrow().house().tests();
    }

    @Test
    void aRoundListsWhatIsDueInTheBuildingThatOneIsIn() {
        assertThat(served.get(ROUND).body()).contains("2 tests are due", GROUND_FLOOR, UPPER_FLOOR, "Behind the yard");
        assertThat(served.get(ROUND + "?building=yard").body())
                .contains("1 test is due", UPPER_FLOOR)
                .doesNotContain(GROUND_FLOOR);
        assertThat(served.get(ROUND + "?building=row").body())
                .contains(GROUND_FLOOR)
                .doesNotContain(UPPER_FLOOR);
        assertThat(served.get("/properties/none/round").statusCode()).isEqualTo(404);
    }

    @Test
    void manyOutcomesAreRecordedAtOnceEachInItsUnit() {
        String today = LocalDate.now(ZoneId.systemDefault()).toString();
        HttpResponse<String> sent = served.post(
                ROUND,
                "building",
                "yard",
                "test",
                GROUND_FLOOR,
                "test",
                UPPER_FLOOR,
                "result",
                "passed",
                "date",
                today,
                "by",
                "Wren");
        assertThat(sent.statusCode()).isEqualTo(303);
        assertThat(sent.headers().firstValue("Location").orElse("")).endsWith(ROUND + "?building=yard");
        for (String house : List.of("alder-row-14a", "alder-row-14b")) {
            assertThat(tests(house)).singleElement().satisfies(t -> {
                assertThat(t.what()).isEqualTo("trip-button");
                assertThat(t.device()).isEqualTo("counter-gf");
                assertThat(t.result()).isEqualTo("passed");
                assertThat(t.date()).isEqualTo(today);
            });
        }
        assertThat(served.get(ROUND).body()).contains("no test is due");
    }

    @Test
    void whatIsWrongIsToldAndTheRoundIsShownAgainAsItWasSent() {
        HttpResponse<String> none = served.post(ROUND, "building", "", "result", "passed", "by", "Wren");
        assertThat(none.statusCode()).isEqualTo(422);
        assertThat(none.body()).contains("Nothing is chosen", "Wren");
        HttpResponse<String> day =
                served.post(ROUND, "building", "", "test", GROUND_FLOOR, "result", "passed", "date", "May");
        assertThat(day.statusCode()).isEqualTo(422);
        HttpResponse<String> elsewhere =
                served.post(ROUND, "building", "", "test", "14z|trip-button|counter-gf", "result", "passed");
        assertThat(elsewhere.statusCode()).isEqualTo(422);
        assertThat(elsewhere.body()).contains("nothing to test");
        assertThat(tests("alder-row-14a")).isEmpty();
        assertThat(tests("alder-row-14b")).isEmpty();
    }

    @Test
    void whereOneUnitIsWrongNothingIsStoredInAny() {
        HttpResponse<String> sent = served.post(
                ROUND, "building", "", "test", GROUND_FLOOR, "test", "14b|trip-button|counter-zz", "result", "passed");
        assertThat(sent.statusCode()).isEqualTo(422);
        assertThat(sent.body()).contains("counter-zz", "Nothing was stored");
        assertThat(tests("alder-row-14a")).isEmpty();
        assertThat(tests("alder-row-14b")).isEmpty();
    }

    @Test
    void openVisitsOfAllUnitsStandTogether() {
        VisitDesk desk = new VisitDesk(served.store);
        var open = desk.take(
                "alder-row-14b", desk.next("alder-row-14b"), "report", Map.of("said", "no light upstairs"), 0, "Rowan");
        String page = served.get("/properties/alder-row/visits").body();
        assertThat(page).contains("1 visit is open", "/houses/alder-row-14b/visits/" + open.name());
        assertThat(served.get("/properties/none/visits").statusCode()).isEqualTo(404);
    }

    @Test
    void aUnitIsFoundByWhateverPeopleCallIt() {
        for (String name : List.of("14b", "upper", "alder-row-14b", "0119", "M-14B")) {
            assertThat(served.get("/units?q=" + name).body())
                    .as(name)
                    .contains("1 unit of properties", "/houses/alder-row-14b\"")
                    .doesNotContain("Ground floor");
        }
        assertThat(served.get("/units?q=nobody").body()).contains("Nothing goes by that name");
        String alone = Served.ALDER_ROW
                .replace("house: alder-row-14b", "house: boat-house")
                .replace("name: 14 Alder Row, rear flat", "name: The boat house");
        served.store.put(HouseFiles.parse("alone", alone).get(), 0, "Rowan", "").get();
        assertThat(served.get("/units?q=boat").body()).contains("Houses of that name", "/houses/boat-house");
        assertThat(served.get("/").body()).contains("/units");
    }
}
