package org.splicebook.housefile;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.splicebook.problem.ProblemKind;
import org.splicebook.record.Box;
import org.splicebook.record.Breaker;
import org.splicebook.record.Cable;
import org.splicebook.record.Device;
import org.splicebook.record.DeviceKind;
import org.splicebook.record.Move;
import org.splicebook.record.OvercurrentType;
import org.splicebook.record.Panel;
import org.splicebook.record.Source;

/** Reads one move after another; what one brings in the next may name. */
final class MoveReader {
    private static final Map<String, Set<String>> SHAPES = DraftFiles.shapes();

    private final Known known;
    private final Problems problems;
    private final DeviceReader devices;

    MoveReader(Known known) {
        this.known = known;
        this.problems = known.problems;
        this.devices = new DeviceReader(problems);
    }

    @Nullable
    Move read(Node n) {
        String kind = n instanceof Node.Entries map
                ? SHAPES.keySet().stream()
                        .filter(k -> map.entries().stream()
                                .anyMatch(e -> e.key().text().equals(k)))
                        .findFirst()
                        .orElse("")
                : "";
        if (kind.isEmpty()) {
            problems.error(
                    ProblemKind.BAD_VALUE,
                    n.at(),
                    "This is no move.",
                    "A move is a map with one of the keys " + Said.list(SHAPES.keySet())
                            + ": {move: K1.black, to: K2.black, in: hall}.");
            return null;
        }
        Fields f = Fields.of(n, SHAPES.getOrDefault(kind, Set.of()), problems);
        return switch (kind) {
            case "move" -> new Move.Shift(need(f, "in"), need(f, kind), need(f, "to"));
            case "cap" -> new Move.Cap(need(f, "in"), need(f, kind));
            case "splice" -> new Move.Splice(need(f, "in"), f.texts(kind), f.word("by", Words.BY));
            case "pigtail" -> new Move.Pigtail(need(f, "in"), need(f, kind));
            case "tab" -> {
                need(f, "is");
                yield new Move.SetTab(need(f, "of"), need(f, kind), f.word("is", Words.IN_OUT, true));
            }
            case "device" -> kind(f);
            case "swap-line-and-load" -> new Move.SwapLineAndLoad(need(f, kind));
            case "tie", "untie" -> new Move.Tie(need(f, "panel"), f.texts(kind), kind.equals("tie"));
            case "panel" -> breaker(f);
            case "replace-panel" -> panel(f);
            case "add-panel" -> newPanel(f);
            case "change-source" -> source(f);
            case "add-source" -> newSource(f);
            case "add-cable" -> cable(f);
            case "retire-cable" -> new Move.RetireCable(need(f, kind));
            case "add-box" -> box(f);
            case "retire-box" -> new Move.RetireBox(need(f, kind));
            case "add-device" -> device(f);
            case "retire-device" -> new Move.RetireDevice(need(f, kind));
            case "label" -> new Move.Label(need(f, kind), need(f, "says"));
            default -> new Move.Remark(need(f, "of"), need(f, "remark"), need(f, "colour"));
        };
    }

    private String need(Fields f, String key) {
        f.need(key, "Say it: " + key + ": ....");
        return f.text(key, "");
    }

    private @Nullable Move kind(Fields f) {
        String word = need(f, "kind");
        DeviceKind kind = Kinds.standard().get(word);
        if (kind == null) {
            problems.error(
                    ProblemKind.BAD_VALUE,
                    f.at("kind"),
                    Said.quoted(word) + " is not a kind of device.",
                    Nearest.cure(word, Kinds.standard().keySet(), "kinds"));
            return null;
        }
        return new Move.ChangeKind(need(f, "device"), kind, words(f, "terminals"));
    }

    private Map<String, String> words(Fields f, String key) {
        Map<String, String> words = new LinkedHashMap<>();
        for (Node.Entry e : f.map(key)) {
            Node.Scalar to = Values.scalar(e.value(), problems);
            if (to != null) {
                words.put(e.key().text(), to.text());
            }
        }
        return words;
    }

    private Node.@Nullable Entry entry(Fields f, String key) {
        Node.Scalar name = f.scalar(key);
        Node as = f.node("as");
        f.need("as", "Say what it is, as in a house file: as: {...}.");
        return name == null || as == null || Values.name(name, problems) == null ? null : new Node.Entry(name, as);
    }

