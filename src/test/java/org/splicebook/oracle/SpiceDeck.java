package org.splicebook.oracle;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import org.splicebook.loadflow.Fault;
import org.splicebook.loadflow.Load;
import org.splicebook.loadflow.LoadCase;
import org.splicebook.oracle.Netlist.Kind;
import org.splicebook.oracle.Netlist.Vertex;
import org.splicebook.record.Cable;
import org.splicebook.record.DeviceKind;
import org.splicebook.record.House;
import org.splicebook.record.Panel;
import org.splicebook.record.Source;
import org.splicebook.record.SourceKind;
import org.splicebook.record.SourceSystem;
import org.splicebook.record.Wire;

/**
 * A house in one state as text for a general circuit simulator. Made from the plain netlist, with ohms and rules of its own: of the load
 * flow it takes the words of a case and nothing else.
 */
public final class SpiceDeck {
    /** Ohms and reactance between two nodes; named as the load flow names its branches. */
    public record Part(String from, String to, double ohms, double reactance) {}

    private static final double ARM = 0.0005;
    private static final double SOLID = 0.0002;
    private static final double LEVER = 0.005;
    private static final double PROTECTIVE = 0.002;
    private static final double BAR = 0.0001;
    private static final double ACROSS_A_CONTACT = 30000;
    private static final double FEET = 0.3048;
    /** Ohms and reactance of 1000 ft: copper, aluminium, both at 75 °C; reactance at 60 Hz. */
    private static final Map<String, double[]> WIRES = Map.of(
            "14", new double[] {3.07, 5.06, 0.058},
            "12", new double[] {1.93, 3.18, 0.054},
            "10", new double[] {1.21, 2.00, 0.050},
            "8", new double[] {0.778, 1.28, 0.052},
            "6", new double[] {0.491, 0.808, 0.051});

    private final Netlist net;
    private final House house;
    private final LoadCase state;
    private final double hertz;
    private final Map<String, Part> parts = new LinkedHashMap<>();
    private final Map<Integer, Integer> onPost = new HashMap<>();
    private final Map<String, Integer> numbers = new TreeMap<>();
    private final StringBuilder text = new StringBuilder();
    private int touches;

    /** The deck of a house; the case must say of everything that can be open whether it is. */
    public SpiceDeck(House house, LoadCase state) {
        this.house = house;
        this.state = state;
        this.net = new Netlist(house);
        this.hertz = house.sources().values().stream().anyMatch(s -> s.system() == SourceSystem.SINGLE_230) ? 50 : 60;
        numbers.put("0", 0);
        landings();
        house.cables().values().forEach(this::cable);
        net.vertices.forEach(this::vertex);
        arms();
        house.panels().values().forEach(this::panel);
        net.asLoad.forEach(
                p -> parts.put("across " + p[0] + " " + p[1], new Part(at(p[0]), at(p[1]), ACROSS_A_CONTACT, 0)));
        loads();
        house.sources().values().forEach(this::source);
        state.faults().forEach(this::fault);
    }

    /** {@return what carries current, by name} */
    public Map<String, Part> parts() {
        return parts;
    }

    /** {@return the nodes by name; several names may stand for one} */
    public Map<String, String> nodes() {
        Map<String, String> all = new TreeMap<>();
        for (Vertex v : net.vertices) {
            if (v.kind != Kind.LINK
                    && v.kind != Kind.WIRE
                    && v.kind != Kind.POLE
                    && v.kind != Kind.MAIN_POLE
                    && v.kind != Kind.NEUTRAL_LINK
                    && v.kind != Kind.SUPPLY_LINK
                    && !onPost.containsKey(v.id)) {
                all.put(v.name, at(v.id));
            }
        }
        return all;
    }

