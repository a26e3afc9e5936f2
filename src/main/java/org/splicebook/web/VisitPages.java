package org.splicebook.web;

import io.javalin.http.Context;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.splicebook.answer.Caution;
import org.splicebook.answer.Leads;
import org.splicebook.people.Role;
import org.splicebook.people.Visitors;
import org.splicebook.problem.ProblemKind;
import org.splicebook.store.HouseStore;
import org.splicebook.store.StoredHouse;
import org.splicebook.visits.Field;
import org.splicebook.visits.StepKind;
import org.splicebook.visits.Visit;
import org.splicebook.visits.VisitDesk;
import org.splicebook.visits.VisitKinds;
import org.splicebook.web.view.EditPage;
import org.splicebook.web.view.Entry;
import org.splicebook.web.view.Input;
import org.splicebook.web.view.Link;
import org.splicebook.web.view.Section;
import org.splicebook.web.view.Wrong;

/** Visits of a house: from what the tenant says to the closed visit. */
final class VisitPages {
    private static final String ALL = "/houses/{house}/visits";
    private static final String VERSION = "version";

    private final HouseStore store;

    VisitPages(HouseStore store) {
        this.store = store;
    }

    List<Route> routes() {
        return List.of(
                Route.get(ALL, ctx -> ctx.html(all(Sent.house(store, ctx), Map.of(), Wrong.NONE))),
                Route.post(ALL, this::begin),
                Route.get(ALL + "/{visit}", ctx -> {
                    StoredHouse stored = Sent.house(store, ctx);
                    ctx.html(one(stored, visit(ctx, stored), "", Map.of(), Wrong.NONE));
                }),
                Route.post(ALL + "/{visit}", this::step));
    }

    /** {@return a link to a visit, with its state} */
    static Link link(Visit v) {
        return new Link(
                new Paths(v.house()).of("visits", v.name()),
                v.name() + ": " + v.words(),
                v.state().title() + ", "
                        + Pages.minute(v.steps().get(v.steps().size() - 1).at()));
    }

    private Visit visit(Context ctx, StoredHouse stored) {
        String name = ctx.pathParam("visit");
        return new VisitDesk(store)
                .find(stored.house().id(), name)
                .orElseThrow(() -> Failures.failure(
                        ProblemKind.NOT_FOUND, "There is no visit " + name + ".", "Look at the list of visits."));
    }

    private static Map<String, String> said(Context ctx, StepKind kind) {
        Map<String, String> said = new LinkedHashMap<>();
        kind.fields().forEach(f -> said.put(f.name(), Sent.field(ctx, f.name())));
        return said;
    }

    private void begin(Context ctx) {
        StoredHouse stored = Sent.house(store, ctx);
        VisitDesk desk = new VisitDesk(store);
        StepKind report = VisitKinds.steps("").get(0);
        Map<String, String> said = said(ctx, report);
        Sent.attempt(
                ctx,
                () -> {
                    String house = stored.house().id();
                    Visit v = desk.take(house, desk.next(house), report.id(), said, 0, VisitApi.atThePages());
                    return link(v).to();
                },
                wrong -> all(stored, said, wrong));
    }

    private void step(Context ctx) {
        StoredHouse stored = Sent.house(store, ctx);
        Visit before = visit(ctx, stored);
        String step = Sent.field(ctx, "step");
        Map<String, String> said = VisitKinds.step(step).map(k -> said(ctx, k)).orElse(Map.of());
        Sent.attempt(
                ctx,
                () -> {
                    Visit v = new VisitDesk(store)
                            .take(
                                    stored.house().id(),
                                    before.name(),
                                    step,
                                    said,
                                    HouseApi.number(Sent.field(ctx, VERSION)),
                                    VisitApi.atThePages());
                    return link(v).to();
                },
                wrong -> one(stored, before, step, said, wrong));
    }

    /** {@return a field as it is filled in} */
    static Input input(Field f, String value) {
        if (!f.choices().isEmpty()) {
            List<Input.Choice> choices =
                    f.choices().stream().map(c -> new Input.Choice(c, c)).toList();
            return Input.chosen(
                    Input.Kind.ONE,
                    f.name(),
                    f.label(),
                    value.isEmpty() ? f.choices().get(0) : value,
                    f.meaning(),
                    choices);
        }
        return Input.typed(
                f.isLong() ? Input.Kind.AREA : Input.Kind.TEXT, f.name(), f.label(), value, f.meaning(), f.needed());
    }

