package org.splicebook.spreadsheet;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.housefile.HouseWriter;
import org.splicebook.housefile.Kinds;
import org.splicebook.housefile.PlainYaml;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.problem.Where;
import org.splicebook.record.Box;
import org.splicebook.record.Complete;
import org.splicebook.record.House;
import org.splicebook.record.Panel;
import org.splicebook.record.Place;
import org.splicebook.record.PlaceKind;

/**
 * Works out what a list would add to a house. Whatever comes from a list is assumed: nobody saw it for this record. What the house has
 * already is left as it is, and told where the list says something else.
 */
public final class Intakes {
    private static final ObjectMapper JSON = new ObjectMapper();
    private static final Pattern RATING =
            Pattern.compile("([0-9]{1,3}(?:\\.[0-9])?) *(?:a|amps?|amperes?)?(?: *[-/ ] *([123]) *(?:p|poles?)?)?");
    private static final Pattern POLES = Pattern.compile("([123]) *(?:p|poles?)?");
    private static final Set<String> DITTO = Set.of("", "-", "--", "\"", "''", "ditto", "same");
    private static final Pattern SPACES = Pattern.compile("[0-9]{1,3}[ab]?(?: *[-+/&,] *[0-9]{1,3}[ab]?){0,2}");

    /** Named instead of a heading: no column says this. */
    public static final String NONE = "-";

    private final House house;
    private final Cells cells;
    private final Headings headings;
    private Map<String, Integer> at;
    private final List<String> lines = new ArrayList<>();
    private final List<Problem> problems = new ArrayList<>();
    private final Map<String, Object> tree = new LinkedHashMap<>();

    private Intakes(House house, Cells cells, Headings headings) {
        this.house = house;
        this.cells = cells;
        this.headings = headings;
        this.at = headings.halves().get(0);
        this.problems.addAll(headings.problems());
        if (PlainYaml.strings(HouseWriter.write(house)) instanceof Map<?, ?> m) {
            m.forEach((k, v) -> tree.put(String.valueOf(k), v));
        }
    }

    /**
     * {@return what the list would do}
     *
     * @param kind what it is of
     * @param panel the panel that a schedule is of
     * @param named columns that are named by hand: field to heading
     */
    public static Intake of(House house, Cells cells, ListKind kind, String panel, Map<String, String> named) {
        Intakes i = new Intakes(house, cells, Headings.find(cells, kind, named));
        if (i.problems.isEmpty()) {
            if (kind == ListKind.PANEL_SCHEDULE) {
                i.schedule(panel);
            } else {
                i.outlets();
            }
        }
        return i.told();
    }

    private Intake told() {
        House with = null;
        if (problems.isEmpty()) {
            Result<House> read = read();
            if (read.isOk()) {
                with = read.get();
            } else {
                problems.addAll(read.problems());
            }
        }
        return new Intake(headings.columns(), headings.all(), headings.unused(), lines, problems, with);
    }

    private Result<House> read() {
        try {
            return HouseFiles.parse("list", JSON.writeValueAsString(tree));
        } catch (JsonProcessingException e) {
            throw new IllegalStateException(e);
        }
    }

    private static String words(Iterable<String> words) {
        return String.join(", ", words) + ".";
    }

    private void schedule(String name) {
        Panel panel = house.panels().get(name);
        if (panel == null) {
            problem(
                    0,
                    0,
                    "The house has no panel \"" + name + "\".",
                    "It has " + words(house.panels().keySet()));
            return;
        }
        Map<String, Object> breakers = section(section(tree, "panels"), name, "breakers");
        Map<String, String> taken = new HashMap<>();
        panel.breakers().forEach((key, b) -> b.spaces().forEach(s -> taken.put(s, key)));
        Map<String, List<String>> added = new HashMap<>();
        if (panel.complete() != null && panel.complete().contains(Complete.BREAKERS)) {
            lines.add(
                    "The record says that all breakers of " + name + " are listed; what is new below says otherwise.");
        }
        for (int r = headings.row() + 1; r < cells.rows().size(); r++) {
            for (Map<String, Integer> half : headings.halves()) {
                at = half;
                row(r, panel, breakers, taken, added);
            }
        }
        at = headings.halves().get(0);
    }

