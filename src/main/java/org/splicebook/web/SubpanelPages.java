package org.splicebook.web;

import io.javalin.http.Context;
import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import java.util.function.IntConsumer;
import java.util.function.UnaryOperator;
import org.splicebook.answer.Caution;
import org.splicebook.answer.Leads;
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
import org.splicebook.record.House;
import org.splicebook.render.PlanText;
import org.splicebook.render.SubpanelText;
import org.splicebook.rules.Packs;
import org.splicebook.store.HouseStore;
import org.splicebook.store.StoredHouse;
import org.splicebook.web.view.Entry;
import org.splicebook.web.view.Input;
import org.splicebook.web.view.Rows;
import org.splicebook.web.view.WorkPage;

/** Which circuits move to a further panel: a page whose wishes stand in its address, and the same as JSON. Nothing is stored. */
final class SubpanelPages {
    private static final String PATH = "/houses/{house}/subpanel";
    private static final java.util.Set<String> FIRST = java.util.Set.of("open", "moves", "panel");

    private final HouseStore store;

    SubpanelPages(HouseStore store) {
        this.store = store;
    }

    List<Route> routes() {
        return List.of(Route.get(PATH, this::show));
    }

    List<Route> api() {
        return List.of(Route.get(Api.BASE + PATH, this::json));
    }

    private static UnaryOperator<String> asked(Context ctx) {
        return name -> Objects.requireNonNullElse(ctx.queryParam(name), "").strip();
    }

    private void json(Context ctx) throws IOException {
        House house = Sent.house(store, ctx).house();
        SubpanelPlan plan = Subpanels.plan(house, Packs.of(house), wanted(house, asked(ctx)))
                .get();
        Api.json(ctx, SubpanelText.json(plan, SubpanelPapers.of(plan)));
    }

    private void show(Context ctx) {
        StoredHouse stored = Sent.house(store, ctx);
        UnaryOperator<String> said = asked(ctx);
        House house = stored.house();
        List<String> cautions = new ArrayList<>(Caution.forWhat(Leads.TO_A_WIRE));
        cautions.add(PlanText.ADVICE);
        WorkPage page = WorkPage.of(
                "A backed-up or a further panel",
                "",
                "Which circuits move: whole sets, each hot with its neutral, within what source, legs, spaces and starting motors bear.");
        List<Rows> tables = List.of();
        try {
            if (!said.apply("source").isEmpty() || !said.apply("free").isEmpty()) {
                SubpanelPlan plan = Subpanels.plan(house, Packs.of(house), wanted(house, said))
                        .get();
                page = WorkPage.of(SubpanelText.title(plan), "", lead(plan));
                tables = SubpanelPapers.of(plan).stream()
                        .map(p -> DemandPage.rows(p, FIRST))
                        .toList();
            }
        } catch (ProblemException e) {
            ctx.status(Statuses.of(e.problems()));
            page = page.withWrong(Sent.said(e.problems()));
        }
        ctx.html(DraftPages.page(
                stored,
                page.withFound(tables, List.of(), List.of(), cautions).withEntries(List.of(form(house, said)))));
    }

    private static String lead(SubpanelPlan plan) {
        return plan.moves().size() + " sets of circuits move, " + Math.round(plan.va()) + " VA together"
                + (plan.isProved() ? ", proved the best by what is wanted." : ", not proved to be the best.")
                + " To be asked: " + plan.asked().size() + "; to be put right first: "
                + plan.separate().size() + ".";
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
