package org.splicebook.web;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.net.http.HttpResponse;
import java.time.Instant;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.record.House;
import org.splicebook.render.Json;

class HouseApiIT {
    private Served served;
    private final House alderRow = HouseFiles.parse("alder", Served.ALDER_ROW).get();

    @BeforeEach
    void start() {
        served = new Served();
    }

    @AfterEach
    void stop() {
        served.close();
    }

    private static String tag(HttpResponse<String> answer) {
        return answer.headers().firstValue("ETag").orElseThrow();
    }

    private static String code(HttpResponse<String> answer) {
        assertThat(answer.headers().firstValue("Content-Type")).contains("application/problem+json");
        JsonNode document = Json.read(answer.body());
        assertThat(document.path("status").asInt()).isEqualTo(answer.statusCode());
        return document.path("problems").path(0).path("code").asText();
    }

    private HttpResponse<String> put(String yaml, String ifMatch) {
        return served.send("PUT", Served.HOUSE, yaml, "Content-Type", "application/yaml", "If-Match", ifMatch);
    }

    private HttpResponse<String> delete(String ifMatch) {
        return served.send("DELETE", Served.HOUSE, null, "If-Match", ifMatch);
    }

    @Test
    void newHouseIsStoredAndComesBackAsItWas() {
        var made = served.putNew(Served.ALDER_ROW);
        assertThat(made.statusCode()).isEqualTo(201);
        assertThat(made.headers().firstValue("Location")).contains(Served.HOUSE);
        var yaml = served.get(Served.HOUSE);
        assertThat(yaml.headers().firstValue("Content-Type").orElse("")).startsWith("application/yaml");
        assertThat(tag(yaml)).isEqualTo(tag(made));
        assertThat(HouseFiles.parse("back", yaml.body()).get()).isEqualTo(alderRow);
        var json = served.get(Served.HOUSE, "Accept", "application/json");
        assertThat(json.headers().firstValue("Content-Type")).contains("application/json");
        assertThat(HouseFiles.parse("back", json.body()).get()).isEqualTo(alderRow);
    }

    @Test
    void houseSentAsJsonIsTheSameHouse() {
        String tag = tag(served.putNew(Served.ALDER_ROW));
        String json =
                served.get(Served.HOUSE, "Accept", "application/json").body().replace("  ", "\t");
        assertThat(served.send("PUT", Served.HOUSE, json, "Content-Type", "application/json", "If-Match", tag)
                        .statusCode())
                .isEqualTo(200);
        assertThat(served.store.findHouse(Served.ID).orElseThrow().house()).isEqualTo(alderRow);
    }

    @Test
    void writeThatDoesNotSayWhatItChangesIsRefused() {
        var blind = served.send("PUT", Served.HOUSE, Served.ALDER_ROW, "Content-Type", "application/yaml");
        assertThat(blind.statusCode()).isEqualTo(428);
        served.putNew(Served.ALDER_ROW);
        blind = served.send("PUT", Served.HOUSE, Served.ALDER_ROW, "Content-Type", "application/yaml");
        assertThat(blind.statusCode()).isEqualTo(428);
        assertThat(served.send("DELETE", Served.HOUSE, null).statusCode()).isEqualTo(428);
        assertThat(served.store.revisions(Served.ID)).hasSize(1);
    }

    @Test
    void staleWriteIsRefusedAndSaysTheNewestRevision() {
        String first = tag(served.putNew(Served.ALDER_ROW));
        assertThat(put(Served.ALDER_ROW.replace("rear flat", "front flat"), first)
                        .statusCode())
                .isEqualTo(200);
        var late = put(Served.ALDER_ROW, first);
        assertThat(late.statusCode()).isEqualTo(412);
        assertThat(code(late)).isEqualTo("stale");
        assertThat(late.body()).contains("newest revision is 2");
        assertThat(delete(first).statusCode()).isEqualTo(412);
        assertThat(served.putNew(Served.ALDER_ROW).statusCode()).isEqualTo(412);
    }

