package org.splicebook.web;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.http.Context;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import org.splicebook.housefile.DraftFiles;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.problem.Where;
import org.splicebook.record.Draft;
import org.splicebook.record.House;
import org.splicebook.render.Json;
import org.splicebook.render.ReplyJson;
import org.splicebook.rewire.place.Wanted;
import org.splicebook.rewire.search.Wish;
import org.splicebook.rules.Pack;
import org.splicebook.rules.Packs;
import org.splicebook.store.HouseStore;
import org.splicebook.store.KeptDraft;
import org.splicebook.store.StoredHouse;

/** Searches for a change, and placements of protective devices: begun, looked after, ended, a proposal kept as a draft. */
final class SearchApi {
    private static final String ALL = Api.BASE + "/houses/{house}/searches";
    private static final String ONE = ALL + "/{search}";
    private static final List<String> WHAT = List.of("cure", "wish", "place");
    private static final Set<String> KEYS = Set.of("cure", "wish", "place", "edition");
    private static final Set<String> PLACE_KEYS = Set.of("against", "points", "asked");
    private static final Set<String> KEEP_KEYS = Set.of("proposal", "name");

    private final HouseStore store;
    private final Searches searches;
    private final int largestBody;

    SearchApi(HouseStore store, Searches searches, int largestBody) {
        this.store = store;
        this.searches = searches;
        this.largestBody = largestBody;
    }

    List<Route> routes() {
        return List.of(
                Route.post(ALL, this::begin),
                Route.get(ALL, this::list),
                Route.get(ONE, ctx -> Api.json(ctx, write(find(ctx), true))),
                Route.delete(ONE, this::end),
                Route.post(ONE + "/drafts", this::keep));
    }

    private StoredHouse house(Context ctx) {
        return store.findHouse(Api.house(ctx)).orElseThrow(() -> Api.notFound(ctx));
    }

    private Searches.Running find(Context ctx) {
        StoredHouse unused = house(ctx);
        return searches.find(Api.house(ctx), ctx.pathParam("search"));
    }

    private void begin(Context ctx) throws IOException {
        StoredHouse stored = house(ctx);
        Searches.Running r = searches.begin(stored, sought(body(ctx, KEYS)));
        ctx.status(202).header("Location", ALL.replace("{house}", Paths.part(Api.house(ctx))) + "/" + r.id());
        Api.json(ctx, write(r, true));
    }

    private void list(Context ctx) {
        StoredHouse unused = house(ctx);
        Api.json(ctx, Json.list(searches.of(Api.house(ctx)), r -> write(r, false)));
    }

    private void end(Context ctx) {
        Searches.Running r = find(ctx);
        r.end();
        Api.json(ctx, write(r, true));
    }

    private void keep(Context ctx) throws IOException {
        Searches.Running r = find(ctx);
        JsonNode body = body(ctx, KEEP_KEYS);
        if (!body.path("proposal").isIntegralNumber() || !body.path("name").isTextual()) {
            throw wrong(
                    ProblemKind.MISSING,
                    "proposal",
                    "It is not said which proposal is kept under which name.",
                    "Send {\"proposal\": 1, \"name\": \"hall-neutral\"}.");
        }
        KeptDraft kept =
                r.keep(store, body.path("proposal").asLong(), body.path("name").asText(), Api.who(ctx));
        ctx.status(201).header("ETag", DraftJson.tag(kept.version()));
        ctx.header(
                "Location", Api.BASE + "/houses/" + Paths.part(Api.house(ctx)) + "/drafts/" + Paths.part(kept.name()));
        Api.json(ctx, DraftJson.write(kept));
    }

    private JsonNode body(Context ctx, Set<String> keys) throws IOException {
        JsonNode body = Json.read(Body.text(ctx, largestBody));
        if (!body.isObject()) {
            throw wrong(ProblemKind.BAD_VALUE, "", "The body is no object.", "Send {\"wish\": \"apart=hall,stair\"}.");
        }
        known(body, keys, "");
        return body;
    }

