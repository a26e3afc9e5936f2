package org.splicebook.render.drawing;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.TreeSet;
import org.splicebook.record.Protection;
import org.splicebook.wiring.LoadPointWiring;
import org.splicebook.wiring.ProtectedBy;
import org.splicebook.wiring.Sureness;
import org.splicebook.wiring.Wiring;

/** Where a protective device reaches: the load points whose ground-fault or arc-fault protection it is, box by box. */
final class ReachDrawing {
    private ReachDrawing() {}

    static Drawing of(Wiring wiring, String subject) {
        boolean isDevice = wiring.house().boxes().values().stream()
                .anyMatch(b -> b.devices().containsKey(subject)
                        && Objects.requireNonNull(b.devices().get(subject))
                                        .kind()
                                        .guard()
                                != null);
        if (!isDevice && Parts.breaker(wiring.house(), subject) == null) {
            throw Parts.missing(DrawingKind.REACH, subject);
        }
        Map<String, List<String>> boxes = new LinkedHashMap<>();
        int possible = 0;
        for (LoadPointWiring l : wiring.loadPoints()) {
            TreeSet<String> sure = new TreeSet<>();
            boolean may = false;
            for (ProtectedBy p : l.protections()) {
                if (p.by().name().equals(subject) && p.function() != Protection.OVERCURRENT) {
                    if (p.sureness() == Sureness.MUST) {
                        sure.add(word(p.function()));
                    } else {
                        may = true;
                    }
                }
            }
            if (!sure.isEmpty()) {
                boxes.computeIfAbsent(l.box(), k -> new ArrayList<>()).add(l.id() + ": " + String.join(", ", sure));
            } else if (may) {
                possible++;
            }
        }
        BoxGraph graph = new BoxGraph();
        graph.node(
                subject + " ",
                new BoxGraph.Node(List.of(subject, isDevice ? "protective device" : "breaker"), true, true));
        List<String> said = new ArrayList<>();
        boxes.forEach((box, points) -> {
            List<String> lines = new ArrayList<>(List.of(box, Parts.placeOf(wiring.house(), box)));
            lines.addAll(points);
            graph.node(box, new BoxGraph.Node(lines, Parts.isWhole(wiring.house(), box), false));
            graph.edge(subject + " ", box, false);
            said.add(box + ": " + String.join("; ", points) + ".");
        });
        List<String> head = new ArrayList<>();
        head.add(boxes.isEmpty() ? "Nothing is shown to be protected by it." : "Protected in every case, box by box:");
        if (possible > 0) {
            head.add("Not proved for " + possible + " more load points: they count as not protected.");
        }
        Sketch s = new Sketch(wiring.house());
        String title = "Where " + subject + " protects";
        double y = Sketch.MARGIN + Sketch.LARGE;
        s.bold(Sketch.MARGIN, y, Sketch.LARGE, title);
        for (String line : head) {
            y += Sketch.LINE;
            s.text(Sketch.MARGIN, y, Sketch.PLAIN, line);
        }
        graph.draw(s, Sketch.MARGIN, y + Sketch.LINE);
        return s.done(title, String.join(" ", head) + " " + String.join(" ", said));
    }

    private static String word(Protection p) {
        return p.name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
}
