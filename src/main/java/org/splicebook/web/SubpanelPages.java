package org.splicebook.web;

import io.javalin.http.Context;
import java.io.IOException;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.function.IntConsumer;
import java.util.function.UnaryOperator;
import org.jspecify.annotations.Nullable;
import org.splicebook.answer.Caution;
import org.splicebook.answer.Leads;
import org.splicebook.drafts.DraftDesk;
import org.splicebook.housefile.DraftFiles;
import org.splicebook.panelplan.TellReader;
import org.splicebook.panelplan.upgrade.SubpanelPapers;
import org.splicebook.panelplan.upgrade.SubpanelPlan;
import org.splicebook.panelplan.upgrade.SubpanelReader;
import org.splicebook.panelplan.upgrade.SubpanelWanted;
import org.splicebook.panelplan.upgrade.Subpanels;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.problem.Where;
import org.splicebook.record.Draft;
import org.splicebook.record.House;
import org.splicebook.render.PlanText;
import org.splicebook.render.ReplyText;
import org.splicebook.render.SubpanelText;
import org.splicebook.rules.Packs;
import org.splicebook.store.HouseStore;
import org.splicebook.store.KeptDraft;
import org.splicebook.store.StoredHouse;
import org.splicebook.web.view.Entry;
import org.splicebook.web.view.Input;
import org.splicebook.web.view.Rows;
import org.splicebook.web.view.WorkPage;
import org.splicebook.web.view.Wrong;

/** Which circuits move to a further panel: a page whose wishes stand in its address, and the same as JSON. Nothing is stored. */
final class SubpanelPages {
    private static final String PATH = "/houses/{house}/subpanel";
    private static final String NAME = "name";
    private static final List<String> WISHES =
            List.of("source", "surge", "volts", "want", "never", "free", "feeder", "spaces", "of");
    private static final Set<String> FIRST = Set.of("open", "moves", "panel", "change");

    private final HouseStore store;

    SubpanelPages(HouseStore store) {
        this.store = store;
    }

    List<Route> routes() {
        return List.of(
                Route.get(PATH, ctx -> ctx.html(page(ctx, asked(ctx), Wrong.NONE))), Route.post(PATH, this::keep));
    }

    List<Route> api() {
        return List.of(Route.get(Api.BASE + PATH, this::json));
    }

    private static UnaryOperator<String> asked(Context ctx) {
        return name -> Objects.requireNonNullElse(ctx.queryParam(name), "").strip();
    }

    private void json(Context ctx) throws IOException {
        SubpanelPlan plan = plan(Sent.house(store, ctx), asked(ctx));
        SubpanelPlan.Drafted drafted = plan.drafted();
        Api.json(
                ctx,
                SubpanelText.json(plan, SubpanelPapers.of(plan))
                        .put("draftFile", drafted == null ? null : DraftFiles.write(drafted.draft())));
    }

    private static SubpanelPlan plan(StoredHouse stored, UnaryOperator<String> said) {
        House house = stored.house();
        return Subpanels.plan(
                        house,
                        Packs.of(house),
                        wanted(house, said),
                        stored.revision().number())
                .get();
    }

    private String page(Context ctx, UnaryOperator<String> said, Wrong wrong) {
        StoredHouse stored = Sent.house(store, ctx);
        House house = stored.house();
        List<String> cautions = new ArrayList<>(Caution.forWhat(Leads.TO_A_WIRE));
        cautions.add(PlanText.ADVICE);
        WorkPage page = WorkPage.of(
                "A backed-up or a further panel",
                "",
                "Which circuits move: whole sets, each hot with its neutral, within what source, legs, spaces and starting motors bear.");
        List<Rows> tables = List.of();
        List<Entry> entries = new ArrayList<>();
        try {
            if (!said.apply("source").isEmpty() || !said.apply("free").isEmpty()) {
                SubpanelPlan plan = plan(stored, said);
                SubpanelPlan.Drafted drafted = plan.drafted();
                page = WorkPage.of(
                        SubpanelText.title(plan), drafted == null ? "" : ReplyText.DRAFT, lead(plan, drafted));
                if (drafted != null) {
                    entries.add(kept(house, said, drafted));
                }
                tables = SubpanelPapers.of(plan).stream()
                        .map(p -> DemandPage.rows(p, FIRST))
                        .toList();
            }
        } catch (ProblemException e) {
            ctx.status(Statuses.of(e.problems()));
            page = page.withWrong(Sent.wrong(ctx, Map.of(), e.problems()));
        }
        entries.add(form(house, said));
        return DraftPages.page(
                stored,
                (wrong.isEmpty() ? page : page.withWrong(wrong))
                        .withFound(tables, List.of(), List.of(), cautions)
                        .withEntries(entries));
    }

    /** The same choice is made once more, since nothing of it was kept. */
    private void keep(Context ctx) {
        StoredHouse stored = Sent.house(store, ctx);
        UnaryOperator<String> said = name -> Sent.field(ctx, name);
        Sent.attempt(
                ctx,
                DraftPages.FIELDS,
                () -> {
                    SubpanelPlan plan = plan(stored, said);
                    SubpanelPlan.Drafted drafted = plan.drafted();
                    if (drafted == null) {
                        throw Failures.failure(
                                ProblemKind.CONFLICT,
                                "No moves are written: " + plan.notDrafted(),
                                "Put that right first, or want something else.");
                    }
                    Draft d = drafted.draft();
                    KeptDraft kept = new DraftDesk(store)
                            .save(
                                    new Draft(
                                            DraftPages.free(store, d.house(), said.apply(NAME)),
                                            d.house(),
                                            d.revision(),
                                            d.reason(),
                                            d.moves()),
                                    0,
                                    DraftPages.BY_PAGE);
                    return new Paths(stored.house().id()).of("drafts", kept.name());
                },
                wrong -> page(ctx, said, wrong));
    }

