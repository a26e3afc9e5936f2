package org.splicebook.housefile;

import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.splicebook.problem.ProblemKind;
import org.splicebook.record.Device;
import org.splicebook.record.DeviceKind;
import org.splicebook.record.Unit;

/** Reads one device. */
final class DeviceReader {
    private static final Set<String> OWN_KEYS = Set.of("terminals", "links", "load-points", "guard", "box-fill");

    private static final Map<String, String> CANOPY = Map.of("domed", "domed", "flat", "flat", "none", "none");

    private final Problems problems;

    DeviceReader(Problems problems) {
        this.problems = problems;
    }

    /** {@return the device, or null when its kind cannot be told} */
    @Nullable
    Device read(String name, Node node) {
        Fields f = Fields.of(node, Shapes.keys("device"), problems);
        DeviceKind kind = kind(f);
        Map<String, Boolean> tabs = new LinkedHashMap<>();
        Set<String> unused = new LinkedHashSet<>();
        if (kind != null) {
            readTabs(f, kind, tabs);
            for (Node.Scalar s : f.scalars("unused")) {
                String terminal = Terminals.resolve(kind, s.text());
                if (terminal == null) {
                    Terminals.lacking(name, kind, s.text(), s.at(), problems);
                } else {
                    unused.add(terminal);
                }
            }
        }
        Device device = kind == null
                ? null
                : new Device(
                        name,
                        kind,
                        f.amperes("rating"),
                        tabs,
                        unused,
                        f.text("load"),
                        f.quantity("watts", Unit.Dimension.POWER, Unit.WATT),
                        f.text("label"),
                        f.word("canopy", CANOPY),
                        f.about());
        return device;
    }

    private @Nullable DeviceKind kind(Fields f) {
        f.need("kind", "Say what it is, for example kind: duplex-receptacle.");
        Node.Scalar word = f.scalar("kind");
        if (word == null) {
            return null;
        }
        if (word.text().equals(Kinds.OTHER)) {
            return new KindReader(problems).own(f);
        }
        for (String key : f.present()) {
            if (OWN_KEYS.contains(key)) {
                problems.error(
                        ProblemKind.BAD_VALUE,
                        f.at(key),
                        "The key " + key + " beside kind " + word.said() + ".",
                        "Only kind: other brings its own " + key + ".");
            }
        }
        Set<String> words = new LinkedHashSet<>(Kinds.standard().keySet());
        words.add(Kinds.OTHER);
        DeviceKind kind = Kinds.standard().get(word.text());
        if (kind == null) {
            problems.error(
                    ProblemKind.BAD_VALUE,
                    word.at(),
                    word.said() + " is not a kind of device.",
                    () -> Nearest.to(word.text(), words)
                            .map(n -> "Did you mean " + n + "?")
                            .orElse("The kinds: " + String.join(", ", words) + ". An unlisted one is kind: other."));
        }
        return kind;
    }

    private void readTabs(Fields f, DeviceKind kind, Map<String, Boolean> tabs) {
        List<String> names = kind.tabs().stream().map(DeviceKind.Tab::name).toList();
        for (Node.Entry e : f.map("tabs")) {
            String tab = e.key().text();
            if (!names.contains(tab)) {
                problems.error(
                        ProblemKind.UNKNOWN_KEY,
                        e.key().at(),
                        "A " + kind.name() + " has no tab " + e.key().said() + ".",
                        names.isEmpty() ? "It has no tabs." : "Its tabs: " + Said.list(names) + ".");
                continue;
            }
            Node.Scalar state = Values.scalar(e.value(), problems);
            Boolean in = state == null ? null : Values.word(state, Words.IN_OUT, problems);
            if (in != null) {
                tabs.put(tab, in);
            }
        }
    }
}
