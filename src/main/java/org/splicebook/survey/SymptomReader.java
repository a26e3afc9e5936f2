package org.splicebook.survey;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import org.splicebook.answer.Nearest;
import org.splicebook.loadflow.Circuit;
import org.splicebook.loadflow.Load;
import org.splicebook.loadflow.LoadPoint;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.problem.Where;

/**
 * Reads symptoms as people type them, with a semicolon or a new line between:
 *
 * <pre>
 * dead: living-2, hall-light        live: kitchen          dim: bath-light        bright: bench-1
 * dims: hall-light when living-3    trips: main.9 when iron-1    holds: main.9    dead: attic-light when main.7 off
 * volts at living-2: hn=2 hg=120 ng=118                    volts between living-1 and dining-1: 240
 * last touched: living-east
 * </pre>
 *
 * <p>A device stands for all of its load points, a place for all in it. What follows {@code when} is a load point (something is switched
 * on there, 1,500 W where the record says nothing), a breaker or protective device with {@code off}, {@code switch=position}, or one of {@code nothing on}, {@code everything on}, {@code every switch moved}.
 */
public final class SymptomReader {
    private static final String FORMS =
            "Write dead: A, B; live: C; dims: D when E; trips: main.9 when F; volts at A: hn=2 hg=120 ng=118;"
                    + " volts between A and B: 240; last touched: BOX.";
    /** What a heater or iron takes, by which people try a circuit. */
    private static final double TEST_WATTS = 1500;

    private static final Map<String, Symptom.Level> LEVELS = Map.ofEntries(
            Map.entry("dead", Symptom.Level.DEAD),
            Map.entry("dies", Symptom.Level.DEAD),
            Map.entry("out", Symptom.Level.DEAD),
            Map.entry("dim", Symptom.Level.DIM),
            Map.entry("dims", Symptom.Level.DIM),
            Map.entry("live", Symptom.Level.LIVE),
            Map.entry("lit", Symptom.Level.LIVE),
            Map.entry("works", Symptom.Level.LIVE),
            Map.entry("bright", Symptom.Level.BRIGHT),
            Map.entry("brightens", Symptom.Level.BRIGHT));
    private static final Map<String, Symptom.Between> BETWEEN = Map.of(
            "hn", Symptom.Between.HOT_NEUTRAL,
            "hg", Symptom.Between.HOT_GROUND,
            "ng", Symptom.Between.NEUTRAL_GROUND);

    private final Circuit circuit;
    private final Whereabouts where;
    private final List<Observed> observed = new ArrayList<>();
    private final Set<String> touched = new TreeSet<>();
    private final List<String> read = new ArrayList<>();
    private final List<Problem> problems = new ArrayList<>();

    private SymptomReader(Circuit circuit) {
        this.circuit = circuit;
        this.where = new Whereabouts(circuit.house());
    }

    /** {@return what was told, or a problem for each thing that cannot be understood} */
    public static Result<Told> read(Circuit circuit, String words) {
        SymptomReader r = new SymptomReader(circuit);
        Arrays.stream(words.split("[;\\n]"))
                .map(String::strip)
                .filter(s -> !s.isEmpty())
                .forEach(r::one);
        if (r.problems.isEmpty() && r.observed.isEmpty()) {
            r.bad(ProblemKind.MISSING, "No symptom is told.", FORMS);
        }
        return r.problems.isEmpty()
                ? Result.ok(new Told(r.observed, r.touched, r.read))
                : new Result.Failed<>(r.problems);
    }

    private void bad(ProblemKind kind, String what, String cure) {
        problems.add(Problem.error(kind, Where.field("symptoms"), what, cure));
    }

    private void one(String said) {
        int colon = said.indexOf(':');
        if (colon < 0) {
            bad(ProblemKind.BAD_VALUE, "\"" + said + "\" has no colon.", FORMS);
            return;
        }
        String word = said.substring(0, colon).strip().toLowerCase(Locale.ROOT);
        String[] rest = said.substring(colon + 1).strip().split("\\s+(?i:when|with)\\s+", 2);
        Condition when = rest.length == 1 ? Condition.USUAL : condition(rest[1]);
        int before = problems.size();
        if (LEVELS.containsKey(word)) {
            several(rest[0])
                    .forEach(n -> points(n)
                            .forEach(p ->
                                    add(when, new Symptom.Works(p, LEVELS.getOrDefault(word, Symptom.Level.LIVE)))));
        } else if (word.equals("trips") || word.equals("tripped")) {
            several(rest[0]).forEach(n -> unit(n, u -> add(when, new Symptom.Trips(u))));
        } else if (word.equals("holds")) {
            several(rest[0]).forEach(n -> unit(n, u -> add(when, new Symptom.Holds(u))));
        } else if (word.startsWith("volts at ")) {
            volts(when, said.substring("volts at ".length(), colon).strip(), rest[0]);
        } else if (word.startsWith("volts between ")) {
            legs(when, said.substring("volts between ".length(), colon).strip(), rest[0]);
        } else if (word.equals("last touched")) {
            several(rest[0]).forEach(this::touched);
        } else {
            bad(ProblemKind.BAD_VALUE, "\"" + word + "\" is not a symptom.", FORMS);
        }
        if (problems.size() == before) {
            read.add(said);
        }
    }

    private void add(Condition when, Symptom symptom) {
        observed.add(new Observed(when, symptom));
    }

