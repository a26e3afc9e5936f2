package org.splicebook.web;

import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.http.Context;
import java.io.IOException;
import java.util.List;
import org.splicebook.answer.Answer;
import org.splicebook.drafts.DraftDesk;
import org.splicebook.housefile.DraftFiles;
import org.splicebook.record.Draft;
import org.splicebook.record.House;
import org.splicebook.render.FindingsJson;
import org.splicebook.render.ReplyJson;
import org.splicebook.render.drawing.Drawings;
import org.splicebook.rewire.DraftAnswer;
import org.splicebook.rewire.Drafts;
import org.splicebook.rules.Pack;
import org.splicebook.rules.Packs;
import org.splicebook.store.DraftedHouse;
import org.splicebook.store.HouseStore;
import org.splicebook.store.StoredHouse;
import org.splicebook.wiring.Derivation;

/** What a change would do to a house: told, drawn and asked about, nothing stored. */
final class DraftApi {
    private static final String PATH = Api.BASE + "/houses/{house}/drafts";

    private final HouseStore store;
    private final int largestBody;

    DraftApi(HouseStore store, int largestBody) {
        this.store = store;
        this.largestBody = largestBody;
    }

    List<Route> routes() {
        return List.of(
                Route.post(PATH + "/told", this::tell),
                Route.post(PATH + "/findings", this::check),
                Route.post(PATH + "/drawings/{kind}", this::draw),
                Route.post(PATH + "/questions/{question}", this::ask));
    }

    private void tell(Context ctx) throws IOException {
        StoredHouse stored = stored(ctx);
        String edition = ctx.queryParam("edition");
        Pack pack =
                edition == null ? Packs.of(stored.house()) : Packs.find(edition).get();
        Answer answer = DraftAnswer.of(
                        draft(ctx, stored),
                        stored.house(),
                        pack,
                        stored.revision().number(),
                        stored.revision().stored())
                .get();
        Api.json(ctx, ReplyJson.write(answer));
    }

    private void check(Context ctx) throws IOException {
        StoredHouse stored = stored(ctx);
        Api.json(
                ctx, findings(ctx, Drafts.of(draft(ctx, stored), stored.house()).get()));
    }

    /** {@return what is found in a house as it would be after a draft, marked} */
    static ObjectNode findings(Context ctx, House after) {
        return FindingsJson.write(FindingApi.checked(ctx, after), FindingApi.grouping(ctx.queryParam("by")))
                .put("draft", true);
    }

    private void ask(Context ctx) throws IOException {
        StoredHouse stored = stored(ctx);
        Draft draft = draft(ctx, stored);
        Long revision = draft.revision();
        StoredHouse base = revision == null
                ? stored
                : store.findRevision(Api.house(ctx), revision).orElseThrow(() -> Api.notFound(ctx));
        DraftedHouse drafted = DraftDesk.drafted(draft, base);
        Api.json(
                ctx,
                ReplyJson.write(store.askDraft(ctx.pathParam("question"), drafted, QuestionApi.parameters(ctx))
                        .get()));
    }

    private void draw(Context ctx) throws IOException {
        StoredHouse stored = stored(ctx);
        String of = ctx.queryParam("of");
        String svg = Drawings.of(
                        DrawingApi.kind(ctx.pathParam("kind")),
                        Derivation.derive(
                                Drafts.of(draft(ctx, stored), stored.house()).get()),
                        of == null ? "" : of)
                .svg();
        ctx.contentType(DrawingApi.SVG).result(svg);
    }

    private Draft draft(Context ctx, StoredHouse stored) throws IOException {
        return DraftFiles.parse("body", Body.text(ctx, largestBody), stored.house())
                .get()
                .draft();
    }

    private StoredHouse stored(Context ctx) {
        return store.findHouse(Api.house(ctx)).orElseThrow(() -> Api.notFound(ctx));
    }
}
