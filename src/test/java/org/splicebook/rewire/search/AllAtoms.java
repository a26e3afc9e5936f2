package org.splicebook.rewire.search;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import org.splicebook.housefile.Kinds;
import org.splicebook.record.Box;
import org.splicebook.record.Move;

/** Every step that the search knows, everywhere in a house. */
final class AllAtoms {
    private AllAtoms() {}

    /** {@return those, and what a wish asks to put in} */
    static List<List<Move>> of(State state, Wish wish) {
        List<List<Move>> all = of(state);
        if (wish instanceof Wish.Put p) {
            all.addAll(new FaceAtoms(state, Kinds.standard()).put(p));
        }
        return all;
    }

    static List<List<Move>> of(State state) {
        List<List<Move>> all = new ArrayList<>();
        WireAtoms wires = new WireAtoms(state);
        PartAtoms parts = new PartAtoms(state, Kinds.standard());
        FaceAtoms faces = new FaceAtoms(state, Kinds.standard());
        Set<String> breakers = new TreeSet<>();
        state.house()
                .panels()
                .values()
                .forEach(p -> p.breakers().values().forEach(b -> breakers.add(p.name() + "." + b.key())));
        all.addAll(parts.breakers(breakers));
        for (Box b : state.house().boxes().values()) {
            all.addAll(parts.devices(b));
            all.addAll(faces.in(b));
            all.addAll(wires.in(b.name()));
        }
        state.house().panels().keySet().forEach(p -> all.addAll(wires.in(p)));
        return all;
    }
}
