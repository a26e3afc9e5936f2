package org.splicebook.housefile;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.splicebook.problem.ProblemKind;
import org.splicebook.record.DeviceKind;
import org.splicebook.record.DeviceKind.LoadPoint;
import org.splicebook.record.DeviceKind.Pair;
import org.splicebook.record.DeviceKind.Role;
import org.splicebook.record.DeviceKind.When;
import org.splicebook.record.Unit;

/** Reads what a kind of device is: from the list of kinds, or from a device of kind {@code other}. */
final class KindReader {
    private static final Set<String> KIND_KEYS = Set.of(
            "title",
            "family",
            "terminals",
            "aliases",
            "tabs",
            "levers",
            "links",
            "load-points",
            "guard",
            "box-fill",
            "screws",
            "load");
    private static final Set<String> ALIAS_KEYS = Set.of("terminal", "while");
    private static final Set<String> LOAD_KEYS = Set.of("model", "watts", "power-factor");
    private static final String LEVER = "lever";

    private final Problems problems;
    private final Map<String, Role> terminals = new LinkedHashMap<>();

    KindReader(Problems problems) {
        this.problems = problems;
    }

    /** {@return a kind of the list} */
    DeviceKind standard(String name, Node node) {
        Fields f = Fields.of(node, KIND_KEYS, problems);
        readTerminals(f);
        Map<String, DeviceKind.Alias> aliases = new LinkedHashMap<>();
        for (Node.Entry e : f.map("aliases")) {
            Fields alias = Fields.of(e.value(), ALIAS_KEYS, problems);
            aliases.put(e.key().text(), new DeviceKind.Alias(alias.text("terminal", ""), alias.text("while")));
        }
        List<DeviceKind.Tab> tabs = new ArrayList<>();
        for (Node.Entry e : f.map("tabs")) {
            List<String> pair = pair(e.value());
            tabs.add(new DeviceKind.Tab(e.key().text(), pair.get(0), pair.get(1), true));
        }
        List<DeviceKind.Lever> levers = new ArrayList<>();
        for (Node.Entry e : f.map("levers")) {
            levers.add(new DeviceKind.Lever(e.key().text(), names(e.value())));
        }
        Map<String, Integer> screws = new LinkedHashMap<>();
        for (Node.Entry e : f.map("screws")) {
            screws.put(e.key().text(), Integer.parseInt(e.value() instanceof Node.Scalar s ? s.text() : ""));
        }
        return new DeviceKind(
                name,
                f.text("title", name),
                f.word("family", Words.FAMILY, DeviceKind.Family.OTHER),
                terminalList(),
                aliases,
                tabs,
                levers,
                links(f),
                loadPoints(f),
                guard(f),
                f.number("box-fill", 0),
                screws,
                load(f));
    }

    /** {@return the kind that a device of kind {@code other} brings along} */
    DeviceKind own(Fields f) {
        f.need(
                "terminals",
                "Give each terminal a role, for example terminals: {hot: hot, neutral: neutral, ground: ground}.");
        readTerminals(f);
        List<DeviceKind.Link> links = links(f);
        DeviceKind.Guard guard = guard(f);
        if (guard == null && links.stream().anyMatch(l -> l.when() == When.GUARDED)) {
            problems.error(
                    ProblemKind.MISSING,
                    f.at("links"),
                    "A guarded link, and no guard.",
                    "Say what opens it, for example guard: {functions: [ground-fault], opens: [line]}.");
        }
        return new DeviceKind(
                Kinds.OTHER,
                "Other device",
                DeviceKind.Family.OTHER,
                terminalList(),
                Map.of(),
                List.of(),
                levers(links),
                links,
                loadPoints(f),
                guard,
                f.number("box-fill", 2),
                Map.of(),
                null);
    }

    /** The levers that links name, with the positions that they name. */
    private static List<DeviceKind.Lever> levers(List<DeviceKind.Link> links) {
        Map<String, Set<String>> positions = new LinkedHashMap<>();
        for (DeviceKind.Link l : links) {
            if (l.lever() != null) {
                positions.computeIfAbsent(l.lever(), n -> new LinkedHashSet<>()).addAll(l.positions());
            }
        }
        return positions.entrySet().stream()
                .map(e -> new DeviceKind.Lever(e.getKey(), List.copyOf(e.getValue())))
                .toList();
    }

    private void readTerminals(Fields f) {
        for (Node.Entry e : Values.notTooMany(f.map("terminals"), f.at("terminals"), problems)) {
            String name = e.key().text();
            for (String part : name.split("\\.", -1)) {
                Values.name(new Node.Scalar(part, false, e.key().at()), problems);
            }
            Node.Scalar role = Values.scalar(e.value(), problems);
            Role r = role == null ? null : Values.word(role, Words.ROLE, problems);
            terminals.put(name, r == null ? Role.ANY : r);
        }
    }

    private List<DeviceKind.Terminal> terminalList() {
        return terminals.entrySet().stream()
                .map(t -> new DeviceKind.Terminal(t.getKey(), t.getValue()))
                .toList();
    }