    private void row(
            int r,
            Panel panel,
            Map<String, Object> breakers,
            Map<String, String> taken,
            Map<String, List<String>> added) {
        String said = value(r, "space");
        String label = value(r, "label");
        if (said.isEmpty()) {
            blank(r, "space");
            return;
        }
        String rating = amperes(r);
        List<String> all = spaces(r, said);
        if (all.isEmpty()) {
            return;
        }
        String key = String.join("+", all);
        String there = all.stream()
                .map(taken::get)
                .filter(Objects::nonNull)
                .findFirst()
                .orElse("");
        String what = panel.name() + "." + key;
        if (panel.breakers().containsKey(key)) {
            known(r, what, panel.breakers().get(key).label(), label);
        } else if (added.containsKey(there) && isOtherPole(label, rating, added.get(there))) {
            lines.add(line(r) + "the other pole of " + panel.name() + "." + there);
        } else if (!there.isEmpty()) {
            problem(
                    r,
                    at.get("space"),
                    "Space " + String.join(", ", all) + " is taken by " + there + ".",
                    "Let the two agree first.");
        } else if (rating.isEmpty() && DITTO.contains(label)) {
            lines.add(line(r) + what + " is left out: nothing is said of it");
        } else {
            all.forEach(s -> taken.put(s, key));
            added.put(key, List.of(label, rating));
            Map<String, Object> b = new LinkedHashMap<>();
            put(b, "rating", rating.isEmpty() ? "" : rating + " A");
            put(b, "label", label);
            b.put("basis", "assumed");
            put(b, "note", value(r, "note"));
            breakers.put(key, b);
            lines.add(line(r) + what + " is new: " + (rating.isEmpty() ? "rating not said" : rating + " A")
                    + (label.isEmpty() ? "" : ", " + label));
        }
    }

    private static boolean isOtherPole(String label, String rating, List<String> first) {
        boolean sameWords = DITTO.contains(label.toLowerCase(Locale.ROOT)) || label.equals(first.get(0));
        return sameWords && (rating.isEmpty() || rating.equals(first.get(1)));
    }

    private static String line(int r) {
        return "Row " + (r + 1) + ": ";
    }

    private List<String> spaces(int r, String said) {
        if (!SPACES.matcher(said).matches()) {
            problem(r, at.get("space"), "\"" + said + "\" is no space.", "Write 4, 1+3, or 5a for half a space.");
            return List.of();
        }
        List<String> all = new ArrayList<>(List.of(said.split(" *[-+/&,] *")));
        String poles = value(r, "poles").toLowerCase(Locale.ROOT);
        if (!poles.isEmpty() && !POLES.matcher(poles).matches()) {
            problem(r, at.get("poles"), "\"" + poles + "\" is no number of poles.", "Write 1, 2 or 3.");
            return List.of();
        }
        Matcher rating = RATING.matcher(value(r, "rating").toLowerCase(Locale.ROOT));
        String beside = rating.matches() && rating.group(2) != null ? rating.group(2) : "";
        String counted = poles.isEmpty() ? beside : poles.substring(0, 1);
        int wanted = counted.isEmpty() ? all.size() : Integer.parseInt(counted);
        if (all.size() == 1 && wanted > 1 && all.get(0).matches("[0-9]+")) {
            int first = Integer.parseInt(all.get(0));
            for (int p = 1; p < wanted; p++) {
                all.add(String.valueOf(first + 2 * p));
            }
        } else if (all.size() != wanted) {
            problem(
                    r,
                    at.get(poles.isEmpty() ? "rating" : "poles"),
                    wanted + " poles in " + all.size() + " spaces.",
                    "Let the two agree.");
            return List.of();
        }
        return all;
    }

    private String amperes(int r) {
        String said = value(r, "rating").toLowerCase(Locale.ROOT);
        Matcher m = RATING.matcher(said);
        if (DITTO.contains(said)) {
            return "";
        }
        if (!m.matches()) {
            problem(r, at.get("rating"), "\"" + said + "\" is no rating.", "Write 20, 20 A, or 20/2 for two poles.");
            return "";
        }
        return m.group(1);
    }

