package org.splicebook.housefile;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.splicebook.problem.ProblemKind;
import org.splicebook.record.CableKind;
import org.splicebook.record.Unit;
import org.splicebook.record.Wire;

/** Reads the wires of a cable: the trade's shorthand, or a map. Adds the metal that a cable's kind has. */
final class WiresReader {
    private static final Pattern SHORTHAND = Pattern.compile("([0-9]{1,2})/([234])(\\+ground)?");
    private static final Pattern SIZE = Pattern.compile(
            "(?:([0-9]{1,2}|[1-4]/0)(?: ?AWG)?|([0-9]{2,4}) ?kcmil|([0-9]{1,3}(?:\\.[0-9]{1,2})?) ?mm[2²])");

    /** What bare metal has for a colour. */
    static final String BARE = "bare";

    private final CableKind kind;
    private final Problems problems;
    private final List<Wire> wires = new ArrayList<>();
    private @Nullable String shorthand;
    private boolean whole = true;

    WiresReader(CableKind kind, Problems problems) {
        this.kind = kind;
        this.problems = problems;
    }

    @Nullable
    String shorthand() {
        return shorthand;
    }

    List<Wire> wires() {
        return wires;
    }

    /** {@return whether all wires could be read} */
    boolean whole() {
        return whole;
    }

    void read(Fields f) {
        String size = size(f);
        Wire.Material material = f.word("material", Words.MATERIAL);
        Node n = f.node("wires");
        if (n instanceof Node.Scalar s) {
            if (f.has("size")) {
                problems.error(
                        ProblemKind.BAD_VALUE,
                        f.at("size"),
                        "A size beside " + s.said() + ", which says one.",
                        "Leave the size out, or name the wires in a map.");
            }
            readShorthand(s, material);
        } else if (n instanceof Node.Entries map) {
            Values.notTooMany(map.entries(), map.at(), problems).forEach(e -> readWire(e, size, material));
        } else if (n != null) {
            Values.entries(n, problems);
        }
        whole &= n != null;
        String metal = kind.metal();
        if (metal != null && wires.stream().noneMatch(Wire::metal)) {
            wires.add(new Wire(metal, BARE, null, null, true));
        }
    }

    /** {@return the wires that a shorthand stands for; none when it is not one} */
    static List<Wire> expand(String shorthand, Wire.@Nullable Material material) {
        Matcher m = SHORTHAND.matcher(shorthand);
        if (!m.matches()) {
            return List.of();
        }
        List<String> colours = switch (m.group(2)) {
            case "2" -> List.of("black", "white");
            case "3" -> List.of("black", "red", "white");
            default -> List.of("black", "red", "blue", "white");
        };
        List<Wire> wires = new ArrayList<>();
        for (String c : colours) {
            wires.add(new Wire(c, c, m.group(1), material, false));
        }
        if (m.group(3) != null) {
            wires.add(new Wire(BARE, BARE, m.group(1), material, false));
        }
        return wires;
    }

    private void readShorthand(Node.Scalar s, Wire.@Nullable Material material) {
        wires.addAll(expand(s.text(), material));
        shorthand = s.text();
        if (wires.isEmpty()) {
            whole = false;
            problems.error(
                    ProblemKind.BAD_VALUE,
                    s.at(),
                    s.said() + " does not say which wires.",
                    "Write size/count, for example 14/2, 12/3+ground, or a map: {black: black, white: white}.");
        }
    }

    private void readWire(Node.Entry e, @Nullable String size, Wire.@Nullable Material material) {
        String name = Values.name(e.key(), problems);
        if (name == null) {
            whole = false;
            return;
        }
        boolean metal = name.equals(kind.metal());
        if (e.value() instanceof Node.Entries) {
            Fields f = Fields.of(e.value(), Shapes.keys("wire"), problems);
            String own = size(f);
            Wire.Material ownMaterial = f.word("material", Words.MATERIAL);
            wires.add(new Wire(
                    name,
                    f.text("colour", metal ? BARE : "unknown"),
                    own == null && !metal ? size : own,
                    ownMaterial == null && !metal ? material : ownMaterial,
                    metal,
                    f.quantity("ohms", Unit.Dimension.RESISTANCE, Unit.OHM),
                    f.note()));
        } else {
            String colour = Values.text(e.value(), Limits.NAME, problems);
            wires.add(new Wire(
                    name,
                    colour == null || colour.isEmpty() ? "unknown" : colour,
                    metal ? null : size,
                    metal ? null : material,
                    metal));
        }
    }

    private @Nullable String size(Fields f) {
        return size(f, problems);
    }

    /** {@return the size under {@code size:}, or null when it is not said or broken, which the problems say} */
    static @Nullable String size(Fields f, Problems problems) {
        return size(f, "size", problems);
    }

    /** The same under another key. */
    static @Nullable String size(Fields f, String key, Problems problems) {
        Node.Scalar s = f.scalar(key);
        if (s == null) {
            return null;
        }
        Matcher m = SIZE.matcher(s.text().strip());
        if (!m.matches()) {
            problems.error(
                    ProblemKind.BAD_UNIT,
                    s.at(),
                    s.said() + " is not the size of a wire.",
                    "Write 14, 2/0, 250 kcmil or 2.5 mm2.");
            return null;
        }
        return m.group(1) != null ? m.group(1) : m.group(2) != null ? m.group(2) + " kcmil" : m.group(3) + " mm2";
    }
}
