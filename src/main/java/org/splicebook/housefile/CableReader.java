package org.splicebook.housefile;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.splicebook.problem.ProblemKind;
import org.splicebook.record.Cable;
import org.splicebook.record.CableEnd;
import org.splicebook.record.CableKind;
import org.splicebook.record.Unit;

/** Reads cables, raceways and open wires. */
final class CableReader {
    private static final String UNKNOWN = "?";

    private final Known known;
    private final Problems problems;

    CableReader(Known known) {
        this.known = known;
        this.problems = known.problems;
    }

    void read(Node.Entry entry) {
        String name = entry.key().text();
        Fields f = Fields.of(entry.value(), Shapes.keys("cable"), problems);
        f.need(
                "kind",
                "Say what it is, for example kind: NM. The kinds: " + Said.list(Words.CABLE_KIND.keySet()) + ".");
        f.need("wires", "Name its wires: wires: 12/2+ground, or a map of wire names and colours.");
        f.need("ends", "Name its two ends: ends: [panel, box], with \"?\" where nobody found it.");
        CableKind kind = f.word("kind", Words.CABLE_KIND, CableKind.OTHER);
        WiresReader wires = new WiresReader(kind, problems);
        wires.read(f);
        List<CableEnd> ends = ends(f);
        List<String> through = new ArrayList<>();
        for (Node.Scalar s : Values.notTooMany(f.scalars("through"), f.at("through"), problems)) {
            if (known.check(s, known.ends, "box")) {
                through.add(s.text());
            }
        }
        Cable cable = ends.size() != 2
                ? null
                : new Cable(
                        name,
                        kind,
                        wires.shorthand(),
                        wires.wires(),
                        ends,
                        through,
                        loops(f, through),
                        f.quantity("length", Unit.Dimension.LENGTH, null),
                        f.about());
        if (cable != null && wires.whole()) {
            known.cables.put(name, cable);
        }
    }

    private @Nullable List<String> loops(Fields f, List<String> through) {
        if (!f.has("loops")) {
            return null;
        }
        List<String> loops = new ArrayList<>();
        for (Node.Scalar s : Values.notTooMany(f.scalars("loops"), f.at("loops"), problems)) {
            if (through.contains(s.text())) {
                loops.add(s.text());
            } else {
                problems.error(
                        ProblemKind.BAD_VALUE,
                        s.at(),
                        "The cable does not pass " + s.said() + ".",
                        "A loop lies in a box that the cable passes uncut: name it under through as well.");
            }
        }
        return loops;
    }

    private List<CableEnd> ends(Fields f) {
        List<CableEnd> ends = new ArrayList<>();
        List<Node> nodes = f.list("ends");
        if (f.node("ends") instanceof Node.Items && nodes.size() != 2) {
            problems.error(
                    ProblemKind.BAD_VALUE,
                    f.at("ends"),
                    nodes.size() + " ends stand here.",
                    "A cable has two ends. Write \"?\" for one that nobody found.");
            return ends;
        }
        for (Node n : nodes) {
            CableEnd end = end(n);
            if (end != null) {
                ends.add(end);
            }
        }
        return ends;
    }

    private @Nullable CableEnd end(Node n) {
        if (n instanceof Node.Entries) {
            Fields f = Fields.of(n, Shapes.keys("one-of"), problems);
            f.need("one-of", "Write one-of: [box, box].");
            List<String> boxes = new ArrayList<>();
            for (Node.Scalar s : Values.notTooMany(f.scalars("one-of"), f.at("one-of"), problems)) {
                if (known.check(s, known.ends, "box or panel")) {
                    boxes.add(s.text());
                }
            }
            if (f.has("one-of") && f.scalars("one-of").size() < 2) {
                problems.error(
                        ProblemKind.BAD_VALUE,
                        f.at("one-of"),
                        "One of fewer than two.",
                        "Name at least two boxes, or the box itself, or \"?\".");
                return null;
            }
            return new CableEnd.OneOf(boxes);
        }
        Node.Scalar s = Values.scalar(n, problems);
        if (s == null) {
            return null;
        }
        if (s.text().equals(UNKNOWN)) {
            return new CableEnd.Unknown();
        }
        if (known.sourceNames.contains(s.text()) && !known.ends.contains(s.text())) {
            problems.error(
                    ProblemKind.DANGLING_NAME,
                    s.at(),
                    s.said() + " is a source, and a cable ends in a box or panel.",
                    "Give the source an at: box, end the cable in that box, and join its wires there to "
                            + s.text()
                            + "'s terminals.");
            return null;
        }
        return known.check(s, known.ends, "box or panel") ? new CableEnd.At(s.text()) : null;
    }
}
