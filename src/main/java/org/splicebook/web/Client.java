package org.splicebook.web;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.FileNotFoundException;
import java.io.IOException;
import java.net.URI;
import java.net.URLEncoder;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.render.Json;
import org.splicebook.render.ProblemJson;

/** Sends requests to a server of this program and turns its problem documents back into problems. */
final class Client {
    private static final Duration CONNECT = Duration.ofSeconds(3);
    private static final Duration ANSWER = Duration.ofMinutes(10);

    private final HttpClient http = HttpClient.newBuilder()
            .version(HttpClient.Version.HTTP_1_1)
            .connectTimeout(CONNECT)
            .build();
    private final URI base;
    private final String key;

    /** key is what lets the owner of the server in; empty where nobody has to sign in. */
    Client(URI base, String key) {
        this.base = base;
        this.key = key;
    }

    /** What came back. */
    record Answer(int status, String tag, String body) {
        JsonNode json() {
            return Json.read(body);
        }
    }

    /** A request that is still to be sent. */
    interface Call {
        Answer send();
    }

    static String path(String... segments) {
        return Arrays.stream(segments).map(Client::encoded).collect(Collectors.joining("/"));
    }

    static String query(Map<String, String> parameters) {
        String query = parameters.entrySet().stream()
                .map(p -> encoded(p.getKey()) + "=" + encoded(p.getValue()))
                .collect(Collectors.joining("&"));
        return query.isEmpty() ? "" : "?" + query;
    }

    private static String encoded(String text) {
        return URLEncoder.encode(text, StandardCharsets.UTF_8).replace("+", "%20");
    }

    /** {@return what is there; a 404 is an answer, any other failure is thrown} */
    Answer get(String path, String... headers) {
        Answer answer = exchange("GET", path, null, "", headers);
        return answer.status() == Statuses.of(ProblemKind.NOT_FOUND) ? answer : good(answer);
    }

    /** {@return what is said of a state, good or bad} */
    Answer state(String path) {
        return exchange("GET", path, null, "");
    }

    /** {@return what came back; a failure is thrown} */
    Answer send(String method, String path, @Nullable String type, String body, String... headers) {
        return good(exchange(method, path, type, body, headers));
    }

    /** {@return the outcome of a call, its problems as a failed result unless the server is away} */
    Result<Answer> result(Call call) {
        try {
            return Result.ok(call.send());
        } catch (ProblemException e) {
            if (e.problems().stream().anyMatch(p -> p.kind() == ProblemKind.STORE_AWAY)) {
                throw e;
            }
            return new Result.Failed<>(e.problems());
        }
    }

    private static Answer good(Answer answer) {
        if (answer.status() < 400) {
            return answer;
        }
        List<Problem> problems = ProblemJson.readAll(answer.json().path("problems"));
        throw new ProblemException(
                problems.isEmpty()
                        ? List.of(Failures.problem(
                                ProblemKind.INTERNAL, "The server answered " + answer.status() + ".", ""))
                        : problems);
    }

    /** Sends a file as it is; {@return what came back; a failure is thrown} */
    Answer sendFile(String path, String type, Path file) {
        try {
            return good(exchange("POST", path, type, HttpRequest.BodyPublishers.ofFile(file)));
        } catch (FileNotFoundException e) {
            throw Failures.failure(ProblemKind.NOT_FOUND, "There is no file " + file + ".", "Name one.");
        }
    }

    private Answer exchange(String method, String path, @Nullable String type, String body, String... headers) {
        return exchange(
                method,
                path,
                type,
                type == null ? HttpRequest.BodyPublishers.noBody() : HttpRequest.BodyPublishers.ofString(body),
                headers);
    }

    private Answer exchange(
            String method, String path, @Nullable String type, HttpRequest.BodyPublisher body, String... headers) {
        HttpRequest.Builder request = HttpRequest.newBuilder(base.resolve(path)).timeout(ANSWER);
        request.method(method, body);
        if (type != null) {
            request.header("Content-Type", type);
        }
        if (!key.isEmpty()) {
            request.header("Authorization", "Bearer " + key);
        }
        for (int i = 0; i < headers.length; i += 2) {
            request.header(headers[i], headers[i + 1]);
        }
        try {
            HttpResponse<String> response = http.send(request.build(), HttpResponse.BodyHandlers.ofString());
            return new Answer(
                    response.statusCode(), response.headers().firstValue("ETag").orElse(""), response.body());
        } catch (IOException e) {
            throw Failures.failure(
                    ProblemKind.STORE_AWAY,
                    "The server at " + base + " does not answer.",
                    "See whether it still runs.");
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw Failures.failure(ProblemKind.STORE_AWAY, "Interrupted while waiting for " + base + ".", "");
        }
    }
}
