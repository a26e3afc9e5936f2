package org.splicebook.web;

import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.options.FilePayload;
import java.net.URLEncoder;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.LocalDateTime;
import java.util.Set;
import java.util.StringJoiner;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.record.House;
import org.splicebook.render.Json;

/** The demand of a house and the plan of a new panel on pages, in a browser and without one. */
class UpgradePagesIT {
    private static final House SAMPLE = HouseFiles.read(Path.of("sample-house")).get();
    private static final String PAGE = "/houses/" + SAMPLE.id();
    private static Chromium chromium;
    private static Served served;

    @BeforeAll
    static void start() {
        chromium = Chromium.start();
        served = Served.answering();
        served.store.put(SAMPLE, 0, "me", "new").get();
    }

    @AfterAll
    static void stop() {
        if (chromium != null) {
            chromium.close();
        }
        served.close();
    }

    /** Opens all that is folded, so that it is looked at too. */
    private static Screen unfolded(Screen s) {
        s.page.evaluate("() => document.querySelectorAll('details').forEach(d => d.open = true)");
        return s;
    }

    private static String own(String id) {
        served.store.put(SAMPLE.withId(id), 0, "me", "new").get();
        return "/houses/" + id;
    }

    private static int spaces(String id) {
        House house = served.store.findHouse(id).orElseThrow().house();
        Integer spaces = house.panels().get("main").spaces();
        return spaces == null ? 0 : spaces;
    }

    private static HttpResponse<String> post(String path, String... fields) {
        StringJoiner body = new StringJoiner("&");
        for (int i = 0; i < fields.length; i += 2) {
            body.add(URLEncoder.encode(fields[i], StandardCharsets.UTF_8) + "="
                    + URLEncoder.encode(fields[i + 1], StandardCharsets.UTF_8));
        }
        return served.send(
                "POST",
                path,
                body.toString(),
                "Content-Type",
                "application/x-www-form-urlencoded",
                "Origin",
                served.server.url());
    }

    private static String csv(int days, int minutes) {
        StringBuilder s = new StringBuilder("start,kW\n");
        LocalDateTime at = LocalDateTime.of(2025, 1, 1, 0, 0);
        for (int i = 0; i < days * 24 * 60 / minutes; i++) {
            int hour = at.getHour();
            double kw = 0.6 + (hour >= 17 && hour < 21 ? 3 : hour >= 6 && hour < 9 ? 1.5 : 0) + (i % 97) / 97.0;
            s.append(at)
                    .append(',')
                    .append(String.format(java.util.Locale.ROOT, "%.2f", kw))
                    .append('\n');
            at = at.plusMinutes(minutes);
        }
        return s.toString();
    }

    @ParameterizedTest
    @ValueSource(ints = {390, 1280})
    void whetherAChargerFitsIsToldAskedAndWrittenDown(int width) {
        String house = own("demand-" + width);
        try (Screen s = Screen.open(chromium.browser, served.server.url(), "demand", width, true)) {
            s.to(house).follow("What it demands of its service").look("asked");
            s.says("still missing", "By method and edition", "Take it along for the permit");
            unfolded(s).says("T220.45");
            s.type("range, range", "12 kW").type("dryer, dryer", "5 kW").press("Write it down");
            s.page.waitForURL("**/demand?stored=*");
            unfolded(s)
                    .saysNot("What does the nameplate of range")
                    .says("12,000")
                    .look("written-down");
            assertThat(served.store
                            .findHouse("demand-" + width)
                            .orElseThrow()
                            .house()
                            .boxes()
                            .values())
                    .flatExtracting(b -> b.devices().values())
                    .anyMatch(d -> d.name().equals("range")
                            && d.watts() != null
                            && d.watts().base() == 12_000);
            s.type("Loads to add", "ev 48 A")
                    .type("Small-appliance circuits", "2")
                    .type("Laundry circuits", "1")
                    .type("What plates say", "microwave=1.5 kW\ndishwasher=1.2 kW\nopener=500 W\nattic-fan=250 W")
                    .type("Devices to leave out", "vehicle")
                    .choose("Are all fixed loads listed?", "Yes, there is no other")
                    .press("Calculate");
            s.page.waitForURL("**all-listed=yes*");
            unfolded(s)
                    .saysNot("still missing")
                    .says("ev (new)", "The largest that fits")
                    .look("calculated");
            s.page.locator("input[type=file]")
                    .setInputFiles(
                            new FilePayload("year.csv", "text/csv", csv(365, 15).getBytes(StandardCharsets.UTF_8)));
            s.press("Look at the readings");
            s.page.waitForURL("**metered=*");
            unfolded(s)
                    .says("It may stand for the demand as a record of a year", "Greatest recorded demand", "metered")
                    .look("metered");
            s.type("Loads to add", "ufo").press("Calculate");
            s.says("no load that can be added");
        }
    }

