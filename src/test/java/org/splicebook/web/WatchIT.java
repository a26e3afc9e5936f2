package org.splicebook.web;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

class WatchIT {
    private static Closed closed;

    @BeforeAll
    static void start() {
        closed = new Closed();
        closed.add("watches", "reader");
        closed.add("manages", "manager");
    }

    @AfterAll
    static void stop() {
        closed.close();
    }

    @Test
    void eachAnswerHasAnIdOfItsOwn() {
        var one = closed.get("/api/v1/ready").headers().firstValue(Watch.ID_HEADER);
        var other = closed.get("/none").headers().firstValue(Watch.ID_HEADER);
        assertThat(one).isPresent();
        assertThat(other).isPresent().isNotEqualTo(one);
    }

    @Test
    void figuresTellRoutesAndNothingOfHouses() {
        String token = "Bearer " + closed.token("watches");
        closed.get(Served.HOUSE, "Authorization", token);
        closed.get("/houses/" + Closed.OTHER + "/search?q=secret", "Authorization", token);
        var figures = closed.get("/api/v1/metrics", "Authorization", token);
        assertThat(figures.statusCode()).isEqualTo(200);
        assertThat(figures.body())
                .contains(
                        "http_server_requests_seconds_count",
                        "route=\"GET /api/v1/houses/{house}\"",
                        "splicebook_store_up 1")
                .doesNotContain(Served.ID, Closed.OTHER, "secret", "watches");
        assertThat(closed.get("/api/v1/metrics").statusCode()).isEqualTo(401);
    }

    @Test
    void managerAddsInvitesAndTakesAwayOnThePage() {
        String cookie = closed.signIn("manages");
        String csrf = closed.csrf(cookie);
        var added = closed.form(
                "/people",
                cookie,
                "csrf",
                csrf,
                "what",
                "add",
                "user",
                "elm",
                "roles",
                "reader@" + Served.ID,
                "password",
                "three owls on a ladder");
        assertThat(added.statusCode()).as(added.body()).isEqualTo(303);
        var weak = closed.form(
                "/people", cookie, "csrf", csrf, "what", "add", "user", "oak", "roles", "reader", "password", "x");
        assertThat(weak.statusCode()).isEqualTo(422);
        assertThat(weak.body()).contains("from 12 to 200");
        var invited = closed.form(
                "/people",
                cookie,
                "csrf",
                csrf,
                "what",
                "invite",
                "label",
                "<b>contractor</b>",
                "house",
                Served.ID,
                "role",
                "reader",
                "lasting",
                "P7D");
        assertThat(invited.statusCode()).isEqualTo(200);
        assertThat(invited.body()).contains("/join/");
        String page = closed.get("/people", "Cookie", cookie).body();
        assertThat(page).contains("elm", "&lt;b&gt;contractor").doesNotContain("<b>contractor", "argon2");
        assertThat(closed.get("/audit", "Cookie", cookie).body()).contains("user added", "invited", "signed in");
        assertThat(closed.form("/people", cookie, "csrf", csrf, "what", "remove", "user", "elm")
                        .statusCode())
                .isEqualTo(303);
        assertThat(closed.get("/people", "Cookie", cookie).body()).doesNotContain(">elm<");
        assertThat(closed.form("/people", cookie, "what", "remove", "user", "watches")
                        .statusCode())
                .isEqualTo(403);
    }

    @Test
    void queriesOfOnesOwnAreForTheOwnerAlone() {
        String[] manager = {"Content-Type", "application/json", "Authorization", "Bearer " + closed.token("manages")};
        String body = "{\"cypher\": \"RETURN 1\"}";
        assertThat(closed.send("POST", "/api/v1/cypher", body, manager).statusCode())
                .isEqualTo(403);
        String[] owner = {"Content-Type", "application/json", "Authorization", "Bearer " + Closed.OWNER_KEY};
        assertThat(closed.send("POST", "/api/v1/cypher", body, owner).body()).contains("no graph to look at");
    }
}
