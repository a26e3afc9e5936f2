package org.splicebook.web;

import io.javalin.http.Context;
import java.util.ArrayList;
import java.util.List;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.housefile.HouseWriter;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.record.House;
import org.splicebook.store.HouseStore;
import org.splicebook.store.Revision;
import org.splicebook.store.StoredHouse;
import org.splicebook.web.view.EditPage;
import org.splicebook.web.view.Entry;
import org.splicebook.web.view.Input;
import org.splicebook.web.view.Link;
import org.splicebook.web.view.Section;
import org.splicebook.web.view.Wrong;

/** The whole record as text, to read, take away and change; and its history, with every revision to be brought back. */
final class RecordPages {
    private static final String HOUSE = "/houses/{house}";
    private static final String BY_PAGE = "someone at the pages";

    private final HouseStore store;

    RecordPages(HouseStore store) {
        this.store = store;
    }

    List<Route> routes() {
        return List.of(
                Route.get(HOUSE + "/record", this::show),
                Route.post(HOUSE + "/record", this::change),
                Route.get(HOUSE + "/record.yaml", this::download),
                Route.get(HOUSE + "/history", ctx -> ctx.html(history(Sent.house(store, ctx), Wrong.NONE))),
                Route.post(HOUSE + "/history", this::bringBack),
                Route.post(HOUSE + "/undo", this::takeBack));
    }

    private void show(Context ctx) {
        StoredHouse stored = Sent.house(store, ctx);
        String text = HouseWriter.write(stored.house());
        ctx.html(record(stored, stored.revision().number(), text, "", Wrong.NONE));
    }

    private void download(Context ctx) {
        StoredHouse stored = Sent.house(store, ctx);
        ctx.contentType("application/yaml; charset=utf-8")
                .header(
                        "Content-Disposition",
                        "attachment; filename=\"" + stored.house().id() + "-"
                                + stored.revision().number() + ".yaml\"")
                .result(HouseWriter.write(stored.house()));
    }

    private void change(Context ctx) {
        StoredHouse stored = Sent.house(store, ctx);
        String text = Sent.field(ctx, "text").replace("\r\n", "\n");
        String why = Sent.field(ctx, "why");
        long from = Sent.revision(ctx);
        Sent.attempt(
                ctx,
                () -> {
                    House house = Sent.typed("text", text, HouseFiles.parse("line", text));
                    if (!house.id().equals(stored.house().id())) {
                        throw new ProblemException(Problem.error(
                                ProblemKind.BAD_VALUE,
                                Where.field("text"),
                                "The text is of house '" + house.id() + "' and this page is of house '"
                                        + stored.house().id() + "'.",
                                "Leave the name as it was, or bring the text in as a new house."));
                    }
                    Revision made = store.put(house, from, BY_PAGE, why).get();
                    return Just.stored(new Paths(house.id()).base() + "/history", made);
                },
                wrong -> record(stored, from, text, why, wrong));
    }

    private static String record(StoredHouse stored, long from, String text, String why, Wrong wrong) {
        Paths paths = new Paths(stored.house().id());
        Entry entry = new Entry(
                paths.base() + "/record",
                "Change it and store it as the next revision. Comments are not kept; notes are.",
                List.of(
                        Input.hidden(Sent.REVISION, String.valueOf(from)),
                        Input.typed(Input.Kind.AREA, "text", "The record", text, "as a house file", true),
                        Input.typed(Input.Kind.TEXT, "why", "Why", why, "what was seen or done", true)),
                "Store");
        return Sent.page(
                stored,
                new EditPage(
                        "The record as text",
                        "",
                        wrong,
                        List.of(entry),
                        List.of(new Section(
                                "Take it away",
                                "",
                                List.of(
                                        new Link(paths.base() + "/record.yaml", "Download the house file", ""),
                                        new Link(
                                                Api.BASE + "/houses/"
                                                        + Paths.part(
                                                                stored.house().id()) + "/archive.zip?papers=yes",
                                                "Handover: all revisions, sightings and sheets",
                                                "zip, which another Splicebook reads back"),
                                        new Link(paths.base() + "/history", "History and undo", "")))),
                        List.of()));
    }