    private static void known(JsonNode o, Set<String> keys, String in) {
        List<Problem> problems = new ArrayList<>();
        o.fieldNames().forEachRemaining(k -> {
            if (!keys.contains(k)) {
                problems.add(Problem.error(
                        ProblemKind.UNKNOWN_KEY,
                        Where.field(in + k),
                        "There is no key '" + k + "' here.",
                        "There are " + String.join(", ", keys.stream().sorted().toList()) + "."));
            }
        });
        if (!problems.isEmpty()) {
            throw new ProblemException(problems);
        }
    }

    private static Sought sought(JsonNode body) {
        List<String> said = WHAT.stream().filter(body::has).toList();
        if (said.size() != 1) {
            throw wrong(
                    ProblemKind.BAD_VALUE,
                    said.isEmpty() ? "" : said.get(1),
                    said.isEmpty()
                            ? "It is not said what is looked for."
                            : "Two things are looked for: " + String.join(" and ", said) + ".",
                    "Send one of cure (a finding's key), wish (as of the command propose), place (an object, which may be empty).");
        }
        Function<House, Pack> pack =
                pack(body.has("edition") ? body.path("edition").asText() : null);
        return switch (said.get(0)) {
            case "cure" -> Sought.change(new Wish.Cure(body.path("cure").asText()), pack);
            case "wish" -> Sought.change(Wish.parse(body.path("wish").asText()).get(), pack);
            default -> Sought.placement(wanted(body.path("place")), pack);
        };
    }

    private static Function<House, Pack> pack(@Nullable String edition) {
        if (edition == null) {
            return Packs::of;
        }
        Pack pack = Packs.find(edition).get();
        return house -> pack;
    }

    private static Wanted wanted(JsonNode o) {
        if (!o.isObject()) {
            throw wrong(
                    ProblemKind.BAD_VALUE,
                    "place",
                    "It is no object.",
                    "Send {} for all that a check finds, or {\"against\": [\"ground-fault\"]}.");
        }
        known(o, PLACE_KEYS, "place.");
        return Wanted.parse(
                        words(o, "against"), words(o, "points"), o.path("asked").asBoolean())
                .get();
    }

    private static List<String> words(JsonNode o, String key) {
        List<String> all = new ArrayList<>();
        if (o.has(key) && !o.path(key).isArray()) {
            throw wrong(ProblemKind.BAD_VALUE, "place." + key, "It is no list.", "Write it as a list.");
        }
        o.path(key).forEach(w -> all.add(w.asText()));
        return all;
    }

    private static ProblemException wrong(ProblemKind kind, String field, String message, String cure) {
        return new ProblemException(Problem.error(kind, Where.field(field), message, cure));
    }

    private static ObjectNode write(Searches.Running r, boolean whole) {
        ObjectNode o = Json.object();
        o.put("search", r.id());
        o.put("house", r.house().house().id());
        o.put("revision", r.house().revision().number());
        o.put("question", r.sought().question());
        o.put("state", r.state().name().toLowerCase(Locale.ROOT));
        o.put("judged", r.judged());
        o.put("most", r.most());
        o.put("ended", r.isEnded());
        Result<Sought.Outcome> found = r.found().orElse(null);
        if (found != null && whole) {
            if (found.isOk()) {
                o.set("answer", ReplyJson.write(found.get().answer()));
                List<Draft> drafts = found.get().drafts();
                o.set("drafts", Json.list(drafts, d -> draft(d, drafts.indexOf(d) + 1)));
            } else {
                o.set(
                        "problem",
                        Failures.document(
                                ALL.replace(
                                                "{house}",
                                                Paths.part(r.house().house().id())) + "/" + r.id(),
                                Statuses.of(found.problems()),
                                found.problems()));
            }
        }
        return o;
    }

    private static ObjectNode draft(Draft d, int number) {
        ObjectNode o = Json.object();
        o.put("proposal", number);
        o.put("reason", d.reason());
        o.put("moves", d.moves().size());
        o.put("text", DraftFiles.write(d));
        return o;
    }
}
