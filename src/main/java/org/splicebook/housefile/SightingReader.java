package org.splicebook.housefile;

import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.splicebook.problem.ProblemKind;
import org.splicebook.record.Acceptance;
import org.splicebook.record.Device;
import org.splicebook.record.Quantity;
import org.splicebook.record.Sighting;
import org.splicebook.record.TestResult;
import org.splicebook.record.Unit;

/** Reads sightings and tests. */
final class SightingReader {
    private static final Set<String> COMMON =
            Set.of("id", "date", "with-off", "levers", "instrument", "pass", "by", "note");

    /** What each form of sighting is known by, and what else it may have. */
    private static final Map<String, Set<String>> FORMS = forms();

    private final Known known;
    private final Problems problems;
    private final PointReader points;
    private final Set<String> sightingIds = new LinkedHashSet<>();
    private final Set<String> testIds = new LinkedHashSet<>();

    SightingReader(Known known) {
        this.known = known;
        this.problems = known.problems;
        this.points = new PointReader(known);
    }

    private static Map<String, Set<String>> forms() {
        Map<String, Set<String>> forms = new LinkedHashMap<>();
        forms.put("read", Set.of("at", "before", "after"));
        forms.put("volts", Set.of("between"));
        forms.put("lamps", Set.of("at"));
        forms.put("pressed", Set.of("went-out", "stayed"));
        forms.put("around", Set.of("amperes"));
        forms.put("continuity", Set.of("between"));
        forms.put("step-at", Set.of("seen-at", "amperes"));
        forms.put("traced", Set.of("how"));
        forms.put("label", Set.of("at"));
        return forms;
    }

    @Nullable
    Sighting sighting(Node node) {
        Fields f = Fields.of(node, Shapes.keys("sighting"), problems);
        String id = id(f, sightingIds, "sighting");
        String date = date(f);
        List<String> withOff = points.all(f.scalars("with-off"));
        Map<String, String> levers = levers(f);
        Sighting.Seen seen = seen(f);
        String instrument = f.text("instrument");
        String pass = f.text("pass");
        String by = f.text("by");
        String note = f.note();
        return id == null || date == null || seen == null
                ? null
                : new Sighting(id, date, withOff, levers, instrument, pass, by, seen, note);
    }

    @Nullable
    TestResult test(Node node) {
        Fields f = Fields.of(node, Shapes.keys("test"), problems);
        String id = id(f, testIds, "test");
        String date = date(f);
        f.need("what", "Say what was tested, for example what: trip-button.");
        f.need("device", "Name the device or breaker.");
        f.need("result", "Say how it ended: result: passed.");
        String device = point(f, "device");
        String what = f.text("what");
        String result = f.text("result");
        String by = f.text("by");
        String note = f.note();
        return id == null || date == null || device == null || what == null || result == null
                ? null
                : new TestResult(id, date, what, device, result, by, note);
    }

    @Nullable
    Acceptance acceptance(Node node) {
        Fields f = Fields.of(node, Shapes.keys("acceptance"), problems);
        f.need("finding", "Name it as the check does: rule, a slash, what it is about.");
        f.need("certainty", "Say how sure the check was: found, possible or asked.");
        f.need("said", "Say what the check said, so that it comes back when that changes.");
        f.need("reason", "Say why it may stand.");
        String date = date(f);
        String finding = f.text("finding");
        String certainty = f.word("certainty", Words.CERTAINTY);
        String said = f.note("said");
        String reason = f.note("reason");
        String by = f.text("by");
        return finding == null || certainty == null || said == null || reason == null || date == null
                ? null
                : new Acceptance(finding, certainty, said, reason, by, date);
    }

    private @Nullable String id(Fields f, Set<String> taken, String what) {
        f.need("id", "Give it an id of its own, for example id: s1.");
        Node.Scalar s = f.scalar("id");
        String id = s == null ? null : Values.name(s, problems);
        if (id != null && s != null && !taken.add(id)) {
            problems.error(
                    ProblemKind.DUPLICATE,
                    s.at(),
                    "A second " + what + " has the id " + id + ".",
                    "Give each its own id.");
        }
        return id;
    }

    private @Nullable String date(Fields f) {
        f.need("date", "Give the day, for example date: 2026-03-14.");
        return Values.day(f.scalar("date"), problems);
    }

    private Map<String, String> levers(Fields f) {
        Map<String, String> levers = new LinkedHashMap<>();
        for (Node.Entry e : f.map("levers")) {
            Node.Scalar position = Values.scalar(e.value(), problems);
            String name = e.key().text();
            if (position == null || !known.check(e.key(), known.boxOfDevice.keySet(), "device")) {
                continue;
            }
            Device device = known.devices.get(name);
            Set<String> positions = new LinkedHashSet<>();
            if (device != null) {
                device.kind().levers().forEach(l -> positions.addAll(l.positions()));
            }
            if (device != null && !positions.contains(position.text())) {
                problems.error(
                        ProblemKind.BAD_VALUE,
                        position.at(),
                        name + " has no lever position " + position.said() + ".",
                        positions.isEmpty() ? "It has no lever." : "Its positions: " + Said.list(positions) + ".");
                continue;
            }
            levers.put(name, position.text());
        }
        return levers;
    }

