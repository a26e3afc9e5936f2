package org.splicebook.web;

import io.javalin.http.Context;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.splicebook.housefile.Kinds;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.record.Complete;
import org.splicebook.record.House;
import org.splicebook.record.Panel;
import org.splicebook.record.PlaceKind;
import org.splicebook.record.SourceSystem;
import org.splicebook.store.HouseStore;
import org.splicebook.store.Revision;
import org.splicebook.store.StoredHouse;
import org.splicebook.web.view.EditPage;
import org.splicebook.web.view.Entry;
import org.splicebook.web.view.Input;
import org.splicebook.web.view.Link;
import org.splicebook.web.view.Section;
import org.splicebook.web.view.Wrong;

/** Leads through the beginning of a record, one step at a time; it can be left at any of them and taken up again. */
final class BeginPages {
    private static final String PATH = "/houses/{house}/begin";
    private static final String STEP = "step";
    private static final String ALL = "all";
    private static final String SEVERAL = "several";
    private static final List<String> AMPERES = List.of("15", "20", "30", "40", "50");
    private static final List<String> FIRST_KINDS = List.of(
            "duplex-receptacle", "luminaire", "single-receptacle", "ground-fault-receptacle", "fan", "smoke-alarm");

    /** What the reader of house files calls it, and the forms do. */
    private static final Map<String, String> FIELDS = fields();

    private final HouseStore store;

    BeginPages(HouseStore store) {
        this.store = store;
    }

    List<Route> routes() {
        return List.of(
                Route.get(PATH, ctx -> {
                    StoredHouse stored = Sent.house(store, ctx);
                    ctx.html(page(stored, step(stored, ctx.queryParam(STEP)), Wrong.NONE));
                }),
                Route.post(PATH, this::add));
    }

    private static Map<String, String> fields() {
        Map<String, String> all = new LinkedHashMap<>();
        all.put("panels\\.[^.]*\\.(breakers|fuses)", "space");
        all.put("panels\\.[^.]*\\.(breakers|fuses)\\.[^.]*", "space");
        all.put("panels\\.[^.]*\\.(breakers|fuses)\\.[^.]*\\.rating", "amperes");
        all.put("panels\\.[^.]*\\.(breakers|fuses).*", "breakers");
        all.put("panels\\.[^.]*\\.main.*", "rating");
        all.put("panels\\.[^.]*\\.place", "panel-place");
        all.put("panels(\\.[^.]*)?", "name");
        all.put("places.*", "rooms");
        all.put(".*\\.add-(box|device)", "name");
        return all;
    }

    /** {@return where a house is begun} */
    static String address(String house) {
        return new Paths(house).base() + "/begin";
    }

    private static Beginning.Step step(StoredHouse stored, String said) {
        Beginning all = Beginning.of(stored.house());
        return all.steps().stream()
                .filter(s -> s.kind().word().equals(said))
                .findFirst()
                .orElse(all.next());
    }

    private void add(Context ctx) {
        StoredHouse stored = Sent.house(store, ctx);
        Beginning.Step step = step(stored, Sent.field(ctx, STEP));
        Sent.attempt(
                ctx,
                FIELDS,
                () -> {
                    House after = after(stored.house(), step.kind(), ctx);
                    Revision made = store.put(
                                    after,
                                    Sent.revision(ctx),
                                    BoxPages.BY_PAGE,
                                    "Begun: " + step.kind().word())
                            .get();
                    boolean hasMore = step.kind() == Beginning.Kind.BREAKERS || step.kind() == Beginning.Kind.POINTS;
                    String next = hasMore ? "?" + STEP + "=" + step.kind().word() : "";
                    return Just.stored(address(after.id()) + next, made);
                },
                wrong -> page(stored, step, wrong));
    }

    private static House after(House house, Beginning.Kind kind, Context ctx) {
        return switch (kind) {
            case PANEL -> HouseText.with(house, whole -> panel(whole, ctx));
            case ROOMS -> HouseText.with(house, whole -> rooms(whole, ctx));
            case BREAKERS -> breakers(house, ctx);
            case POINTS -> point(house, ctx);
            case BOX ->
                throw Failures.failure(
                        ProblemKind.BAD_VALUE, "A box is recorded on its own page.", "Use a button of the page.");
        };
    }