    private static Entry kept(House house, UnaryOperator<String> said, SubpanelPlan.Drafted drafted) {
        List<Input> inputs = new ArrayList<>();
        inputs.add(Input.typed(
                Input.Kind.TEXT, NAME, "Name", drafted.draft().name(), "small letters, digits, hyphens", true));
        List<String> wishes = new ArrayList<>(WISHES);
        new ToldForm(said).inputs(true).forEach(i -> wishes.add(i.name()));
        wishes.forEach(w -> inputs.add(Input.hidden(w, said.apply(w))));
        return new Entry(
                new Paths(house.id()).base() + "/subpanel",
                "Keep its moves as a draft: looked at from all sides, carried over when the house moves on, and entered as done once the work is done",
                inputs,
                "Keep it as a draft");
    }

    private static String lead(SubpanelPlan plan, SubpanelPlan.@Nullable Drafted drafted) {
        return plan.moves().size() + " sets of circuits move, " + Math.round(plan.va()) + " VA together"
                + (plan.isProved() ? ", proved the best by what is wanted." : ", not proved to be the best.")
                + " To be asked: " + plan.asked().size() + "; to be put right first: "
                + plan.separate().size() + "."
                + (drafted == null
                        ? " No moves are written: " + plan.notDrafted()
                        : " Findings no more: " + drafted.findings().cured().size() + ", new: "
                                + drafted.findings().added().size() + ".");
    }

    private static Entry form(House house, UnaryOperator<String> said) {
        List<Input> inputs = new ArrayList<>();
        inputs.add(text(
                said, "source", "What the source gives for hours", "7.6 kW; empty for a panel that only makes room"));
        inputs.add(text(said, "surge", "What it gives while a motor starts", "12 kW"));
        inputs.add(Input.chosen(
                Input.Kind.LIST,
                "volts",
                "Its system",
                said.apply("volts").isEmpty() ? "120/240" : said.apply("volts"),
                "",
                List.of(new Input.Choice("120/240", "120/240 V"), new Input.Choice("120", "120 V alone"))));
        inputs.add(text(
                said, "want", "What is to stay on", "the most wanted first, a comma between: sump-pump, freezer, 9"));
        inputs.add(text(said, "never", "Breakers that stay where they are", "a comma between"));
        inputs.add(text(said, "free", "For room: spaces to become free", "6"));
        inputs.add(text(said, "feeder", "For room: breaker of the feeder", "60 A"));
        inputs.add(text(said, "spaces", "Spaces of the further panel", "12"));
        return new Entry(
                new Paths(house.id()).base() + "/subpanel",
                "What is wanted; nothing is stored",
                inputs,
                "Choose",
                true);
    }

    private static Input text(UnaryOperator<String> said, String name, String label, String meaning) {
        return Input.typed(Input.Kind.TEXT, name, label, said.apply(name), meaning, false);
    }

    private static SubpanelWanted wanted(House house, UnaryOperator<String> said) {
        TellReader loads = new TellReader(house);
        List<Problem> problems = new ArrayList<>(new ToldForm(said).tell(loads, false));
        String of = said.apply("of");
        SubpanelReader reader = new SubpanelReader(house, of.isEmpty() ? null : of, loads);
        number(said, "spaces", reader::spaces, problems);
        number(said, "free", reader::free, problems);
        if (!said.apply("source").isEmpty()) {
            reader.source(said.apply("source"));
        }
        if (!said.apply("surge").isEmpty()) {
            reader.surge(said.apply("surge"));
        }
        if (!said.apply("feeder").isEmpty()) {
            reader.feeder(said.apply("feeder"));
        }
        reader.volts(said.apply("volts").isEmpty() ? "120/240" : said.apply("volts"));
        items(said.apply("want")).forEach(reader::want);
        items(said.apply("never")).forEach(reader::never);
        reader.year(LocalDate.now(ZoneId.systemDefault()).getYear());
        Result<SubpanelWanted> read = reader.read();
        problems.addAll(read.problems());
        if (!problems.isEmpty()) {
            throw new ProblemException(problems);
        }
        return read.get();
    }

    private static List<String> items(String said) {
        return Arrays.stream(said.split("[,;\\n]"))
                .map(String::strip)
                .filter(s -> !s.isEmpty())
                .toList();
    }

    private static void number(UnaryOperator<String> said, String field, IntConsumer take, List<Problem> problems) {
        String value = said.apply(field);
        if (value.matches("[0-9]{1,3}")) {
            take.accept(Integer.parseInt(value));
        } else if (!value.isEmpty()) {
            problems.add(Problem.error(
                    ProblemKind.BAD_VALUE,
                    Where.field(field),
                    "\"" + value + "\" is no whole number.",
                    "Write for example 12."));
        }
    }
}
