package org.splicebook.web;

import io.javalin.http.Context;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.record.House;
import org.splicebook.record.PlaceKind;
import org.splicebook.record.SourceSystem;
import org.splicebook.render.Json;
import org.splicebook.store.HouseStore;
import org.splicebook.store.Revision;
import org.splicebook.web.view.EditPage;
import org.splicebook.web.view.Entry;
import org.splicebook.web.view.Input;
import org.splicebook.web.view.Wrong;

/** Begins a house with what stands on its panel and in its rooms, or takes a house file in. */
final class NewHousePage {
    private static final String PATH = "/new-house";
    private static final Pattern BREAKER = Pattern.compile("(\\S+)\\s+(\\d+)(?:\\s*A)?(?:\\s+(.+))?");
    /** The form that says the name alone. */
    private static final String NAMED = "named";

    private static final String BY_PAGE = "someone at the pages";

    private final HouseStore store;

    NewHousePage(HouseStore store) {
        this.store = store;
    }

    List<Route> routes() {
        return List.of(
                Route.get(PATH, ctx -> ctx.html(page(Map.of(), Wrong.NONE))),
                Route.post(PATH, this::begin),
                Route.post(PATH + "/file", this::bringIn));
    }

    private void bringIn(Context ctx) {
        String sent = Sent.file(ctx, "file");
        String text = sent.isEmpty() ? Sent.field(ctx, "text").replace("\r\n", "\n") : sent;
        Sent.attempt(
                ctx,
                () -> stored(
                        Sent.typed(sent.isEmpty() ? "text" : "file", text, HouseFiles.parse("line", text)),
                        "Brought in as a house file"),
                wrong -> page(Map.of("text", text), wrong));
    }

    private void begin(Context ctx) {
        Map<String, String> said = new LinkedHashMap<>();
        for (String name : List.of("name", "id", "system", "rating", "spaces", "panel-place", "breakers", "rooms")) {
            said.put(name, Sent.field(ctx, name));
        }
        Map<String, String> fields = new LinkedHashMap<>();
        fields.put("house", said.getOrDefault("id", "").isEmpty() ? "name" : "id");
        fields.put("panels\\.main\\.breakers.*", "breakers");
        fields.put("panels\\.main\\.place", "panel-place");
        fields.put("places.*", "rooms");
        boolean isNamed = Sent.field(ctx, "what").equals(NAMED);
        Sent.attempt(
                ctx,
                fields,
                () -> {
                    if (!isNamed) {
                        return stored(house(said), "Begun: panel and rooms");
                    }
                    House house = HouseFiles.parse("", Json.text(Json.tree(bare(said))))
                            .get();
                    return stored(house, "Begun") + "/begin";
                },
                wrong -> page(said, wrong));
    }

    private String stored(House house, String why) {
        if (store.findHouse(house.id()).isPresent()) {
            throw Failures.failure(
                    "house",
                    ProblemKind.CONFLICT,
                    "There is a house " + house.id() + " already.",
                    "Choose another name.");
        }
        Revision unused = store.put(house, 0, BY_PAGE, why).get();
        return new Paths(house.id()).base();
    }

    /** {@return the rooms of a field of lines, by key} */
    static Map<String, Object> rooms(String text, List<Problem> problems) {
        Map<String, Object> places = new LinkedHashMap<>();
        int n = 0;
        for (String line : lines(text)) {
            n++;
            String[] parts = line.split(",", 2);
            String kind = parts.length == 2 ? parts[1].strip() : "";
            places.put(
                    key(parts[0]), Map.of("name", parts[0].strip(), "kind", kind.isEmpty() ? guess(parts[0]) : kind));
            if (!kind.isEmpty()
                    && Arrays.stream(PlaceKind.values()).noneMatch(k -> k.word().equals(kind))) {
                problems.add(problem("rooms", n, "'" + kind + "' is no kind of room.", "One of " + kinds() + "."));
            }
        }
        return places;
    }

    /** {@return the breakers of a field of lines, by the spaces that they are in} */
    static Map<String, Object> breakers(String text, List<Problem> problems) {
        Map<String, Object> breakers = new LinkedHashMap<>();
        int n = 0;
        for (String line : lines(text)) {
            n++;
            Matcher m = BREAKER.matcher(line);
            if (!m.matches()) {
                problems.add(problem(
                        "breakers", n, "'" + line + "' is no breaker.", "Write space, amperes, words: 1+3 40 Range."));
                continue;
            }
            Map<String, Object> breaker = new LinkedHashMap<>();
            breaker.put("rating", m.group(2) + " A");
            if (m.group(3) != null) {
                breaker.put("label", m.group(3));
            }
            if (breakers.put(m.group(1), breaker) != null) {
                problems.add(problem("breakers", n, m.group(1) + " stands twice.", "Name each breaker once."));
            }
        }
        return breakers;
    }

