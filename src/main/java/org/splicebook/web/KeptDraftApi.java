package org.splicebook.web;

import com.fasterxml.jackson.databind.JsonNode;
import io.javalin.http.Context;
import java.io.IOException;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.splicebook.drafts.DraftDesk;
import org.splicebook.housefile.DraftFiles;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.record.Draft;
import org.splicebook.record.House;
import org.splicebook.render.Json;
import org.splicebook.render.ReplyJson;
import org.splicebook.render.drawing.Drawings;
import org.splicebook.rewire.DraftAnswer;
import org.splicebook.rules.Pack;
import org.splicebook.rules.Packs;
import org.splicebook.store.Files;
import org.splicebook.store.HouseStore;
import org.splicebook.store.KeptDraft;
import org.splicebook.store.Revision;
import org.splicebook.store.StoredHouse;
import org.splicebook.wiring.Derivation;

/** Drafts that are kept: read, written, told, drawn, asked about, entered as done, carried over, withdrawn. */
final class KeptDraftApi {
    private static final String ALL = Api.BASE + "/houses/{house}/drafts";
    private static final String ONE = ALL + "/{draft}";

    private final HouseStore store;
    private final Files files;
    private final DraftDesk desk;
    private final int largestBody;

    KeptDraftApi(HouseStore store, Files files, int largestBody) {
        this.store = store;
        this.files = files;
        this.desk = new DraftDesk(store);
        this.largestBody = largestBody;
    }

    List<Route> routes() {
        return List.of(
                Route.get(ALL, this::list),
                Route.get(ONE, ctx -> answer(ctx, kept(ctx))),
                Route.put(ONE, this::save),
                Route.delete(
                        ONE, ctx -> answer(ctx, desk.withdraw(kept(ctx), expected(ctx, found(ctx)), Api.who(ctx)))),
                Route.get(ONE + "/told", this::tell),
                Route.get(ONE + "/drawings/{kind}", this::draw),
                Route.get(ONE + "/questions/{question}", this::ask),
                Route.get(ONE + "/findings", this::findings),
                Route.get(ONE + "/sheets/{kind}.pdf", this::print),
                Route.post(ONE + "/entered", this::enter),
                Route.post(ONE + "/carried-over", this::carryOver));
    }

    private static String name(Context ctx) {
        return ctx.pathParam("draft");
    }

    private KeptDraft kept(Context ctx) {
        return desk.find(Api.house(ctx), name(ctx));
    }

    private Optional<KeptDraft> found(Context ctx) {
        return store.findDraft(Api.house(ctx), name(ctx));
    }

    private static long expected(Context ctx, Optional<KeptDraft> newest) {
        return DraftJson.expected(ctx.header("If-Match"), ctx.header("If-None-Match"), newest);
    }

    private static void answer(Context ctx, KeptDraft draft) {
        ctx.header("ETag", DraftJson.tag(draft.version()));
        Api.json(ctx, DraftJson.write(draft));
    }

    private void list(Context ctx) {
        StoredHouse unused = store.findHouse(Api.house(ctx)).orElseThrow(() -> Api.notFound(ctx));
        Api.json(ctx, Json.list(store.drafts(Api.house(ctx)), DraftJson::write));
    }

    private void save(Context ctx) throws IOException {
        StoredHouse newest = store.findHouse(Api.house(ctx)).orElseThrow(() -> Api.notFound(ctx));
        long expected = expected(ctx, found(ctx));
        Draft draft = DraftFiles.parse("body", Body.text(ctx, largestBody), newest.house())
                .get()
                .draft();
        if (!draft.name().equals(name(ctx))) {
            throw new ProblemException(Problem.error(
                    ProblemKind.BAD_VALUE,
                    Where.field("draft"),
                    "The body is draft '" + draft.name() + "' and the address is draft '" + name(ctx) + "'.",
                    "Make both the same."));
        }
        KeptDraft kept = desk.save(draft, expected, Api.who(ctx));
        ctx.status(expected == 0 ? 201 : 200);
        answer(ctx, kept);
    }

    private void tell(Context ctx) {
        DraftDesk.Comparison c = desk.compared(kept(ctx));
        String edition = ctx.queryParam("edition");
        Pack pack = edition == null
                ? Packs.of(c.house().house())
                : Packs.find(edition).get();
        Revision r = c.house().revision();
        Api.json(
                ctx,
                ReplyJson.write(DraftAnswer.of(c.rest(), c.house().house(), pack, r.number(), r.stored())
                        .get()
                        .withNotProven(c.since())));
    }

    private void draw(Context ctx) {
        String of = Objects.requireNonNullElse(ctx.queryParam("of"), "");
        String svg = Drawings.of(
                        DrawingApi.kind(ctx.pathParam("kind")),
                        Derivation.derive(desk.compared(kept(ctx)).drafted().house()),
                        of)
                .svg();
        ctx.contentType(DrawingApi.SVG).result(svg);
    }

    private void ask(Context ctx) {
        Api.json(
                ctx,
                ReplyJson.write(store.askDraft(
                                ctx.pathParam("question"),
                                desk.compared(kept(ctx)).drafted(),
                                QuestionApi.parameters(ctx))
                        .get()));
    }

    private void findings(Context ctx) {
        House after = desk.compared(kept(ctx)).drafted().house();
        Api.json(ctx, DraftApi.findings(ctx, after));
    }

    private void print(Context ctx) {
        byte[] pdf = HouseSheets.pdf(
                store,
                files,
                desk.compared(kept(ctx)).drafted(),
                ctx.pathParam("kind"),
                Objects.requireNonNullElse(ctx.queryParam("of"), ""),
                Objects.requireNonNullElse(ctx.queryParam("paper"), "a4"));
        ctx.contentType("application/pdf").result(pdf);
    }

    /** The steps that were done, all that are left where none is named; on the revision that is named, or the newest. */
    private void enter(Context ctx) throws IOException {
        KeptDraft kept = kept(ctx);
        long expected = expected(ctx, Optional.of(kept));
        JsonNode body = body(ctx);
        long newest = desk.house(Api.house(ctx)).revision().number();
        long revision = body.path("revision").asLong(newest);
        if (revision != newest) {
            throw Failures.failure(
                    ProblemKind.STALE,
                    "This was made from revision " + revision + " of the house, and its newest is " + newest + ".",
                    "Look at the draft on the newest revision.");
        }
        int steps = body.has("steps")
                ? body.path("steps").asInt()
                : kept.state().left().size();
        String day = LocalDate.now(ZoneId.systemDefault()).toString();
        Revision made = desk.enter(kept, expected, steps, body.path("although").asBoolean(), Api.who(ctx), day);
        ctx.header("ETag", Tags.of(made));
        Api.json(ctx, RevisionJson.write(made));
    }

    private void carryOver(Context ctx) throws IOException {
        KeptDraft kept = kept(ctx);
        long expected = expected(ctx, Optional.of(kept));
        answer(ctx, desk.carryOver(kept, expected, body(ctx).path("although").asBoolean(), Api.who(ctx)));
    }

    private JsonNode body(Context ctx) throws IOException {
        JsonNode body = Json.read(Body.text(ctx, largestBody));
        if (!body.isObject()) {
            throw Failures.failure(
                    ProblemKind.BAD_VALUE, "The body is not an object.", "Send {} where nothing is to be said.");
        }
        return body;
    }
}
