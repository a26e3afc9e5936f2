package org.splicebook.web;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.net.http.HttpResponse;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.splicebook.render.Json;

class DemandApiIT {
    private static final String DEMAND = Served.HOUSE + "/demand";
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
        return served.send("POST", DEMAND, body, "Content-Type", "application/json");
    }

    @Test
    void whatIsToldBesideTheRecordCounts() {
        HttpResponse<String> answer = post("{\"add\": [\"ev 48 A\"], \"method\": \"standard\", \"edition\": 2023}");
        assertThat(answer.statusCode()).as(answer.body()).isEqualTo(200);
        JsonNode told = Json.read(answer.body());
        assertThat(told.path("demands")).hasSize(1);
        assertThat(told.path("loads").findValuesAsText("name")).contains("ev");
        assertThat(told.path("asked")).isNotEmpty();
        assertThat(told.path("cautions")).isNotEmpty();
    }

    @Test
    void everythingThatIsWrongIsToldAtOnceWithItsField() {
        HttpResponse<String> answer =
                post("{\"ad\": [], \"add\": [\"ufo\", 7], \"laundry\": \"one\", \"area\": \"big\","
                        + " \"nameplates\": {\"x\": \"1 kW\"}, \"all-listed\": 1, \"method\": \"guess\"}");
        assertThat(answer.statusCode()).isEqualTo(422);
        assertThat(answer.headers().firstValue("Content-Type").orElse("")).startsWith("application/problem+json");
        assertThat(answer.body())
                .contains("\"ad\"", "ufo", "add[1]", "laundry", "big", "nameplate", "all-listed", "guess");
    }
}
