package org.splicebook.render.drawing;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import org.splicebook.record.Box;
import org.splicebook.record.Cable;
import org.splicebook.record.CableEnd;
import org.splicebook.record.House;
import org.splicebook.wiring.Conductor;
import org.splicebook.wiring.LoadPointWiring;
import org.splicebook.wiring.Sureness;
import org.splicebook.wiring.WireUse;
import org.splicebook.wiring.Wiring;

/** A circuit, box by box from its breaker: every cable that carries a hot of it. */
final class CircuitDrawing {
    private final Wiring wiring;
    private final House house;
    private final Parts.OfPanel breaker;
    /** Cable to whether the record only leaves it possible that it carries this hot. */
    private final Map<String, Boolean> cables = new LinkedHashMap<>();

    private CircuitDrawing(Wiring wiring, Parts.OfPanel breaker) {
        this.wiring = wiring;
        this.house = wiring.house();
        this.breaker = breaker;
    }

    static Drawing of(Wiring wiring, String name) {
        Parts.OfPanel breaker = Parts.breaker(wiring.house(), name);
        if (breaker == null) {
            throw Parts.missing(DrawingKind.CIRCUIT, name);
        }
        return new CircuitDrawing(wiring, breaker).draw();
    }

    private Drawing draw() {
        for (WireUse w : wiring.wires()) {
            for (WireUse.Use u : w.uses()) {
                if (u.conductor() == Conductor.HOT && breaker.hasPole(u.pole())) {
                    String cable = w.wire().substring(0, w.wire().indexOf('.'));
                    cables.merge(cable, u.sureness() == Sureness.MAY, (a, b) -> a && b);
                }
            }
        }
        Map<LoadPointWiring, Sureness> fed = Parts.fedBy(wiring, breaker.name());
        long sure = fed.values().stream().filter(x -> x != Sureness.MAY).count();
        // What is only possible of every open end would fill the sheet and tell nothing: it is counted instead.
        long possible = cables.values().stream().filter(x -> x).count();
        cables.values().removeIf(x -> x);
        BoxGraph graph = new BoxGraph();
        String start = breaker.panel().name();
        graph.node(
                start,
                new BoxGraph.Node(
                        List.of(
                                "Space " + breaker.breaker().key(),
                                "panel " + start,
                                Parts.rating(breaker.breaker().rating())),
                        true,
                        true));
        List<String> said = new ArrayList<>();
        walk(graph, start, said);
        Sketch s = new Sketch(wiring.house());
        String title = "Circuit of " + breaker.said();
        double y = Sketch.MARGIN + Sketch.LARGE;
        s.bold(Sketch.MARGIN, y, Sketch.LARGE, title);
        List<String> head = new ArrayList<>();
        head.add("Feeds " + sure + " load points as recorded.");
        if (fed.size() > sure || possible > 0) {
            head.add("Not proved otherwise: it may also feed " + (fed.size() - sure) + " more, over " + possible
                    + " more cables.");
        }
        head.add("Broken frame: not everything in that box is listed.");
        for (String line : head) {
            y += Sketch.LINE;
            s.text(Sketch.MARGIN, y, Sketch.PLAIN, line);
        }
        graph.draw(s, Sketch.MARGIN, y + Sketch.LINE);
        return s.done(title, String.join(" ", head) + " " + String.join(" ", said));
    }

    private void walk(BoxGraph graph, String start, List<String> said) {
        Deque<String> next = new ArrayDeque<>(List.of(start));
        Set<String> drawn = new LinkedHashSet<>();
        while (!next.isEmpty() || drawn.size() < cables.size()) {
            if (next.isEmpty()) {
                String rest = cables.keySet().stream()
                        .filter(c -> !drawn.contains(c))
                        .findFirst()
                        .orElseThrow();
                next.add(end(graph, cable(rest), 0, ""));
            }
            String here = next.remove();
            for (String name : cables.keySet()) {
                Cable c = cable(name);
                int near = here.equals(at(c, 0)) ? 0 : here.equals(at(c, 1)) ? 1 : -1;
                if (near >= 0 && drawn.add(name)) {
                    String there = end(graph, c, 1 - near, "by " + name);
                    graph.edge(here, there, false);
                    said.add(name + " runs from " + here + " to " + there + ".");
                    next.add(there);
                }
            }
        }
    }

    private Cable cable(String name) {
        return Objects.requireNonNull(house.cables().get(name));
    }

    private static String at(Cable c, int end) {
        String box = c.ends().get(end).boxOrNull();
        return box == null ? c.name() + " end " + (end + 1) : box;
    }

    private String end(BoxGraph graph, Cable c, int end, String by) {
        String name = at(c, end);
        if (graph.has(name)) {
            return name;
        }
        if (c.ends().get(end) instanceof CableEnd.At) {
            graph.node(name, box(name, by));
        } else {
            String where = c.ends().get(end) instanceof CableEnd.OneOf o
                    ? "in " + String.join(" or ", o.boxes())
                    : "nobody found it";
            graph.node(name, new BoxGraph.Node(List.of("End not known", by, where), false, false));
        }
        return name;
    }

    private BoxGraph.Node box(String name, String by) {
        List<String> lines = new ArrayList<>(List.of(name));
        lines.add((by.isEmpty() ? "" : by + ", ") + Parts.placeOf(house, name));
        Box box = house.boxes().get(name);
        if (box == null) {
            lines.add("panel");
        } else {
            box.devices().values().forEach(d -> lines.add(Parts.said(d)));
            if (box.devices().isEmpty()) {
                lines.add("splices only");
            }
        }
        return new BoxGraph.Node(lines, Parts.isWhole(house, name), false);
    }
}