    private void outlets() {
        Map<String, Object> boxes = section(tree, "boxes");
        Map<String, Object> places = section(tree, "places");
        Set<String> names = new LinkedHashSet<>();
        for (Box b : house.boxes().values()) {
            names.add(b.name());
            names.addAll(b.devices().keySet());
        }
        Set<String> fresh = new HashSet<>();
        names.addAll(house.panels().keySet());
        names.addAll(house.cables().keySet());
        names.addAll(house.sources().keySet());
        for (int r = headings.row() + 1; r < cells.rows().size(); r++) {
            String said = value(r, "name");
            if (said.isEmpty()) {
                blank(r, "name");
                continue;
            }
            String name = key(said);
            if (!name.isEmpty() && !fresh.add(name)) {
                problem(
                        r,
                        at.get("name"),
                        "\"" + said + "\" stands twice in the list.",
                        "Give each a name of its own.");
                continue;
            }
            String kind = kind(r);
            if (name.isEmpty() || kind.isEmpty()) {
                if (name.isEmpty()) {
                    problem(r, at.get("name"), "\"" + said + "\" makes no name.", "Use letters and digits.");
                }
                continue;
            }
            if (names.contains(name) || names.contains(name + "-box")) {
                lines.add(line(r) + name + " is there already and stays as it is");
                continue;
            }
            names.add(name);
            names.add(name + "-box");
            Map<String, Object> device = new LinkedHashMap<>();
            device.put("kind", kind);
            device.put("basis", "assumed");
            String breaker = value(r, "breaker");
            put(
                    device,
                    "note",
                    (value(r, "note") + (breaker.isEmpty() ? "" : " The list says breaker " + breaker + ".")).strip());
            Map<String, Object> box = new LinkedHashMap<>();
            put(box, "place", place(places, value(r, "place")));
            box.put("basis", "assumed");
            box.put("devices", new LinkedHashMap<>(Map.of(name, device)));
            boxes.put(name + "-box", box);
            lines.add(line(r) + name + " is new: " + kind
                    + (value(r, "place").isEmpty() ? "" : ", " + value(r, "place")));
        }
    }

    private String kind(int r) {
        String said = value(r, "kind");
        if (said.isEmpty()) {
            return "duplex-receptacle";
        }
        String bare = key(said);
        for (var k : Kinds.standard().values()) {
            if (k.name().equals(bare) || key(k.title()).equals(bare)) {
                return k.name();
            }
        }
        problem(
                r,
                at.get("kind"),
                "\"" + said + "\" is no kind of device.",
                "Some are duplex-receptacle, ground-fault-receptacle, single-pole-switch, luminaire, smoke-alarm.");
        return "";
    }

    private String place(Map<String, Object> places, String said) {
        if (said.isEmpty()) {
            return "";
        }
        for (Place p : house.places().values()) {
            if (p.name().equals(key(said)) || p.said().equalsIgnoreCase(said)) {
                return p.name();
            }
        }
        String name = key(said);
        if (!name.isEmpty() && !places.containsKey(name)) {
            String kind = Arrays.stream(PlaceKind.values())
                    .map(PlaceKind::word)
                    .filter(name::contains)
                    .findFirst()
                    .orElse("other");
            Map<String, Object> place = new LinkedHashMap<>();
            place.put("name", said);
            place.put("kind", kind);
            place.put("basis", "assumed");
            places.put(name, place);
        }
        return name;
    }

    private void known(int r, String what, @Nullable String has, String says) {
        boolean isSame = DITTO.contains(says.toLowerCase(Locale.ROOT)) || says.equals(has);
        lines.add(line(r) + what + " is there already and stays as it is"
                + (isSame ? "" : ": it says \"" + (has == null ? "" : has) + "\", the list \"" + says + "\""));
    }

    private void blank(int r, String field) {
        if (cells.rows().get(r).stream().anyMatch(c -> !c.isEmpty())) {
            lines.add(line(r) + "left out, it says no " + field);
        }
    }

    private String value(int r, String field) {
        Integer c = at.get(field);
        return c == null ? "" : cells.rows().get(r).get(c);
    }

    private static void put(Map<String, Object> map, String key, String value) {
        if (!value.isEmpty()) {
            map.put(key, value);
        }
    }

    private static String key(String name) {
        String key = name.toLowerCase(Locale.ROOT).replaceAll("[^a-z0-9]+", "-").replaceAll("^-+|-+$", "");
        return key.length() > 50 ? key.substring(0, 50) : key;
    }

    /** {@return a map below that can be added to} */
    private static Map<String, Object> section(Map<String, Object> tree, String... keys) {
        Map<String, Object> in = tree;
        for (String key : keys) {
            Map<String, Object> below = new LinkedHashMap<>();
            if (in.get(key) instanceof Map<?, ?> m) {
                m.forEach((k, v) -> below.put(String.valueOf(k), v));
            }
            in.put(key, below);
            in = below;
        }
        return in;
    }

    private void problem(int row, @Nullable Integer column, String message, String cure) {
        problems.add(Problem.error(
                ProblemKind.BAD_VALUE, Where.field(Cells.name(row, column == null ? 0 : column)), message, cure));
    }
}