    private static void panel(Map<String, Object> whole, Context ctx) {
        String name = Sent.field(ctx, "name");
        String rating = amperes(Sent.field(ctx, "rating"));
        Map<String, Object> source = HouseText.map(HouseText.map(whole, "sources"), "service");
        source.put("system", Sent.field(ctx, "system"));
        put(source, "rating", rating);
        source.putIfAbsent("bond", name);
        Map<String, Object> panel = HouseText.map(HouseText.map(whole, "panels"), name);
        panel.putIfAbsent("supply", "service");
        put(panel, "spaces", Sent.field(ctx, "spaces"));
        String main = Sent.field(ctx, "main");
        if (!main.isEmpty()) {
            Map<String, Object> is = HouseText.map(panel, "main");
            is.put("kind", main);
            put(is, "rating", rating);
        }
        String place = Sent.field(ctx, "panel-place");
        String key = NewHousePage.key(place);
        if (!key.isEmpty()) {
            HouseText.map(whole, "places").putIfAbsent(key, Map.of("name", place, "kind", NewHousePage.guess(place)));
            panel.put("place", key);
        }
    }

    private static void rooms(Map<String, Object> whole, Context ctx) {
        List<Problem> problems = new ArrayList<>();
        Map<String, Object> fresh = new LinkedHashMap<>();
        ctx.formParams("usual").forEach(k -> fresh.put(k, Map.of("name", said(k), "kind", k)));
        fresh.putAll(NewHousePage.rooms(Sent.field(ctx, "rooms"), problems));
        if (!problems.isEmpty()) {
            throw new ProblemException(problems);
        }
        if (fresh.isEmpty()) {
            throw Failures.failure("usual", ProblemKind.MISSING, "No room is chosen.", "Choose some, or write them.");
        }
        Map<String, Object> places = HouseText.map(whole, "places");
        fresh.forEach((key, place) -> {
            if (places.putIfAbsent(key, place) != null) {
                throw Failures.failure(
                        "rooms", ProblemKind.DUPLICATE, "There is a room " + key + " already.", "Name it otherwise.");
            }
        });
    }

    private static House breakers(House house, Context ctx) {
        String name = Sent.field(ctx, "panel");
        Panel panel = house.panels().get(name);
        if (panel == null) {
            throw Failures.failure(
                    "panel", ProblemKind.DANGLING_NAME, "There is no panel " + name + ".", "Record the panel first.");
        }
        String what = Sent.field(ctx, "what");
        if (what.equals(ALL)) {
            Map<String, Panel> panels = new LinkedHashMap<>(house.panels());
            List<Complete> listed = new ArrayList<>(panel.complete() == null ? house.complete() : panel.complete());
            listed.add(Complete.BREAKERS);
            panels.put(name, panel.withJoints(panel.joints(), java.util.Set.copyOf(listed)));
            return house.withParts(panels, house.cables(), house.boxes());
        }
        List<Problem> problems = new ArrayList<>();
        Map<String, Object> fresh = new LinkedHashMap<>();
        if (what.equals(SEVERAL)) {
            fresh.putAll(NewHousePage.breakers(Sent.field(ctx, "breakers"), problems));
        } else {
            Map<String, Object> breaker = new LinkedHashMap<>();
            put(breaker, "rating", amperes(Sent.field(ctx, "amperes")));
            put(breaker, "label", Sent.field(ctx, "label"));
            List<String> protects = ctx.formParams("protects");
            if (!protects.isEmpty()) {
                breaker.put("protects", protects);
            }
            fresh.put(Sent.field(ctx, "space"), breaker);
        }
        fresh.keySet().stream()
                .filter(panel.breakers()::containsKey)
                .forEach(k -> problems.add(Failures.failure(
                                what.equals(SEVERAL) ? "breakers" : "space",
                                ProblemKind.DUPLICATE,
                                "There is a breaker " + k + " already.",
                                "Look at what the panel has below; its text is changed in the record.")
                        .problems()
                        .get(0)));
        if (!problems.isEmpty()) {
            throw new ProblemException(problems);
        }
        return HouseText.with(
                house,
                whole -> HouseText.map(
                                HouseText.map(HouseText.map(whole, "panels"), name),
                                fuses(panel) ? "fuses" : "breakers")
                        .putAll(fresh));
    }

    /** {@return whether what a panel has are fuses, as its main says} */
    private static boolean fuses(Panel panel) {
        return panel.main() != null && panel.main().type() == org.splicebook.record.OvercurrentType.FUSE;
    }

    private static House point(House house, Context ctx) {
        String place = Sent.field(ctx, "place");
        String typed = Sent.field(ctx, "name");
        int n = 1;
        while (house.boxes().containsKey(place + "-" + n)) {
            n++;
        }
        String name = typed.isEmpty() ? place + "-" + n : typed;
        Map<String, Object> box = new LinkedHashMap<>(Map.of("complete", List.of()));
        put(box, "place", place);
        List<Map<String, Object>> moves = List.of(
                Map.of("add-box", name, "as", box),
                Map.of("add-device", name + "-1", "in", name, "as", Map.of("kind", Sent.field(ctx, "kind"))));
        return BoxPages.entered(house, BoxPages.moves(house, moves));
    }

