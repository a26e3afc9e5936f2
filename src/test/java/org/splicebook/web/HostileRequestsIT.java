package org.splicebook.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.OutputStream;
import java.net.Socket;
import java.net.SocketTimeoutException;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.splicebook.housefile.HouseFiles;

/** Requests made to do harm: refused in words, by the program and never by a fault of it, and nothing is stored. */
class HostileRequestsIT {
    private static final int MOST_MILLIS = 30_000;
    private static final List<String> NAMES = List.of(
            "name",
            "id",
            "text",
            "why",
            "at",
            "step",
            "what",
            "who",
            "said",
            "symptoms",
            "version",
            "rating",
            "spaces",
            "breakers",
            "rooms",
            "system",
            "key",
            "device",
            "kind",
            "date",
            "result",
            "note",
            "of",
            "file",
            "panel",
            "box",
            "template",
            "in",
            "out",
            "edition",
            "keep",
            "columns",
            "draft",
            "reason",
            "in-wires",
            "out-wires",
            "area",
            "add",
            "peak",
            "raise",
            "season",
            "limit",
            "told",
            "place",
            "end",
            "moves",
            "day",
            "between");
    private static Served served;
    private static long revision;

    @BeforeAll
    static void start() {
        served = Served.answering();
        served.store
                .put(HouseFiles.parse("a", Served.ALDER_ROW).get(), 0, "Rowan", "new")
                .get();
        revision = revisionNow();
    }

    @AfterAll
    static void stop() {
        assertThat(revisionNow()).as("nothing was stored").isEqualTo(revision);
        served.close();
    }

    private static long revisionNow() {
        return served.store.findHouse(Served.ID).orElseThrow().revision().number();
    }

    static Stream<Map.Entry<String, String>> bodies() {
        String deep = "{\"a\":".repeat(20_000) + "1" + "}".repeat(20_000);
        return Stream.of(
                Map.entry("deep maps", deep),
                Map.entry("deep lists", "[".repeat(100_000)),
                Map.entry("a number of many digits", "{\"revision\": " + "9".repeat(100_000) + "}"),
                Map.entry("a huge number", "{\"revision\": 1e999999999, \"text\": \"a,b\", \"moves\": 1e400}"),
                Map.entry("half a pair", "{\"said\": \"\\ud800\", \"symptoms\": \"\\udc00\", \"text\": \"\\ud800\"}"),
                Map.entry("nothing but zero", "{\"\\u0000\": \"\\u0000\", \"text\": \"\\u0000\"}"),
                Map.entry(
                        "control characters", "{\"said\": \"\\u0007\\u001b[31m\\r\\nX: y\", \"reason\": \"\\u0008\"}"),
                Map.entry("keys twice", "{\"moves\": [], \"moves\": [], \"step\": \"report\", \"step\": \"close\"}"),
                Map.entry("a list for a map", "[]"),
                Map.entry("a word for a map", "\"a\""),
                Map.entry("null", "null"),
                Map.entry(
                        "nulls", "{\"moves\": null, \"text\": null, \"file\": null, \"said\": null, \"tests\": null}"),
                Map.entry(
                        "maps for words",
                        "{\"moves\": {}, \"text\": {}, \"who\": [], \"tests\": {\"a\": {}}, \"case\": []}"),
                Map.entry("nothing", ""),
                Map.entry("an alias", "a: &a [*a]"),
                Map.entry("a tag", "!!javax.script.ScriptEngineManager [a]"));
    }

