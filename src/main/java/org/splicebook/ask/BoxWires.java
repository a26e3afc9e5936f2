package org.splicebook.ask;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.Cable;
import org.splicebook.record.CableEnd;
import org.splicebook.record.House;
import org.splicebook.record.Wire;

/** The wires that a box or panel holds. */
final class BoxWires {
    private BoxWires() {}

    /** How a wire is there. */
    enum Presence {
        ENDS,
        /** Its cable runs through uncut. */
        PASSES,
        /** Its cable has an end that may be here. */
        MAY_END
    }

    /**
     * One wire in a box.
     *
     * @param name {@code K1.black}
     * @param wire what is recorded of it
     * @param cable its cable
     * @param presence how it is there
     */
    record Here(String name, Wire wire, Cable cable, Presence presence) {
        /** {@return whether its colour is one that people take for a neutral or a ground} */
        boolean looksHarmless() {
            return List.of("white", "grey", "gray", "green", "bare").contains(wire.colour());
        }
    }

    /** {@return the wires in a box, cable by cable; those of cables whose end nobody found are left out} */
    static List<Here> of(House house, String box) {
        List<Here> all = new ArrayList<>();
        for (Cable c : house.cables().values()) {
            Presence presence = presence(c, box);
            if (presence != null) {
                c.wires().forEach(w -> all.add(new Here(c.name() + "." + w.name(), w, c, presence)));
            }
        }
        return all;
    }

    private static @Nullable Presence presence(Cable c, String box) {
        if (c.ends().stream().anyMatch(e -> box.equals(e.boxOrNull()))) {
            return Presence.ENDS;
        }
        if (c.through().contains(box)) {
            return Presence.PASSES;
        }
        boolean may = c.ends().stream()
                .anyMatch(e -> e instanceof CableEnd.OneOf o && o.boxes().contains(box));
        return may ? Presence.MAY_END : null;
    }
}