    private static String amperes(String said) {
        return said.replaceAll("^(\\d+)$", "$1 A");
    }

    private static void put(Map<String, Object> map, String key, String value) {
        if (!value.isEmpty()) {
            map.put(key, value);
        }
    }

    private static String said(String kind) {
        return Character.toUpperCase(kind.charAt(0)) + kind.substring(1).replace('-', ' ');
    }

    private static String page(StoredHouse stored, Beginning.Step step, Wrong wrong) {
        House house = stored.house();
        Beginning all = Beginning.of(house);
        String base = address(house.id());
        List<Link> far = new ArrayList<>();
        all.steps()
                .forEach(s -> far.add(new Link(
                        base + "?" + STEP + "=" + s.kind().word(),
                        all.number(s.kind()) + ". " + s.kind().title(),
                        s.said())));
        List<Link> next = new ArrayList<>();
        Beginning.Step after = all.after(step.kind());
        if (after.kind() != step.kind()) {
            next.add(new Link(
                    base + "?" + STEP + "=" + after.kind().word(),
                    "Next: " + after.kind().title(),
                    ""));
        }
        next.add(new Link(new Paths(house.id()).base(), "Leave it here", "it can be taken up again"));
        return Sent.page(
                stored,
                new EditPage(
                        step.kind().title(),
                        "Step " + all.number(step.kind()) + " of " + all.steps().size() + ". Recorded so far: "
                                + step.said() + ".",
                        wrong,
                        entries(stored, step.kind()),
                        List.of(
                                new Section("Go on", "", next),
                                new Section("How far it is", "", far),
                                new Section("In the panel", "", breakers(house, step.kind()))),
                        List.of()));
    }

    private static List<Link> breakers(House house, Beginning.Kind kind) {
        return kind != Beginning.Kind.BREAKERS
                ? List.of()
                : house.panels().values().stream()
                        .flatMap(p -> p.breakers().values().stream()
                                .map(b -> new Paths(house.id())
                                        .breaker(p.name() + "." + b.key(), Objects.requireNonNullElse(b.label(), ""))))
                        .toList();
    }

    private static List<Entry> entries(StoredHouse stored, Beginning.Kind kind) {
        House house = stored.house();
        return switch (kind) {
            case PANEL -> List.of(panelEntry(stored));
            case ROOMS -> List.of(roomsEntry(stored));
            case BREAKERS -> house.panels().isEmpty() ? List.of() : breakerEntries(stored);
            case POINTS -> List.of(pointEntry(stored));
            case BOX -> List.of(NewBoxPage.entry(stored, Map.of()));
        };
    }

    private static Entry entry(
            StoredHouse stored, Beginning.Kind kind, String what, String words, List<Input> inputs, String button) {
        List<Input> all = new ArrayList<>(List.of(
                Input.hidden(Sent.REVISION, String.valueOf(stored.revision().number())),
                Input.hidden(STEP, kind.word()),
                Input.hidden("what", what)));
        all.addAll(inputs);
        return new Entry(address(stored.house().id()), words, all, button);
    }

    private static Input text(String name, String label, String value, String meaning, boolean needed) {
        return Input.typed(Input.Kind.TEXT, name, label, value, meaning, needed);
    }

    private static Entry panelEntry(StoredHouse stored) {
        House house = stored.house();
        Panel panel = house.panels().values().stream().findFirst().orElse(null);
        var source = house.sources().get("service");
        var place =
                panel == null || panel.place() == null ? null : house.places().get(panel.place());
        List<Input.Choice> systems = Arrays.stream(SourceSystem.values())
                .map(s -> new Input.Choice(s.word(), s.word()))
                .toList();
        return entry(
                stored,
                Beginning.Kind.PANEL,
                "",
                "What stands on it and on its main; what is not known stays empty",
                List.of(
                        text("name", "Name of the panel", panel == null ? "main" : panel.name(), "", true),
                        text(
                                "spaces",
                                "Spaces for breakers or fuses",
                                panel == null || panel.spaces() == null ? "" : String.valueOf(panel.spaces()),
                                "how many, taken or not",
                                false),
                        Input.chosen(
                                Input.Kind.ONE,
                                "main",
                                "Its main is",
                                panel == null || panel.main() == null ? "" : fuses(panel) ? "fuses" : "breaker",
                                "",
                                List.of(
                                        new Input.Choice("breaker", "A breaker"),
                                        new Input.Choice("fuses", "Fuses"),
                                        new Input.Choice("", "None, or not known"))),
                        Input.chosen(
                                Input.Kind.LIST,
                                "system",
                                "Service",
                                source == null || source.system() == null
                                        ? SourceSystem.SPLIT_PHASE_120_240.word()
                                        : source.system().word(),
                                "volts, as the utility says",
                                systems),
                        text(
                                "rating",
                                "Service rating",
                                source == null || source.rating() == null
                                        ? ""
                                        : source.rating().said(),
                                "as on the main: 100 A",
                                false),
                        text("panel-place", "Where it hangs", place == null ? "" : place.said(), "a room", false)),
                "Record the panel");
    }

