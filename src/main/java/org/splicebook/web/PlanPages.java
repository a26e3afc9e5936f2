package org.splicebook.web;

import io.javalin.http.Context;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.function.UnaryOperator;
import java.util.stream.Collectors;
import org.splicebook.answer.Caution;
import org.splicebook.answer.Leads;
import org.splicebook.drafts.DraftDesk;
import org.splicebook.housefile.DraftFiles;
import org.splicebook.panelplan.schedule.Goal;
import org.splicebook.panelplan.schedule.Schedule;
import org.splicebook.panelplan.upgrade.UpgradePlan;
import org.splicebook.panelplan.upgrade.Wanted;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.record.Draft;
import org.splicebook.record.House;
import org.splicebook.render.Json;
import org.splicebook.render.PlanJson;
import org.splicebook.render.PlanText;
import org.splicebook.render.PlanWorkbook;
import org.splicebook.render.ReplyText;
import org.splicebook.render.drawing.Plots;
import org.splicebook.render.sheet.Paper;
import org.splicebook.render.sheet.PlanSheet;
import org.splicebook.store.HouseStore;
import org.splicebook.store.KeptDraft;
import org.splicebook.store.StoredHouse;
import org.splicebook.web.view.Entry;
import org.splicebook.web.view.Input;
import org.splicebook.web.view.Link;
import org.splicebook.web.view.Rows;
import org.splicebook.web.view.WorkPage;
import org.splicebook.web.view.Wrong;

/** A new panel planned on pages: what is wanted, how far the search is, the plan with its paper to take along, kept as a draft. */
final class PlanPages {
    private static final String ALL = "/houses/{house}/plan";
    private static final String ONE = ALL + "/{plan}";
    private static final int SECONDS = 1;
    private static final Set<String> FIRST = Set.of("open", "schedule", "goals", "change");

    private final HouseStore store;
    private final PlanRuns runs = new PlanRuns();

    PlanPages(HouseStore store) {
        this.store = store;
    }

    List<Route> routes() {
        return List.of(
                Route.get(ALL, this::ask),
                Route.post(ALL, this::begin),
                Route.get(ONE, this::show),
                Route.post(ONE, this::keep),
                Route.get(ONE + "/paper.{form}", this::paper));
    }

    private PlanRuns.Running running(Context ctx) {
        return runs.find(Api.house(ctx), ctx.pathParam("plan"));
    }

    private void ask(Context ctx) {
        StoredHouse stored = Sent.house(store, ctx);
        String again = Objects.requireNonNullElse(ctx.queryParam("again"), "");
        Map<String, String> held = again.isEmpty()
                ? Map.of()
                : runs.find(stored.house().id(), again).said();
        UnaryOperator<String> said =
                name -> held.getOrDefault(name, Objects.requireNonNullElse(ctx.queryParam(name), ""));
        ctx.html(form(stored, said, Wrong.NONE));
    }

    private static String form(StoredHouse stored, UnaryOperator<String> said, Wrong wrong) {
        House house = stored.house();
        Paths paths = new Paths(house.id());
        boolean hasPanel = house.panels().values().stream()
                .anyMatch(p -> p.supply().stream().anyMatch(s -> house.sources().containsKey(s)));
        WorkPage page = WorkPage.of(
                        "Plan a new panel",
                        "",
                        hasPanel
                                ? "Which breaker goes into which space, as little lengthened as can be, the legs balanced on demand; with every wire from terminal to terminal, and the paper for the day. What is not known is asked, never invented."
                                : "No panel of this house hangs on a service, so there is none to replace. Record the panel first.")
                .withWrong(wrong)
                .withNext(List.of(
                        new Link(paths.base() + "/demand", "What it demands of its service", "would a charger fit?"),
                        new Link(paths.base() + "/drafts", "Drafts", "")))
                .withFound(List.of(), List.of(), List.of(), cautions());
        return DraftPages.page(
                stored,
                hasPanel
                        ? page.withEntries(List.of(new Entry(
                                paths.base() + "/plan",
                                "What is wanted",
                                new PlanForm(house, said).inputs(),
                                "Plan it")))
                        : page);
    }

    private static List<String> cautions() {
        List<String> all = new ArrayList<>(Caution.forWhat(Leads.TO_A_WIRE));
        all.add(PlanText.ADVICE);
        return all;
    }

    private void begin(Context ctx) {
        StoredHouse stored = Sent.house(store, ctx);
        UnaryOperator<String> said = name -> Sent.field(ctx, name).replace("\r\n", "\n");
        Sent.attempt(
                ctx,
                () -> {
                    PlanForm form = new PlanForm(stored.house(), said);
                    Wanted wanted = form.wanted();
                    return here(
                            stored,
                            runs.begin(stored, wanted, form.prices().get(), form.held())
                                    .id());
                },
                wrong -> form(stored, said, wrong));
    }

    private static String here(StoredHouse stored, String plan) {
        return new Paths(stored.house().id()).of("plan", plan);
    }

    private void show(Context ctx) {
        ctx.html(page(Sent.house(store, ctx), running(ctx), Wrong.NONE));
    }

