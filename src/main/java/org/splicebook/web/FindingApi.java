package org.splicebook.web;

import com.fasterxml.jackson.databind.JsonNode;
import io.javalin.http.Context;
import java.io.IOException;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.splicebook.people.Visitors;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.record.House;
import org.splicebook.render.FindingsJson;
import org.splicebook.render.Json;
import org.splicebook.render.Sarif;
import org.splicebook.rules.Acceptances;
import org.splicebook.rules.Checked;
import org.splicebook.rules.Grouping;
import org.splicebook.rules.Packs;
import org.splicebook.store.HouseStore;
import org.splicebook.store.Revision;
import org.splicebook.store.StoredHouse;

/** What a check of a house finds; findings that are let stand. */
final class FindingApi {
    private static final String PATH = Api.BASE + "/houses/{house}/findings";
    private static final String SARIF = "application/sarif+json";

    private final HouseStore store;
    private final WebSettings settings;

    FindingApi(HouseStore store, WebSettings settings) {
        this.store = store;
        this.settings = settings;
    }

    List<Route> routes() {
        String one = PATH + "/{rule}/{subject}";
        return List.of(
                Route.get(PATH, this::list),
                Route.get(PATH + "/compared", this::compare),
                Route.get(one, this::explain),
                Route.put(one + "/acceptance", this::accept),
                Route.delete(one + "/acceptance", this::withdraw));
    }

    private void list(Context ctx) {
        Checked checked = checked(ctx, ctx.queryParam("revision"));
        String accept = ctx.header("Accept");
        if (accept != null && accept.contains(SARIF)) {
            ctx.contentType(SARIF).result(Json.text(Sarif.write(checked, settings.version(), Map.of())));
            return;
        }
        Api.json(ctx, FindingsJson.write(checked, grouping(ctx.queryParam("by"))));
    }

    private void compare(Context ctx) {
        String with = ctx.queryParam("with");
        if (with == null) {
            throw new ProblemException(Problem.error(
                    ProblemKind.MISSING,
                    Where.field("with"),
                    "The earlier revision is not said.",
                    "Send with=1 for the first."));
        }
        Checked before = checked(ctx, with);
        Checked after = checked(ctx, ctx.queryParam("revision"));
        Api.json(ctx, FindingsJson.compare(before, after));
    }

    private void explain(Context ctx) {
        Checked checked = checked(ctx, ctx.queryParam("revision"));
        Api.json(
                ctx,
                FindingsJson.explain(
                        checked, Acceptances.find(checked, key(ctx)).get()));
    }

    private void accept(Context ctx) throws IOException {
        JsonNode body = Json.read(Body.text(ctx, settings.largestBody()));
        String by = Visitors.now().isOwner()
                ? body.path("by").asText(null)
                : Visitors.now().name();
        StoredHouse stored = newest(ctx);
        House changed = Acceptances.accept(
                        checked(ctx, stored.house()),
                        key(ctx),
                        body.path("reason").asText(null),
                        by,
                        LocalDate.now(ZoneId.systemDefault()))
                .get();
        put(ctx, stored, changed, by == null ? Api.who(ctx) : by, "lets stand: ");
    }

    private void withdraw(Context ctx) {
        StoredHouse stored = newest(ctx);
        put(ctx, stored, Acceptances.withdraw(stored.house(), key(ctx)).get(), Api.who(ctx), "takes back: ");
    }

    /** An acceptance rests on nothing but what the check says now: If-Match may be left out. */
    private void put(Context ctx, StoredHouse stored, House changed, String who, String why) {
        String ifMatch = ctx.header("If-Match");
        long expected = ifMatch == null
                ? stored.revision().number()
                : Tags.expected(ifMatch, null, Optional.of(stored.revision()));
        Revision made = store.put(changed, expected, who, why + key(ctx)).get();
        ctx.header("ETag", Tags.of(made));
        Api.json(ctx, RevisionJson.write(made));
    }

    private static String key(Context ctx) {
        return ctx.pathParam("rule") + "/" + ctx.pathParam("subject");
    }

    private StoredHouse newest(Context ctx) {
        return store.findHouse(Api.house(ctx)).orElseThrow(() -> Api.notFound(ctx));
    }

    private Checked checked(Context ctx, @Nullable String revision) {
        return checked(
                ctx,
                revision == null
                        ? newest(ctx).house()
                        : store.findRevision(Api.house(ctx), HouseApi.number(revision))
                                .orElseThrow(() -> Api.notFound(ctx))
                                .house());
    }

    /** {@return what is found in a house by the edition that was asked for, else by the one that its record names} */
    static Checked checked(Context ctx, House house) {
        String edition = ctx.queryParam("edition");
        return Checked.of(
                house, edition == null ? Packs.of(house) : Packs.find(edition).get());
    }

    /** {@return how findings are put together, by the word that was sent} */
    static Grouping grouping(@Nullable String by) {
        if (by == null) {
            return Grouping.SEVERITY;
        }
        return Arrays.stream(Grouping.values())
                .filter(g -> g.word().equals(by.toLowerCase(Locale.ROOT)))
                .findFirst()
                .orElseThrow(() -> new ProblemException(Problem.error(
                        ProblemKind.BAD_VALUE,
                        Where.field("by"),
                        "'" + by + "' is no way to put findings together.",
                        "There are severity, place and circuit.")));
    }
}