    @ParameterizedTest
    @MethodSource("bodies")
    void bodyOfAnyFormIsRefusedOrReadByEveryRouteThatTakesOne(Map.Entry<String, String> body) {
        List<String> wrong = new ArrayList<>();
        for (Route r : AccessTableTest.routes()) {
            String method = r.method().toString();
            boolean isApi = r.path().startsWith(Api.BASE);
            if (!isApi || !(method.equals("PUT") || method.equals("POST"))) {
                continue;
            }
            String path = r.path()
                    .replace("{house}", Served.ID)
                    .replace("{question}", "what-feeds")
                    .replace("{kind}", "outlets")
                    .replaceAll("\\{[a-z]+}", "none");
            for (String type : List.of("application/json", "application/yaml")) {
                int status = status(method, path, type, body.getValue());
                if (status >= 500) {
                    wrong.add(method + " " + path + " as " + type + ": " + status);
                }
            }
        }
        assertThat(wrong).isEmpty();
    }

    /** {@return how it is answered; 0 where the server closed before all was sent, which it may do where no body is wanted} */
    private static int status(String method, String path, String type, String body) {
        byte[] content = body.getBytes(StandardCharsets.UTF_8);
        String head = method + " " + path + " HTTP/1.1\r\nHost: 127.0.0.1:" + served.server.port()
                + "\r\nConnection: close\r\nIf-Match: \"9\"\r\nOrigin: " + served.server.url() + "\r\nContent-Type: "
                + type
                + "\r\nContent-Length: " + content.length + "\r\n\r\n";
        try (Socket socket = new Socket("127.0.0.1", served.server.port())) {
            socket.setSoTimeout(MOST_MILLIS);
            socket.getOutputStream().write(head.getBytes(StandardCharsets.US_ASCII));
            socket.getOutputStream().write(content);
            String answer = new String(socket.getInputStream().readNBytes(12), StandardCharsets.US_ASCII);
            return answer.length() < 12 ? 0 : Integer.parseInt(answer.substring(9));
        } catch (SocketTimeoutException e) {
            throw new AssertionError(path + " is not answered", e);
        } catch (IOException e) {
            return 0;
        }
    }

    /** Every field that a form of any page has, filled with what no field takes. */
    @Test
    void fieldsOfAnyFormAreRefusedOrRead() {
        List<String> hostile = List.of(
                "99999999999999999999",
                "-1",
                "1e999999999",
                "\u0000",
                "\ud83d",
                "\u202ea",
                "' OR 1=1 }) //",
                "../../etc",
                "a".repeat(20_000),
                "{{[",
                "\n\n,;=\n");
        List<String> wrong = new ArrayList<>();
        for (Route r : AccessTableTest.routes()) {
            boolean isForm = r.method().toString().equals("POST") && !r.path().startsWith(Api.BASE);
            if (!isForm || r.path().startsWith("/join") || r.path().startsWith("/log")) {
                continue;
            }
            String path = r.path()
                    .replace("{house}", Served.ID)
                    .replace("/boxes/{name}", "/boxes/bench")
                    .replace("/panels/{name}", "/panels/main")
                    .replace("/cables/{name}", "/cables/K1")
                    .replaceAll("\\{[a-z]+}", "none");
            for (String value : hostile) {
                String said = URLEncoder.encode(value, StandardCharsets.UTF_8);
                String form = NAMES.stream().map(n -> n + "=" + said).collect(Collectors.joining("&"));
                int status = status("POST", path, "application/x-www-form-urlencoded", form);
                if (status >= 500) {
                    wrong.add(path + " with " + value.codePointAt(0) + " ...: " + status);
                }
            }
        }
        assertThat(wrong).isEmpty();
    }

