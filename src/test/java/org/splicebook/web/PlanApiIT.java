package org.splicebook.web;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.net.http.HttpResponse;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.splicebook.render.Json;

class PlanApiIT {
    private static final String PLAN = Served.HOUSE + "/plan";
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

    private static HttpResponse<String> post(String body) {
        return served.send("POST", PLAN, body, "Content-Type", "application/json");
    }

    @Test
    void aPlanIsADraftWithItsPagesAndMoves() {
        HttpResponse<String> answer =
                post("{\"panel\": \"100-20\", \"told\": {\"add\": [\"ev 24 A\"]}, \"protect\": \"all\"}");
        assertThat(answer.statusCode()).as(answer.body()).isEqualTo(200);
        JsonNode plan = Json.read(answer.body());
        assertThat(plan.path("draft").asBoolean()).isTrue();
        assertThat(plan.path("pages").findValuesAsText("id")).contains("landings", "parts", "order", "directory");
        assertThat(plan.path("circuits").findValuesAsText("label")).anyMatch(l -> l.contains("ev"));
        assertThat(plan.path("asked")).isNotEmpty();
        assertThat(plan.path("cautions")).isNotEmpty();
        assertThat(plan.path("draftFile").asText()).contains("replace-panel: main");
    }

    @Test
    void everythingThatIsWrongIsToldAtOnceWithItsField() {
        HttpResponse<String> answer = post("{\"pannel\": \"x\", \"panel\": \"9-9\", \"keep\": [\"a\"], \"seconds\": 99,"
                + " \"locks\": [], \"told\": {\"add\": [\"ufo\"]}, \"entry\": \"left\"}");
        assertThat(answer.statusCode()).isEqualTo(422);
        assertThat(answer.headers().firstValue("Content-Type").orElse("")).startsWith("application/problem+json");
        assertThat(answer.body()).contains("pannel", "9-9", "keep", "seconds", "locks", "ufo", "left");
    }
}
