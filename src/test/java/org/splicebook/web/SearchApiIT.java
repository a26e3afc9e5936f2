package org.splicebook.web;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.render.Json;

/** Searches over the API: begun, polled, ended, a proposal kept, and what is refused. */
class SearchApiIT {
    private static final String SEARCHES = Served.HOUSE + "/searches";
    private static final int WAIT_MILLIS = 50;
    private static final int MOST_WAITS = 6000;
    private Served served;

    @BeforeEach
    void start() {
        served = new Served();
        served.store.put(HouseFiles.parse("a", Served.ALDER_ROW).get(), 0, "me", "new");
    }

    @AfterEach
    void stop() {
        served.close();
    }

    private HttpResponse<String> post(String path, String body) {
        return served.send("POST", path, body, "Content-Type", "application/json");
    }

    private String begin(String body) {
        return begin(SEARCHES, body);
    }

    private String begin(String searches, String body) {
        HttpResponse<String> begun = post(searches, body);
        assertThat(begun.statusCode()).as(begun.body()).isEqualTo(202);
        String at = begun.headers().firstValue("Location").orElseThrow();
        assertThat(at).endsWith(Json.read(begun.body()).path("search").asText());
        return at;
    }

    private JsonNode ended(String at) throws InterruptedException {
        JsonNode now = Json.read(served.get(at).body());
        for (int i = 0;
                i < MOST_WAITS
                        && Set.of("waiting", "running")
                                .contains(now.path("state").asText());
                i++) {
            Thread.sleep(WAIT_MILLIS);
            now = Json.read(served.get(at).body());
        }
        return now;
    }

    @Test
    void aPlacementIsBegunPolledAndKeptAsADraft() throws InterruptedException {
        String chain = Served.resource("/org/splicebook/rewire/puzzles/chain-downstream.house.yaml");
        served.store.put(HouseFiles.parse("chain", chain).get(), 0, "me", "new");
        String house = "/api/v1/houses/chain-downstream";
        String at = begin(
                house + "/searches", "{\"place\": {\"against\": [\"ground-fault\"], \"points\": [\"r2\", \"r3\"]}}");
        JsonNode done = ended(at);
        assertThat(done.path("state").asText()).as(done.toString()).isEqualTo("done");
        assertThat(done.path("answer").path("draft").asBoolean()).isTrue();
        assertThat(done.path("judged").asInt()).isPositive();
        assertThat(done.path("drafts")).as(done.toString()).hasSize(1);
        assertThat(Json.read(served.get(house + "/searches").body())
                        .get(0)
                        .path("search")
                        .asText())
                .isEqualTo(done.path("search").asText());

        assertThat(post(at + "/drafts", "{\"proposal\": 2, \"name\": \"bench\"}")
                        .statusCode())
                .isEqualTo(404);
        assertThat(post(at + "/drafts", "{\"proposal\": 1, \"name\": \"Two words\"}")
                        .statusCode())
                .isEqualTo(422);
        HttpResponse<String> kept = post(at + "/drafts", "{\"proposal\": 1, \"name\": \"bench\"}");
        assertThat(kept.statusCode()).as(kept.body()).isEqualTo(201);
        assertThat(kept.headers().firstValue("Location")).hasValue(house + "/drafts/bench");
        assertThat(post(at + "/drafts", "{\"proposal\": 1, \"name\": \"bench\"}")
                        .statusCode())
                .as("a name twice")
                .isEqualTo(412);
        assertThat(served.get(house + "/drafts/bench/told").body()).contains("ground-fault");
        assertThat(served.store
                        .findHouse("chain-downstream")
                        .orElseThrow()
                        .revision()
                        .number())
                .as("nothing of the house is changed")
                .isEqualTo(1);
    }

    @Test
    void aChangeIsLookedForAndEnded() throws InterruptedException {
        String at = begin("{\"wish\": \"ground-fault=bench-1.top\", \"edition\": \"2023\"}");
        JsonNode stopped = Json.read(served.send("DELETE", at, null).body());
        assertThat(stopped.path("ended").asBoolean()).isTrue();
        JsonNode done = ended(at);
        assertThat(done.path("state").asText()).isEqualTo("done");
        assertThat(done.path("answer").path("outcome").asText()).contains("judged");
    }