    @Test
    void earlierStatesCanBeReadByNumberAndByMoment() {
        String first = tag(served.putNew(Served.ALDER_ROW));
        Instant between = Instant.now();
        put(Served.ALDER_ROW.replace("rear flat", "front flat"), first);
        assertThat(served.get(Served.HOUSE).body()).contains("front flat");
        assertThat(served.get(Served.HOUSE + "?revision=1").body()).contains("rear flat");
        assertThat(served.get(Served.HOUSE + "?as-of=" + between).body()).contains("rear flat");
        assertThat(served.get(Served.HOUSE + "?as-of=1990-01-01T00:00:00Z").statusCode())
                .isEqualTo(404);
        assertThat(served.get(Served.HOUSE + "?revision=one").statusCode()).isEqualTo(422);
        assertThat(Json.read(served.get(Served.HOUSE + "/revisions").body())).hasSize(2);
    }

    @Test
    void deletedHouseIsGoneAndItsRevisionsStay() {
        assertThat(delete(tag(served.putNew(Served.ALDER_ROW))).statusCode()).isEqualTo(200);
        assertThat(served.get(Served.HOUSE).statusCode()).isEqualTo(404);
        assertThat(served.get(Served.HOUSE + "?revision=1").statusCode()).isEqualTo(200);
        JsonNode revisions = Json.read(served.get(Served.HOUSE + "/revisions").body());
        assertThat(revisions.path(1).path("deleted").asBoolean()).isTrue();
    }

    @Test
    void unchangedHouseIsNotSentAgain() {
        String tag = tag(served.putNew(Served.ALDER_ROW));
        assertThat(served.get(Served.HOUSE, "If-None-Match", tag).statusCode()).isEqualTo(304);
    }

    @Test
    void allProblemsOfABodyAreToldAtOnceAndNothingIsStored() {
        var answer = served.putNew(
                Served.ALDER_ROW.replace("{rating: 20 A, label: Bench left}", "{rating: 20 W}") + "\nwibble: 1\n");
        assertThat(answer.statusCode()).isEqualTo(422);
        assertThat(Json.read(answer.body()).path("problems").size()).isGreaterThanOrEqualTo(2);
        assertThat(answer.body()).contains("\"line\"", "wibble", "\\\"W\\\"");
        assertThat(served.store.listHouses()).isEmpty();
    }

    @Test
    void brokenTextsAreBadRequests() {
        assertThat(served.putNew("a: [").statusCode()).isEqualTo(400);
        assertThat(served.send("PUT", Served.HOUSE, "{\"a\":", "Content-Type", "application/json", "If-None-Match", "*")
                        .statusCode())
                .isEqualTo(400);
    }

    @Test
    void bodyOfAnotherHouseIsRefused() {
        String[] headers = {"Content-Type", "application/yaml", "If-None-Match", "*"};
        assertThat(served.send("PUT", "/api/v1/houses/other", Served.ALDER_ROW, headers)
                        .statusCode())
                .isEqualTo(422);
    }

    @Test
    void unknownPathsMethodsAndFormsAreToldApart() {
        assertThat(code(served.get("/api/v1/houses/none"))).isEqualTo("not-found");
        assertThat(code(served.get("/api/v1/none"))).isEqualTo("not-found");
        assertThat(code(served.send("DELETE", "/api/v1/houses", null))).isEqualTo("method");
        served.putNew(Served.ALDER_ROW);
        assertThat(served.get(Served.HOUSE, "Accept", "image/png").statusCode()).isEqualTo(406);
    }

    @Test
    void storeThatIsAwayIsSaidToBeAway() {
        served.store.goAway();
        assertThat(served.get("/api/v1/houses").statusCode()).isEqualTo(503);
        var health = served.get("/api/v1/health");
        assertThat(health.statusCode()).isEqualTo(503);
        assertThat(Json.read(health.body()).path("up").asBoolean()).isFalse();
    }
}
