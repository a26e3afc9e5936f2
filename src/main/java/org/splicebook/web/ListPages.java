package org.splicebook.web;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.http.Context;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Base64;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.splicebook.answer.Caution;
import org.splicebook.answer.Leads;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.record.House;
import org.splicebook.render.Json;
import org.splicebook.render.ProblemJson;
import org.splicebook.spreadsheet.Cells;
import org.splicebook.spreadsheet.ColumnNames;
import org.splicebook.spreadsheet.Intake;
import org.splicebook.spreadsheet.Intakes;
import org.splicebook.spreadsheet.ListKind;
import org.splicebook.store.HouseStore;
import org.splicebook.store.Revision;
import org.splicebook.store.StoredHouse;
import org.splicebook.web.view.EditPage;
import org.splicebook.web.view.Entry;
import org.splicebook.web.view.Input;
import org.splicebook.web.view.Link;
import org.splicebook.web.view.Section;
import org.splicebook.web.view.Wrong;

/** Lists out of spreadsheets: looked at first with what they would do, their columns matched otherwise, then stored. */
final class ListPages {
    private static final String PATH = "/houses/{house}/lists";
    private static final String COLUMN = "column-";
    private static final String STORE = "store";
    private static final int MOST_SHOWN = 300;

    /** What was sent: the cells, what they are of, and which columns are named by hand. */
    private record Sending(Cells cells, ListKind kind, String panel, Map<String, String> named) {
        Intake of(House house) {
            return Intakes.of(house, cells, kind, panel, named);
        }
    }

    private final HouseStore store;
    private final int largestBody;

    ListPages(HouseStore store, int largestBody) {
        this.store = store;
        this.largestBody = largestBody;
    }

    List<Route> routes() {
        return List.of(Route.post(Api.BASE + "/houses/{house}/lists/{kind}", this::take));
    }

    List<Route> pages() {
        return List.of(
                Route.get(PATH, ctx -> ctx.html(page(Sent.house(store, ctx), Wrong.NONE, List.of(), List.of()))),
                Route.post(PATH, this::read));
    }

    /** Over the API: looks, or with a revision stores. */
    private void take(Context ctx) throws IOException {
        StoredHouse stored = Sent.house(store, ctx);
        JsonNode body = Json.read(Body.text(ctx, largestBody));
        Map<String, String> named = new LinkedHashMap<>();
        body.path("columns")
                .properties()
                .forEach(e -> named.put(e.getKey(), e.getValue().asText()));
        ListKind kind = kind(ctx.pathParam("kind"));
        Sending sent = new Sending(
                Cells.read(bytes(body)), kind, panel(stored, body.path("panel").asText("")), named);
        Intake intake = sent.of(stored.house());
        ObjectNode o = Json.object();
        o.set("columns", Json.tree(intake.columns()));
        o.set("unused", Json.tree(intake.unused()));
        o.set("lines", Json.tree(intake.lines()));
        o.set("problems", Json.list(intake.problems(), ProblemJson::write));
        if (body.path("revision").isIntegralNumber()) {
            Revision made = store(stored, sent, intake, body.path("revision").asLong(), Api.who(ctx));
            o.set("stored", RevisionJson.write(made));
            ctx.header("ETag", Tags.of(made));
        }
        Api.json(ctx, o);
    }

    private static byte[] bytes(JsonNode body) {
        try {
            return body.path("file").isTextual()
                    ? Base64.getDecoder().decode(body.path("file").asText())
                    : body.path("text").asText().getBytes(StandardCharsets.UTF_8);
        } catch (IllegalArgumentException e) {
            throw Failures.failure(ProblemKind.BAD_VALUE, "The file is not in Base64.", "Send CSV as text instead.");
        }
    }

