package org.splicebook.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.URLEncoder;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.record.House;

/** A fault told step by step at the pages, as with a phone. */
class DiagnosePageIT {
    private static final House HOUSE = HouseFiles.read(Path.of("sample-house")).get();
    private static final String PAGE = "/houses/" + HOUSE.id();
    private static Served served;

    @BeforeAll
    static void start() {
        served = Served.answering();
        served.store.put(HOUSE, 0, "me", "new").get();
    }

    @AfterAll
    static void stop() {
        served.close();
    }

    private static String post(String... fields) {
        HttpResponse<String> sent = served.post(PAGE + "/diagnose", fields);
        assertThat(sent.statusCode()).as(sent.body()).isEqualTo(303);
        return sent.headers().firstValue("Location").orElseThrow();
    }

    @Test
    void theHousePageAndEveryPointLeadHere() {
        assertThat(served.get(PAGE).body()).contains(PAGE + "/diagnose");
        assertThat(served.get(PAGE + "/points/living-2.top").body()).contains("/diagnose?told=dead");
    }

    @Test
    void aFaultIsToldRoomByRoomAndEachAnswerBringsTheNextTest() {
        assertThat(served.get(PAGE + "/diagnose").body()).contains("By room", "place=living");
        String room = served.get(PAGE + "/diagnose?told=&place=living").body();
        assertThat(room).contains("name=\"point:living-2.top\"", "Too bright", "Not looked");
        String told =
                post("told", "", "point:living-2.top", "dead", "point:living-1.top", "live", "point:living-3.top", "");
        assertThat(told).contains("dead").doesNotContain("living-3");
        String page = served.get(told).body();
        assertThat(page)
                .contains(
                        "Suspects, likeliest first",
                        "Next: ",
                        "foretells",
                        "may still be live",
                        "Before a hand goes near");
        Matcher test = Pattern.compile("name=\"((?:point|unit):[^\"]+)\"").matcher(page);
        String next = test.find()
                ? post(
                        "told",
                        "dead: living-2.top",
                        "when",
                        " ",
                        test.group(1),
                        test.group(1).startsWith("p") ? "dead" : "holds")
                : post("told", "dead: living-2.top", "at", "living-2.top", "hn", "2", "hg", "120", "ng", "118");
        assertThat(served.get(next).statusCode()).isEqualTo(200);
        assertThat(served.get(next).body()).contains("Suspects");
    }

    @Test
    void whatCannotBeUnderstoodComesBackToBeCorrected() {
        var page = served.get(PAGE + "/diagnose?told=" + URLEncoder.encode("dead: livng-2", StandardCharsets.UTF_8));
        assertThat(page.statusCode()).isBetween(400, 499);
        assertThat(page.body()).contains("livng-2", "living-2", "<textarea");
    }
}
