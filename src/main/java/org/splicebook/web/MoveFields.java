package org.splicebook.web;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.splicebook.housefile.Kinds;
import org.splicebook.problem.ProblemKind;
import org.splicebook.record.Breaker;
import org.splicebook.record.Device;
import org.splicebook.record.DeviceKind;
import org.splicebook.record.House;
import org.splicebook.record.Move;
import org.splicebook.record.Panel;

/** What the forms of {@link MoveForms} say, as moves. */
final class MoveFields {
    /** What the reader of moves calls it, and the forms do; each form has some of these fields. */
    static final Map<String, String> FIELDS = fields();

    private MoveFields() {}

    private static Map<String, String> fields() {
        Map<String, String> all = new LinkedHashMap<>();
        all.put(".*\\.(move|cap|pigtail)", "end");
        all.put(".*\\.splice.*", "ends");
        all.put(".*\\.(add-device|label|swap-line-and-load|retire-device|of)", "device");
        all.put(".*\\.(add-cable|retire-cable|of)", "cable");
        all.put(".*\\.add-(box|cable|device)", MoveForms.NAME);
        all.put(".*\\.remark", "wire");
        all.put(".*\\.(un)?tie.*", "spaces");
        all.put(".*\\.ends.*", "other-end");
        all.put(".*\\.as\\.ends.*", "from");
        return all;
    }

    /**
     * {@return what a form says as moves}
     *
     * @param in the box or panel; empty for the house
     * @param said its fields
     * @param house the house as it is after the moves before
     */
    static List<Move> read(String what, String in, Map<String, List<String>> said, House house) {
        Map<String, Object> m = new LinkedHashMap<>();
        switch (what) {
            case "move" -> put(m, "move", one(said, "end"), "to", one(said, MoveForms.TO), "in", in);
            case "cap" -> put(m, "cap", one(said, "end"), "in", in);
            case "splice" -> {
                put(m, "splice", some(said, "ends"), "in", in);
                if (!one(said, "by").isEmpty()) {
                    m.put("by", one(said, "by"));
                }
            }
            case "label" -> put(m, "label", one(said, "device"), "says", one(said, "says"));
            case "pigtail" -> put(m, "pigtail", one(said, "end"), "in", in);
            case "tab" -> put(m, "tab", one(said, "tab"), "of", one(said, "device"), "is", one(said, "is"));
            case "device" -> device(m, said, house);
            case "swap" -> put(m, "swap-line-and-load", one(said, "device"));
            case "retire-device" -> put(m, "retire-device", one(said, "device"));
            case "add-device" ->
                put(m, "add-device", one(said, MoveForms.NAME), "in", in, "as", Map.of("kind", one(said, "kind")));
            case "breaker" -> {
                List<String> was = some(said, "was");
                String is = one(said, "is");
                put(
                        m,
                        "panel",
                        in,
                        "was",
                        was,
                        "is",
                        is.isEmpty() ? String.join("+", was) : is,
                        "as",
                        as(said, house, in, was));
            }
            case "add-breaker" -> put(m, "panel", in, "is", one(said, "is"), "as", as(said, house, in, List.of()));
            case "retire-breaker" -> put(m, "panel", in, "was", some(said, "was"));
            case "tie", "untie" -> put(m, what, spaces(said, house, in), "panel", in);
            case "retire-cable" -> put(m, "retire-cable", one(said, "cable"));
            case "remark" ->
                put(m, "remark", one(said, "wire"), "of", one(said, "cable"), "colour", one(said, "colour"));
            case SupplyForms.SOURCE ->
                m.putAll(SupplyForms.changed(house, one(said, "source"), one(said, "system"), one(said, "rating")));
            case SupplyForms.PANEL -> {
                Map<String, String> fields = new LinkedHashMap<>();
                said.keySet().forEach(k -> fields.put(k, one(said, k)));
                return List.of(SupplyForms.hung(house, in, fields));
            }
            case "retire-box" -> put(m, "retire-box", one(said, "box"));
            case "add-box" -> {
                String place = one(said, "place");
                put(m, "add-box", one(said, MoveForms.NAME), "as", place.isEmpty() ? Map.of() : Map.of("place", place));
            }
            case "add-cable" -> {
                Map<String, Object> as = new LinkedHashMap<>();
                put(
                        as,
                        "kind",
                        one(said, "kind").isEmpty() ? "NM" : one(said, "kind"),
                        "wires",
                        one(said, "wires"),
                        "ends",
                        List.of(one(said, "from"), one(said, MoveForms.TO)));
                if (!one(said, "length").isEmpty()) {
                    as.put("length", one(said, "length"));
                }
                put(m, "add-cable", one(said, MoveForms.NAME), "as", as);
            }
            default ->
                throw Failures.failure(
                        ProblemKind.BAD_VALUE, "It was not said what is done.", "Use a button of the page.");
        }
        return BoxPages.moves(house, List.of(m));
    }

