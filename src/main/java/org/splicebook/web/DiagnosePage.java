package org.splicebook.web;

import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.splicebook.answer.Answer;
import org.splicebook.answer.Caution;
import org.splicebook.answer.Leads;
import org.splicebook.answer.Row;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.record.House;
import org.splicebook.store.HouseStore;
import org.splicebook.store.StoredHouse;
import org.splicebook.web.view.EditPage;
import org.splicebook.web.view.Entry;
import org.splicebook.web.view.Input;
import org.splicebook.web.view.Link;
import org.splicebook.web.view.Section;
import org.splicebook.web.view.Wrong;
import org.splicebook.wiring.Derivation;
import org.splicebook.wiring.LoadPointWiring;

/**
 * What may be wrong, told by large choices on a phone: room by room what is dead, dim, as ever or too bright, a meter's readings, what tripped.
 * All that was told is in the address, nothing is stored; each answer brings the next test.
 */
final class DiagnosePage {
    private static final int LONGEST_ADDRESS = 4_000;
    private static final String PATH = "/houses/{house}/diagnose";
    private static final String POINT = "point:";
    private static final String UNIT = "unit:";
    private static final List<Input.Choice> WORKS = List.of(
            new Input.Choice("dead", "Dead"),
            new Input.Choice("dim", "Dim"),
            new Input.Choice("live", "As ever"),
            new Input.Choice("bright", "Too bright"),
            new Input.Choice("", "Not looked"));
    private static final List<Input.Choice> HOLDS = List.of(
            new Input.Choice("tripped", "Tripped, or trips again"),
            new Input.Choice("holds", "On, and it holds"),
            new Input.Choice("", "Not looked"));

    /** The first line of the section with the next test. */
    private static final Pattern TEST =
            Pattern.compile("(By its handle or button|With a lamp|With a meter) at ([^,: ]+).*");

    private static final Pattern WHEN = Pattern.compile(".*?( when (?:nothing on|everything on|every switch moved))?");

    private final HouseStore store;

    DiagnosePage(HouseStore store) {
        this.store = store;
    }

    List<Route> routes() {
        return List.of(Route.get(PATH, this::show), Route.post(PATH, this::add));
    }

    private static String query(Context ctx, String name) {
        return Objects.requireNonNullElse(ctx.queryParam(name), "").strip();
    }

    private void show(Context ctx) {
        StoredHouse stored = Sent.house(store, ctx);
        String told = query(ctx, "told");
        String place = query(ctx, "place");
        if (!place.isEmpty()) {
            ctx.html(Sent.page(stored, room(stored.house(), told, place)));
            return;
        }
        if (told.isEmpty()) {
            ctx.html(Sent.page(
                    stored,
                    page(
                            "Tell what is wrong, room by room. The more that is told of what still works, the surer the answer.",
                            Wrong.NONE,
                            further(stored.house(), told),
                            List.of(rooms(stored.house(), told)))));
            return;
        }
        try {
            Answer answer = (Answer) store.ask("diagnose", stored.house().id(), Map.of("symptoms", told))
                    .get();
            ctx.html(Sent.page(stored, answered(stored.house(), told, answer)));
        } catch (ProblemException e) {
            EditPage again = page(
                    "",
                    Sent.wrong(ctx, Map.of("symptoms", "told"), e.problems()),
                    List.of(corrected(stored.house(), told)),
                    List.of());
            ctx.status(Statuses.of(e.problems())).html(Sent.page(stored, again));
        }
    }

