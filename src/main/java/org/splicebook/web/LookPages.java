package org.splicebook.web;

import io.javalin.http.Context;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.splicebook.answer.Answer;
import org.splicebook.answer.Row;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.render.ReplyText;
import org.splicebook.render.Table;
import org.splicebook.rewire.place.Wanted;
import org.splicebook.rewire.search.Wish;
import org.splicebook.rules.Checked;
import org.splicebook.rules.Finding;
import org.splicebook.rules.Packs;
import org.splicebook.store.HouseStore;
import org.splicebook.store.KeptDraft;
import org.splicebook.store.StoredHouse;
import org.splicebook.web.view.Entry;
import org.splicebook.web.view.Input;
import org.splicebook.web.view.Link;
import org.splicebook.web.view.ReplyView;
import org.splicebook.web.view.Rows;
import org.splicebook.web.view.WorkPage;
import org.splicebook.web.view.Wrong;
import org.splicebook.wiring.Derivation;
import org.splicebook.wiring.Wiring;

/** Looks for a change on pages: what it is wanted for, how far the search is, what it found, each of it to be kept as a draft. */
final class LookPages {
    private static final String LOOK = "/houses/{house}/look";
    private static final String ONE = LOOK + "/{search}";
    private static final int SECONDS = 2;

    private static final List<Input.Choice> AGAINST =
            List.of(new Input.Choice("ground-fault", "ground faults"), new Input.Choice("arc-fault", "arc faults"));

    private final HouseStore store;
    private final Searches searches;

    LookPages(HouseStore store, Searches searches) {
        this.store = store;
        this.searches = searches;
    }

    List<Route> routes() {
        return List.of(
                Route.get(
                        LOOK,
                        ctx -> ctx.html(ask(
                                Sent.house(store, ctx),
                                Objects.requireNonNullElse(ctx.queryParam("cure"), ""),
                                "",
                                ctx.queryParam("place") != null,
                                Wrong.NONE))),
                Route.post(LOOK, this::begin),
                Route.get(ONE, ctx -> ctx.html(page(Sent.house(store, ctx), running(ctx), Wrong.NONE))),
                Route.post(ONE, this::change));
    }

    private Searches.Running running(Context ctx) {
        return searches.find(Api.house(ctx), ctx.pathParam("search"));
    }

    private static Entry place(Paths paths, List<Input.Choice> points) {
        return new Entry(
                paths.base() + "/look",
                "Protective devices are to be placed, so that all that asks for protection is covered at the least cost",
                List.of(
                        Input.hidden("what", "place"),
                        Input.chosen(Input.Kind.SOME, "against", "Against", "ground-fault,arc-fault", "", AGAINST),
                        Input.chosen(
                                Input.Kind.SOME,
                                "asked",
                                "Cover",
                                "",
                                "what a check finds to have none, and",
                                List.of(new Input.Choice("yes", "what it only asks about, too"))),
                        Input.chosen(
                                Input.Kind.SOME, "points", "Only these", "", "none: all that a check finds", points)),
                "Place them");
    }

    private static Entry wished(Paths paths, String wish) {
        return new Entry(
                paths.base() + "/look",
                "Something else is wished for",
                List.of(
                        Input.hidden("what", "wish"),
                        Input.typed(
                                Input.Kind.TEXT,
                                "wish",
                                "Wish",
                                wish,
                                "free=LOADPOINT: relies on no device further up; apart=LOADPOINT,LOADPOINT: on circuits apart;"
                                        + " put=DEVICE:KIND: another device in its place",
                                true)),
                "Look for a change");
    }

    private static String ask(StoredHouse stored, String cure, String wish, boolean isToPlace, Wrong wrong) {
        Paths paths = new Paths(stored.house().id());
        Wiring wiring = Derivation.derive(stored.house());
        List<Input.Choice> findings = new ArrayList<>();
        for (Finding f : Checked.of(wiring, Packs.of(stored.house())).open()) {
            findings.add(new Input.Choice(
                    f.key(),
                    f.severity().word() + ", " + f.certainty().word() + ": " + f.title() + ", " + f.subject()));
        }
        List<Entry> entries = new ArrayList<>();
        if (!findings.isEmpty()) {
            entries.add(new Entry(
                    paths.base() + "/look",
                    "A finding is to go",
                    List.of(
                            Input.hidden("what", "cure"),
                            Input.chosen(
                                    Input.Kind.LIST,
                                    "cure",
                                    "Finding",
                                    cure.isEmpty() ? findings.get(0).value() : cure,
                                    "",
                                    findings)),
                    "Look for a change"));
        }
        List<Input.Choice> points = wiring.loadPoints().stream()
                .map(l -> new Input.Choice(l.id(), l.id()))
                .toList();
        if (!points.isEmpty()) {
            entries.add(new Entry(
                    paths.base() + "/look",
                    "Load points are to be protected",
                    List.of(
                            Input.hidden("what", "protect"),
                            Input.chosen(Input.Kind.LIST, "against", "Against", "ground-fault", "", AGAINST),
                            Input.chosen(Input.Kind.SOME, "points", "These", "", "one or more", points)),
                    "Look for a change"));
            entries.add(isToPlace ? 0 : entries.size(), place(paths, points));
            entries.add(wished(paths, wish));
        }
        return DraftPages.page(
                stored,
                WorkPage.of(
                                "Look for a change",
                                "",
                                "The least costly first: new cable counts most, then boxes to open, then parts. Each is judged as a whole house before it is told.")
                        .withWrong(wrong)
                        .withNext(List.of(new Link(paths.base() + "/drafts", "Drafts", "")))
                        .withFound(List.of(), List.of(), List.of(), DraftLook.CAUTIONS)
                        .withEntries(entries));
    }

