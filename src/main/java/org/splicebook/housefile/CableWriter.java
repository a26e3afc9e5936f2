package org.splicebook.housefile;

import java.util.List;
import java.util.Objects;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.Cable;
import org.splicebook.record.CableEnd;
import org.splicebook.record.Wire;

/** Writes cables, their wires in the trade's shorthand where they were written so. */
final class CableWriter {
    private CableWriter() {}

    static Node cable(Cable c) {
        List<Wire> wires = withoutPlainMetal(c);
        Wire.Material material = common(wires, Wire::material);
        String shorthand = c.shorthand();
        boolean brief = shorthand != null && wires.equals(WiresReader.expand(shorthand, material));
        String size = brief ? null : common(wires, Wire::size);
        Tree tree = new Tree().put("kind", c.kind().word());
        if (brief) {
            tree.put("wires", shorthand);
        } else {
            Tree map = new Tree();
            wires.forEach(w -> map.put(w.name(), wire(w, size, material)));
            tree.put("wires", map.node());
        }
        return tree.put("size", size)
                .put("material", material == null ? null : Words.word(material))
                .put("ends", Tree.list(c.ends(), CableWriter::end))
                .putList("through", c.through())
                .put("loops", c.loops() == null ? null : Tree.list(c.loops()))
                .put("length", c.length())
                .about(c.about())
                .node();
    }

    /** The reader adds the metal of a cable's kind as the last wire by itself. */
    private static List<Wire> withoutPlainMetal(Cable c) {
        int last = c.wires().size() - 1;
        String metal = c.kind().metal();
        return metal != null
                        && last >= 0
                        && c.wires().get(last).equals(new Wire(metal, WiresReader.BARE, null, null, true))
                ? c.wires().subList(0, last)
                : c.wires();
    }

    /** {@return what all wires that are not metal have in common, or null} */
    private static <T> @Nullable T common(List<Wire> wires, Function<Wire, @Nullable T> of) {
        T first = null;
        for (Wire w : wires) {
            if (!w.metal()) {
                T t = of.apply(w);
                if (t == null || (first != null && !first.equals(t))) {
                    return null;
                }
                first = t;
            }
        }
        return first;
    }

    private static Node wire(Wire w, @Nullable String size, Wire.@Nullable Material material) {
        boolean sizeSaid = !w.metal() && Objects.equals(w.size(), size);
        boolean materialSaid = !w.metal() && w.material() == material;
        Tree tree = new Tree()
                .put("size", sizeSaid ? null : w.size())
                .put("material", materialSaid || w.material() == null ? null : Words.word(w.material()))
                .put("ohms", w.ohms())
                .put("note", w.note());
        return tree.node().entries().isEmpty()
                ? Tree.scalar(w.colour())
                : new Tree().put("colour", w.colour()).putAll(tree).node();
    }

    private static Node end(CableEnd end) {
        if (end instanceof CableEnd.OneOf of) {
            return new Tree().put("one-of", Tree.list(of.boxes())).node();
        }
        return Tree.scalar(end instanceof CableEnd.At at ? at.box() : "?");
    }
}
