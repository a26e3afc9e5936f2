package org.splicebook.cli;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.URI;
import java.net.URLEncoder;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.splicebook.answer.Question;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.render.Json;
import org.splicebook.render.ProblemJson;

/**
 * Times questions at the API. Each call is followed by one of the empty question, so that both meet the same machine.
 *
 * @param url the server's address
 * @param calls how many calls are measured at most
 * @param warmUp how many go before them
 * @param seconds how long one question may be measured; at least one call is
 */
record QuestionClock(HttpClient http, URI url, int calls, int warmUp, int seconds) {
    private static final Duration PATIENCE = Duration.ofSeconds(60);

    /** A question's and the empty question's timings. */
    record Pair(Timings question, Timings empty) {}

    /**
     * {@return how long a question takes}
     *
     * @param house the house it is asked of, unless it is asked of all
     * @throws ProblemException when it is refused
     */
    Pair time(Question question, String house, Map<String, String> parameters) {
        HttpRequest asked = request(question.acrossHouses() ? "" : house, question.id(), parameters);
        HttpRequest empty = request("", BenchQuestions.EMPTY, Map.of());
        long warm = System.nanoTime() + Duration.ofSeconds(seconds).toNanos() / 4;
        for (int i = 0; i < warmUp && System.nanoTime() < warm; i++) {
            nanos(asked);
            nanos(empty);
        }
        long end = System.nanoTime() + Duration.ofSeconds(seconds).toNanos();
        long[] askedNanos = new long[calls];
        long[] emptyNanos = new long[calls];
        int done = 0;
        do {
            askedNanos[done] = nanos(asked);
            emptyNanos[done] = nanos(empty);
            done++;
        } while (done < calls && System.nanoTime() < end);
        return new Pair(Timings.of(Arrays.copyOf(askedNanos, done)), Timings.of(Arrays.copyOf(emptyNanos, done)));
    }

    /**
     * {@return how long it takes when nothing that was worked out before can be told again}
     *
     * @param times how often
     * @param change changes the house; not measured
     */
    Timings afterChange(Question question, String house, Map<String, String> parameters, int times, Runnable change) {
        HttpRequest asked = request(question.acrossHouses() ? "" : house, question.id(), parameters);
        long[] nanos = new long[times];
        for (int i = 0; i < times; i++) {
            change.run();
            nanos[i] = nanos(asked);
        }
        return Timings.of(nanos);
    }

    /** {@return how long it takes of one house after another} */
    Timings inTurn(Question question, List<String> houses, Map<String, String> parameters) {
        return Timings.of(houses.stream()
                .mapToLong(h -> nanos(request(h, question.id(), parameters)))
                .toArray());
    }

    private HttpRequest request(String house, String question, Map<String, String> parameters) {
        String query = parameters.entrySet().stream()
                .map(p -> p.getKey() + "=" + URLEncoder.encode(p.getValue(), StandardCharsets.UTF_8))
                .collect(Collectors.joining("&"));
        String path = (house.isEmpty() ? "" : "houses/" + house + "/") + "questions/" + question;
        return HttpRequest.newBuilder(url.resolve("/api/v1/" + path + (query.isEmpty() ? "" : "?" + query)))
                .timeout(PATIENCE)
                .build();
    }

    private long nanos(HttpRequest request) {
        long start = System.nanoTime();
        HttpResponse<String> response = send(request);
        long nanos = System.nanoTime() - start;
        if (response.statusCode() != 200) {
            throw new ProblemException(
                    ProblemJson.readAll(Json.read(response.body()).path("problems")));
        }
        return nanos;
    }

    private HttpResponse<String> send(HttpRequest request) {
        try {
            return http.send(request, HttpResponse.BodyHandlers.ofString());
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new ProblemException(Problem.error(
                    ProblemKind.STORE_AWAY, Where.NOWHERE, "Interrupted while a question was measured.", ""));
        }
    }
}
