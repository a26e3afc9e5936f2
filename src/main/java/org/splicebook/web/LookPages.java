package org.splicebook.web;

import io.javalin.http.Context;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.splicebook.answer.Answer;
import org.splicebook.drafts.DraftDesk;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.record.Draft;
import org.splicebook.render.ReplyText;
import org.splicebook.render.Table;
import org.splicebook.rewire.search.Found;
import org.splicebook.rewire.search.SearchAnswer;
import org.splicebook.rewire.search.Wish;
import org.splicebook.rules.Checked;
import org.splicebook.rules.Finding;
import org.splicebook.rules.Packs;
import org.splicebook.store.HouseStore;
import org.splicebook.store.KeptDraft;
import org.splicebook.store.Revision;
import org.splicebook.store.StoredHouse;
import org.splicebook.web.view.Entry;
import org.splicebook.web.view.Input;
import org.splicebook.web.view.Link;
import org.splicebook.web.view.ReplyView;
import org.splicebook.web.view.Rows;
import org.splicebook.web.view.WorkPage;
import org.splicebook.wiring.Derivation;
import org.splicebook.wiring.Wiring;

/** Looks for a change on pages: what it is wanted for, how far the search is, what it found, each of it to be kept as a draft. */
final class LookPages {
    private static final String LOOK = "/houses/{house}/look";
    private static final String ONE = LOOK + "/{search}";
    private static final int SECONDS = 2;

    private final HouseStore store;
    private final Searches searches = new Searches();

    LookPages(HouseStore store) {
        this.store = store;
    }

    List<Route> routes() {
        return List.of(
                Route.get(
                        LOOK,
                        ctx -> ctx.html(ask(
                                Sent.house(store, ctx),
                                Objects.requireNonNullElse(ctx.queryParam("cure"), ""),
                                List.of()))),
                Route.post(LOOK, this::begin),
                Route.get(ONE, ctx -> ctx.html(page(Sent.house(store, ctx), running(ctx), List.of()))),
                Route.post(ONE, this::change));
    }

    private Searches.Running running(Context ctx) {
        return searches.find(Api.house(ctx), ctx.pathParam("search"));
    }

    private static String ask(StoredHouse stored, String cure, List<String> wrong) {
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
                            Input.chosen(
                                    Input.Kind.LIST,
                                    "against",
                                    "Against",
                                    "ground-fault",
                                    "",
                                    List.of(
                                            new Input.Choice("ground-fault", "ground faults"),
                                            new Input.Choice("arc-fault", "arc faults"))),
                            Input.chosen(Input.Kind.SOME, "points", "These", "", "one or more", points)),
                    "Look for a change"));
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
                        .of("look", searches.begin(stored, wish(ctx)).id()),
                problems -> ask(stored, Sent.field(ctx, "cure"), Sent.said(problems)));
    }

    private static Wish wish(Context ctx) {
        if (Sent.field(ctx, "what").equals("cure")) {
            return new Wish.Cure(Sent.field(ctx, "cure"));
        }
        List<String> points = ctx.formParams("points");
        if (points.isEmpty()) {
            throw Failures.failure(
                    ProblemKind.MISSING, "It was not said what is to be protected.", "Choose one load point or more.");
        }
        return Wish.parse(Sent.field(ctx, "against") + "=" + String.join(",", points))
                .get();
    }

    private String page(StoredHouse stored, Searches.Running running, List<String> wrong) {
        String here = new Paths(stored.house().id()).of("look", running.id());
        String title = "Which change would " + running.wish().said() + "?";
        Result<Found> found = running.found().orElse(null);
        if (found == null) {
            return DraftPages.page(
                    stored,
                    WorkPage.of(
                                    title,
                                    ReplyText.DRAFT,
                                    "Looking: " + running.looked() + " changes judged, of " + Searches.MOST
                                            + " at most. This page shows itself anew.")
                            .withRefresh(SECONDS)
                            .withEntries(List.of(
                                    deed(here, "end", "Enough: take what was found so far", List.of(), "End it"))));
        }
        List<Link> next = List.of(new Link(new Paths(stored.house().id()).base() + "/look", "Look for another", ""));
        if (!found.isOk()) {
            return DraftPages.page(
                    stored,
                    WorkPage.of(title, ReplyText.DRAFT, "")
                            .withWrong(
                                    found.problems().stream().map(Problem::said).toList())
                            .withNext(next));
        }
        return DraftPages.page(
                stored, told(running, found.get(), title, here).withWrong(wrong).withNext(next));
    }

    private static WorkPage told(Searches.Running running, Found found, String title, String here) {
        Revision r = running.house().revision();
        Answer answer = SearchAnswer.of(found, running.house().house(), running.wish(), r.number(), r.stored());
        List<List<String>> rows = answer.rows().stream()
                .map(row -> List.of(row.subject(), Table.cell(row.columns().getOrDefault("takes", ""))))
                .toList();
        List<ReplyView.Lines> lists = new ArrayList<>();
        answer.sections().forEach(s -> lists.add(new ReplyView.Lines(s.title(), s.isInOrder(), s.lines())));
        lists.add(new ReplyView.Lines("Not proven by the given facts", false, answer.notProven()));
        List<Entry> keep = new ArrayList<>();
        for (int i = 1; i <= found.proposals().size(); i++) {
            keep.add(deed(
                    here,
                    "keep",
                    "Keep proposal-" + i + " as a draft, to look at it from all sides",
                    List.of(
                            Input.hidden("number", String.valueOf(i)),
                            Input.typed(
                                    Input.Kind.TEXT,
                                    "name",
                                    "Name",
                                    "proposal-" + i + "-" + running.id().substring(0, 4),
                                    "small letters, digits, hyphens",
                                    true)),
                    "Keep it as a draft"));
        }
        return WorkPage.of(title, ReplyText.DRAFT, answer.outcome())
                .withFound(
                        List.of(new Rows("Proposals", List.of("proposal", "takes"), rows, List.of())),
                        List.of(),
                        lists,
                        answer.cautions())
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
                () -> {
                    if (Sent.field(ctx, "what").equals("end")) {
                        running.end();
                        return here;
                    }
                    KeptDraft kept = new DraftDesk(store).save(proposal(ctx, running), 0, DraftPages.BY_PAGE);
                    return new Paths(stored.house().id()).of("drafts", kept.name());
                },
                problems -> page(stored, running, Sent.said(problems)));
    }

    private static Draft proposal(Context ctx, Searches.Running running) {
        long number = HouseApi.number(Sent.field(ctx, "number"));
        List<Draft> drafts = running.found()
                .filter(Result::isOk)
                .map(f -> SearchAnswer.drafts(
                        f.get(),
                        running.house().house(),
                        running.wish(),
                        running.house().revision().number()))
                .orElse(List.of());
        if (number < 1 || number > drafts.size()) {
            throw Failures.failure(
                    ProblemKind.NOT_FOUND, "There is no proposal " + number + ".", "There are " + drafts.size() + ".");
        }
        Draft d = drafts.get((int) number - 1);
        return new Draft(Sent.field(ctx, "name"), d.house(), d.revision(), d.reason(), d.moves());
    }
}
