package org.splicebook.web;

import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.http.Context;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.splicebook.answer.Reply;
import org.splicebook.housefile.PropertyFiles;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.property.Dependents;
import org.splicebook.property.Joined;
import org.splicebook.property.PropertyQuestions;
import org.splicebook.record.Property;
import org.splicebook.render.Json;
import org.splicebook.render.ProblemJson;
import org.splicebook.render.QuestionJson;
import org.splicebook.render.ReplyJson;
import org.splicebook.store.HouseStore;
import org.splicebook.store.Papers;
import org.splicebook.store.Revision;
import org.splicebook.store.StoredProperty;
import org.splicebook.wiring.Derivation;

/** Properties, and the questions about all their parts together. */
final class PropertyApi {
    private static final String ONE = Api.BASE + "/properties/{property}";

    private final HouseStore store;
    private final int largestBody;

    PropertyApi(HouseStore store, int largestBody) {
        this.store = store;
        this.largestBody = largestBody;
    }

    List<Route> routes() {
        return List.of(
                Route.get(
                        Api.BASE + "/properties",
                        ctx -> Api.json(ctx, Json.list(store.properties().list(), RevisionJson::write))),
                Route.get(ONE, this::get),
                Route.put(ONE, this::put),
                Route.get(ONE + "/revisions", this::revisions),
                Route.get(
                        ONE + "/questions",
                        ctx -> Api.json(ctx, Json.list(PropertyQuestions.list(), QuestionJson::write))),
                Route.get(ONE + "/questions/{question}", this::ask));
    }

    static StoredProperty property(HouseStore store, Context ctx) {
        String id = ctx.pathParam("property");
        @Nullable String revision = ctx.queryParam("revision");
        Optional<StoredProperty> found = revision == null
                ? store.properties().find(id)
                : store.properties().findRevision(id, HouseApi.number(revision));
        return found.orElseThrow(() -> notFound(id));
    }

    static ProblemException notFound(String id) {
        return Failures.failure(
                ProblemKind.NOT_FOUND,
                "There is no property '" + id + "', or not in that revision.",
                "GET " + Api.BASE + "/properties lists the properties.");
    }

    static Joined joined(HouseStore store, StoredProperty stored) {
        return new Joined(stored, store::findHouse, s -> Derivation.derive(s.house()));
    }

    private void get(Context ctx) {
        StoredProperty stored = property(store, ctx);
        ctx.header("ETag", Tags.of(stored.revision()));
        ctx.contentType("application/yaml; charset=utf-8").result(PropertyFiles.write(stored.property()));
    }

    private void put(Context ctx) throws IOException {
        String id = ctx.pathParam("property");
        Optional<Revision> newest = store.properties().find(id).map(StoredProperty::revision);
        long expected = Tags.expected(ctx.header("If-Match"), ctx.header("If-None-Match"), newest);
        Property property =
                PropertyFiles.parse("body", Body.text(ctx, largestBody)).get().property();
        if (!property.id().equals(id)) {
            throw new ProblemException(Problem.error(
                    ProblemKind.BAD_VALUE,
                    Where.field("property"),
                    "The body is property '" + property.id() + "' and the address is property '" + id + "'.",
                    "Make both the same."));
        }
        List<Problem> warnings = check(store, property);
        Revision made = store.properties()
                .put(property, expected, Api.who(ctx), Api.why(ctx))
                .get();
        ctx.status(expected == 0 ? 201 : 200).header("ETag", Tags.of(made));
        ObjectNode answer = RevisionJson.write(made);
        answer.set("warnings", Json.list(warnings, ProblemJson::write));
        Api.json(ctx, answer);
    }

    /** Refuses what names a thing that a stored record does not have; {@return warnings of records that are not stored}. */
    private static List<Problem> check(HouseStore store, Property property) {
        Revision none = new Revision(property.id(), property.said(), 0, java.time.Instant.EPOCH, "", "", false, "");
        Joined joined = joined(store, new StoredProperty(property, none));
        List<Problem> wrong = List.copyOf(joined.dangling().values());
        if (!wrong.isEmpty()) {
            throw new ProblemException(wrong);
        }
        return new ArrayList<>(joined.missing().values());
    }

    private void revisions(Context ctx) {
        StoredProperty stored = property(store, ctx);
        Api.json(ctx, Json.list(store.properties().revisions(stored.property().id()), RevisionJson::write));
    }

    private void ask(Context ctx) {
        Api.json(ctx, ReplyJson.write(reply(store, ctx)));
    }

    /** {@return the reply to the question of a property that a request asks} */
    static Reply reply(HouseStore store, Context ctx) {
        Joined joined = joined(store, property(store, ctx));
        return Dependents.told(
                PropertyQuestions.ask(joined, ctx.pathParam("question"), QuestionApi.parameters(ctx))
                        .get(),
                joined,
                h -> store.papers().isMarked(Papers.RESIDENT, h));
    }
}