    private void begin(Context ctx) {
        StoredHouse stored = Sent.house(store, ctx);
        Sent.attempt(
                ctx,
                () -> new Paths(stored.house().id())
                        .of("look", searches.begin(stored, sought(ctx)).id()),
                wrong -> ask(stored, Sent.field(ctx, "cure"), Sent.field(ctx, "wish"), false, wrong));
    }

    private static Sought sought(Context ctx) {
        List<String> points = ctx.formParams("points");
        return switch (Sent.field(ctx, "what")) {
            case "cure" -> Sought.change(new Wish.Cure(Sent.field(ctx, "cure")), Packs::of);
            case "wish" -> Sought.change(Wish.parse(Sent.field(ctx, "wish")).get(), Packs::of);
            case "place" -> {
                boolean asked = !ctx.formParams("asked").isEmpty();
                yield Sought.placement(
                        Wanted.parse(ctx.formParams("against"), points, asked).get(), Packs::of);
            }
            default -> {
                if (points.isEmpty()) {
                    throw Failures.failure(
                            "points",
                            ProblemKind.MISSING,
                            "It was not said what is to be protected.",
                            "Choose one load point or more.");
                }
                yield Sought.change(
                        Wish.parse(Sent.field(ctx, "against") + "=" + String.join(",", points))
                                .get(),
                        Packs::of);
            }
        };
    }

    private String page(StoredHouse stored, Searches.Running running, Wrong wrong) {
        String here = new Paths(stored.house().id()).of("look", running.id());
        String title = running.sought().question();
        Result<Sought.Outcome> found = running.found().orElse(null);
        if (found == null) {
            return DraftPages.page(
                    stored,
                    WorkPage.of(title, ReplyText.DRAFT, howFar(running))
                            .withWrong(wrong)
                            .withProgress(running.judged(), Math.max(1, running.most()))
                            .withRefresh(SECONDS)
                            .withEntries(List.of(
                                    deed(here, "end", "Enough: take what was found so far", List.of(), "End it"))));
        }
        List<Link> next = List.of(new Link(new Paths(stored.house().id()).base() + "/look", "Look for another", ""));
        if (!found.isOk()) {
            return DraftPages.page(
                    stored,
                    WorkPage.of(title, ReplyText.DRAFT, "")
                            .withWrong(Sent.wrong(found.problems()))
                            .withNext(next));
        }
        return DraftPages.page(
                stored, told(running, found.get(), here).withWrong(wrong).withNext(next));
    }

    private static String howFar(Searches.Running running) {
        if (running.state() == Searches.State.WAITING) {
            return "It waits for another search to end. This page shows itself anew.";
        }
        return "Looking: " + running.judged() + " changes judged"
                + (running.most() > 0 ? ", of " + running.most() + " at most" : "") + "."
                + (running.isEnded() ? " It is being ended." : "") + " This page shows itself anew.";
    }

    private static WorkPage told(Searches.Running running, Sought.Outcome found, String here) {
        Answer answer = found.answer();
        List<String> columns = answer.rows().stream()
                .flatMap(r -> r.columns().keySet().stream())
                .distinct()
                .toList();
        List<List<String>> rows = new ArrayList<>();
        for (Row row : answer.rows()) {
            List<String> cells = new ArrayList<>(List.of(row.subject()));
            columns.forEach(c -> cells.add(Table.cell(row.columns().getOrDefault(c, ""))));
            rows.add(cells);
        }
        List<String> heads = new ArrayList<>(List.of("what"));
        heads.addAll(columns);
        List<ReplyView.Lines> lists = new ArrayList<>();
        answer.sections().forEach(s -> lists.add(new ReplyView.Lines(s.title(), s.isInOrder(), s.lines())));
        lists.add(new ReplyView.Lines("Not proven by the given facts", false, answer.notProven()));
        List<Entry> keep = new ArrayList<>();
        for (int i = 1; i <= found.drafts().size(); i++) {
            String name = found.drafts().get(i - 1).name();
            keep.add(deed(
                    here,
                    "keep",
                    "Keep " + name + " as a draft, to look at it from all sides",
                    List.of(
                            Input.hidden("number", String.valueOf(i)),
                            Input.typed(
                                    Input.Kind.TEXT,
                                    "name",
                                    "Name",
                                    name + "-" + running.id().substring(0, 4),
                                    "small letters, digits, hyphens",
                                    true)),
                    "Keep it as a draft"));
        }
        return WorkPage.of(running.sought().question(), ReplyText.DRAFT, answer.outcome())
                .withFound(List.of(new Rows("Proposed", heads, rows, List.of())), List.of(), lists, answer.cautions())
                .withEntries(keep);
    }

    private static Entry deed(String here, String what, String words, List<Input> inputs, String button) {
        List<Input> all = new ArrayList<>(List.of(Input.hidden("what", what)));
        all.addAll(inputs);
        return new Entry(here, words, all, button);
    }

    private void change(Context ctx) {
        StoredHouse stored = Sent.house(store, ctx);
        Searches.Running running = running(ctx);
        String here = new Paths(stored.house().id()).of("look", running.id());
        Sent.attempt(
                ctx,
                DraftPages.FIELDS,
                () -> {
                    if (Sent.field(ctx, "what").equals("end")) {
                        running.end();
                        return here;
                    }
                    KeptDraft kept = running.keep(
                            store,
                            HouseApi.number(Sent.field(ctx, "number")),
                            DraftPages.free(store, stored.house().id(), Sent.field(ctx, "name")),
                            DraftPages.BY_PAGE);
                    return new Paths(stored.house().id()).of("drafts", kept.name());
                },
                wrong -> page(stored, running, wrong));
    }
}
