package org.splicebook.web;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.splicebook.record.Box;
import org.splicebook.record.Device;
import org.splicebook.record.DeviceKind;
import org.splicebook.record.House;
import org.splicebook.web.view.Input;
import org.splicebook.wiring.LoadPointWiring;

/**
 * The fields of a load point on the sheet of readings, and the sightings that are made of what was typed into them. Volts are of two terminals
 * each; lit or not is of one point with one breaker thrown. What is empty was not tried.
 */
final class ReadingForm {
    /** A sighting to be, and the field that each of its keys came from. */
    record Typed(Map<String, String> said, Map<String, String> fields) {}

    private static final List<Input.Choice> LIT =
            List.of(new Input.Choice("", ""), new Input.Choice("lit", "lit"), new Input.Choice("not lit", "not lit"));
    private static final String METER = "meter";
    private static final String LAMP = "lamp";

    private final House house;

    ReadingForm(House house) {
        this.house = house;
    }

    /** {@return the pairs of terminals that are read at a load point, by the words for them} */
    private Map<String, String> pairs(LoadPointWiring l) {
        Map<String, String> pairs = new LinkedHashMap<>();
        Box box = house.boxes().get(l.box());
        Device d = box == null ? null : box.devices().get(l.device());
        if (d == null) {
            return pairs;
        }
        String name = l.id().equals(d.name()) ? "" : l.id().substring(d.name().length() + 1);
        for (DeviceKind.LoadPoint p : d.kind().loadPoints()) {
            if (p.name().equals(name)) {
                p.pairs().forEach(pair -> pair(pairs, d, pair.a(), pair.b()));
                if (p.ground() != null && !p.pairs().isEmpty()) {
                    pair(pairs, d, p.pairs().get(0).a(), p.ground());
                    pair(pairs, d, p.pairs().get(0).b(), p.ground());
                }
            }
        }
        return pairs;
    }

    private static void pair(Map<String, String> pairs, Device d, String a, String b) {
        pairs.put(last(a) + " to " + last(b), d.name() + "." + a + "," + d.name() + "." + b);
    }

    private static String last(String terminal) {
        return terminal.substring(terminal.lastIndexOf('.') + 1);
    }

    /** {@return the fields of a load point, with what was typed, and what is wrong with it} */
    List<Input> cells(LoadPointWiring l, Map<String, String> said, Map<String, String> wrong) {
        List<Input> cells = new ArrayList<>();
        int n = 0;
        for (String words : pairs(l).keySet()) {
            n++;
            cells.add(text(l.id() + "/volts" + n, words + ", V", said, wrong));
        }
        cells.add(text(l.id() + "/" + METER, "read with, if another", said, wrong));
        cells.add(text(l.id() + "/off", "thrown breaker", said, wrong));
        for (String when : List.of("before", "during", "after")) {
            String name = l.id() + "/" + when;
            cells.add(Input.chosen(Input.Kind.LIST, name, when, said.getOrDefault(name, ""), "", LIT)
                    .wrong(wrong.getOrDefault(name, "")));
        }
        cells.add(text(l.id() + "/" + LAMP, "looked at with, if another", said, wrong));
        return cells;
    }

    static Input text(String name, String label, Map<String, String> said, Map<String, String> wrong) {
        return Input.typed(Input.Kind.TEXT, name, label, said.getOrDefault(name, ""), "", false)
                .wrong(wrong.getOrDefault(name, ""));
    }

    /** {@return the sightings that were typed at a load point} */
    List<Typed> typed(LoadPointWiring l, Map<String, String> said) {
        List<Typed> all = new ArrayList<>();
        String id = said.getOrDefault("id", "") + "-" + l.id().replaceAll("[^\\p{L}\\p{N}_-]", "-");
        int n = 0;
        for (String between : pairs(l).values()) {
            n++;
            String field = l.id() + "/volts" + n;
            if (!said.getOrDefault(field, "").isEmpty()) {
                Map<String, String> values = common(said, id + "-v" + n);
                values.put("volts", said.get(field));
                values.put("between", between);
                instrument(values, said, l.id(), METER);
                all.add(new Typed(
                        values,
                        Map.of("volts", field, "between", field, "instrument", l.id() + "/" + METER, "", field)));
            }
        }
        String during = l.id() + "/during";
        if (List.of("/off", "/before", "/during", "/after").stream()
                .anyMatch(f -> !said.getOrDefault(l.id() + f, "").isEmpty())) {
            Map<String, String> values = common(said, id + "-l");
            values.put("at", l.id());
            put(values, "with-off", said.getOrDefault(l.id() + "/off", ""));
            put(values, "before", said.getOrDefault(l.id() + "/before", ""));
            put(values, "read", said.getOrDefault(during, ""));
            put(values, "after", said.getOrDefault(l.id() + "/after", ""));
            instrument(values, said, l.id(), LAMP);
            Map<String, String> fields = new LinkedHashMap<>(
                    Map.of("read", during, "at", during, "", during, "instrument", l.id() + "/" + LAMP));
            fields.put("with-off", l.id() + "/off");
            fields.put("before", l.id() + "/before");
            fields.put("after", l.id() + "/after");
            all.add(new Typed(values, fields));
        }
        return all;
    }

    private static Map<String, String> common(Map<String, String> said, String id) {
        Map<String, String> values = new LinkedHashMap<>();
        values.put("id", id);
        for (String key : List.of("date", "by", "pass")) {
            put(values, key, said.getOrDefault(key, ""));
        }
        return values;
    }

    /** What it was read with: said at the line, else for the whole sheet. */
    private static void instrument(Map<String, String> values, Map<String, String> said, String point, String which) {
        String own = said.getOrDefault(point + "/" + which, "");
        put(values, "instrument", own.isEmpty() ? said.getOrDefault(which, "") : own);
    }

    private static void put(Map<String, String> values, String key, String value) {
        if (!Objects.requireNonNull(value).isEmpty()) {
            values.put(key, value);
        }
    }
}