    /** {@return the deck, each node held to earth by a shunt of so many ohms} */
    public String text(double shunt) {
        StringBuilder s = new StringBuilder("* " + house.id() + "\n").append(text);
        int i = 0;
        for (Part p : parts.values()) {
            i++;
            String a = node(p.from);
            String b = node(p.to);
            if (a.equals(b)) {
                continue;
            }
            if (p.reactance == 0) {
                s.append(String.format(Locale.ROOT, "R%d %s %s %.17g%n", i, a, b, p.ohms));
            } else {
                if (p.ohms > 0) {
                    s.append(String.format(Locale.ROOT, "R%d %s m%d %.17g%n", i, a, i, p.ohms));
                    a = "m" + i;
                }
                s.append(String.format(Locale.ROOT, "L%d %s %s %.17g%n", i, a, b, p.reactance / (2 * Math.PI * hertz)));
            }
        }
        s.append(String.format(Locale.ROOT, ".options rshunt=%g%n.ac lin 1 %g %g%n.end%n", shunt, hertz, hertz));
        return s.toString();
    }

    /** {@return the simulator's node} */
    public String node(String name) {
        Integer n = numbers.get(name);
        if (n == null) {
            n = numbers.size();
            numbers.put(name, n);
        }
        return n == 0 ? "0" : "n" + n;
    }

    private String at(int vertex) {
        return net.vertices.get(onPost.getOrDefault(vertex, vertex)).name;
    }

    /** What lies on a bar or a breaker's terminal has one connection, between the wire and the terminal. */
    private void landings() {
        for (Vertex v : net.vertices) {
            if (v.landing) {
                List<Integer> posts = v.next.stream()
                        .filter(n -> switch (net.vertices.get(n).kind) {
                            case SPACE, NEUTRAL_BAR, GROUND_BAR, LUG -> true;
                            default -> false;
                        })
                        .toList();
                if (posts.size() != 1) {
                    throw new IllegalStateException(v + " is on " + posts);
                }
                onPost.put(v.id, posts.get(0));
            }
        }
    }

    private void cable(Cable c) {
        double kft = Objects.requireNonNull(c.length()).base() / FEET / 1000;
        for (Wire w : c.wires()) {
            String name = c.name() + "." + w.name();
            double ohms;
            double reactance = 0;
            double warmth = 0.00323 * (state.physics().celsius() - 75);
            if (w.metal()) {
                ohms = switch (c.kind()) {
                    case BX -> 15;
                    case EMT -> 0.3;
                    default -> throw new IllegalStateException(c.kind().word());
                };
            } else {
                double[] row = Objects.requireNonNull(WIRES.get(w.size()), w.size());
                boolean copper = w.material() == Wire.Material.COPPER;
                ohms = row[copper ? 0 : 1];
                reactance = row[2] * hertz / 60;
                warmth = (copper ? 0.00323 : 0.00330) * (state.physics().celsius() - 75);
            }
            parts.put(name, new Part(name + "@1", name + "@2", ohms * kft * (1 + warmth), reactance * kft));
        }
    }

    private boolean closed(String thing) {
        return state.closed().getOrDefault(thing, true);
    }

    private void vertex(Vertex v) {
        switch (v.kind) {
            case LINK -> link(v);
            case POLE -> {
                String name = v.name.substring("pole ".length());
                int a = v.next.get(0);
                int b = v.next.get(1);
                boolean firstIsBus = net.vertices.get(a).kind == Kind.BUS;
                if (closed(v.owner) && closed(name)) {
                    parts.put(name, new Part(at(firstIsBus ? a : b), at(firstIsBus ? b : a), 2.8 / (15 * 15), 0));
                }
            }
            case MAIN_POLE -> {
                if (closed(v.owner + ".main") && closed(v.name)) {
                    parts.put(v.name, new Part(at(v.next.get(0)), at(v.next.get(1)), 2.8 / (100 * 100), 0));
                }
            }
            case NEUTRAL_LINK -> {
                boolean opens = Boolean.TRUE.equals(
                        Objects.requireNonNull(net.breakers.get(v.owner)).opensNeutral());
                if (!opens || closed(v.owner)) {
                    String terminal = at(v.next.get(0));
                    parts.put(terminal, new Part(at(v.next.get(1)), terminal, PROTECTIVE, 0));
                }
            }
            case SUPPLY_LINK -> parts.put(v.name, new Part(at(v.next.get(0)), at(v.next.get(1)), ARM, 0));
            default -> {}
        }
    }