    private static Entry roomsEntry(StoredHouse stored) {
        Map<String, ?> there = stored.house().places();
        List<Input.Choice> usual = Arrays.stream(PlaceKind.values())
                .filter(k -> k != PlaceKind.OTHER && k != PlaceKind.COMMON && !there.containsKey(k.word()))
                .map(k -> new Input.Choice(k.word(), said(k.word())))
                .toList();
        return entry(
                stored,
                Beginning.Kind.ROOMS,
                "",
                "Which rooms are there?",
                List.of(
                        Input.chosen(Input.Kind.TAP, "usual", "One of each", "", "tap those that there are", usual),
                        Input.typed(
                                Input.Kind.AREA,
                                "rooms",
                                "And those",
                                "",
                                "one a line: North bedroom; or name and kind: Den, living",
                                false)),
                "Record the rooms");
    }

    private static List<Entry> breakerEntries(StoredHouse stored) {
        House house = stored.house();
        List<Input.Choice> panels = house.panels().keySet().stream()
                .map(p -> new Input.Choice(p, p))
                .toList();
        Input panel = panels.size() == 1
                ? Input.hidden("panel", panels.get(0).value())
                : Input.chosen(Input.Kind.LIST, "panel", "Panel", panels.get(0).value(), "", panels);
        List<Input.Choice> amperes =
                AMPERES.stream().map(a -> new Input.Choice(a, a + " A")).toList();
        return List.of(
                entry(
                        stored,
                        Beginning.Kind.BREAKERS,
                        "one",
                        "One breaker or fuse, as it sits in the panel; leave the covers on",
                        List.of(
                                panel,
                                text(
                                        "space",
                                        "Space",
                                        "",
                                        "4; 1+3 for one with two poles; 5a for half of a tandem",
                                        true),
                                Input.chosen(
                                        Input.Kind.ONE, "amperes", "Rating", "", "on its lever", withOther(amperes)),
                                text("label", "What the directory says", "", "as it is written, right or wrong", false),
                                Input.chosen(
                                        Input.Kind.SOME,
                                        "protects",
                                        "With a test button, against",
                                        "",
                                        "as it says on it",
                                        List.of(
                                                new Input.Choice("ground-fault", "ground faults"),
                                                new Input.Choice("arc-fault", "arc faults")))),
                        "Add it"),
                entry(
                        stored,
                        Beginning.Kind.BREAKERS,
                        SEVERAL,
                        "Or several at once",
                        List.of(
                                panel,
                                Input.typed(
                                        Input.Kind.AREA,
                                        "breakers",
                                        "Breakers",
                                        "",
                                        "one a line: space, amperes, what the directory says: 1+3 40 Range",
                                        true)),
                        "Add them"),
                entry(
                        stored,
                        Beginning.Kind.BREAKERS,
                        ALL,
                        "Every space was looked at, and no other breaker is in it. Answers exclude things on the strength of it",
                        List.of(panel),
                        "That is all of them"));
    }

    private static List<Input.Choice> withOther(List<Input.Choice> amperes) {
        List<Input.Choice> all = new ArrayList<>(amperes);
        all.add(new Input.Choice("", "Another, or not legible"));
        return all;
    }

    private static Entry pointEntry(StoredHouse stored) {
        House house = stored.house();
        List<Input.Choice> places = new ArrayList<>();
        house.places().values().forEach(p -> places.add(new Input.Choice(p.name(), p.said())));
        List<Input.Choice> kinds = FIRST_KINDS.stream()
                .map(k -> new Input.Choice(
                        k, Objects.requireNonNull(Kinds.standard().get(k)).title()))
                .toList();
        return entry(
                stored,
                Beginning.Kind.POINTS,
                "",
                "One receptacle, light or other thing that has power, as it is seen from the room; its box stays closed",
                List.of(
                        Input.chosen(Input.Kind.LIST, "place", "Room", "", "", places),
                        Input.chosen(Input.Kind.ONE, "kind", "It is", "", "", kinds),
                        text("name", "Name of its box", "", "for example den-window; room and number if empty", false)),
                "Add it");
    }
}
