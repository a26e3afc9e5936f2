package org.splicebook.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.http.HttpResponse;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.splicebook.record.TestResult;

class TestPagesIT {
    private static final String PAGE = "/houses/" + Served.ID;
    private Served served;

    @BeforeEach
    void start() {
        served = Served.answering();
        assertThat(served.putNew(Served.ALDER_ROW).statusCode()).isEqualTo(201);
    }

    @AfterEach
    void stop() {
        served.close();
    }

    private HttpResponse<String> form(String body) {
        return served.send(
                "POST",
                PAGE + "/tests",
                body,
                "Content-Type",
                "application/x-www-form-urlencoded",
                "Origin",
                served.server.url());
    }

    private java.util.List<TestResult> tests() {
        return served.store.findHouse(Served.ID).orElseThrow().house().tests();
    }

    @Test
    void anOutcomeRecordedOnThePageIsKeptAndShown() {
        int before = tests().size();
        assertThat(served.get(PAGE + "/tests").body())
                .contains("bath-gf", "Press TEST", "due.ics", "Record an outcome");
        HttpResponse<String> sent =
                form("what=trip-button&device=bath-gf&result=passed&date=2026-04-20&by=Rowan&note=");
        assertThat(sent.statusCode()).as(sent.body()).isEqualTo(303);
        assertThat(tests()).hasSize(before + 1);
        assertThat(served.get(PAGE + "/tests").body()).contains("2026-04-20: bath-gf, Test button: passed");
        assertThat(served.store.revisions(Served.ID)).hasSize(2);
    }

    @Test
    void whatIsWrongIsToldAndNothingIsStored() {
        int before = tests().size();
        assertThat(form("what=trip-button&device=none&result=passed&date=2026-04-20")
                        .body())
                .contains("none");
        assertThat(form("what=trip-button&device=bath-gf&result=passed&date=April")
                        .body())
                .contains("is not a day");
        assertThat(form("what=trip-button&result=passed&date=2026-04-20").body())
                .contains("Nothing is chosen");
        assertThat(tests()).hasSize(before);
    }

    @Test
    void outcomesAreTakenOverTheApiAndWhatIsDueIsACalendar() {
        HttpResponse<String> sent = served.send(
                "POST",
                Served.HOUSE + "/tests",
                "{\"tests\": [{\"id\": \"x9\", \"what\": \"trip-button\", \"device\": \"bath-gf\", \"result\": \"passed\", \"date\": \"2026-04-20\"}]}",
                "Content-Type",
                "application/json");
        assertThat(sent.statusCode()).as(sent.body()).isEqualTo(200);
        assertThat(tests()).anyMatch(t -> t.id().equals("x9"));
        assertThat(served.send("POST", Served.HOUSE + "/tests", "{}", "Content-Type", "application/json")
                        .statusCode())
                .isEqualTo(422);
        HttpResponse<String> calendar = served.get(Served.HOUSE + "/due.ics");
        assertThat(calendar.headers().firstValue("Content-Type").orElse("")).startsWith("text/calendar");
        assertThat(calendar.body()).startsWith("BEGIN:VCALENDAR").contains("bath-gf");
    }

    @Test
    void whatChangedIsToldBoxByBox() {
        HttpResponse<String> unused =
                form("what=trip-button&device=bath-gf&result=passed&date=2026-04-20&by=Rowan&note=");
        String yaml = Served.ALDER_ROW
                .replace("bench-1: {kind: duplex-receptacle,", "bench-1: {kind: single-receptacle, label: Bench,")
                .replace("tabs: {hot: out, neutral: in}", "rating: 20 A");
        assertThat(yaml).isNotEqualTo(Served.ALDER_ROW);
        String page = served.get(PAGE + "/changes?from=1&to=2").body();
        assertThat(page).contains("What changed from revision 1 to 2", "House", "trip-button", "new");
        assertThat(served.get(Served.HOUSE + "/changes?from=1&to=2").body()).contains("\"part\" : \"house\"");
        assertThat(served.get(PAGE + "/history").body()).contains("/changes?to=2");
        assertThat(served.get(PAGE + "/changes?to=9").statusCode()).isEqualTo(404);
    }

    @Test
    void theRowsOfAReplyCanBeTakenAway() {
        HttpResponse<String> csv = served.get(Served.HOUSE + "/questions/due/table.csv");
        assertThat(csv.statusCode()).isEqualTo(200);
        assertThat(csv.headers().firstValue("Content-Disposition").orElse("")).contains("due.csv");
        assertThat(csv.body()).startsWith("subject,status,basis,").contains("bath-gf", "Test every wire yourself");
        assertThat(served.get(Served.HOUSE + "/questions/due/table.xlsx").body())
                .startsWith("PK");
        assertThat(served.get(Served.HOUSE + "/questions/due/table.doc").statusCode())
                .isEqualTo(404);
        assertThat(served.get("/api/v1/questions/all-houses/table.csv").body()).startsWith("house,revision,panels");
        assertThat(served.get(PAGE + "/questions/due").body()).contains("/questions/due/table.csv?");
    }
}