    private Revision store(StoredHouse stored, Sending sent, Intake intake, long revision, String who) {
        House with = intake.house();
        if (with == null) {
            throw new ProblemException(intake.problems());
        }
        if (with.equals(stored.house())) {
            throw Failures.failure(
                    ProblemKind.BAD_VALUE, "The list adds nothing that the record has not.", "Nothing has to be done.");
        }
        return store.put(with, revision, who, "From a list: " + sent.kind().word())
                .get();
    }

    private static ListKind kind(String word) {
        return ListKind.of(word)
                .orElseThrow(() -> Failures.failure(
                        ProblemKind.NOT_FOUND,
                        "There is no list of " + word + ".",
                        "There are panel-schedule and outlets."));
    }

    /** {@return the panel that is named, else the only one that there is} */
    private static String panel(StoredHouse stored, String said) {
        List<String> all = List.copyOf(stored.house().panels().keySet());
        return said.isEmpty() && all.size() == 1 ? all.get(0) : said;
    }

    private void read(Context ctx) {
        StoredHouse stored = Sent.house(store, ctx);
        try {
            Sending sent = sent(ctx, stored);
            Intake intake = sent.of(stored.house());
            if (Sent.field(ctx, "step").equals(STORE)) {
                Revision made = store(stored, sent, intake, Sent.revision(ctx), "someone at the pages");
                ctx.redirect(
                        Just.stored(new Paths(stored.house().id()).base() + "/changes", made),
                        io.javalin.http.HttpStatus.SEE_OTHER);
                return;
            }
            if (!intake.problems().isEmpty()) {
                ctx.status(Statuses.of(intake.problems()));
            }
            ctx.html(page(
                    stored,
                    Sent.wrong(ctx, Map.of(), byCell(intake.problems())),
                    preview(stored, sent, intake),
                    sections(sent, intake)));
        } catch (ProblemException e) {
            ctx.status(Statuses.of(e.problems()))
                    .html(page(stored, Sent.wrong(ctx, Map.of(), byCell(e.problems())), List.of(), List.of()));
        }
    }

    /** What is wrong with a list stands in a cell of it, not in a field of the form. */
    private static List<Problem> byCell(List<Problem> problems) {
        return problems.stream()
                .map(p -> p.where().path().matches(".*\\b[A-Z]{1,3}[0-9]+")
                        ? new Problem(p.kind(), p.severity(), Where.NOWHERE, p.said(), "")
                        : p)
                .toList();
    }

    private static Sending sent(Context ctx, StoredHouse stored) {
        byte[] file = Sent.bytes(ctx, "file", Guard.LARGEST_FORM);
        byte[] list = file.length > 0 ? file : Sent.field(ctx, "list").getBytes(StandardCharsets.UTF_8);
        if (list.length == 0) {
            throw Failures.failure(
                    "list", ProblemKind.MISSING, "No list came along.", "Choose a file, or paste its rows.");
        }
        ListKind kind = kind(Sent.field(ctx, "kind"));
        Map<String, String> named = new LinkedHashMap<>();
        ColumnNames.of(kind).keySet().forEach(f -> {
            String heading = Sent.field(ctx, COLUMN + f);
            if (!heading.isEmpty()) {
                named.put(f, heading);
            }
        });
        return new Sending(Cells.read(list), kind, panel(stored, Sent.field(ctx, "panel")), named);
    }

