package org.splicebook.oracle;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import org.splicebook.oracle.Netlist.Lever;

/** The positions of the levers to go through. */
final class Positions {
    /** More than this, and the house is left out of the comparison. */
    private static final int MOST_POSITIONS = 256;

    private final Netlist net;
    private final BitSet feederLevers;

    Positions(Netlist net, BitSet feederLevers) {
        this.net = net;
        this.feederLevers = feederLevers;
    }

    /** {@return the levers that may matter to what those vertices reach: all in their parts when all conduct, and the feeders'} */
    BitSet levers(Iterable<Integer> vertices) {
        BitSet matter = (BitSet) feederLevers.clone();
        World all = World.with(net, World.ALL);
        for (int v : vertices) {
            all.flood(v).stream()
                    .mapToObj(net.vertices::get)
                    .forEach(x -> x.conditions.forEach(c -> matter.set(c.lever())));
        }
        return matter;
    }

    /** {@return every position of those levers; the others stay as they are} */
    List<World> of(BitSet matter) {
        List<World> out = new ArrayList<>();
        int[] start = new int[net.levers.size()];
        spread(start, matter.stream().toArray(), 0, out);
        return out;
    }

    private void spread(int[] position, int[] matter, int at, List<World> out) {
        if (at == matter.length) {
            out.add(new World(net, position.clone(), new BitSet()));
            if (out.size() > MOST_POSITIONS) {
                throw new World.TooMany("positions");
            }
            return;
        }
        Lever l = net.levers.get(matter[at]);
        for (int i = 0; i < l.positions().size(); i++) {
            position[matter[at]] = i;
            spread(position, matter, at + 1, out);
        }
    }
}
