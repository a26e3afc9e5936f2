package org.splicebook.web;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.net.http.HttpResponse;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.splicebook.render.Json;

class FindingApiIT {
    private static final String FINDINGS = Served.HOUSE + "/findings";
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

    private static JsonNode got(String path) {
        HttpResponse<String> answer = served.get(path);
        assertThat(answer.statusCode()).as(answer.body()).isEqualTo(200);
        return Json.read(answer.body());
    }

    private static HttpResponse<String> accept(String key, String body) {
        return served.send("PUT", FINDINGS + "/" + key + "/acceptance", body, "Content-Type", "application/json");
    }

    @Test
    void findingsAreListedWithCautionsAndCanBePutTogether() {
        JsonNode all = got(FINDINGS);
        assertThat(all.path("findings")).isNotEmpty();
        assertThat(all.path("cautions")).isNotEmpty();
        assertThat(got(FINDINGS + "?by=place").path("groups")).isNotEmpty();
        assertThat(got(FINDINGS + "?edition=physics").path("pack").asText()).isEqualTo("physics");
        assertThat(served.get(FINDINGS + "?edition=1999").statusCode()).isEqualTo(422);
        assertThat(served.get(FINDINGS + "?by=colour").body()).contains("severity, place and circuit");
        assertThat(served.get("/api/v1/houses/none/findings").statusCode()).isEqualTo(404);
    }

    @Test
    void oneIsToldAtLengthAndOneThatIsNotFoundNamesThoseNear() {
        String key = got(FINDINGS).path("findings").get(0).path("key").asText();
        assertThat(got(FINDINGS + "/" + key).path("finding").path("key").asText())
                .isEqualTo(key);
        String rule = key.substring(0, key.indexOf('/'));
        HttpResponse<String> none = served.get(FINDINGS + "/" + rule + "/nowhere");
        assertThat(none.statusCode()).isEqualTo(404);
        assertThat(none.body()).contains(key);
    }

    @Test
    void acceptedFindingStandsApartUntilItIsTakenBack() {
        JsonNode before = got(FINDINGS);
        String key = before.path("findings").get(1).path("key").asText();
        assertThat(accept(key, "{}").statusCode()).isEqualTo(422);
        HttpResponse<String> made = accept(key, "{\"reason\": \"Known.\", \"by\": \"R.\"}");
        assertThat(made.statusCode()).as(made.body()).isEqualTo(200);
        JsonNode after = got(FINDINGS);
        assertThat(after.path("findings")).hasSize(before.path("findings").size() - 1);
        assertThat(after.path("accepted")
                        .get(0)
                        .path("acceptance")
                        .path("reason")
                        .asText())
                .isEqualTo("Known.");
        assertThat(got(FINDINGS + "/compared?with=1").path("cured")).isEmpty();
        assertThat(served.send("DELETE", FINDINGS + "/" + key + "/acceptance", "")
                        .statusCode())
                .isEqualTo(200);
        assertThat(got(FINDINGS)).isEqualTo(before);
        assertThat(served.send("DELETE", FINDINGS + "/" + key + "/acceptance", "")
                        .statusCode())
                .isEqualTo(404);
    }

    @Test
    void logForOtherToolsIsGivenWhereItIsAskedFor() {
        HttpResponse<String> log = served.send("GET", FINDINGS, "", "Accept", "application/sarif+json");
        assertThat(log.headers().firstValue("Content-Type").orElseThrow()).startsWith("application/sarif+json");
        assertThat(Json.read(log.body()).path("version").asText()).isEqualTo("2.1.0");
    }
}
