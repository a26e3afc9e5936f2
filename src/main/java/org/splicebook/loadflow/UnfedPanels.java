package org.splicebook.loadflow;

import java.util.LinkedHashSet;
import java.util.Set;
import org.splicebook.record.Cable;
import org.splicebook.record.Complete;
import org.splicebook.record.Panel;
import org.splicebook.record.Wire;

/** Panels that no recorded source reaches however everything is switched, while something about their feed is not known. */
final class UnfedPanels {
    private final CircuitBuilder b;
    private final Parts parts;

    UnfedPanels(CircuitBuilder b) {
        this.b = b;
        parts = new Parts(b.nodes.size());
        for (Branch x : b.branches) {
            boolean toGround = x.kind() == Branch.Kind.BOND || x.kind() == Branch.Kind.EARTH;
            if (x.kind() != Branch.Kind.LOAD && x.kind() != Branch.Kind.WINDING && !toGround) {
                parts.join(x.from(), x.to());
            }
        }
        b.sources.forEach(s -> s.windings().forEach(parts::feed));
    }

    Set<String> find() {
        Set<String> unfed = new LinkedHashSet<>();
        for (Panel p : b.house.panels().values()) {
            boolean fed = parts.isFed(b.at(p.name() + ".line-1")) || parts.isFed(b.at(p.name() + ".a"));
            if (!fed && isOpen(p)) {
                unfed.add(p.name());
            }
        }
        return unfed;
    }

    /** Whether something not recorded may feed it: a landing not listed, or a wire of its feed whose end is not known. */
    private boolean isOpen(Panel p) {
        if (!b.house.isComplete(p, Complete.LANDINGS)) {
            return true;
        }
        int bus = parts.of(b.at(p.name() + ".a"));
        for (Cable c : b.house.cables().values()) {
            for (Wire w : c.wires()) {
                for (int end = 0; end < 2; end++) {
                    if (b.isOpen(c, w, end) && parts.of(b.at(c.name() + "." + w.name() + "@" + (end + 1))) == bus) {
                        return true;
                    }
                }
            }
        }
        return false;
    }
}