    private @Nullable Move breaker(Fields f) {
        String panel = need(f, "panel");
        Node.Scalar key = f.scalar("is");
        Breaker is = null;
        if (key != null) {
            BreakerReader reader = new BreakerReader(problems);
            Node as = f.node("as");
            reader.read(
                    List.of(new Node.Entry(key, as == null ? new Node.Entries(List.of(), key.at()) : as)),
                    OvercurrentType.BREAKER);
            is = reader.all().values().stream().findFirst().orElse(null);
        }
        return new Move.ChangeBreaker(panel, f.texts("was"), is);
    }

    private @Nullable Move panel(Fields f) {
        Node.Entry e = entry(f, "replace-panel");
        if (e == null || !known.check(e.key(), known.panelNames, "panel")) {
            return null;
        }
        Fields body = new PanelReader(known).read(e);
        if (body.has("joints")) {
            problems.error(
                    ProblemKind.BAD_VALUE,
                    body.at(),
                    "A panel that takes another's place brings no joints.",
                    "What landed in the old one lands in the new; say what goes elsewhere: landings: {13: 9}.");
        }
        Panel p = known.panels.get(e.key().text());
        return p == null ? null : new Move.ReplacePanel(p, words(f, "landings"));
    }

    /** The feeder is named by the panel's supply. */
    private @Nullable Move newPanel(Fields f) {
        Node.Entry e = entry(f, "add-panel");
        Node feeder = f.node("feeder");
        f.need("feeder", "Say which cable feeds it: feeder: {kind: ..., wires: ..., ends: [main, its name]}.");
        if (e == null || feeder == null) {
            return null;
        }
        List<Node.Scalar> supply =
                Fields.of(e.value(), Shapes.keys("panel"), new Problems()).oneOrMore("supply");
        if (supply.size() != 1) {
            problems.error(
                    ProblemKind.MISSING,
                    e.value().at(),
                    "A new panel with " + (supply.isEmpty() ? "no supply." : "several supplies."),
                    "Name its feeder: as: {supply: F2, ...}.");
            return null;
        }
        String name = e.key().text();
        known.ends.add(name);
        known.panelNames.add(name);
        new CableReader(known).read(new Node.Entry(supply.get(0), feeder));
        known.cableNames.add(supply.get(0).text());
        Fields body = new PanelReader(known).read(e);
        if (body.has("joints")) {
            problems.error(ProblemKind.BAD_VALUE, body.at(), "A new panel with joints.", "Land wires in it by moves.");
        }
        Panel p = known.panels.get(name);
        Cable c = known.cables.get(supply.get(0).text());
        return p == null || c == null ? null : new Move.AddPanel(p, c);
    }

    private @Nullable Move newSource(Fields f) {
        Node.Entry e = entry(f, "add-source");
        if (e == null) {
            return null;
        }
        new SourceReader(known).read(e);
        known.sourceNames.add(e.key().text());
        Source s = known.sources.get(e.key().text());
        return s == null ? null : new Move.AddSource(s);
    }

    private @Nullable Move source(Fields f) {
        Node.Entry e = entry(f, "change-source");
        if (e == null || !known.check(e.key(), known.sourceNames, "source")) {
            return null;
        }
        new SourceReader(known).read(e);
        Source s = known.sources.get(e.key().text());
        return s == null ? null : new Move.ChangeSource(s);
    }

    private @Nullable Move cable(Fields f) {
        Node.Entry e = entry(f, "add-cable");
        if (e == null) {
            return null;
        }
        new CableReader(known).read(e);
        known.cableNames.add(e.key().text());
        Cable c = known.cables.get(e.key().text());
        return c == null ? null : new Move.AddCable(c);
    }

    private @Nullable Move box(Fields f) {
        Node.Entry e = entry(f, "add-box");
        if (e == null) {
            return null;
        }
        Fields body = new BoxReader(known).read(e);
        if (body.has("devices") || body.has("joints")) {
            problems.error(
                    ProblemKind.BAD_VALUE,
                    body.at(),
                    "A new box with devices or joints.",
                    "Bring them in by moves of their own.");
        }
        known.ends.add(e.key().text());
        Box b = known.boxes.get(e.key().text());
        return b == null ? null : new Move.AddBox(b);
    }

    private @Nullable Move device(Fields f) {
        Node.Entry e = entry(f, "add-device");
        Device d = e == null ? null : devices.read(e.key().text(), e.value());
        return d == null ? null : new Move.AddDevice(need(f, "in"), d);
    }
}