    private static void device(Map<String, Object> m, Map<String, List<String>> said, House house) {
        String name = one(said, "device");
        String kind = one(said, "kind");
        Map<String, String> terminals = new TreeMap<>();
        for (String pair : one(said, "terminals").split(",", -1)) {
            int eq = pair.indexOf('=');
            if (eq > 0) {
                terminals.put(
                        pair.substring(0, eq).strip(), pair.substring(eq + 1).strip());
            } else if (!pair.isBlank()) {
                throw Failures.failure(
                        "terminals",
                        ProblemKind.BAD_VALUE,
                        "'" + pair.strip() + "' does not say where from and where to.",
                        "Write bottom.hot=load.hot.");
            }
        }
        Device d = house.boxes().values().stream()
                .flatMap(b -> b.devices().values().stream())
                .filter(x -> x.name().equals(name))
                .findFirst()
                .orElse(null);
        DeviceKind to = Kinds.standard().get(kind);
        if (terminals.isEmpty() && d != null && to != null) {
            terminals.putAll(toLine(d.kind(), to));
        }
        put(m, "device", name, "kind", kind, "terminals", terminals);
    }

    /** What is on a plain device's terminals goes to the line side of one that has such a side; the other half of a duplex stays with it. */
    private static Map<String, String> toLine(DeviceKind from, DeviceKind to) {
        Map<String, String> all = new TreeMap<>();
        Set<String> has = to.terminals().stream().map(DeviceKind.Terminal::name).collect(Collectors.toSet());
        from.terminals().forEach(t -> {
            String end = t.name().substring(t.name().lastIndexOf('.') + 1);
            if (!has.contains(t.name()) && has.contains("line." + end)) {
                all.put(t.name(), "line." + end);
            }
        });
        return all;
    }

    private static Map<String, Object> as(Map<String, List<String>> said, House house, String panel, List<String> was) {
        Map<String, Object> as = new LinkedHashMap<>();
        Panel p = house.panels().get(panel);
        Breaker first = p == null || was.isEmpty() ? null : p.breakers().get(was.get(0));
        String rating = one(said, "rating");
        if (!rating.isEmpty()) {
            as.put("rating", rating);
        } else if (first != null && first.rating() != null) {
            as.put("rating", first.rating().said());
        }
        if (first != null && first.label() != null) {
            as.put("label", first.label());
        }
        List<String> protects = some(said, "protects");
        if (!protects.isEmpty()) {
            as.put("protects", protects);
        }
        return as;
    }

    /** A breaker is chosen by its key; a tie is of spaces. */
    private static List<String> spaces(Map<String, List<String>> said, House house, String panel) {
        Panel p = house.panels().get(panel);
        List<String> all = new ArrayList<>();
        for (String key : some(said, "spaces")) {
            Breaker b = p == null ? null : p.breakers().get(key);
            all.addAll(b == null ? List.of(key) : b.spaces());
        }
        return all;
    }

    private static void put(Map<String, Object> m, Object... pairs) {
        for (int i = 0; i < pairs.length; i += 2) {
            m.put(String.valueOf(pairs[i]), pairs[i + 1]);
        }
    }

    private static String one(Map<String, List<String>> said, String name) {
        List<String> all = said.getOrDefault(name, List.of());
        return all.isEmpty() ? "" : all.get(0).strip();
    }

    private static List<String> some(Map<String, List<String>> said, String name) {
        return said.getOrDefault(name, List.of()).stream()
                .map(String::strip)
                .filter(s -> !s.isEmpty())
                .toList();
    }
}