    @Test
    void parametersOfAnyQuestionAndPageAreRefusedOrRead() {
        List<String> hostile = List.of(
                "",
                "%00",
                "%ed%a0%80",
                "99999999999999999999",
                "NaN",
                "%22%3E%3Cb%3E%0d%0aX:%20y",
                "'%20OR%201%3D1",
                "a".repeat(4_000));
        List<String> wrong = new ArrayList<>();
        List<String> paths = new ArrayList<>();
        for (String value : hostile) {
            for (var q : served.store.questions()) {
                StringBuilder path = new StringBuilder("/houses/" + Served.ID + "/questions/" + q.id() + "?none=1");
                q.parameters()
                        .forEach(p ->
                                path.append('&').append(p.name()).append('=').append(value));
                if (path.length() < 7_000) {
                    paths.add(path.toString());
                    paths.add(Api.BASE + path);
                }
            }
            for (Route r : AccessTableTest.routes()) {
                if (r.method().toString().equals("GET")) {
                    String path = r.path()
                            .replace("{house}", Served.ID)
                            .replace("/boxes/{name}", "/boxes/bench")
                            .replaceAll("\\{[a-z]+}", value.isEmpty() || value.contains("/") ? "none" : value);
                    paths.add(path
                            + (value.length() > 100
                                    ? ""
                                    : "?at=" + value + "&of=" + value + "&revision=" + value
                                            + "&q=" + value + "&most=" + value + "&within=" + value + "&edition="
                                            + value + "&pack="
                                            + value + "&width=" + value + "&small=" + value + "&tests=" + value + "&on="
                                            + value));
                }
            }
        }
        for (String path : paths) {
            String answer = served.raw("GET " + path + " HTTP/1.1\r\nHost: 127.0.0.1:" + served.server.port()
                    + "\r\nConnection: close\r\n\r\n");
            String head = answer.substring(0, Math.max(0, answer.indexOf("\r\n\r\n")));
            if (!head.startsWith("HTTP/1.1") || head.matches("(?s)HTTP/1.1 5.*") || head.contains("\r\nX: y")) {
                wrong.add(path.substring(0, Math.min(path.length(), 200)) + ": "
                        + head.lines().findFirst().orElse("none"));
            }
        }
        assertThat(wrong).isEmpty();
    }

    @Test
    void headersAndAddressesThatAreTooLongAreRefused() {
        String host = "Host: 127.0.0.1:" + served.server.port() + "\r\nConnection: close\r\n";
        assertThat(served.raw("GET /" + "a".repeat(20_000) + " HTTP/1.1\r\n" + host + "\r\n"))
                .matches("(?s)HTTP/1.1 4(14|31).*");
        assertThat(served.raw("GET / HTTP/1.1\r\n" + host + "X: " + "a".repeat(20_000) + "\r\n\r\n"))
                .startsWith("HTTP/1.1 431");
        assertThat(served.raw("GET / HTTP/1.1\r\n" + host + "X: a\r\n".repeat(3_000) + "\r\n"))
                .startsWith("HTTP/1.1 431");
        assertThat(served.raw("GET / HTTP/1.1\r\n" + host + "Host: other.test\r\n\r\n"))
                .matches("(?s)HTTP/1.1 4.*");
        assertThat(served.raw("POST " + Served.HOUSE + " HTTP/1.1\r\n" + host
                        + "Content-Length: 3\r\nTransfer-Encoding: chunked\r\n\r\n0\r\n\r\n"))
                .matches("(?s)HTTP/1.1 4.*");
    }

    /** Many that begin a request and never end it do not keep others waiting. */
    @Test
    void slowBodiesKeepNobodyFromBeingAnswered() throws IOException {
        List<Socket> slow = new ArrayList<>();
        try {
            for (int i = 0; i < 200; i++) {
                Socket s = new Socket("127.0.0.1", served.server.port());
                slow.add(s);
                OutputStream out = s.getOutputStream();
                out.write(("PUT " + Served.HOUSE + " HTTP/1.1\r\nHost: 127.0.0.1:" + served.server.port()
                                + "\r\nContent-Type: application/yaml\r\nIf-Match: \"1\"\r\nContent-Length: 1000\r\n\r\nspl")
                        .getBytes(StandardCharsets.US_ASCII));
                out.flush();
            }
            assertThat(served.get("/api/v1/houses").statusCode()).isEqualTo(200);
        } finally {
            for (Socket s : slow) {
                s.close();
            }
        }
    }
}
