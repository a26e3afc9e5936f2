package org.splicebook.web;

import io.javalin.http.Context;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.splicebook.drafts.DraftDesk;
import org.splicebook.housefile.DraftFiles;
import org.splicebook.problem.ProblemKind;
import org.splicebook.record.Draft;
import org.splicebook.record.House;
import org.splicebook.record.Move;
import org.splicebook.render.ReplyText;
import org.splicebook.store.HouseStore;
import org.splicebook.store.KeptDraft;
import org.splicebook.store.StoredHouse;
import org.splicebook.web.view.Entry;
import org.splicebook.web.view.Input;
import org.splicebook.web.view.Link;
import org.splicebook.web.view.Section;
import org.splicebook.web.view.WorkPage;
import org.splicebook.web.view.Wrong;

/** Adds moves to a draft by forms: first where, then what is done there; or the whole draft as text. */
final class DraftMovePage {
    private static final String MOVES = DraftPages.ONE + "/moves";

    private final HouseStore store;
    private final DraftDesk desk;

    DraftMovePage(HouseStore store) {
        this.store = store;
        this.desk = new DraftDesk(store);
    }

    List<Route> routes() {
        return List.of(
                Route.get(
                        MOVES,
                        ctx -> ctx.html(page(ctx, Objects.requireNonNullElse(ctx.queryParam("in"), ""), Wrong.NONE))),
                Route.post(MOVES, this::add),
                Route.get(MOVES + "/text", ctx -> ctx.html(text(ctx, "", Wrong.NONE))),
                Route.post(MOVES + "/text", this::replace));
    }

    private KeptDraft kept(Context ctx) {
        return desk.find(Api.house(ctx), ctx.pathParam("draft"));
    }

    private void add(Context ctx) {
        KeptDraft kept = kept(ctx);
        String in = Sent.field(ctx, "in");
        String here = new Paths(kept.draft().house()).of("drafts", kept.name());
        Sent.attempt(
                ctx,
                MoveFields.FIELDS,
                () -> {
                    House base = desk.base(kept).house();
                    Map<String, List<String>> said = new LinkedHashMap<>(ctx.formParamMap());
                    List<Move> moves = MoveFields.read(
                            Sent.field(ctx, "what"),
                            in,
                            said,
                            desk.drafted(kept).house());
                    Draft draft = DraftDesk.with(kept.draft(), moves);
                    KeptDraft unused = desk.save(
                            draft.with(kept.state().base(), draft.moves()),
                            DraftPages.version(ctx),
                            DraftPages.BY_PAGE);
                    return in.isEmpty() || !base.boxes().containsKey(in) ? here : here + "/moves?in=" + Paths.part(in);
                },
                wrong -> page(ctx, in, wrong));
    }

    private String page(Context ctx, String in, Wrong wrong) {
        StoredHouse stored = Sent.house(store, ctx);
        KeptDraft kept = kept(ctx);
        House after = desk.drafted(kept).house();
        String here = new Paths(stored.house().id()).of("drafts", kept.name());
        boolean isThere = after.boxes().containsKey(in) || after.panels().containsKey(in);
        if (!in.isEmpty() && !isThere) {
            throw Failures.failure(
                    ProblemKind.NOT_FOUND, "After this draft there is no box or panel " + in + ".", "Choose another.");
        }
        List<Entry> entries = new ArrayList<>();
        for (MoveForms.OneForm f : in.isEmpty() ? MoveForms.ofHouse(after) : MoveForms.in(after, in)) {
            List<Input> inputs = new ArrayList<>(List.of(
                    Input.hidden(DraftPages.VERSION, String.valueOf(kept.version())),
                    Input.hidden("what", f.what()),
                    Input.hidden("in", in)));
            inputs.addAll(f.inputs());
            entries.add(new Entry(here + "/moves", f.words(), inputs, f.button()));
        }
        List<Link> where = new ArrayList<>();
        after.panels().keySet().forEach(p -> where.add(at(here, p, "panel")));
        after.boxes().values().forEach(b -> where.add(at(here, b.name(), place(after, b.place()))));
        int moves = kept.draft().moves().size();
        return DraftPages.page(
                stored,
                WorkPage.of(
                                "Draft " + kept.name() + ": " + (in.isEmpty() ? "add a move" : "what is done in " + in),
                                ReplyText.DRAFT,
                                (moves == 0
                                                ? "No moves yet. "
                                                : moves == 1 ? "1 move so far. " : moves + " moves so far. ")
                                        + (in.isEmpty()
                                                ? "Choose where, or what comes and goes."
                                                : "Each is added at the end, to the house as it is after those before it."))
                        .withWrong(wrong)
                        .withNext(
                                in.isEmpty()
                                        ? List.of(
                                                new Link(here, "To the comparison", ""),
                                                new Link(here + "/moves/text", "Write the moves as text", ""))
                                        : List.of(
                                                new Link(here, "To the comparison", ""),
                                                new Link(here + "/moves", "Somewhere else", ""),
                                                new Link(
                                                        here + "/drawings/"
                                                                + (after.panels()
                                                                                .containsKey(in)
                                                                        ? "panel"
                                                                        : "box")
                                                                + "?of=" + Paths.part(in),
                                                        "Look at it, before and after",
                                                        "")))
                        .withFound(List.of(), List.of(), List.of(), DraftLook.CAUTIONS)
                        .withEntries(entries)
                        .withSections(in.isEmpty() ? List.of(new Section("Where", "", where)) : List.of()));
    }

    private static Link at(String here, String name, String note) {
        return new Link(here + "/moves?in=" + Paths.part(name), name, note);
    }

    private static String place(House house, @Nullable String place) {
        var p = place == null ? null : house.places().get(place);
        return p == null ? "" : p.said();
    }

    private String text(Context ctx, String typed, Wrong wrong) {
        StoredHouse stored = Sent.house(store, ctx);
        KeptDraft kept = kept(ctx);
        String here = new Paths(stored.house().id()).of("drafts", kept.name());
        String shown = typed.isEmpty() ? DraftFiles.write(kept.draft()) : typed;
        Entry entry = new Entry(
                here + "/moves/text",
                "All its moves. Those that were entered as done stay as they are",
                List.of(
                        Input.hidden(DraftPages.VERSION, String.valueOf(kept.version())),
                        Input.typed(Input.Kind.AREA, "text", "The draft", shown, "as a file of moves", true)),
                "Keep it");
        return DraftPages.page(
                stored,
                WorkPage.of("Draft " + kept.name() + ": as text", ReplyText.DRAFT, "")
                        .withWrong(wrong)
                        .withNext(List.of(new Link(here, "To the comparison", "")))
                        .withEntries(List.of(entry)));
    }

    private void replace(Context ctx) {
        KeptDraft kept = kept(ctx);
        String text = Sent.field(ctx, "text").replace("\r\n", "\n");
        Sent.attempt(
                ctx,
                () -> {
                    Draft draft = Sent.typed(
                                    "text",
                                    text,
                                    DraftFiles.parse(
                                            "line", text, desk.base(kept).house()))
                            .draft();
                    if (!draft.name().equals(kept.name())) {
                        throw Failures.failure(
                                ProblemKind.BAD_VALUE,
                                "The text is of a draft '" + draft.name() + "', and this page is of '" + kept.name()
                                        + "'.",
                                "Leave the name as it was, or begin another draft.");
                    }
                    KeptDraft unused = desk.save(draft, DraftPages.version(ctx), DraftPages.BY_PAGE);
                    return new Paths(kept.draft().house()).of("drafts", kept.name());
                },
                wrong -> text(ctx, text, wrong));
    }
}
