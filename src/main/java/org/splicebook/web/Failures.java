package org.splicebook.web;

import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpResponseException;
import java.util.Arrays;
import java.util.List;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.render.Json;
import org.splicebook.render.ProblemJson;

/** Turns whatever goes wrong into {@code application/problem+json} (RFC 9457), or a page for whom asked for one. */
final class Failures {
    private static final Logger LOG = LoggerFactory.getLogger(Failures.class);
    private static final int MOST_FRAMES = 12;
    private static final String TYPE = "urn:splicebook:problem:";

    private Failures() {}

    static void register(RoutesConfig routes) {
        routes.exception(ProblemException.class, (e, ctx) -> answer(ctx, Statuses.of(e.problems()), e.problems()));
        routes.exception(
                HttpResponseException.class, (e, ctx) -> answer(ctx, e.getStatus(), List.of(fromServer(e, ctx))));
        routes.exception(Exception.class, (e, ctx) -> {
            LOG.error("{} failed: {}", Watch.route(ctx), frames(e));
            answer(
                    ctx,
                    500,
                    List.of(problem(
                            ProblemKind.INTERNAL,
                            "The program has a fault and could not answer.",
                            "The log of the server says more, at request " + Watch.id() + ".")));
        });
    }

    /** {@return where it came from; without the messages, which may hold what people wrote} */
    private static String frames(Throwable failure) {
        StringBuilder said = new StringBuilder();
        for (Throwable t = failure; t != null; t = t.getCause()) {
            said.append(said.isEmpty() ? "" : "; by ").append(t.getClass().getName());
            Arrays.stream(t.getStackTrace())
                    .limit(MOST_FRAMES)
                    .forEach(f -> said.append(" at ").append(f));
        }
        return said.toString();
    }

    /** {@return a problem of a request, with no place in any file} */
    static Problem problem(ProblemKind kind, String message, String cure) {
        return Problem.error(kind, Where.NOWHERE, message, cure);
    }

    /** {@return the same, to be thrown} */
    static ProblemException failure(ProblemKind kind, String message, String cure) {
        return new ProblemException(problem(kind, message, cure));
    }

    /** {@return the same, of a field of a form} */
    static ProblemException failure(String field, ProblemKind kind, String message, String cure) {
        return new ProblemException(Problem.error(kind, Where.field(field), message, cure));
    }

    private static Problem fromServer(HttpResponseException e, Context ctx) {
        ProblemKind kind = Statuses.kind(e.getStatus());
        return switch (kind) {
            case NOT_FOUND ->
                problem(kind, "There is nothing at " + ctx.path() + ".", "The contract lists what there is: /api.");
            case METHOD ->
                problem(
                        kind,
                        ctx.method() + " is not for " + ctx.path() + ".",
                        "The contract lists what can be done there: /api.");
            case TOO_LARGE -> problem(kind, "The body is larger than this server takes.", "Send it in parts.");
            default -> problem(kind, "The server refused the request.", "");
        };
    }

    private static void answer(Context ctx, int status, List<Problem> problems) {
        ctx.status(status);
        if (!ctx.path().startsWith(Api.BASE)) {
            ctx.html(Templates.failed(problems));
            return;
        }
        ctx.contentType("application/problem+json").result(Json.text(document(ctx.path(), status, problems)));
    }

    static ObjectNode document(String path, int status, List<Problem> problems) {
        Problem first = problems.stream().filter(Problem::isError).findFirst().orElseThrow();
        ObjectNode o = Json.object();
        o.put("type", TYPE + first.kind().code());
        o.put("title", first.kind().code().replace('-', ' '));
        o.put("status", status);
        o.put(
                "detail",
                problems.size() == 1 ? first.said() : problems.size() + " problems; the first: " + first.said());
        o.put("instance", path);
        o.set("problems", Json.list(problems, ProblemJson::write));
        return o;
    }
}