    private List<DeviceKind.Link> links(Fields f) {
        List<DeviceKind.Link> links = new ArrayList<>();
        for (Node n : f.list("links")) {
            if (n instanceof Node.Items) {
                List<String> ab = pair(n);
                links.add(new DeviceKind.Link(ab.get(0), ab.get(1), When.ALWAYS, null, Set.of()));
                continue;
            }
            Fields link = Fields.of(n, Shapes.keys("link"), problems);
            link.need("between", "Name the two terminals: between: [a, b].");
            Node between = link.node("between");
            List<String> ab = between == null ? List.of("", "") : pair(between);
            List<String> positions = link.texts("positions");
            When when = link.word("when", Words.WHEN, positions.isEmpty() ? When.ALWAYS : When.LEVER);
            if ((when == When.LEVER) == positions.isEmpty()) {
                problems.error(
                        ProblemKind.MISSING,
                        link.at(),
                        when == When.LEVER
                                ? "A link of a lever, and no positions."
                                : "Positions of a link that no lever moves.",
                        "Write when: lever and positions: [up].");
            }
            links.add(new DeviceKind.Link(
                    ab.get(0),
                    ab.get(1),
                    when,
                    when == When.LEVER ? link.text(LEVER, LEVER) : null,
                    new LinkedHashSet<>(positions)));
        }
        return links;
    }

    private List<LoadPoint> loadPoints(Fields f) {
        List<LoadPoint> points = new ArrayList<>();
        Set<String> names = new LinkedHashSet<>();
        for (Node n : f.list("load-points")) {
            Fields p = Fields.of(n, Shapes.keys("load-point"), problems);
            List<Pair> pairs = new ArrayList<>();
            addPair(p, pairs);
            for (Node one : p.list("pairs")) {
                addPair(Fields.of(one, Shapes.keys("pair"), problems), pairs);
            }
            if (pairs.isEmpty()) {
                problems.error(
                        ProblemKind.MISSING,
                        p.at(),
                        "A load point without terminals.",
                        "Name two: between: [hot, neutral].");
            }
            String name = p.text("name", "");
            if (!names.add(name)) {
                problems.error(
                        ProblemKind.DUPLICATE,
                        p.at(),
                        name.isEmpty()
                                ? "A second load point without a name."
                                : "A second load point " + Said.quoted(name) + ".",
                        "Give each its own name.");
            }
            Node.Scalar ground = p.scalar("ground");
            points.add(new LoadPoint(name, pairs, ground == null ? null : terminal(ground)));
        }
        return points;
    }

    private void addPair(Fields p, List<Pair> pairs) {
        Node between = p.node("between");
        if (between != null) {
            List<String> ab = pair(between);
            var volts = p.quantity("volts", Unit.Dimension.VOLTAGE, Unit.VOLT);
            pairs.add(new Pair(ab.get(0), ab.get(1), volts == null ? 0 : volts.base()));
        }
    }

    private DeviceKind.@Nullable Guard guard(Fields f) {
        Node n = f.node("guard");
        if (n == null) {
            return null;
        }
        Fields g = Fields.of(n, Shapes.keys("guard"), problems);
        g.need("functions", "Say what it does: functions: [ground-fault].");
        var functions = g.words("functions", Words.PROTECTION);
        Set<String> opens = new LinkedHashSet<>();
        g.scalars("opens").forEach(s -> opens.add(terminal(s)));
        return new DeviceKind.Guard(
                functions == null ? Set.of() : functions,
                opens,
                g.yesNo("face-on-load-side", false),
                g.word("reversed", Words.REVERSED, DeviceKind.Reversed.UNKNOWN),
                g.yesNo("senses-neutral", false));
    }

    private DeviceKind.@Nullable LoadModel load(Fields f) {
        Node n = f.node("load");
        if (n == null) {
            return null;
        }
        Fields load = Fields.of(n, LOAD_KEYS, problems);
        return new DeviceKind.LoadModel(
                load.word("model", Words.MODEL, DeviceKind.LoadModel.Model.IMPEDANCE),
                load.number("watts", 0),
                load.number("power-factor", 1));
    }

    private List<String> names(Node n) {
        return Values.scalars(n, problems).stream().map(Node.Scalar::text).toList();
    }

    private List<String> pair(Node n) {
        List<Node.Scalar> two = Values.scalars(n, problems);
        if (two.size() != 2) {
            problems.error(
                    ProblemKind.BAD_VALUE, n.at(), two.size() + " terminals stand here.", "Name two: [hot, neutral].");
            return List.of("", "");
        }
        return List.of(terminal(two.get(0)), terminal(two.get(1)));
    }

    private String terminal(Node.Scalar s) {
        if (!terminals.containsKey(s.text())) {
            problems.error(
                    ProblemKind.NO_SUCH_TERMINAL,
                    s.at(),
                    s.said() + " is none of its terminals.",
                    () -> Nearest.cure(s.text(), terminals.keySet(), "terminals"));
        }
        return s.text();
    }
}
