package org.splicebook.housefile;

import org.jspecify.annotations.Nullable;
import org.splicebook.record.Quantity;
import org.splicebook.record.Source;
import org.splicebook.record.SourceSystem;
import org.splicebook.record.Unit;
import org.splicebook.record.Wire;

/** Reads sources. */
final class SourceReader {
    private final Known known;
    private final Problems problems;

    SourceReader(Known known) {
        this.known = known;
        this.problems = known.problems;
    }

    /** Reads a source; the names of panels and boxes are known already. */
    void read(Node.Entry e) {
        Fields f = Fields.of(e.value(), Shapes.keys("source"), problems);
        f.need("system", "Say which: " + Said.list(Words.SYSTEM.keySet()) + ".");
        SourceSystem system = f.word("system", Words.SYSTEM);
        Node.Scalar bond = f.scalar("bond");
        Node.Scalar at = f.scalar("at");
        boolean bonded = bond != null && known.check(bond, known.panelNames, "panel");
        boolean placed = at != null && known.check(at, known.ends, "box or panel");
        String name = e.key().text();
        Source source = new Source(
                name,
                f.word("kind", Words.SOURCE_KIND, org.splicebook.record.SourceKind.SERVICE),
                system == null ? SourceSystem.SPLIT_PHASE_120_240 : system,
                f.amperes("rating"),
                bonded && bond != null ? bond.text() : null,
                placed && at != null ? at.text() : null,
                f.text("from"),
                f.quantity("volts", Unit.Dimension.VOLTAGE, Unit.VOLT),
                transformer(f),
                drop(f),
                f.about());
        if (system != null) {
            known.sources.put(name, source);
        }
    }

    private Source.@Nullable Transformer transformer(Fields source) {
        Node n = source.node("transformer");
        if (n == null) {
            return null;
        }
        Fields f = Fields.of(n, Shapes.keys("transformer"), problems);
        f.need("rating", "Say how large it is: rating: 25 kVA.");
        Quantity rating = f.quantity("rating", Unit.Dimension.POWER, null);
        Double percent = f.has("percent") ? (Double) f.number("percent", 0) : null;
        return rating == null ? null : new Source.Transformer(rating, percent);
    }

    private Source.@Nullable Drop drop(Fields source) {
        Node n = source.node("drop");
        if (n == null) {
            return null;
        }
        Fields f = Fields.of(n, Shapes.keys("drop"), problems);
        f.need("length", "Say how long it is: length: 50 ft.");
        f.need("size", "Say which size its conductors are: size: 4/0.");
        Quantity length = f.quantity("length", Unit.Dimension.LENGTH, null);
        String size = WiresReader.size(f, problems);
        Wire.Material material = f.word("material", Words.MATERIAL);
        return length == null || size == null ? null : new Source.Drop(length, size, material);
    }
}