    private static List<String> several(String names) {
        return Arrays.stream(names.split(","))
                .map(String::strip)
                .filter(s -> !s.isEmpty())
                .toList();
    }

    /** What a name stands for: a load point, all of a device, all in a place. */
    private List<String> points(String name) {
        List<String> found = circuit.loadPoints().stream()
                .filter(p -> p.name().equals(name) || p.device().equals(name) || name.equals(p.place()))
                .map(LoadPoint::name)
                .toList();
        if (found.isEmpty()) {
            Set<String> names = new LinkedHashSet<>();
            circuit.loadPoints().forEach(p -> {
                names.add(p.name());
                names.add(p.device());
            });
            bad(
                    ProblemKind.NOT_FOUND,
                    "The house has no load point, device or place " + name + ".",
                    Nearest.cure(name, names));
        }
        return found;
    }

    private @Nullable String onePoint(String name) {
        List<String> found = points(name);
        return found.isEmpty() ? null : found.get(0);
    }

    private void unit(String name, java.util.function.Consumer<String> then) {
        if (circuit.gates().contains(name)) {
            then.accept(name);
        } else {
            bad(
                    ProblemKind.NOT_FOUND,
                    "The house has no breaker or protective device " + name + ".",
                    Nearest.cure(name, circuit.gates()));
        }
    }

    private void volts(Condition when, String at, String readings) {
        String point = onePoint(at);
        if (point == null) {
            return;
        }
        for (String r : readings.split("[\\s,]+")) {
            String[] pair = r.toLowerCase(Locale.ROOT).split("=", 2);
            Symptom.Between between = BETWEEN.get(pair[0]);
            Double volts = pair.length == 2 ? number(pair[1]) : null;
            if (pair.length == 2 && pair[1].equals("~")) {
                continue;
            }
            if (between == null || volts == null) {
                bad(
                        ProblemKind.BAD_VALUE,
                        "\"" + r + "\" is not a reading.",
                        "Write hn=2 (hot to neutral), hg=120 (hot to ground), ng=118 (neutral to ground), in volts.");
            } else {
                add(when, new Symptom.Reads(point, between, volts));
            }
        }
    }

    private void legs(Condition when, String two, String said) {
        String[] names = two.split("\\s+(?i:and)\\s+", 2);
        Double volts = number(said);
        if (names.length < 2 || volts == null) {
            bad(
                    ProblemKind.BAD_VALUE,
                    "\"volts between " + two + ": " + said + "\" is not a reading.",
                    "Write volts between A and B: 240, from the hot of one to the hot of the other.");
            return;
        }
        String a = onePoint(names[0].strip());
        String b = onePoint(names[1].strip());
        if (a != null && b != null) {
            add(when, new Symptom.Legs(a, b, volts));
        }
    }

    private static @Nullable Double number(String said) {
        try {
            double v = Double.parseDouble(said.strip().replaceFirst("(?i)\\s*(v|volts)$", ""));
            return v >= 0 && v < 2000 ? v : null;
        } catch (NumberFormatException e) {
            return null;
        }
    }

    private void touched(String name) {
        Set<String> boxes = where.of(name);
        if (boxes.isEmpty()) {
            Set<String> names = new LinkedHashSet<>(circuit.house().boxes().keySet());
            names.addAll(circuit.house().panels().keySet());
            bad(ProblemKind.NOT_FOUND, "The house has no box or device " + name + ".", Nearest.cure(name, names));
        }
        touched.addAll(boxes);
    }

    private Condition condition(String said) {
        Map<String, Load> on = new LinkedHashMap<>();
        Map<String, String> levers = new LinkedHashMap<>();
        Set<String> off = new LinkedHashSet<>();
        Setting setting = Setting.AS_USUAL;
        for (String s : said.split("\\s+(?i:and)\\s+|,")) {
            String what = s.strip();
            if (Setting.of(what).isPresent()) {
                setting = Setting.of(what).get();
                continue;
            }
            String[] lever = what.split("=", 2);
            if (lever.length == 2) {
                lever(lever[0].strip(), lever[1].strip(), levers);
            } else if (what.matches("(?i).* (off|open|pressed|tested)")) {
                unit(what.substring(0, what.lastIndexOf(' ')).strip(), off::add);
            } else {
                String point = onePoint(what.replaceFirst("(?i) (is )?on$", ""));
                if (point != null) {
                    on.put(point, load(point));
                }
            }
        }
        return new Condition(setting, on, levers, off);
    }

    private Load load(String point) {
        return circuit.loadPoints().stream()
                .filter(p -> p.name().equals(point))
                .map(p -> p.pairs().get(0).typical())
                .filter(Load::isOn)
                .findFirst()
                .orElse(Load.watts(TEST_WATTS));
    }

    private void lever(String name, String position, Map<String, String> levers) {
        List<String> positions = circuit.levers().get(name);
        if (positions == null) {
            bad(
                    ProblemKind.NOT_FOUND,
                    "The house has no switch " + name + ".",
                    Nearest.cure(name, circuit.levers().keySet()));
        } else if (!positions.contains(position)) {
            bad(
                    ProblemKind.BAD_VALUE,
                    "The switch " + name + " has no position " + position + ".",
                    "It has " + String.join(", ", positions) + ".");
        } else {
            levers.put(name, position);
        }
    }
}
