package org.splicebook.web;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.http.Context;
import java.io.IOException;
import java.util.List;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.housefile.PlainYaml;
import org.splicebook.problem.ProblemKind;
import org.splicebook.render.Json;
import org.splicebook.render.ReplyJson;
import org.splicebook.store.Health;
import org.splicebook.store.HouseStore;
import org.splicebook.store.Progress;

/** The state of the store, and the contract. */
final class StoreApi {
    private static final int MOST_ROWS = 1000;
    private static final int LIMIT_OF_ROWS = 10_000;

    private final HouseStore store;
    private final WebSettings settings;

    StoreApi(HouseStore store, WebSettings settings) {
        this.store = store;
        this.settings = settings;
    }

    List<Route> routes() {
        return List.of(
                Route.get(Api.BASE + "/health", this::health),
                Route.get(Api.BASE + "/ready", this::ready),
                Route.post(Api.BASE + "/verification", this::verify),
                Route.post(Api.BASE + "/cypher", this::look),
                Route.get(
                        Api.BASE + "/house-file.schema.json",
                        ctx -> ctx.contentType("application/schema+json").result(HouseFiles.schema())),
                Route.get(
                        Api.BASE + "/openapi.yaml",
                        ctx -> ctx.contentType("application/yaml; charset=utf-8")
                                .result(Resources.text("openapi.yaml"))),
                Route.get(Api.BASE + "/openapi.json", ctx -> Api.json(ctx, contract())));
    }

    static JsonNode contract() {
        return Json.tree(PlainYaml.typed(Resources.text("openapi.yaml")));
    }

    private void health(Context ctx) {
        Health health = store.health();
        ctx.status(health.up() ? 200 : 503);
        Api.json(ctx, RevisionJson.write(health, settings.version()));
    }

    /** Whether it can be used, and nothing more: whoever asks need not be known. */
    private void ready(Context ctx) {
        boolean up = store.health().up();
        ctx.status(up ? 200 : 503);
        ObjectNode o = Json.object();
        o.put("ready", up);
        Api.json(ctx, o);
    }

    private void look(Context ctx) throws IOException {
        JsonNode body = Json.read(Body.text(ctx, settings.largestBody()));
        int most = body.path("most").asInt(MOST_ROWS);
        if (most < 1 || most > LIMIT_OF_ROWS || !body.path("cypher").isTextual()) {
            throw Failures.failure(
                    ProblemKind.BAD_VALUE,
                    "There is no query, or its number of rows is not from 1 to " + LIMIT_OF_ROWS + ".",
                    "Send {\"cypher\": \"MATCH ... RETURN ...\", \"most\": 1000}.");
        }
        Api.json(
                ctx,
                ReplyJson.write(store.look(body.path("cypher").asText(), most).get()));
    }

    private void verify(Context ctx) throws IOException {
        JsonNode order = Json.read(Body.text(ctx, settings.largestBody()));
        if (!order.path("rebuild").isBoolean()) {
            throw Failures.failure(
                    ProblemKind.MISSING,
                    "Whether to rebuild is not said.",
                    "Send {\"rebuild\": false} or {\"rebuild\": true}.");
        }
        Api.json(ctx, RevisionJson.write(store.verify(order.path("rebuild").asBoolean(), Progress.NONE)));
    }
}
