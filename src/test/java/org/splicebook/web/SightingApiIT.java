package org.splicebook.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.http.HttpResponse;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.splicebook.render.Json;

class SightingApiIT {
    private static final String SIGHTINGS = Served.HOUSE + "/sightings";
    private static final String LIT = """
            [{"id": "s90", "date": "2026-04-01", "with-off": ["main.6"], "at": "door-1.top", "read": "lit"}]
            """;

    private Served served;

    @BeforeEach
    void start() {
        served = new Served();
        served.putNew(Served.ALDER_ROW);
    }

    @AfterEach
    void stop() {
        served.close();
    }

    private HttpResponse<String> post(String body) {
        return served.send("POST", SIGHTINGS, body, "Content-Type", "application/json");
    }

    @Test
    void sightingIsAddedOnceHoweverOftenItIsSent() {
        int before = Json.read(served.get(SIGHTINGS).body()).size();
        assertThat(Json.read(post(LIT).body()).path("new").asInt()).isEqualTo(1);
        assertThat(Json.read(post(LIT).body()).path("new").asInt()).isZero();
        var after = Json.read(served.get(SIGHTINGS).body());
        assertThat(after).hasSize(before + 1);
        assertThat(after.path(before).path("at").asText()).isEqualTo("door-1.top");
    }

    @Test
    void sameIdWithAnotherContentIsAConflict() {
        post(LIT);
        assertThat(post(LIT.replace("\"lit\"", "\"dim\"")).statusCode()).isEqualTo(409);
    }

    @Test
    void namesThatTheHouseDoesNotHaveAreToldWithTheirPlace() {
        var answer = post(LIT.replace("door-1.top", "door-9.top").replace("main.6", "main.99"));
        assertThat(answer.statusCode()).isEqualTo(422);
        assertThat(answer.body())
                .contains("door-9", "\\\"99\\\"", "sightings[0].with-off[0]", "sightings[0].at")
                .doesNotContain("\"line\"");
    }

    @Test
    void bodyThatIsNoListIsRefused() {
        assertThat(post("{}").statusCode()).isEqualTo(422);
    }
}