    @ParameterizedTest
    @ValueSource(ints = {390, 1280})
    void aNewPanelIsPlannedTakenAlongKeptAndEntered(int width) {
        String id = "plan-" + width;
        String house = own(id);
        try (Screen s = Screen.open(chromium.browser, served.server.url(), "plan", width, true)) {
            s.to(house).follow("Plan a new panel").look("wanted");
            s.choose("The panel that comes", "200 A, 42 spaces")
                    .type("Loads to add", "ev 32 A\nheat pump 15 A")
                    .type("Devices to leave out", "vehicle")
                    .type("Places of what is added", "ev=outdoors\nheat pump=moon")
                    .press("Plan it");
            s.says("no place 'moon'");
            s.type("Places of what is added", "ev=outdoors\nheat pump=outdoors")
                    .type("Price list", "breaker 15 A; 10\nbreaker 20 A; 12.50")
                    .press("Plan it");
            s.picture("plan-progress-" + width);
            s.page.getByText("breakers placed").first().waitFor();
            s.look("planned");
            unfolded(s).says("Landing list", "Directory for the door", "Order of work", "Together ");
            s.follow("Want something else");
            assertThat(s.page.locator("textarea[name=add]").inputValue()).contains("heat pump 15 A");
            s.page.goBack();
            s.page.getByText("breakers placed").first().waitFor();
            s.press("Keep it as a draft");
            s.press("Record it as done");
            s.page.waitForCondition(() -> spaces(id) == 42);
        }
    }

    @ParameterizedTest
    @ValueSource(ints = {390, 1280})
    void aBackedUpPanelIsChosenKeptComparedAndEntered(int width) {
        String id = "backup-" + width;
        String house = own(id);
        try (Screen s = Screen.open(chromium.browser, served.server.url(), "backup", width, true)) {
            s.to(house + "/subpanel").look("wanted");
            s.type("What the source gives for hours", "much").press("Choose");
            s.says("much");
            s.type("What the source gives for hours", "7.6 kW")
                    .type("What it gives while a motor starts", "12 kW")
                    .type("What is to stay on", "sump-pump, furnace")
                    .type("Spaces of the further panel", "14")
                    .press("Choose");
            unfolded(s)
                    .says(
                            "proved the best",
                            "only one of the two can be on",
                            "Order of work",
                            "hang backed-up",
                            "new: 0")
                    .look("chosen");
            s.press("Keep it as a draft");
            s.says("backed-up-panel-main", "0 new").look("kept");
            s.press("Record it as done");
            s.page.waitForCondition(() -> panels(id).contains("backed-up"));
        }
    }

    private static Set<String> panels(String id) {
        return served.store.findHouse(id).orElseThrow().house().panels().keySet();
    }

    @Test
    void thePapersArePdfWorkbookJsonAndMoves() throws Exception {
        String sent = post(PAGE + "/plan", "of", "main", "panel", "200-42", "add", "ev 32 A", "protect", "all")
                .headers()
                .firstValue("Location")
                .orElseThrow();
        HttpResponse<String> page = served.get(sent);
        while (page.body().contains("This page shows itself anew")) {
            Thread.sleep(200);
            page = served.get(sent);
        }
        assertThat(page.body()).contains("breakers placed");
        assertThat(Json.read(served.get(sent + "/paper.json").body())
                        .path("draft")
                        .asBoolean())
                .isTrue();
        assertThat(served.get(sent + "/paper.yaml").body()).contains("replace-panel: main");
        assertThat(served.get(sent + "/paper.xlsx").statusCode()).isEqualTo(200);
        assertThat(served.get(sent + "/paper.doc").statusCode()).isEqualTo(404);
        byte[] pdf = served.bytes(sent + "/paper.pdf");
        assertThat(new PDFTextStripper().getText(Loader.loadPDF(pdf))).contains("Landing list", "ev");
        assertThat(served.get("/houses/other/plan/" + sent.substring(sent.lastIndexOf('/') + 1))
                        .statusCode())
                .isEqualTo(404);
        assertThat(served.get(PAGE + "/plan/none").statusCode()).isEqualTo(404);
    }

    @Test
    void whatIsBackedUpIsChosenByPageAndByApi() {
        String query = "?source=7.6%20kW&surge=12%20kW&want=sump-pump,furnace";
        assertThat(served.get(PAGE).body()).contains(PAGE + "/subpanel");
        assertThat(served.get(PAGE + "/subpanel").body()).contains("What is wanted; nothing is stored");
        assertThat(served.get(PAGE + "/subpanel" + query).body())
                .contains("proved the best", "sump pump", "What stays, and why", "What range takes is not known");
        var told = Json.read(served.get("/api/v1" + PAGE + "/subpanel" + query).body());
        assertThat(told.path("proved").asBoolean()).isTrue();
        assertThat(told.path("va").asDouble()).isBetween(1.0, 7600.0);
        assertThat(told.path("draftFile").asText()).contains("add-panel: backed-up", "add-source: backed-up-source");
        assertThat(served.get(PAGE + "/subpanel?source=much&want=ufo&spaces=x").body())
                .contains("much", "ufo", "no whole number");
    }

    @Test
    void theCalculationGoesWithThePermit() throws Exception {
        byte[] pdf = served.bytes(PAGE + "/demand/paper.pdf?add=ev%2048%20A");
        String text = new PDFTextStripper().getText(Loader.loadPDF(pdf));
        assertThat(text).contains("edition 2014", "edition 2026", "120.82(D)", "Still asked", "ev (new)");
    }

    @Test
    void whatIsWrongIsToldAndNothingIsStored() {
        HttpResponse<String> wrong =
                post(PAGE + "/demand/record", "revision", "1", "plate:range", "much", "plate:ufo", "3 kW");
        assertThat(wrong.statusCode()).isEqualTo(422);
        assertThat(wrong.body()).contains("much", "ufo");
        assertThat(post(PAGE + "/demand/record", "revision", "1").body()).contains("Nothing was filled in");
        assertThat(served.get(PAGE + "/demand?metered=gone").body()).contains("no longer kept");
        assertThat(post(PAGE + "/demand", "small-appliance", "two").body()).contains("no whole number");
        assertThat(served.store.findHouse(SAMPLE.id()).orElseThrow().revision().number())
                .isEqualTo(1);
    }
}
