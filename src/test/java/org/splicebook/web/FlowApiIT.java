package org.splicebook.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import java.net.http.HttpResponse;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.splicebook.render.Json;

class FlowApiIT {
    private static final String FLOW = Served.HOUSE + "/flow";
    private static Served served;

    @BeforeAll
    static void start() {
        served = new Served();
        served.putNew(Served.ALDER_ROW);
    }

    @AfterAll
    static void stop() {
        served.close();
    }

    private static HttpResponse<String> post(String path, String body) {
        return served.send("POST", path, body, "Content-Type", "application/json");
    }

    private static JsonNode solved(String body) {
        HttpResponse<String> answer = post(FLOW, body);
        assertThat(answer.statusCode()).as(answer.body()).isEqualTo(200);
        return Json.read(answer.body());
    }

    private static JsonNode point(JsonNode flow, String name) {
        for (JsonNode p : flow.path("points")) {
            if (p.path("point").asText().equals(name)) {
                return p.path("pairs").get(0);
            }
        }
        throw new AssertionError("no " + name + " in " + flow);
    }

    @Test
    void loadAsSaidDrawsWhatItShould() {
        JsonNode flow = solved("{\"case\": \"nothing-on\", \"ideal\": true, \"loads\": {\"bench-1.top\": \"12 A\"}}");
        assertThat(point(flow, "bench-1.top").path("amperes").path("magnitude").asDouble())
                .isEqualTo(12, within(1e-6));
        assertThat(flow.path("assumptions")).isNotEmpty();
        assertThat(flow.path("cautions")).isNotEmpty();
    }

    @Test
    void everythingThatIsWrongIsToldAtOnceWithItsField() {
        HttpResponse<String> answer = post(
                FLOW,
                "{\"lods\": {}, \"case\": 7, \"loads\": {\"nowhere\": \"12 A\"}, \"celsius\": \"warm\", \"open\": [1]}");
        assertThat(answer.statusCode()).isEqualTo(422);
        assertThat(answer.headers().firstValue("Content-Type").orElse("")).startsWith("application/problem+json");
        assertThat(answer.body()).contains("lods", "\"case\"", "loads", "nowhere", "celsius", "open[0]");
    }

    @Test
    void reportsAreListedAndMade() {
        assertThat(served.get(FLOW + "/reports").body()).contains("open-neutral", "loose-neutral", "breaker-holds");
        HttpResponse<String> answer = post(
                FLOW + "/reports/loose-neutral",
                "{\"readings\": [\"bench-1.top.hot bench-1.top.neutral 119.9 V with bench-1.bottom=1500 W\"]}");
        assertThat(answer.statusCode()).as(answer.body()).isEqualTo(200);
        assertThat(Json.read(answer.body())
                        .path("rows")
                        .get(0)
                        .path("connection")
                        .asText())
                .isEmpty();
    }

    @Test
    void reportThatLacksSomethingSaysWhat() {
        assertThat(post(FLOW + "/reports/breaker-holds", "{}").body()).contains("about", "Name a breaker");
        assertThat(post(FLOW + "/reports/loose-neutral", "{}").body()).contains("No reading is given");
        assertThat(post(FLOW + "/reports/wibble", "{}").body()).contains("There is no report", "open-neutral");
        assertThat(post(FLOW + "/reports/loose-neutral", "{\"readings\": [\"bench-1.top.hot nowhere 12\"]}")
                        .body())
                .contains("readings[0]", "nowhere");
    }

    @Test
    void netlistIsTextForOtherSimulators() {
        HttpResponse<String> answer = post(FLOW + "/netlist", "{}");
        assertThat(answer.headers().firstValue("Content-Type").orElse("")).startsWith("text/plain");
        assertThat(answer.body()).contains(".ac").contains(".end");
    }

    @Test
    void unknownHouseIsNotFound() {
        assertThat(post("/api/v1/houses/none/flow", "{}").statusCode()).isEqualTo(404);
    }
}
