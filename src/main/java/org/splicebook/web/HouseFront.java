package org.splicebook.web;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.splicebook.record.House;
import org.splicebook.rules.Severity;
import org.splicebook.web.view.Fact;
import org.splicebook.web.view.Form;
import org.splicebook.web.view.HousePage;
import org.splicebook.web.view.Link;
import org.splicebook.web.view.Section;

/** What the page of one house begins with: what the person is about to do, then what there is. */
final class HouseFront {
    private final Look look;
    private final House house;
    private final Paths paths;

    private HouseFront(Look look) {
        this.look = look;
        this.house = look.house();
        this.paths = new Paths(house.id());
    }

    /**
     * {@return the page}
     *
     * @param sightings how many sightings the house has, so that the page of the next pass is another one after each
     */
    static HousePage of(Look look, int sightings) {
        HouseFront front = new HouseFront(look);
        return new HousePage(front.begun(), front.facts(), front.forms(), front.writing(sightings), front.sections());
    }

    private List<Section> begun() {
        Beginning all = Beginning.of(house);
        if (all.isDone()) {
            return List.of();
        }
        Beginning.Step next = all.next();
        List<String> missing = all.steps().stream()
                .filter(s -> !s.isDone())
                .map(s -> s.kind().title().toLowerCase(Locale.ROOT))
                .toList();
        return List.of(new Section(
                "Go on with the record",
                "Still missing: " + String.join("; ", missing) + ".",
                List.of(new Link(
                        BeginPages.address(house.id()), "Next: " + next.kind().title(), ""))));
    }

    private List<Form> forms() {
        String ask = paths.base() + "/questions/";
        List<String> boxes = new ArrayList<>(house.boxes().keySet());
        boxes.addAll(house.panels().keySet());
        List<Form> forms = new ArrayList<>();
        if (!boxes.isEmpty()) {
            forms.add(choose(
                    ask + "shut-off", "Open a box or a panel", "box", "Box or panel", boxes, "What must be off?"));
        }
        forms.add(new Form(
                paths.base() + "/search",
                "Something is dead, or should be looked up",
                List.of(new Form.Field("q", "Name", "", "its name, its room, its directory line", true, List.of())),
                "Look it up"));
        if (!house.places().isEmpty()) {
            List<String> places = List.copyOf(house.places().keySet());
            forms.add(choose(ask + "shut-off", "Drill into a wall", "spot", "Place", places, "What may be behind it?"));
            forms.add(choose(ask + "dark", "Emergency: make a place dark", "place", "Place", places, "Which throws?"));
        }
        return forms;
    }

    private static Form choose(
            String action, String words, String name, String label, List<String> choices, String button) {
        return new Form(action, words, List.of(new Form.Field(name, label, choices.get(0), "", true, choices)), button);
    }

    private List<Link> writing(int sightings) {
        return List.of(
                new Link(paths.base() + "/new-box", "Record a box just opened", ""),
                new Link(paths.base() + "/sight", "Record what was observed", ""),
                new Link(paths.base() + "/tests", "Tests: what is due, and outcomes", ""),
                new Link(paths.base() + "/readings", "Type in a sheet of readings", ""),
                new Link(paths.base() + "/diagnose", "Something is wrong: dead, dim, or it trips", "what may be wrong"),
                new Link(paths.base() + "/visits", "Visits: from a report to the closed visit", ""),
                new Link(paths.base() + "/walk?at=" + sightings, "Map it by test: the next pass", "with a phone"),
                new Link(paths.base() + "/questions", "All questions", ""),
                new Link(paths.base() + "/hand-over", "Hand it to someone", ""));
    }

    private List<Section> sections() {
        Map<Severity, Long> counts = new LinkedHashMap<>();
        look.checked().open().forEach(f -> counts.merge(f.severity(), 1L, Long::sum));
        List<Link> findings = new ArrayList<>();
        counts.forEach((s, n) -> findings.add(new Link(paths.base() + "/findings", n + " " + s.word(), "")));
        return List.of(
                new Section("Findings", "Advice before an inspection, never an approval.", findings),
                new Section(
                        "Panels",
                        "",
                        house.panels().keySet().stream().map(paths::panel).toList()),
                new Section(
                        "Places",
                        "",
                        house.places().values().stream()
                                .map(p -> paths.place(p.name(), p.said()))
                                .toList()),
                new Section(
                        "Change something",
                        "Looked at from all sides before anything is touched.",
                        List.of(
                                new Link(paths.base() + "/drafts", "Drafts", ""),
                                new Link(paths.base() + "/look", "Look for a change", ""),
                                new Link(
                                        paths.base() + "/demand",
                                        "What it demands of its service",
                                        "would a charger fit?"),
                                new Link(paths.base() + "/plan", "Plan a new panel", ""),
                                new Link(
                                        paths.base() + "/subpanel",
                                        "A backed-up or a further panel",
                                        "which circuits move"))),
                new Section("Print", "", sheets()),
                new Section(
                        "The record itself",
                        "",
                        List.of(
                                new Link(
                                        paths.base() + "/lists",
                                        "Take a list in",
                                        "panel schedule or outlets, from a spreadsheet"),
                                new Link(paths.base() + "/record", "The record as text", "read, copy, change"),
                                new Link(paths.base() + "/history", "History and undo", ""))));
    }

    private List<Link> sheets() {
        return List.of(
                paths.sheet("directory", "", "Panel directories"),
                paths.sheet("strips", "", "Labels for the spaces of panels"),
                paths.sheet("emergency", "", "Emergency: which throws"),
                paths.sheet("card", "", "Cards and tags of all boxes"),
                paths.sheet("labels", "", "Labels for receptacles"),
                paths.sheet("readings", "", "A sheet for readings"),
                paths.sheet("record", "", "The whole record"));
    }

    private List<Fact> facts() {
        return List.of(
                fact("Load points", look.points().size()),
                fact("Boxes", house.boxes().size()),
                fact("Cables", house.cables().size()),
                new Fact(
                        "Revision",
                        List.of(Link.words(look.stored().revision().number() + ", stored "
                                + Pages.minute(look.stored().revision().stored())))));
    }

    private static Fact fact(String name, int count) {
        return new Fact(name, List.of(Link.words(String.valueOf(count))));
    }
}