    private void link(Vertex v) {
        double ohms = v.when == DeviceKind.When.LEVER ? LEVER : v.when == DeviceKind.When.GUARDED ? PROTECTIVE : SOLID;
        boolean conducts = v.conditions.stream().allMatch(c -> {
            String lever = net.levers.get(c.lever()).name().replaceFirst("/.*", "");
            return c.positions().contains(state.levers().get(lever));
        });
        if (v.when == DeviceKind.When.GUARDED) {
            conducts = closed(v.owner);
        }
        if (conducts) {
            parts.put("inside " + v.name, new Part(at(v.next.get(0)), at(v.next.get(1)), ohms, 0));
        }
    }

    private void arms() {
        for (Vertex v : net.vertices) {
            if (v.kind == Kind.JOINT) {
                for (int n : v.next) {
                    if (!Integer.valueOf(n).equals(onPost.get(v.id))) {
                        Vertex member = net.vertices.get(n);
                        String name = member.kind == Kind.WIRE_END ? member.name : v.name + "/" + member.name;
                        parts.put(name, new Part(at(v.id), at(n), ARM, 0));
                    }
                }
            }
        }
    }

    private void panel(Panel p) {
        String n = p.name();
        solid(n + ".g", n + ".box", SOLID);
        for (Vertex v : net.vertices) {
            if (v.kind == Kind.BUS && v.owner.equals(n)) {
                for (int other : v.next) {
                    Kind k = net.vertices.get(other).kind;
                    if (k == Kind.LUG || k == Kind.SPACE) {
                        solid(v.name, at(other), SOLID);
                    }
                }
            }
        }
        for (String s : p.supply()) {
            if (house.sources().containsKey(s)) {
                solid(s + ".n", n + ".n", ARM);
                solid(s + ".g", n + ".g", ARM);
            }
        }
        boolean main = house.sources().values().stream().anyMatch(s -> n.equals(s.bond()));
        if (main || p.bonded()) {
            parts.put(n + ".bond", new Part(n + ".n", n + ".g", BAR, 0));
        }
        Double electrode = state.ohms().get(n + ".electrode");
        if (electrode != null) {
            parts.put(n + ".electrode", new Part(n + ".g", "0", electrode, 0));
        }
        if (net.strapped.contains(n)) {
            parts.put(n + " strap", new Part(n + ".n", n + ".g", ARM, 0));
        }
    }

    private void solid(String a, String b, double ohms) {
        parts.put("solid " + a + " " + b, new Part(a, b, ohms, 0));
    }

    private void loads() {
        for (Netlist.Load l : net.loads) {
            for (int[] pair : l.pairs()) {
                String a = net.vertices.get(pair[0]).name;
                String b = net.vertices.get(pair[1]).name;
                String said =
                        l.pairs().size() == 1 ? l.id() : l.id() + "[" + terminal(l, a) + "," + terminal(l, b) + "]";
                Load load = state.loads().get(said);
                if (load == null || load.amount() == 0) {
                    continue;
                }
                double volts = a.endsWith("hot-1") && b.endsWith("hot-2") ? 240 : 120;
                double ohms = volts * volts / load.amount();
                parts.put(said, new Part(at(pair[0]), at(pair[1]), ohms, 0));
                if (load.powerFactor() < 1) {
                    double lag = ohms / Math.tan(Math.acos(load.powerFactor()));
                    parts.put(said + " lagging", new Part(at(pair[0]), at(pair[1]), 0, lag));
                }
            }
        }
    }