    @Test
    void whatIsNotInTheHouseIsToldByTheSearch() throws InterruptedException {
        JsonNode done = ended(begin("{\"cure\": \"borrowed-neutral/none\"}"));
        assertThat(done.path("state").asText()).isEqualTo("failed");
        assertThat(done.path("problem").path("detail").asText()).contains("borrowed-neutral/none");
        assertThat(done.has("answer")).isFalse();
        assertThat(ended(begin("{\"place\": {\"points\": [\"none\"]}}"))
                        .path("problem")
                        .toString())
                .contains("There is no load point none");
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "{}",
                "[]",
                "{\"cure\": \"a/b\", \"wish\": \"apart=a,b\"}",
                "{\"wish\": \"gold\"}",
                "{\"wish\": \"apart=a,b\", \"soon\": true}",
                "{\"place\": \"here\"}",
                "{\"place\": {\"against\": [\"sparks\"]}}",
                "{\"place\": {\"against\": \"ground-fault\"}}",
                "{\"place\": {\"where\": 1}}",
                "{\"place\": {}, \"edition\": \"1066\"}"
            })
    void whatIsNotSaidRightIsAProblemAndNothingIsBegun(String body) {
        HttpResponse<String> answer = post(SEARCHES, body);
        assertThat(answer.statusCode()).as(answer.body()).isBetween(400, 499);
        assertThat(answer.headers().firstValue("Content-Type")).hasValue("application/problem+json");
        assertThat(Json.read(served.get(SEARCHES).body())).isEmpty();
    }

    @Test
    void searchesOfOtherHousesAndNoneAreNotFound() {
        String at = begin("{\"place\": {}}");
        served.store.put(HouseFiles.parse("a", Served.ALDER_ROW).get().withId("other"), 0, "me", "new");
        assertThat(served.get(at.replace(Served.ID, "other")).statusCode()).isEqualTo(404);
        assertThat(served.get(SEARCHES + "/none").statusCode()).isEqualTo(404);
        assertThat(served.get("/api/v1/houses/none/searches").statusCode()).isEqualTo(404);
        assertThat(post(SEARCHES + "/none/drafts", "{\"proposal\": 1, \"name\": \"x\"}")
                        .statusCode())
                .isEqualTo(404);
    }

    @Test
    void moreThanAFewAtOnceAreRefused() {
        served.store.put(HouseFiles.read(Path.of("sample-house")).get(), 0, "me", "new");
        String searches = "/api/v1/houses/pear-tree-house/searches";
        List<String> begun = new ArrayList<>();
        HttpResponse<String> last = null;
        for (int i = 0; i < 12 && (last == null || last.statusCode() == 202); i++) {
            last = post(searches, "{\"place\": {}}");
            last.headers().firstValue("Location").ifPresent(begun::add);
        }
        begun.forEach(at -> served.send("DELETE", at, null));
        assertThat(last.statusCode()).as(last.body()).isEqualTo(429);
        assertThat(last.body()).contains("searches run or wait already");
    }

    @Test
    void aDraftIsCheckedAndItsCurrentsComputed() {
        String drafts = Served.HOUSE + "/drafts";
        String moves = "{\"draft\": \"off\", \"moves\": [{\"cap\": \"K1.black\", \"in\": \"bench\"}]}";
        String json = "application/json";
        served.send("PUT", drafts + "/off", moves, "Content-Type", json, "If-None-Match", "*");
        JsonNode kept = Json.read(served.get(drafts + "/off/findings").body());
        JsonNode sent = Json.read(post(drafts + "/findings", moves).body());
        assertThat(kept.path("draft").asBoolean()).isTrue();
        assertThat(sent.path("findings")).isEqualTo(kept.path("findings"));
        assertThat(sent.path("findings"))
                .isNotEqualTo(
                        Json.read(served.get(Served.HOUSE + "/findings").body()).path("findings"));
        String on = "{\"loads\": {\"bench-1.top\": \"600 W\"}}";
        JsonNode now = Json.read(post(Served.HOUSE + "/flow", on).body());
        JsonNode after = Json.read(post(drafts + "/off/flow", on).body());
        assertThat(after.path("draft").asBoolean()).as(after.toString()).isTrue();
        assertThat(after.path("watts").asDouble())
                .as("what was capped takes nothing any more")
                .isLessThan(now.path("watts").asDouble());
        assertThat(post(drafts + "/off/flow/reports/open-neutral", "{\"about\": \"main.4\"}")
                        .statusCode())
                .isLessThan(500);
    }
}