    private static List<Entry> preview(StoredHouse stored, Sending sent, Intake intake) {
        String action = new Paths(stored.house().id()).base() + "/lists";
        List<Input> same = new ArrayList<>(List.of(
                Input.hidden("list", sent.cells().csv()),
                Input.hidden("kind", sent.kind().word()),
                Input.hidden("panel", sent.panel()),
                Input.hidden(Sent.REVISION, String.valueOf(stored.revision().number()))));
        List<Entry> entries = new ArrayList<>();
        if (intake.house() != null && !intake.house().equals(stored.house())) {
            List<Input> inputs = new ArrayList<>(same);
            inputs.add(Input.hidden("step", STORE));
            sent.named().forEach((f, h) -> inputs.add(Input.hidden(COLUMN + f, h)));
            entries.add(new Entry(
                    action,
                    "What stands below under \"What it would do\". All of it is assumed until somebody looks; an earlier revision brings"
                            + " today's record back.",
                    inputs,
                    "Store it"));
        }
        List<Input> match = new ArrayList<>(same);
        List<Input.Choice> headings = new ArrayList<>(
                List.of(new Input.Choice("", "as found"), new Input.Choice(Intakes.NONE, "no column says it")));
        intake.headings().forEach(h -> headings.add(new Input.Choice(h, h)));
        ColumnNames.of(sent.kind())
                .keySet()
                .forEach(f -> match.add(optional(Input.chosen(
                        Input.Kind.LIST,
                        COLUMN + f,
                        f,
                        sent.named().getOrDefault(f, ""),
                        found(intake, f),
                        headings))));
        entries.add(new Entry(action, "Match the columns otherwise", match, "Look again"));
        return entries;
    }

    private static Input optional(Input i) {
        return new Input(i.name(), i.kind(), i.label(), i.value(), i.meaning(), false, i.choices(), i.wrong());
    }

    private static String found(Intake intake, String field) {
        @Nullable String heading = intake.columns().get(field);
        return heading == null ? "not found" : "found under " + heading;
    }

    private static List<Section> sections(Sending sent, Intake intake) {
        List<Link> lines = new ArrayList<>(
                intake.lines().stream().limit(MOST_SHOWN).map(Link::words).toList());
        if (intake.lines().size() > MOST_SHOWN) {
            lines.add(Link.words("and " + (intake.lines().size() - MOST_SHOWN) + " rows more"));
        }
        List<Link> formulas = sent.cells().formulas().stream()
                .limit(MOST_SHOWN)
                .map(Link::words)
                .toList();
        return List.of(
                new Section("What it would do", "", lines),
                new Section(
                        "Columns that are not taken",
                        "",
                        intake.unused().stream().map(Link::words).toList()),
                new Section("Formulas", "Nothing is computed: what each showed last is taken as text.", formulas));
    }

    private static String page(StoredHouse stored, Wrong wrong, List<Entry> preview, List<Section> sections) {
        House house = stored.house();
        List<Input.Choice> panels = house.panels().keySet().stream()
                .map(p -> new Input.Choice(p, p))
                .toList();
        List<Input> inputs = new ArrayList<>(List.of(
                Input.chosen(
                        Input.Kind.ONE,
                        "kind",
                        "It lists",
                        ListKind.PANEL_SCHEDULE.word(),
                        "",
                        List.of(
                                new Input.Choice(ListKind.PANEL_SCHEDULE.word(), "the breakers of a panel"),
                                new Input.Choice(ListKind.OUTLETS.word(), "outlets by room"))),
                optional(Input.typed(Input.Kind.FILE, "file", "File", "", "XLSX (its first sheet) or CSV", false)),
                Input.typed(Input.Kind.AREA, "list", "Or its rows", "", "pasted, with a row of headings", false)));
        if (!panels.isEmpty()) {
            inputs.add(
                    1,
                    optional(Input.chosen(
                            Input.Kind.LIST, "panel", "Panel", panels.get(0).value(), "for breakers", panels)));
        }
        List<Entry> entries = new ArrayList<>(preview);
        entries.add(new Entry(
                new Paths(house.id()).base() + "/lists",
                preview.isEmpty() ? "Look at a list; nothing is stored yet" : "Look at another list",
                inputs,
                "Look at it"));
        return Sent.page(
                stored,
                new EditPage(
                        "A list out of a spreadsheet",
                        "Panel schedules and lists of outlets. What the record has already stays as it is.",
                        wrong,
                        entries,
                        sections,
                        Caution.forWhat(Leads.TO_A_SWITCH)));
    }
}