    private Sighting.@Nullable Seen seen(Fields f) {
        List<String> said = FORMS.keySet().stream().filter(f::has).toList();
        if (said.size() != 1) {
            problems.error(
                    said.isEmpty() ? ProblemKind.MISSING : ProblemKind.BAD_VALUE,
                    f.at(),
                    said.isEmpty()
                            ? "A sighting that does not say what was seen."
                            : "A sighting of several things: " + Said.list(said) + ".",
                    "Say one of: " + Said.list(FORMS.keySet()) + ".");
            return null;
        }
        String form = said.get(0);
        Set<String> with = FORMS.getOrDefault(form, Set.of());
        for (String key : f.present()) {
            if (!COMMON.contains(key) && !key.equals(form) && !with.contains(key)) {
                problems.error(
                        ProblemKind.BAD_VALUE,
                        f.at(key),
                        "The key " + key + " does not go with " + form + ".",
                        "With " + form + " may stand: "
                                + Said.list(with.stream().sorted().toList()) + ".");
            }
        }
        return switch (form) {
            case "read" -> lit(f);
            case "volts" -> volts(f);
            case "lamps" -> lamps(f);
            case "pressed" -> pressed(f);
            case "around" -> clamp(f);
            case "continuity" -> continuity(f);
            case "step-at" -> step(f);
            case "traced" -> traced(f);
            default -> label(f);
        };
    }

    private Sighting.@Nullable Seen lit(Fields f) {
        String at = point(f, "at");
        Sighting.Reading read = f.word("read", Words.READING);
        Sighting.Reading before = f.word("before", Words.READING);
        Sighting.Reading after = f.word("after", Words.READING);
        return at == null || read == null ? null : new Sighting.Lit(at, before, read, after);
    }

    private Sighting.@Nullable Seen volts(Fields f) {
        Quantity volts = f.quantity("volts", Unit.Dimension.VOLTAGE, Unit.VOLT);
        List<String> two = two(f, "between");
        return volts == null || two == null ? null : new Sighting.Volts(volts, two.get(0), two.get(1));
    }

    private Sighting.@Nullable Seen lamps(Fields f) {
        String at = point(f, "at");
        Node.Scalar s = f.scalar("lamps");
        if (s != null && !s.text().matches("[01]{3}")) {
            problems.error(
                    ProblemKind.BAD_VALUE,
                    s.at(),
                    s.said() + " is not a pattern of three lamps.",
                    "Write 1 for lit and 0 for dark: hot-neutral, hot-ground, neutral-ground; 110 is the usual one.");
            return null;
        }
        return at == null || s == null
                ? null
                : new Sighting.Lamps(
                        at,
                        s.text().charAt(0) == '1',
                        s.text().charAt(1) == '1',
                        s.text().charAt(2) == '1');
    }

    private Sighting.@Nullable Seen pressed(Fields f) {
        String device = point(f, "pressed");
        List<String> wentOut = points.all(f.scalars("went-out"));
        List<String> stayed = points.all(f.scalars("stayed"));
        return device == null ? null : new Sighting.Pressed(device, wentOut, stayed);
    }

    private Sighting.@Nullable Seen clamp(Fields f) {
        f.need("amperes", "Give the reading: amperes: 0.6.");
        Quantity amperes = f.quantity("amperes", Unit.Dimension.CURRENT, Unit.AMPERE);
        String around = point(f, "around");
        return amperes == null || around == null ? null : new Sighting.Clamp(amperes, around);
    }

    private Sighting.@Nullable Seen continuity(Fields f) {
        Boolean connected = f.yesNo("continuity");
        List<String> two = two(f, "between");
        return connected == null || two == null ? null : new Sighting.Continuity(two.get(0), two.get(1), connected);
    }

    private Sighting.@Nullable Seen step(Fields f) {
        String at = point(f, "step-at");
        f.need("seen-at", "Name the breaker or leg where the step was seen.");
        String seenAt = point(f, "seen-at");
        Quantity amperes = f.quantity("amperes", Unit.Dimension.CURRENT, Unit.AMPERE);
        return at == null || seenAt == null ? null : new Sighting.LoadStep(at, seenAt, amperes);
    }

    private Sighting.@Nullable Seen traced(Fields f) {
        List<String> two = two(f, "traced");
        String how = f.text("how");
        return two == null ? null : new Sighting.Traced(two.get(0), two.get(1), how);
    }

    private Sighting.@Nullable Seen label(Fields f) {
        String at = point(f, "at");
        String text = f.text("label");
        return at == null || text == null ? null : new Sighting.LabelRead(at, text);
    }

    private @Nullable String point(Fields f, String key) {
        if (key.equals("at")) {
            f.need(key, "Say where: at: a load point or terminal.");
        }
        Node.Scalar s = f.scalar(key);
        return s != null && points.check(s) ? s.text() : null;
    }

    private @Nullable List<String> two(Fields f, String key) {
        f.need(key, "Name two points: " + key + ": [a, b].");
        List<Node.Scalar> two = f.scalars(key);
        if (f.has(key) && two.size() != 2) {
            problems.error(
                    ProblemKind.BAD_VALUE,
                    f.at(key),
                    two.size() + " points stand here.",
                    "Name two: " + key + ": [a, b].");
        }
        List<String> all = points.all(two);
        return all.size() == 2 && two.size() == 2 ? all : null;
    }
}