    private static String page(StoredHouse stored, PlanRuns.Running running, Wrong wrong) {
        Paths paths = new Paths(stored.house().id());
        Link again =
                new Link(paths.base() + "/plan?again=" + running.id(), "Want something else", "the form as it was");
        Result<PlanRuns.Made> made = running.made().orElse(null);
        if (made == null) {
            return DraftPages.page(
                    stored,
                    WorkPage.of("Plan a new panel", ReplyText.DRAFT, progress(running))
                            .withProgress(running.step().map(x -> goal(x)).orElse(0), Goal.values().length)
                            .withRefresh(SECONDS));
        }
        if (!made.isOk()) {
            return DraftPages.page(
                    stored,
                    WorkPage.of("Plan a new panel", ReplyText.DRAFT, "There is no such plan.")
                            .withWrong(Sent.wrong(made.problems()))
                            .withNext(List.of(again)));
        }
        UpgradePlan plan = made.get().plan();
        String here = here(stored, running.id());
        List<Link> next = new ArrayList<>(List.of(again));
        next.add(new Link(here + "/paper.pdf", "The paper for the day", "PDF"));
        next.add(new Link(here + "/paper.xlsx", "The same as a workbook", "XLSX"));
        next.add(new Link(here + "/paper.json", "The same for programs", "JSON"));
        next.add(new Link(here + "/paper.yaml", "Its moves", "a file for drafts"));
        List<Rows> tables =
                made.get().pages().stream().map(p -> DemandPage.rows(p, FIRST)).toList();
        List<String> drawings = List.of(
                Plots.legs(plan.before(), plan.legsBefore(), plan.legsAfter()).svg(),
                Plots.demand(plan.before(), plan.demands(), (double)
                                plan.wanted().kind().main())
                        .svg());
        return DraftPages.page(
                stored,
                new WorkPage(
                        PlanText.title(plan),
                        ReplyText.DRAFT,
                        lead(plan),
                        wrong,
                        null,
                        0,
                        next,
                        tables,
                        List.of(),
                        List.of(),
                        List.of(),
                        List.of(keep(here, plan, running)),
                        List.of(),
                        cautions(),
                        drawings));
    }

    private static int goal(PlanRuns.Step step) {
        return List.of(Goal.values()).indexOf(step.goal());
    }

    private static String progress(PlanRuns.Running running) {
        return running.step()
                .map(s -> "Placing breakers, goal " + (goal(s) + 1) + " of "
                        + Goal.values().length + ": "
                        + s.value() + " " + s.goal().word() + " so far, no schedule has fewer than " + s.bound()
                        + ". This page shows itself anew.")
                .orElse("Reading the record. This page shows itself anew.");
    }

    private static String lead(UpgradePlan plan) {
        String goals = plan.schedule().stages().stream()
                .map(s -> s.value() + " " + s.goal().word()
                        + (s.isProved() ? "" : " (not proved, at least " + s.bound() + ")"))
                .collect(Collectors.joining(", "));
        boolean isProved = plan.schedule().stages().stream().allMatch(Schedule.Stage::isProved);
        return plan.circuits().size() + " breakers placed" + (isProved ? ", proved the best there is: " : ": ") + goals
                + ". Findings no more: " + plan.findings().cured().size() + ", new: "
                + plan.findings().added().size() + ". To be asked: "
                + plan.asked().size() + "; to be put right first: "
                + plan.separate().size() + ".";
    }

    private static Entry keep(String here, UpgradePlan plan, PlanRuns.Running running) {
        return new Entry(
                here,
                "Keep it as a draft: looked at from all sides, carried over when the house moves on, and entered as done once the work is done",
                List.of(Input.typed(
                        Input.Kind.TEXT,
                        "name",
                        "Name",
                        plan.draft().name() + "-" + running.id().substring(0, 4),
                        "small letters, digits, hyphens",
                        true)),
                "Keep it as a draft");
    }

    private void keep(Context ctx) {
        StoredHouse stored = Sent.house(store, ctx);
        PlanRuns.Running running = running(ctx);
        Sent.attempt(
                ctx,
                DraftPages.FIELDS,
                () -> {
                    Draft d = made(running).plan().draft();
                    KeptDraft kept = new DraftDesk(store)
                            .save(
                                    new Draft(
                                            DraftPages.free(store, d.house(), Sent.field(ctx, "name")),
                                            d.house(),
                                            d.revision(),
                                            d.reason(),
                                            d.moves()),
                                    0,
                                    DraftPages.BY_PAGE);
                    return new Paths(stored.house().id()).of("drafts", kept.name());
                },
                wrong -> page(stored, running, wrong));
    }

    private static PlanRuns.Made made(PlanRuns.Running running) {
        return running.made()
                .orElseThrow(() ->
                        Failures.failure(ProblemKind.CONFLICT, "The plan is still being made.", "Wait for its page."))
                .get();
    }

    private void paper(Context ctx) {
        PlanRuns.Made made = made(running(ctx));
        UpgradePlan plan = made.plan();
        String form = ctx.pathParam("form");
        byte[] paper;
        switch (form) {
            case "pdf" -> {
                String stamp = "Planned " + LocalDate.now(ZoneId.systemDefault()) + ".";
                paper = SheetPdf.of(PlanSheet.of(plan, made.pages(), stamp), Paper.A4);
                ctx.contentType("application/pdf");
            }
            case "xlsx" -> {
                paper = PlanWorkbook.write(plan, made.pages());
                ctx.contentType("application/vnd.openxmlformats-officedocument.spreadsheetml.sheet");
            }
            case "json" -> {
                paper = bytes(Json.text(PlanJson.write(plan, made.pages())) + "\n");
                ctx.contentType("application/json; charset=utf-8");
            }
            case "yaml" -> {
                paper = bytes(DraftFiles.write(plan.draft()));
                ctx.contentType("application/yaml; charset=utf-8");
            }
            default ->
                throw Failures.failure(
                        ProblemKind.NOT_FOUND, "There is no paper of that form.", "There are pdf, xlsx, json, yaml.");
        }
        ctx.header(
                        "Content-Disposition",
                        "attachment; filename=\"" + plan.draft().name() + "." + form + "\"")
                .result(paper);
    }

    private static byte[] bytes(String text) {
        return text.getBytes(java.nio.charset.StandardCharsets.UTF_8);
    }
}