    private void bringBack(Context ctx) {
        StoredHouse stored = Sent.house(store, ctx);
        Sent.attempt(
                ctx,
                () -> {
                    long number = HouseApi.number(Sent.field(ctx, "back-to"));
                    StoredHouse back =
                            store.findRevision(stored.house().id(), number).orElseThrow(() -> Api.notFound(ctx));
                    Revision made = store.put(
                                    back.house(), Sent.revision(ctx), BY_PAGE, "Brought back revision " + number)
                            .get();
                    return Just.stored(new Paths(stored.house().id()).base() + "/history", made);
                },
                wrong -> history(stored, wrong));
    }

    /** Makes a revision that is as the one before: only of the newest, or what somebody else recorded since would go with it. */
    private void takeBack(Context ctx) {
        StoredHouse stored = Sent.house(store, ctx);
        Sent.attempt(
                ctx,
                () -> {
                    String id = stored.house().id();
                    long number = Sent.revision(ctx);
                    Revision newest = stored.revision();
                    if (newest.number() != number) {
                        throw Failures.failure(
                                ProblemKind.CONFLICT,
                                "Revision " + number + " is not taken back: " + newest.who() + " stored revision "
                                        + newest.number() + " since.",
                                "Look at what came after it, then bring back the one that is right.");
                    }
                    House before = store.findRevision(id, number - 1)
                            .orElseThrow(() -> Failures.failure(
                                    ProblemKind.CONFLICT,
                                    "Before revision " + number + " there was no such house.",
                                    "Bring back one of the list."))
                            .house();
                    String why = "Took back revision " + number + (newest.why().isBlank() ? "" : ": " + newest.why());
                    Revision made = store.put(before, number, BY_PAGE, why).get();
                    return Just.stored(shown(before, SignInPages.ownPage(Sent.field(ctx, "page"))), made);
                },
                wrong -> history(Sent.house(store, ctx), wrong));
    }

    /** {@return the page that what was taken back was recorded at; that of the house where its box went with it} */
    private static String shown(House house, String page) {
        Paths paths = new Paths(house.id());
        boolean isOfABox = page.startsWith(paths.base() + "/boxes/");
        boolean isThere = house.boxes().keySet().stream()
                .anyMatch(b -> page.equals(paths.of("boxes", b)) || page.startsWith(paths.of("boxes", b) + "/"));
        return !page.startsWith(paths.base()) || (isOfABox && !isThere) ? paths.base() : page;
    }

    private String history(StoredHouse stored, Wrong wrong) {
        String base = new Paths(stored.house().id()).base();
        long newest = stored.revision().number();
        List<Link> all = new ArrayList<>();
        List<Input.Choice> back = new ArrayList<>();
        for (Revision r : store.revisions(stored.house().id())) {
            String words = "Revision " + r.number() + ", " + Pages.minute(r.stored());
            String changes = r.number() == 1 || r.deleted() ? "" : base + "/changes?to=" + r.number();
            all.add(0, new Link(changes, words, r.who() + (r.why().isBlank() ? "" : ": " + r.why())));
            if (r.number() != newest && !r.deleted()) {
                back.add(
                        0,
                        new Input.Choice(
                                String.valueOf(r.number()), words + (r.why().isBlank() ? "" : ", " + r.why())));
            }
        }
        List<Entry> entries = back.isEmpty()
                ? List.of()
                : List.of(new Entry(
                        base + "/history",
                        "Undo: bring an earlier revision back as the newest one. Nothing is erased; what came after stays in the history.",
                        List.of(
                                Input.hidden(Sent.REVISION, String.valueOf(newest)),
                                Input.chosen(
                                        Input.Kind.LIST,
                                        "back-to",
                                        "Back to",
                                        back.get(0).value(),
                                        "the one before, unless another is chosen",
                                        back)),
                        "Bring it back"));
        return Sent.page(
                stored,
                new EditPage(
                        "History and undo",
                        "This is revision " + newest + ". Sightings are kept apart and are never taken back.",
                        wrong,
                        entries,
                        List.of(new Section("Revisions", "The newest first.", all)),
                        List.of()));
    }
}
