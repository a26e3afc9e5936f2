package org.splicebook.web;

import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.http.Context;
import java.io.IOException;
import java.time.Instant;
import java.time.format.DateTimeParseException;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.problem.Where;
import org.splicebook.record.House;
import org.splicebook.render.Json;
import org.splicebook.render.ProblemJson;
import org.splicebook.store.HouseStore;
import org.splicebook.store.Revision;
import org.splicebook.store.StoredHouse;

/** Houses and their revisions. */
final class HouseApi {
    private final HouseStore store;
    private final int largestBody;

    HouseApi(HouseStore store, int largestBody) {
        this.store = store;
        this.largestBody = largestBody;
    }

    List<Route> routes() {
        return List.of(
                Route.get(Api.BASE + "/houses", this::list),
                Route.get(Api.BASE + "/houses/{house}", this::get),
                Route.put(Api.BASE + "/houses/{house}", this::put),
                Route.delete(Api.BASE + "/houses/{house}", this::delete),
                Route.get(Api.BASE + "/houses/{house}/revisions", this::revisions));
    }

    private void list(Context ctx) {
        Api.json(ctx, Json.list(store.listHouses(), RevisionJson::write));
    }

    private void get(Context ctx) {
        Body.Format format = accepted(ctx.header("Accept"));
        StoredHouse stored = find(ctx).orElseThrow(() -> Api.notFound(ctx));
        String tag = Tags.of(stored.revision(), format);
        ctx.header("ETag", tag).header("Vary", "Accept");
        String known = ctx.header("If-None-Match");
        if (known != null && known.contains(tag)) {
            ctx.status(304);
            return;
        }
        ctx.contentType(format == Body.Format.YAML ? "application/yaml; charset=utf-8" : "application/json");
        ctx.result(HouseText.write(stored.house(), format));
    }

    private Optional<StoredHouse> find(Context ctx) {
        String id = Api.house(ctx);
        @Nullable String revision = ctx.queryParam("revision");
        @Nullable String asOf = ctx.queryParam("as-of");
        if (revision != null) {
            return store.findRevision(id, number(revision));
        }
        return asOf == null ? store.findHouse(id) : store.findAsOf(id, moment(asOf));
    }

    static long number(String revision) {
        try {
            return Long.parseLong(revision);
        } catch (NumberFormatException e) {
            throw badParameter("revision", revision, "Give a whole number from 1.");
        }
    }

    private static Instant moment(String asOf) {
        try {
            return Instant.parse(asOf);
        } catch (DateTimeParseException e) {
            throw badParameter("as-of", asOf, "Give a moment like 2026-03-14T12:00:00Z.");
        }
    }

    private static ProblemException badParameter(String name, String value, String cure) {
        return new ProblemException(Problem.error(
                ProblemKind.BAD_VALUE, Where.field(name), "'" + value + "' is not a " + name + ".", cure));
    }

    private static Body.Format accepted(@Nullable String accept) {
        String a = accept == null ? "*/*" : accept.toLowerCase(Locale.ROOT);
        int yaml = a.indexOf("application/yaml");
        int json = a.indexOf("application/json");
        if (json >= 0 && (yaml < 0 || json < yaml)) {
            return Body.Format.JSON;
        }
        if (yaml >= 0 || a.contains("*/*") || a.contains("application/*")) {
            return Body.Format.YAML;
        }
        throw Failures.failure(
                ProblemKind.NOT_ACCEPTABLE,
                "A house is given as YAML or JSON.",
                "Ask for application/yaml or application/json.");
    }

    private void put(Context ctx) throws IOException {
        String id = Api.house(ctx);
        Optional<Revision> newest = store.findHouse(id).map(StoredHouse::revision);
        long expected = Tags.expected(ctx.header("If-Match"), ctx.header("If-None-Match"), newest);
        Result<House> read = HouseText.parse(Body.text(ctx, largestBody));
        House house = read.get();
        if (!house.id().equals(id)) {
            throw new ProblemException(Problem.error(
                    ProblemKind.BAD_VALUE,
                    Where.field("house"),
                    "The body is house '" + house.id() + "' and the address is house '" + id + "'.",
                    "Make both the same."));
        }
        Revision made = store.put(house, expected, Api.who(ctx), Api.why(ctx)).get();
        ctx.status(expected == 0 ? 201 : 200).header("ETag", Tags.of(made));
        if (expected == 0) {
            ctx.header("Location", ctx.path());
        }
        ObjectNode answer = RevisionJson.write(made);
        answer.set("warnings", Json.list(read.problems(), ProblemJson::write));
        Api.json(ctx, answer);
    }

    private void delete(Context ctx) {
        String id = Api.house(ctx);
        Revision newest = store.findHouse(id).map(StoredHouse::revision).orElseThrow(() -> Api.notFound(ctx));
        String ifMatch = ctx.header("If-Match");
        long expected = Tags.expected(ifMatch, null, Optional.of(newest));
        Revision made = store.delete(id, expected, Api.who(ctx), Api.why(ctx)).get();
        Api.json(ctx, RevisionJson.write(made));
    }

    private void revisions(Context ctx) {
        List<Revision> all = store.revisions(Api.house(ctx));
        if (all.isEmpty()) {
            throw Api.notFound(ctx);
        }
        Api.json(ctx, Json.list(all, RevisionJson::write));
    }
}