    private static String terminal(Netlist.Load l, String vertex) {
        return vertex.substring(l.device().length() + 1);
    }

    private void source(Source s) {
        boolean service = s.kind() == SourceKind.SERVICE;
        double perUnit = service ? 0.016 / 25000 : 0.15 / 7000;
        double feet = service ? 50 : 20;
        double ohms = feet / 1000 * (service ? 0.100 : 1.21);
        double reactance = feet / 1000 * (service ? 0.041 : 0.050) * hertz / 60;
        String star = service ? "0" : s.name() + ".star";
        String core = star;
        double nominal = s.system().poles().get(0).volts();
        // A transformer's percent are of its rated kVA: shared by three windings in a wye, of the one winding else.
        double leg = perUnit * nominal * nominal * (s.system().poles().size() == 1 ? 1 : 3);
        if (s.system() == SourceSystem.SPLIT_PHASE_120_240) {
            double legToLeg = perUnit * 240 * 240;
            // Half of it in each leg, and less than nothing in the neutral, as the halves of one winding share their
            // core.
            leg = legToLeg / 2;
            core = s.name() + ".core";
            parts.put(core, new Part(star, core, -legToLeg / 6, 0));
        }
        for (SourceSystem.Pole p : s.system().poles()) {
            String pole = s.name() + "." + p.terminal();
            text.append(String.format(
                    Locale.ROOT,
                    "V%s %s %s DC 0 AC %g %g%n",
                    node(pole + ".emf"),
                    node(pole + ".emf"),
                    node(core),
                    p.volts(),
                    p.degrees()));
            parts.put(pole + ".winding", new Part(pole + ".emf", pole + ".winding", leg, 0));
            parts.put(pole, new Part(pole + ".winding", pole, ohms, reactance));
        }
        parts.put(s.name() + ".n", new Part(star, s.name() + ".n", ohms, reactance));
    }

    private void fault(Fault f) {
        if (f instanceof Fault.Open o) {
            parts.remove(o.branch());
        } else if (f instanceof Fault.OpenJoint o) {
            parts.values().removeIf(p -> p.from.equals(o.joint()) && p.ohms == ARM);
        } else if (f instanceof Fault.Loose l) {
            parts.computeIfPresent(l.branch(), (k, p) -> new Part(p.from, p.to, p.ohms + l.ohms(), p.reactance));
        } else if (f instanceof Fault.Touch t) {
            String earth = "earth";
            parts.put(
                    "touch " + ++touches,
                    new Part(
                            t.from().equals(earth) ? "0" : t.from(), t.to().equals(earth) ? "0" : t.to(), t.ohms(), 0));
        } else if (f instanceof Fault.OnLeg l) {
            parts.computeIfPresent(l.pole(), (k, p) -> new Part(l.bus(), p.to, p.ohms, p.reactance));
        }
    }

    /** {@return the nodes that something ties to earth, by name} */
    public List<String> tied() {
        Map<String, String> root = new HashMap<>();
        parts.values().forEach(p -> root.put(find(root, p.from), find(root, p.to)));
        for (Source s : house.sources().values()) {
            String core = s.kind() == SourceKind.SERVICE ? "0" : s.name() + ".star";
            if (s.system() == SourceSystem.SPLIT_PHASE_120_240) {
                core = s.name() + ".core";
            }
            for (SourceSystem.Pole p : s.system().poles()) {
                root.put(find(root, s.name() + "." + p.terminal() + ".emf"), find(root, core));
            }
        }
        List<String> tied = new ArrayList<>();
        nodes().forEach((name, node) -> {
            if (find(root, node).equals(find(root, "0"))) {
                tied.add(name);
            }
        });
        return tied;
    }

    private static String find(Map<String, String> root, String name) {
        String v = name;
        @Nullable String up = root.get(v);
        while (up != null && !up.equals(v)) {
            v = up;
            up = root.get(v);
        }
        return v;
    }
}