    private static Entry entry(String action, StepKind kind, Map<String, String> said, List<Input> hidden) {
        List<Input> inputs = new ArrayList<>(hidden);
        kind.fields().forEach(f -> inputs.add(input(f, said.getOrDefault(f.name(), ""))));
        return new Entry(action, kind.title(), inputs, kind.title());
    }

    private String all(StoredHouse stored, Map<String, String> said, Wrong wrong) {
        String base = new Paths(stored.house().id()).base();
        List<Visit> visits = new VisitDesk(store).list(stored.house().id());
        return Sent.page(
                stored,
                new EditPage(
                        "Visits",
                        "From what the tenant says to the closed visit. In danger, the emergency number comes first.",
                        wrong,
                        List.of(entry(base + "/visits", VisitKinds.steps("").get(0), said, List.of())),
                        List.of(
                                new Section(
                                        "Open",
                                        "",
                                        visits.stream()
                                                .filter(Visit::isOpen)
                                                .map(VisitPages::link)
                                                .toList()),
                                new Section(
                                        "Closed",
                                        "",
                                        visits.stream()
                                                .filter(v -> !v.isOpen())
                                                .map(VisitPages::link)
                                                .toList()),
                                new Section("Who lives here", "", residents(stored))),
                        Caution.forWhat(Leads.TO_A_SWITCH)));
    }

    private static List<Link> residents(StoredHouse stored) {
        boolean isManager = Visitors.now().isOwner()
                || Visitors.now().grants().stream().anyMatch(g -> g.role().includes(Role.MANAGER));
        return isManager
                ? List.of(new Link(new Paths(stored.house().id()).base() + "/residents", "Residents", "personal"))
                : List.of();
    }

    private String one(StoredHouse stored, Visit v, String again, Map<String, String> said, Wrong wrong) {
        VisitDesk desk = new VisitDesk(store);
        String action = link(v).to();
        List<Entry> entries = new ArrayList<>();
        List<Input> version = List.of(Input.hidden(VERSION, String.valueOf(v.version())));
        for (StepKind k : VisitKinds.steps(v.state().id())) {
            List<Input> hidden = new ArrayList<>(version);
            hidden.add(Input.hidden("step", k.id()));
            Map<String, String> filled = k.id().equals(again) ? said : desk.suggested(v, k.id());
            entries.add(entry(action, k, filled, hidden));
        }
        List<Section> sections = new ArrayList<>();
        v.steps()
                .forEach(s ->
                        sections.add(new Section(s.kind().title(), Pages.minute(s.at()) + ", " + s.who(), lines(s))));
        sections.add(new Section("What the record gained since the work began", "", words(desk.since(v))));
        if (v.isOpen()) {
            sections.add(new Section(
                    "Asked to be tested before it is closed", "By what was changed.", words(desk.openTests(v))));
            sections.add(new Section(
                    "What must be off, and who is affected",
                    "As the record tells it; the sheet of each box says the rest.",
                    words(desk.affected(v))));
        }
        sections.add(new Section("In the house", "", work(new Paths(v.house()), v)));
        return Sent.page(
                stored,
                new EditPage(
                        v.name() + ": " + v.state().title(),
                        v.state().next(),
                        wrong,
                        entries,
                        sections,
                        Caution.forWhat(Leads.TO_A_WIRE)));
    }

    private static List<Link> work(Paths paths, Visit v) {
        List<Link> links = new ArrayList<>(List.of(
                new Link(paths.base() + "/diagnose", "Diagnose, step by step", ""),
                new Link(paths.base() + "/sight", "Record a reading", ""),
                new Link(paths.base() + "/new-box", "Record a box just opened", ""),
                new Link(paths.base() + "/tests", "Record a test", "")));
        VisitDesk.boxes(v.last("plan", "boxes"))
                .forEach(b -> links.add(paths.sheet("shut-off", b, "Shut-off sheet of " + b)));
        if (!v.last("arrange", "day").isEmpty()) {
            links.add(paths.sheet("notice", v.name(), "Notice to whoever lives there"));
        }
        links.add(paths.sheet("visit", v.name(), "This visit, on paper"));
        return links;
    }

    private static List<Link> lines(Visit.Step s) {
        List<Link> lines = new ArrayList<>();
        for (Field f : s.kind().fields()) {
            List<String> said = s.value(f.name()).lines().toList();
            for (int i = 0; i < said.size(); i++) {
                lines.add(Link.words(i == 0 ? f.label() + ": " + said.get(i) : said.get(i)));
            }
        }
        return lines.isEmpty() ? List.of(Link.words("nothing more was said")) : lines;
    }

    private static List<Link> words(List<String> lines) {
        return lines.stream().map(Link::words).toList();
    }
}
