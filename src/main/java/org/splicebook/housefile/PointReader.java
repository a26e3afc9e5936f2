package org.splicebook.housefile;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.splicebook.problem.ProblemKind;
import org.splicebook.record.Cable;
import org.splicebook.record.Device;
import org.splicebook.record.DeviceKind;
import org.splicebook.record.Panel;
import org.splicebook.record.Source;

/**
 * Checks points that sightings name: {@code bath-gf} (a device), {@code door-1.top} (a load point or terminal),
 * {@code K6} or {@code K6.black} (a cable or wire), {@code main.6}, {@code main.n}, {@code main.main} (in a panel),
 * {@code bench.box} (the metal of a box). Points stay as they were written.
 */
final class PointReader {
    private final Known known;
    private final Map<String, Set<String>> panelParts = new HashMap<>();

    PointReader(Known known) {
        this.known = known;
    }

    /** {@return the points that exist; the others are told} */
    List<String> all(List<Node.Scalar> scalars) {
        List<String> all = new ArrayList<>();
        for (Node.Scalar s : scalars) {
            if (check(s)) {
                all.add(s.text());
            }
        }
        return all;
    }

    boolean check(Node.Scalar s) {
        String text = s.text();
        int dot = text.indexOf('.');
        String name = dot < 0 ? text : text.substring(0, dot);
        String rest = dot < 0 ? "" : text.substring(dot + 1);
        if (known.boxOfDevice.containsKey(name)) {
            return rest.isEmpty() || device(s, name, rest);
        }
        if (known.cableNames.contains(name)) {
            return rest.isEmpty() || wire(s, name, rest);
        }
        if (known.panelNames.contains(name)) {
            return rest.isEmpty() || panel(s, name, rest);
        }
        if (known.sourceNames.contains(name)) {
            Source source = known.sources.get(name);
            return rest.isEmpty()
                    || source == null
                    || part(s, rest, RefReader.sourceTerminals(source), "The source " + name);
        }
        if (known.boxNames.contains(name)) {
            return rest.isEmpty() || part(s, rest, Set.of("box"), "The box " + name);
        }
        known.problems.error(
                ProblemKind.DANGLING_NAME,
                s.at(),
                "There is no device, cable or panel " + Said.quoted(name) + ".",
                () -> Nearest.cure(name, known.namesBeforeDot(), "names"));
        return false;
    }

    private boolean device(Node.Scalar s, String name, String rest) {
        Device device = known.devices.get(name);
        if (device == null) {
            return true;
        }
        DeviceKind kind = device.kind();
        if (kind.loadPoints().stream().anyMatch(p -> p.name().equals(rest))) {
            return true;
        }
        if (Terminals.resolve(kind, rest) != null) {
            return Terminals.isPlainEnough(device, rest, s.at(), known.problems);
        }
        Terminals.lacking(name, kind, rest, s.at(), known.problems);
        return false;
    }

    private boolean wire(Node.Scalar s, String name, String rest) {
        Cable cable = known.cables.get(name);
        if (cable == null) {
            return true;
        }
        String wire = rest.replaceFirst("@[12]$", "");
        return part(s, wire, known.wiresOf(cable), "The cable " + name);
    }

    private boolean panel(Node.Scalar s, String name, String rest) {
        Panel panel = known.panels.get(name);
        if (panel == null) {
            return true;
        }
        Set<String> parts = panelParts.computeIfAbsent(name, n -> {
            Set<String> all = new LinkedHashSet<>(panel.breakers().keySet());
            all.addAll(new PanelTerminals(panel).names());
            all.addAll(List.of("main", "box"));
            return all;
        });
        return part(s, rest, parts, "The panel " + name);
    }

    private boolean part(Node.Scalar s, String part, Set<String> parts, String of) {
        if (parts.contains(part)) {
            return true;
        }
        known.problems.error(
                ProblemKind.DANGLING_NAME,
                s.at(),
                of + " has no " + Said.quoted(part) + ".",
                () -> Nearest.cure(part, parts, "parts"));
        return false;
    }
}