    private void add(Context ctx) {
        StoredHouse stored = Sent.house(store, ctx);
        List<String> all = new ArrayList<>();
        String told = Sent.field(ctx, "told");
        String when = Sent.field(ctx, "when");
        if (!told.isEmpty()) {
            all.add(told);
        }
        for (String name : ctx.formParamMap().keySet()) {
            String value = Sent.field(ctx, name);
            boolean isChoice = name.startsWith(POINT) || name.startsWith(UNIT);
            if (isChoice && !value.isEmpty()) {
                all.add(value + ": " + name.substring(name.indexOf(':') + 1) + when);
            }
        }
        List<String> readings = new ArrayList<>();
        for (String r : List.of("hn", "hg", "ng")) {
            if (!Sent.field(ctx, r).isEmpty()) {
                readings.add(r + "=" + Sent.field(ctx, r));
            }
        }
        if (!readings.isEmpty()) {
            all.add("volts at " + Sent.field(ctx, "at") + ": " + String.join(" ", readings) + when);
        }
        for (String name : List.of("trips", "last touched")) {
            if (!Sent.field(ctx, name).isEmpty()) {
                all.add(name + ": " + Sent.field(ctx, name));
            }
        }
        String to = new Paths(stored.house().id()).base() + "/diagnose?told=" + Paths.part(String.join("; ", all));
        if (to.length() > LONGEST_ADDRESS) {
            throw Failures.failure(
                    "told",
                    ProblemKind.TOO_LARGE,
                    "What was told has grown too long for an address.",
                    "Tell fewer things at once: what is dead, and what still works beside it.");
        }
        ctx.redirect(to, HttpStatus.SEE_OTHER);
    }

    private static EditPage page(String lead, Wrong wrong, List<Entry> entries, List<Section> sections) {
        return new EditPage("What may be wrong", lead, wrong, entries, sections, Caution.forWhat(Leads.TO_A_WIRE));
    }

    private static String action(House house) {
        return new Paths(house.id()).base() + "/diagnose";
    }

    private static String placeOf(LoadPointWiring p) {
        return Objects.requireNonNullElse(p.place(), "elsewhere");
    }

    private static EditPage room(House house, String told, String place) {
        List<Input> inputs = new ArrayList<>(List.of(Input.hidden("told", told)));
        Derivation.derive(house).loadPoints().stream()
                .filter(p -> placeOf(p).equals(place))
                .forEach(p -> inputs.add(Input.chosen(Input.Kind.ONE, POINT + p.id(), p.id(), "", "", WORKS)));
        String words = "With a lamp, or by looking. Only what is chosen counts as looked at.";
        return new EditPage(
                "What is it like in " + said(house, place) + "?",
                "",
                Wrong.NONE,
                List.of(new Entry(action(house), words, inputs, "Add")),
                List.of(),
                Caution.forWhat(Leads.TO_A_SWITCH));
    }

    private static String said(House house, String place) {
        var known = house.places().get(place);
        return known == null ? place : known.said();
    }

    private static Section rooms(House house, String told) {
        Set<String> places = new LinkedHashSet<>();
        Derivation.derive(house).loadPoints().forEach(p -> places.add(placeOf(p)));
        List<Link> links = places.stream()
                .map(p -> new Link(
                        action(house) + "?told=" + Paths.part(told) + "&place=" + Paths.part(p), said(house, p), ""))
                .toList();
        return new Section("By room", "What is dead, dim, as ever, too bright?", links);
    }

    /** What can be told beside the rooms. */
    private static List<Entry> further(House house, String told) {
        List<Input.Choice> points = new ArrayList<>();
        Derivation.derive(house).loadPoints().forEach(p -> points.add(new Input.Choice(p.id(), p.id())));
        List<Input.Choice> units = new ArrayList<>(List.of(new Input.Choice("", "Nothing")));
        List<Input.Choice> boxes = new ArrayList<>(List.of(new Input.Choice("", "Nothing")));
        house.panels().values().forEach(p -> {
            p.breakers().values().forEach(b -> {
                String name = p.name() + "." + b.key();
                units.add(new Input.Choice(name, name + (b.label() == null ? "" : ", " + b.label())));
            });
            boxes.add(new Input.Choice(p.name(), p.name()));
        });
        house.boxes().values().forEach(b -> {
            b.devices().values().stream()
                    .filter(d -> d.kind().guard() != null)
                    .forEach(d -> units.add(new Input.Choice(d.name(), d.name())));
            boxes.add(new Input.Choice(b.name(), b.name()));
        });
        Entry meter = new Entry(
                action(house),
                "A meter at one receptacle, in volts, covers on",
                List.of(
                        Input.hidden("told", told),
                        Input.chosen(Input.Kind.LIST, "at", "At", "", "", points),
                        volts("hn", "Hot to neutral", "the short slot to the long one"),
                        volts("hg", "Hot to ground", "the short slot to the round hole"),
                        volts("ng", "Neutral to ground", "the long slot to the round hole")),
                "Add the readings");
        Entry others = new Entry(
                action(house),
                "What trips, and where someone worked last",
                List.of(
                        Input.hidden("told", told),
                        optional("trips", "It trips, or was found tripped", units),
                        optional("last touched", "Worked on last", boxes)),
                "Add");
        return List.of(meter, others);
    }

