package org.splicebook.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.Locale;
import java.util.Set;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.splicebook.problem.ProblemException;

class GuardIT {
    private static Served served;

    @BeforeAll
    static void start() {
        served = new Served();
    }

    @AfterAll
    static void stop() {
        served.close();
    }

    private static String asked(String host) {
        String name = host.replace("PORT", "" + served.server.port());
        return served.raw("GET /api/v1/houses HTTP/1.1\r\nHost: " + name + "\r\nConnection: close\r\n\r\n");
    }

    @ParameterizedTest
    @ValueSource(strings = {"127.0.0.1:PORT", "localhost:PORT", "LOCALHOST:PORT", "[::1]:PORT", "wiring.test"})
    void knownNamesAreAnswered(String host) {
        assertThat(asked(host)).startsWith("HTTP/1.1 200");
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "rebound.test:PORT",
                "rebound.test",
                "127.0.0.1",
                "localhost:1",
                "127.0.0.1.rebound.test:PORT",
                "wiring.test:PORT"
            })
    void anotherNameIsRefusedSoThatARebindingPageGetsNothing(String host) {
        assertThat(asked(host)).startsWith("HTTP/1.1 403").contains("application/problem+json");
    }

    @ParameterizedTest
    @ValueSource(strings = {"http://rebound.test", "null", "https://127.0.0.1.rebound.test", "http://127.0.0.1:1"})
    void anotherOriginIsRefusedForReadsAndWrites(String origin) {
        String[] headers = {"Origin", origin, "Content-Type", "application/yaml", "If-None-Match", "*"};
        assertThat(served.get("/api/v1/houses", "Origin", origin).statusCode()).isEqualTo(403);
        assertThat(served.send("PUT", Served.HOUSE, Served.ALDER_ROW, headers).statusCode())
                .isEqualTo(403);
        assertThat(served.store.listHouses()).isEmpty();
    }

    @Test
    void ownOriginIsAnsweredAndNoOtherIsEverAllowed() {
        var answer = served.get("/api/v1/houses", "Origin", served.server.url());
        assertThat(answer.statusCode()).isEqualTo(200);
        assertThat(answer.headers().firstValue("Access-Control-Allow-Origin")).isEmpty();
        assertThat(served.send("OPTIONS", "/api/v1/houses", null)
                        .headers()
                        .map()
                        .keySet())
                .noneMatch(h -> h.toLowerCase(Locale.ROOT).startsWith("access-control"));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "text/plain",
                "application/x-www-form-urlencoded",
                "multipart/form-data; boundary=x",
                "application/json; charset=utf-16",
                "application/jsonx"
            })
    void bodiesThatAFormCouldSendAreRefused(String type) {
        assertThat(served.send("PUT", Served.HOUSE, "a", "Content-Type", type, "If-None-Match", "*")
                        .statusCode())
                .isEqualTo(415);
        assertThat(served.send("POST", "/api/v1/verification", "{}", "Content-Type", type)
                        .statusCode())
                .isEqualTo(415);
    }

    @Test
    void bodyWithoutATypeIsRefused() {
        assertThat(served.send("PUT", Served.HOUSE, "a", "If-None-Match", "*").statusCode())
                .isEqualTo(415);
    }

    @Test
    void tooLargeABodyIsRefusedHoweverItIsSent() {
        String large = "#" + "x".repeat(WebSettings.LARGEST_BODY);
        assertThat(served.putNew(large).statusCode()).isEqualTo(413);
        String chunked = "PUT /api/v1/houses/a HTTP/1.1\r\nHost: 127.0.0.1:" + served.server.port()
                + "\r\nConnection: close\r\nContent-Type: application/yaml\r\nIf-None-Match: *\r\n"
                + "Transfer-Encoding: chunked\r\n\r\n"
                + Integer.toHexString(large.length()) + "\r\n" + large + "\r\n0\r\n\r\n";
        assertThat(served.raw(chunked)).startsWith("HTTP/1.1 413");
    }

    @Test
    void everyAnswerCarriesTheSecurityHeaders() {
        for (String path : new String[] {"/", "/api", "/assets/api.js", "/api/v1/health", "/api/v1/none", "/none"}) {
            var headers = served.get(path).headers();
            assertThat(headers.firstValue("Content-Security-Policy").orElse(""))
                    .as(path)
                    .contains("default-src 'none'", "frame-ancestors 'none'")
                    .doesNotContain("unsafe");
            assertThat(headers.firstValue("X-Content-Type-Options")).contains("nosniff");
            assertThat(headers.firstValue("Server")).isEmpty();
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"0.0.0.0", "::", "192.168.1.10", "example.test", ""})
    void listeningForOthersIsRefusedAndTheReasonSaid(String host) {
        assertThatThrownBy(() -> new WebSettings(host, 0, Set.of(), 1, "", Door.OPEN))
                .isInstanceOf(ProblemException.class)
                .hasMessageContaining("without telling who they are");
    }
}
