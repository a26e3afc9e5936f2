package org.splicebook.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.http.HttpResponse;
import java.time.Duration;
import java.util.List;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.splicebook.people.AuditEntry;
import org.splicebook.people.Entrance;
import org.splicebook.people.Grant;
import org.splicebook.people.Issued;
import org.splicebook.people.Role;
import org.splicebook.store.Revision;

class SignInIT {
    private static final String PAGE = "/houses/" + Served.ID;
    private static final String SIGHTINGS = Served.HOUSE + "/sightings";
    private Closed closed;

    @BeforeEach
    void start() {
        closed = new Closed();
        closed.add("rowan", "recorder@" + Served.ID);
    }

    @AfterEach
    void stop() {
        closed.close();
    }

    @Test
    void pageLeadsToTheSignInAndFromThereBack() {
        var asked = closed.get(PAGE + "/boxes/bench?x=1");
        assertThat(asked.statusCode()).isEqualTo(303);
        String to = asked.headers().firstValue("Location").orElseThrow();
        assertThat(to).startsWith("/login?to=%2Fhouses%2F");
        var login = closed.get(to);
        assertThat(login.statusCode()).isEqualTo(200);
        Matcher m = Pattern.compile("name=\"to\" value=\"([^\"]+)\"").matcher(login.body());
        assertThat(m.find()).isTrue();
        var in = closed.form("/login", "a=b", "name", "rowan", "password", Closed.PASSWORD, "to", m.group(1));
        assertThat(in.statusCode()).isEqualTo(303);
        assertThat(in.headers().firstValue("Location")).contains(PAGE + "/boxes/bench?x=1");
        assertThat(in.headers().firstValue("Set-Cookie").orElseThrow())
                .contains("HttpOnly", "SameSite=Strict", "Path=/");
        assertThat(closed.get(PAGE, "Cookie", Closed.cookie(in)).statusCode()).isEqualTo(200);
        assertThat(closed.get("/", "Cookie", Closed.cookie(in)).body())
                .contains("alder-row-14b", "href=\"/account\"")
                .doesNotContain(Closed.OTHER);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "https://evil.test/",
                "//evil.test",
                "/\\evil.test",
                "javascript:alert(1)",
                "",
                "/a\r\nSet-Cookie: x=y"
            })
    void signInLeadsNowhereElse(String to) {
        var in = closed.form("/login", "a=b", "name", "rowan", "password", Closed.PASSWORD, "to", to);
        assertThat(in.headers().firstValue("Location")).contains("/");
        assertThat(in.headers().allValues("Set-Cookie")).hasSize(1);
    }

    @Test
    void apiSaysThatItDoesNotKnowWhoAsks() {
        var answer = closed.get("/api/v1/houses");
        assertThat(answer.statusCode()).isEqualTo(401);
        assertThat(answer.headers().firstValue("WWW-Authenticate")).contains("Bearer");
        assertThat(answer.headers().firstValue("Content-Type")).contains("application/problem+json");
        assertThat(closed.get("/api/v1/ready").statusCode()).isEqualTo(200);
    }

    @Test
    void cookieBroughtAlongIsNeverTakenOver() {
        String planted = "splicebook-session=planted-by-somebody-else-0123456789abcdef";
        var in = closed.form("/login", planted, "name", "rowan", "password", Closed.PASSWORD, "to", "/");
        assertThat(Closed.cookie(in)).isNotEqualTo(planted);
        assertThat(closed.get(PAGE, "Cookie", planted).statusCode()).isEqualTo(303);
        String first = Closed.cookie(in);
        String second = Closed.cookie(
                closed.form("/login", first, "csrf", closed.csrf(first), "name", "rowan", "password", Closed.PASSWORD));
        assertThat(second).isNotEqualTo(first);
        assertThat(closed.get(PAGE, "Cookie", first).statusCode())
                .as("the session before ends with the sign-in after it")
                .isEqualTo(303);
        assertThat(closed.get(PAGE, "Cookie", second).statusCode()).isEqualTo(200);
    }

    @Test
    void sessionEndsByTheClockAndBySigningOut() {
        String cookie = closed.signIn("rowan");
        assertThat(closed.form("/logout", cookie).statusCode())
                .as("not by another site's doing")
                .isEqualTo(403);
        assertThat(closed.form("/logout", cookie, "csrf", closed.csrf(cookie)).statusCode())
                .isEqualTo(303);
        assertThat(closed.get(PAGE, "Cookie", cookie).statusCode()).isEqualTo(303);
        String later = closed.signIn("rowan");
        closed.clock.pass(Entrance.SESSION);
        assertThat(closed.get(PAGE, "Cookie", later).statusCode()).isEqualTo(303);
    }

    @Test
    void formWithoutWhatOnlyItsPageKnowsStoresNothing() {
        String cookie = closed.signIn("rowan");
        String csrf = closed.csrf(cookie);
        closed.add("ash", "recorder@" + Served.ID);
        String others = closed.csrf(closed.signIn("ash"));
        String[] fields = {"revision", "1", "text", Served.ALDER_ROW, "why", "x"};
        for (String wrong : List.of("", "x", others, csrf.substring(1))) {
            var answer = closed.form(
                    PAGE + "/record",
                    cookie,
                    fields[0],
                    fields[1],
                    fields[2],
                    fields[3],
                    fields[4],
                    fields[5],
                    "csrf",
                    wrong);
            assertThat(answer.statusCode()).as(wrong).isEqualTo(403);
        }
        assertThat(closed.form(PAGE + "/record", cookie, fields).statusCode()).isEqualTo(403);
        String[] json = {"Content-Type", "application/json", "Cookie", cookie};
        assertThat(closed.send("POST", SIGHTINGS, "[]", json).statusCode()).isEqualTo(403);
        assertThat(closed.store.revisions(Served.ID)).hasSize(1);

        var made = closed.form(
                PAGE + "/record",
                cookie,
                fields[0],
                fields[1],
                fields[2],
                fields[3],
                fields[4],
                fields[5],
                "csrf",
                csrf);
        assertThat(made.statusCode()).as(made.body()).isEqualTo(303);
        String[] shown = {"Content-Type", "application/json", "Cookie", cookie, "X-Csrf", csrf};
        assertThat(closed.send("POST", SIGHTINGS, "[]", shown).statusCode()).isEqualTo(200);
    }

    /** One place makes every form that writes; no page may have another. */
    @Test
    void everyFormThatWritesCarriesIt() {
        String cookie = closed.signIn("rowan");
        int forms = 0;
        for (String path : List.of(
                PAGE + "/record",
                PAGE + "/history",
                PAGE + "/sight",
                PAGE + "/new-box",
                PAGE + "/boxes/bench/edit",
                "/account")) {
            String page = closed.get(path, "Cookie", cookie).body();
            int posts = page.split("method=\"post\"", -1).length - 1;
            assertThat(page.split("name=\"csrf\" value=\"[^\"]{20,}\"", -1).length - 1)
                    .as(path)
                    .isEqualTo(posts);
            forms += posts;
        }
        assertThat(forms).isGreaterThan(5);
    }

    @Test
    void changeCarriesTheNameOfWhoIsSignedInWhateverTheySay() {
        String tag = closed.get(Served.HOUSE, "Authorization", "Bearer " + closed.token("rowan"))
                .headers()
                .firstValue("ETag")
                .orElseThrow();
        var made = closed.send(
                "PUT",
                Served.HOUSE + "?who=somebody-else&why=x",
                Served.ALDER_ROW,
                "Content-Type",
                "application/yaml",
                "If-Match",
                tag,
                "Authorization",
                "Bearer " + closed.token("rowan"));
        assertThat(made.statusCode()).as(made.body()).isEqualTo(200);
        assertThat(closed.store.revisions(Served.ID))
                .last()
                .extracting(Revision::who)
                .isEqualTo("rowan");
        assertThat(closed.kept.audit(100, Served.ID))
                .filteredOn(e -> e.what().equals("house stored"))
                .singleElement()
                .satisfies(e -> assertThat(e.who()).isEqualTo("rowan"));
    }

    @Test
    void houseOfOthersIsAsIfItWereNotThere() {
        String token = closed.token("rowan");
        String other = "/api/v1/houses/" + Closed.OTHER;
        var theirs = closed.get(other, "Authorization", "Bearer " + token);
        var none = closed.get("/api/v1/houses/no-such-house", "Authorization", "Bearer " + token);
        assertThat(theirs.statusCode()).isEqualTo(404);
        assertThat(theirs.body().replace(Closed.OTHER, "no-such-house")).isEqualTo(none.body());
        var list = closed.get("/api/v1/houses", "Authorization", "Bearer " + token);
        assertThat(list.body()).contains(Served.ID).doesNotContain(Closed.OTHER);
        // The body names another house than the address: the address is theirs, the body's is not.
        String body = Served.ALDER_ROW.replaceFirst("house: " + Served.ID, "house: " + Closed.OTHER);
        closed.send(
                "PUT",
                Served.HOUSE,
                body,
                "Content-Type",
                "application/yaml",
                "If-Match",
                "*",
                "Authorization",
                "Bearer " + token);
        assertThat(closed.store.revisions(Closed.OTHER)).hasSize(1);
        assertThat(closed.get("/api/v1/questions/all-houses", "Authorization", "Bearer " + token)
                        .statusCode())
                .isEqualTo(403);
        for (String path : List.of("/houses/alder-row-14b%2F..%2F" + Closed.OTHER, "/houses/" + Closed.OTHER + "%00")) {
            assertThat(closed.get(path, "Authorization", "Bearer " + token).statusCode())
                    .as(path)
                    .isIn(400, 404);
        }
    }

    @Test
    void tokenThatIsWrongOverOrTakenAwayLetsNobodyIn() {
        Issued ending = closed.people
                .addToken("rowan", "x", Role.READER, Duration.ofDays(1))
                .get();
        assertThat(closed.get(Served.HOUSE, "Authorization", "Bearer " + ending.secret())
                        .statusCode())
                .isEqualTo(200);
        String[] write = {"Content-Type", "application/json", "Authorization", "Bearer " + ending.secret()};
        assertThat(closed.send("POST", SIGHTINGS, "[]", write).statusCode())
                .as("reads only, though its user records")
                .isEqualTo(403);
        closed.clock.pass(Duration.ofDays(1));
        assertThat(closed.get(Served.HOUSE, "Authorization", "Bearer " + ending.secret())
                        .statusCode())
                .isEqualTo(401);
        String gone = closed.token("rowan");
        closed.people.removeToken(closed.kept.tokens().get(1).id()).get();
        for (String said :
                List.of("Bearer " + gone, "Bearer x", "Bearer ", "Basic cm93YW46eA==", "Bearer " + ending.id())) {
            assertThat(closed.get(Served.HOUSE, "Authorization", said).statusCode())
                    .as(said)
                    .isEqualTo(401);
        }
        String cookie = closed.signIn("rowan");
        assertThat(closed.get(Served.HOUSE, "Authorization", "Bearer x", "Cookie", cookie)
                        .statusCode())
                .as("a wrong token is not made good by a cookie")
                .isEqualTo(401);
        assertThat(closed.kept.audit(100, "")).extracting(AuditEntry::what).contains("token refused");
    }

    @Test
    void wrongPasswordsLockTheUserAndThenTheAddressHasToWait() {
        for (int i = 0; i < Entrance.BORNE; i++) {
            assertThat(closed.form("/login", "a=b", "name", "rowan", "password", "wrong")
                            .statusCode())
                    .isEqualTo(401);
        }
        var right = closed.form("/login", "a=b", "name", "rowan", "password", Closed.PASSWORD);
        assertThat(right.statusCode()).isEqualTo(401);
        assertThat(right.headers().firstValue("Set-Cookie")).isEmpty();
        HttpResponse<String> last = right;
        for (int i = 0; i < 10 && last.statusCode() != 429; i++) {
            last = closed.form("/login", "a=b", "name", "user-" + i, "password", "wrong");
        }
        assertThat(last.statusCode()).isEqualTo(429);
        assertThat(closed.kept.audit(100, ""))
                .extracting(AuditEntry::said)
                .contains("wrong password, locked now", "locked", "no such user");
    }

    @Test
    void invitationIsLookedAtFreelyAndTakenOnce() {
        Issued code = closed.people
                .invite("a phone", Grant.parse("recorder@" + Served.ID).get(), Duration.ofMinutes(15), true)
                .get();
        String link = "/join/" + code.secret();
        assertThat(closed.get(link).body()).contains("a phone", Served.ID);
        assertThat(closed.get(link).statusCode()).isEqualTo(200);
        var in = closed.form("/join", "a=b", "code", code.secret());
        assertThat(in.headers().firstValue("Location")).contains(PAGE);
        String cookie = Closed.cookie(in);
        assertThat(closed.get(PAGE, "Cookie", cookie).statusCode()).isEqualTo(200);
        String[] shown = {"Content-Type", "application/json", "Cookie", cookie, "X-Csrf", closed.csrf(cookie)};
        assertThat(closed.send("POST", SIGHTINGS, "[]", shown).statusCode()).isEqualTo(200);
        assertThat(closed.get("/houses/" + Closed.OTHER, "Cookie", cookie).statusCode())
                .isEqualTo(404);
        assertThat(closed.get("/api/v1/users", "Cookie", cookie).statusCode()).isEqualTo(403);
        var again = closed.form("/join", "a=b", "code", code.secret());
        assertThat(again.statusCode()).isEqualTo(401);
        assertThat(again.headers().firstValue("Set-Cookie")).isEmpty();
    }

    @Test
    void linkOfAContractorShowsOneHouseUntilItIsOver() {
        Issued link = closed.people
                .invite("a contractor", Grant.parse("reader@" + Served.ID).get(), Duration.ofHours(2), false)
                .get();
        String cookie = Closed.cookie(closed.form("/join", "a=b", "code", link.secret()));
        assertThat(closed.get(PAGE, "Cookie", cookie).statusCode()).isEqualTo(200);
        assertThat(closed.get("/", "Cookie", cookie).body()).doesNotContain(Closed.OTHER);
        assertThat(closed.get(PAGE + "/sight", "Cookie", cookie).statusCode()).isEqualTo(403);
        closed.clock.pass(Duration.ofHours(2));
        assertThat(closed.get(PAGE, "Cookie", cookie).statusCode()).isEqualTo(303);
        assertThat(closed.get("/join/" + link.secret()).statusCode()).isEqualTo(401);
    }

    @Test
    void ownersKeyLetsTheCommandsOfThisMachineDoEverything() {
        try (ServedStore owner = new ServedStore(java.net.URI.create(closed.server.commandUrl()), Closed.OWNER_KEY)) {
            assertThat(owner.listHouses()).extracting(Revision::house).contains(Served.ID, Closed.OTHER);
            try (ServedPeople people = owner.people()) {
                assertThat(people.users()).extracting(u -> u.name()).containsExactly("rowan");
                people.addUser(
                                "elm",
                                Closed.PASSWORD,
                                List.of(Grant.parse("reader").get()))
                        .get();
                assertThat(people.addUser(
                                        "elm",
                                        Closed.PASSWORD,
                                        List.of(Grant.parse("reader").get()))
                                .isOk())
                        .isFalse();
                people.setGrants("elm", List.of(Grant.parse("manager").get())).get();
                people.setPassword("elm", "another good password").get();
                Issued token = people.addToken("elm", "a script", Role.READER, Duration.ofDays(2))
                        .get();
                assertThat(closed.get("/api/v1/houses", "Authorization", "Bearer " + token.secret())
                                .body())
                        .contains(Closed.OTHER);
                assertThat(people.removeToken(token.id()).get().user()).isEqualTo("elm");
                Issued link = people.invite(
                                "x", Grant.parse("reader@" + Served.ID).get(), Duration.ofDays(2), false)
                        .get();
                assertThat(people.invitations()).extracting(i -> i.id()).containsExactly(link.id());
                people.removeInvitation(link.id()).get();
                people.removeUser("elm").get();
                assertThat(people.audit(100, ""))
                        .extracting(AuditEntry::what)
                        .contains("user added", "user removed", "invited");
            }
        }
        assertThat(closed.get("/api/v1/houses", "Authorization", "Bearer " + Closed.OWNER_KEY + "x")
                        .statusCode())
                .isEqualTo(401);
    }

    @Test
    void passwordIsChangedByWhoKnowsItAndEndsTheSessions() {
        String cookie = closed.signIn("rowan");
        String other = closed.signIn("rowan");
        String csrf = closed.csrf(cookie);
        String fresh = "three owls on a ladder";
        assertThat(closed.form(
                                "/account/password",
                                cookie,
                                "csrf",
                                csrf,
                                "password",
                                "wrong",
                                "new",
                                fresh,
                                "again",
                                fresh)
                        .statusCode())
                .isEqualTo(401);
        assertThat(closed.form(
                                "/account/password",
                                cookie,
                                "csrf",
                                csrf,
                                "password",
                                Closed.PASSWORD,
                                "new",
                                fresh,
                                "again",
                                "x")
                        .statusCode())
                .isEqualTo(422);
        assertThat(closed.form(
                                "/account/password",
                                cookie,
                                "csrf",
                                csrf,
                                "password",
                                Closed.PASSWORD,
                                "new",
                                fresh,
                                "again",
                                fresh)
                        .statusCode())
                .isEqualTo(303);
        assertThat(closed.get(PAGE, "Cookie", cookie).statusCode()).isEqualTo(303);
        assertThat(closed.get(PAGE, "Cookie", other).statusCode()).isEqualTo(303);
        assertThat(closed.form("/login", "a=b", "name", "rowan", "password", fresh)
                        .statusCode())
                .isEqualTo(303);
    }

    @Test
    void whereNobodySignsInAProxyIsRefused() {
        try (Served open = new Served()) {
            assertThat(open.get("/api/v1/houses").statusCode()).isEqualTo(200);
            for (String header : Set.of("X-Forwarded-For", "Forwarded", "Via", "X-Real-IP")) {
                assertThat(open.get("/api/v1/houses", header, "192.0.2.7").statusCode())
                        .as(header)
                        .isEqualTo(403);
            }
        }
    }
}