    /** {@return the house; what is wrong is told by the field of the form, with its line} */
    private static House house(Map<String, String> said) {
        List<Problem> problems = new ArrayList<>();
        Map<String, Object> places = rooms(said.getOrDefault("rooms", ""), problems);
        Map<String, Object> breakers = breakers(said.getOrDefault("breakers", ""), problems);
        if (!problems.isEmpty()) {
            throw new ProblemException(problems);
        }
        Map<String, Object> panel = new LinkedHashMap<>();
        String place = key(said.getOrDefault("panel-place", ""));
        if (!place.isEmpty()) {
            if (!places.containsKey(place)) {
                places.put(place, Map.of("name", said.getOrDefault("panel-place", ""), "kind", guess(place)));
            }
            panel.put("place", place);
        }
        panel.put("supply", "service");
        put(panel, "spaces", said.getOrDefault("spaces", ""));
        panel.put("breakers", breakers);
        Map<String, Object> source = new LinkedHashMap<>();
        source.put("system", said.getOrDefault("system", ""));
        put(source, "rating", said.getOrDefault("rating", "").replaceAll("^(\\d+)$", "$1 A"));
        source.put("bond", "main");
        Map<String, Object> house = bare(said);
        house.put("sources", Map.of("service", source));
        house.put("places", places);
        house.put("panels", Map.of("main", panel));
        return HouseFiles.parse("", Json.text(Json.tree(house))).get();
    }

    /** {@return a house of which nothing is recorded but its name} */
    private static Map<String, Object> bare(Map<String, String> said) {
        Map<String, Object> house = new LinkedHashMap<>();
        house.put("splicebook", 1);
        String id = said.getOrDefault("id", "");
        house.put("house", id.isEmpty() ? key(said.getOrDefault("name", "")) : id);
        house.put("name", said.getOrDefault("name", ""));
        house.put("basis", "seen");
        return house;
    }

    private static void put(Map<String, Object> map, String key, String value) {
        if (!value.isEmpty()) {
            map.put(key, value.matches("[0-9]{1,9}") ? (Object) Integer.valueOf(value) : value);
        }
    }

    private static Problem problem(String field, int line, String message, String cure) {
        return Problem.error(ProblemKind.BAD_VALUE, Where.field(field + ", line " + line), message, cure);
    }

    private static List<String> lines(String text) {
        return text.lines().map(String::strip).filter(l -> !l.isEmpty()).toList();
    }

    /** {@return a key made of what people call it} */
    static String key(String name) {
        return name.toLowerCase(Locale.ROOT).replaceAll("[^a-z0-9]+", "-").replaceAll("^-+|-+$", "");
    }

    private static String kinds() {
        return String.join(
                ", ", Arrays.stream(PlaceKind.values()).map(PlaceKind::word).toList());
    }

    /** {@return the kind whose word is in the name; {@code other} where none is} */
    static String guess(String name) {
        String key = key(name);
        return Arrays.stream(PlaceKind.values())
                .map(PlaceKind::word)
                .filter(key::contains)
                .findFirst()
                .orElse("other");
    }

    private static String page(Map<String, String> said, Wrong wrong) {
        List<Input.Choice> systems = Arrays.stream(SourceSystem.values())
                .map(s -> new Input.Choice(s.word(), s.word()))
                .toList();
        List<Input> name = List.of(
                typed(said, Input.Kind.TEXT, "name", "Name of the house", "", true),
                typed(
                        said,
                        Input.Kind.TEXT,
                        "id",
                        "Short name",
                        "a-z, 0-9 and hyphens; made of the name if empty",
                        false));
        Entry named = new Entry(
                PATH,
                "Begin with its name; the panel, the rooms and the rest are asked one after the other",
                Stream.concat(Stream.of(Input.hidden("what", NAMED)), name.stream())
                        .toList(),
                "Begin it");
        Entry begin = new Entry(
                PATH,
                "Or all of the panel and the rooms at once",
                List.of(
                        Input.hidden("what", ""),
                        typed(said, Input.Kind.TEXT, "name", "Name of the house", "", true),
                        typed(
                                said,
                                Input.Kind.TEXT,
                                "id",
                                "Short name",
                                "a-z, 0-9 and hyphens; made of the name if empty",
                                false),
                        Input.chosen(
                                Input.Kind.LIST,
                                "system",
                                "Service",
                                said.getOrDefault("system", SourceSystem.SPLIT_PHASE_120_240.word()),
                                "",
                                systems),
                        typed(said, Input.Kind.TEXT, "rating", "Service rating", "as on the main: 100 A", false),
                        typed(said, Input.Kind.TEXT, "spaces", "Spaces in the panel", "", false),
                        typed(said, Input.Kind.TEXT, "panel-place", "Where the panel hangs", "a room", false),
                        typed(
                                said,
                                Input.Kind.AREA,
                                "breakers",
                                "Breakers",
                                "one a line: space, amperes, what the directory says. Two poles: 1+3 40 Range",
                                true),
                        typed(
                                said,
                                Input.Kind.AREA,
                                "rooms",
                                "Rooms",
                                "one a line: name, or name and kind: Den, living. Kinds: " + kinds(),
                                true)),
                "Begin");
        Entry file = new Entry(
                PATH + "/file",
                "Bring in a house file",
                List.of(
                        Input.typed(Input.Kind.FILE, "file", "File", "", "YAML or JSON", false),
                        typed(said, Input.Kind.AREA, "text", "Or its text", "", false)),
                "Bring it in");
        return Templates.page(
                "edit",
                Map.of(
                        "page",
                        new EditPage(
                                "A new house",
                                "What can be written down without opening anything. Boxes, cables and tests come later.",
                                wrong,
                                List.of(named, begin, file),
                                List.of(),
                                List.of())));
    }

    private static Input typed(
            Map<String, String> said, Input.Kind kind, String name, String label, String meaning, boolean needed) {
        return Input.typed(kind, name, label, said.getOrDefault(name, ""), meaning, needed);
    }
}