    private static Input volts(String name, String label, String meaning) {
        return Input.typed(Input.Kind.TEXT, name, label, "", meaning, false);
    }

    private static Input optional(String name, String label, List<Input.Choice> choices) {
        return new Input(name, Input.Kind.LIST, label, "", "", false, choices, "");
    }

    private static Entry corrected(House house, String told) {
        return new Entry(
                action(house),
                "Correct what was told, a semicolon between",
                List.of(Input.typed(Input.Kind.AREA, "told", "Told", told, "", true)),
                "Try again");
    }

    private static EditPage answered(House house, String told, Answer answer) {
        List<Entry> entries = new ArrayList<>();
        List<Section> sections = new ArrayList<>();
        Paths paths = new Paths(house.id());
        List<Link> suspects = new ArrayList<>();
        for (Row r : answer.rows()) {
            String note =
                    r.columns().get("chance") + "; foretells " + r.columns().get("foretells");
            suspects.add(new Link("", r.subject(), note));
        }
        sections.add(new Section(
                "Suspects, likeliest first",
                "What no test from outside tells apart stands as one. A share ranks, it excludes nothing.",
                suspects));
        Map<String, Link> boxes = new LinkedHashMap<>();
        answer.rows().stream()
                .limit(3)
                .flatMap(r -> List.of(Objects.toString(r.columns().get("where")).split(", ")).stream())
                .filter(b -> house.boxes().containsKey(b))
                .forEach(b ->
                        boxes.put(b, paths.ask("shut-off", "box", b, "What must be off before " + b + " is opened")));
        for (Answer.Section s : answer.sections()) {
            if (s.title().startsWith("Next test")) {
                entries.addAll(next(house, told, s.lines()));
            }
            sections.add(new Section(
                    s.title(), "", s.lines().stream().map(Link::words).toList()));
        }
        sections.add(new Section("Before a box is opened", "", List.copyOf(boxes.values())));
        sections.add(rooms(house, told));
        sections.add(new Section("Begin again", "", List.of(new Link(action(house), "Forget what was told", ""))));
        sections.add(new Section(
                "Not proven by the given facts",
                "",
                answer.notProven().stream().map(Link::words).toList()));
        entries.addAll(further(house, told));
        return page(answer.outcome(), Wrong.NONE, entries, sections);
    }

    /** The next test with what can come out as large choices. */
    private static List<Entry> next(House house, String told, List<String> lines) {
        Matcher m = TEST.matcher(lines.isEmpty() ? "" : lines.get(0));
        if (!m.matches()) {
            return List.of();
        }
        Matcher last = WHEN.matcher(lines.get(lines.size() - 1));
        String when = last.matches() && last.group(1) != null ? last.group(1) : "";
        List<Input> inputs = new ArrayList<>(List.of(Input.hidden("told", told), Input.hidden("when", " " + when)));
        String at = m.group(2);
        switch (m.group(1)) {
            case "With a meter" -> {
                inputs.add(Input.hidden("at", at));
                inputs.add(volts("hn", "Hot to neutral", "volts, the short slot to the long one"));
                inputs.add(volts("hg", "Hot to ground", "volts, the short slot to the round hole"));
                inputs.add(volts("ng", "Neutral to ground", "volts, the long slot to the round hole"));
            }
            case "With a lamp" -> inputs.add(Input.chosen(Input.Kind.ONE, POINT + at, at, "", "", WORKS));
            default -> inputs.add(Input.chosen(Input.Kind.ONE, UNIT + at, at, "", "", HOLDS));
        }
        return List.of(new Entry(action(house), "Next: " + lines.get(0), inputs, "Add, and ask again"));
    }
}
