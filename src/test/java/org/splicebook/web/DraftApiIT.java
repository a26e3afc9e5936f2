package org.splicebook.web;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.net.http.HttpResponse;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.splicebook.render.Json;

class DraftApiIT {
    private static final String DRAFTS = Served.HOUSE + "/drafts";
    private static final String MOVES = """
            {"draft": "off", "moves": [{"cap": "K1.black", "in": "bench"}]}
            """;
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
        return served.send("POST", DRAFTS + path, body, "Content-Type", "application/json");
    }

    @Test
    void aDraftIsToldMarkedAndNothingIsStored() {
        HttpResponse<String> told = post("/told", MOVES);
        assertThat(told.statusCode()).as(told.body()).isEqualTo(200);
        JsonNode reply = Json.read(told.body());
        assertThat(reply.path("draft").asBoolean()).isTrue();
        assertThat(reply.path("sections").findValuesAsText("title")).contains("Steps", "Tests at the end");
        assertThat(served.store.findHouse(Served.ID).orElseThrow().revision().number())
                .isEqualTo(1);
    }

    @Test
    void aDraftIsDrawnAndMarked() {
        HttpResponse<String> drawn = post("/drawings/box?of=bench", MOVES);
        assertThat(drawn.statusCode()).as(drawn.body()).isEqualTo(200);
        assertThat(drawn.body()).contains("<svg", "Draft off of", "capped");
    }

    @Test
    void aMoveThatCannotBeMadeIsAProblemWithItsNumber() {
        HttpResponse<String> told =
                post("/told", "{\"draft\": \"x\", \"moves\": [{\"cap\": \"K99.black\", \"in\": \"bench\"}]}");
        assertThat(told.statusCode()).isBetween(400, 499);
        assertThat(told.body()).contains("Move 1", "K99.black");
        assertThat(post("/told", "{\"moves\": 3}").statusCode()).isBetween(400, 499);
    }
}
