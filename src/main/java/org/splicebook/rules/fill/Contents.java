package org.splicebook.rules.fill;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What is in a box, as far as it counts.
 *
 * @param wires wires that are no grounds
 * @param grounds grounding and bonding wires that enter
 * @param yokes devices on a yoke
 * @param clamps whether there are clamps inside; null: nobody said
 * @param fittings the kinds of fixture fittings in it: stud, hickey
 * @param blocks terminal blocks
 * @param leads luminaires and the like with wires of their own
 * @param mayHoldMore whether cables that are not recorded may enter
 */
record Contents(
        List<Wire> wires,
        List<Wire> grounds,
        List<Yoke> yokes,
        @Nullable Boolean clamps,
        List<String> fittings,
        List<Block> blocks,
        List<Leads> leads,
        boolean mayHoldMore) {
    /**
     * A wire.
     *
     * @param name its name with its cable's
     * @param size as written; null when not known
     * @param fewest how often it counts at least: 0 where it may end elsewhere
     * @param most how often it counts at most: 2 where it may lie in a long loop
     */
    record Wire(String name, @Nullable String size, int fewest, int most) {
        Room room() {
            return Sizes.of(size);
        }
    }

    /** A device on a yoke: the room of the largest wire on it, and how many gangs it takes at least and at most. */
    record Yoke(String device, Room wire, double fewestGangs, double mostGangs) {}

    /** A terminal block: the room of the largest wire on it. */
    record Block(Room wire) {}

    /** A luminaire or the like: how many wires of its own count at least and at most. */
    record Leads(String device, int fewest, int most) {}

    Contents {
        wires = List.copyOf(wires);
        grounds = List.copyOf(grounds);
        yokes = List.copyOf(yokes);
        fittings = List.copyOf(fittings);
        blocks = List.copyOf(blocks);
        leads = List.copyOf(leads);
    }

    /** {@return the room of the largest wire in the box; none where no wire is recorded} */
    Room largest() {
        Room largest = largest(wires).max(largest(grounds));
        return mayHoldMore ? largest.unbounded() : largest;
    }

    /** {@return the room of the largest of some wires} */
    static Room largest(List<Wire> some) {
        Room largest = Room.NONE;
        for (Wire w : some) {
            largest =
                    largest.max(w.fewest() > 0 ? w.room() : new Room(0, w.room().most()));
        }
        return largest;
    }

    /** {@return this and something more} */
    Contents with(FillTables.Extra extra) {
        List<Wire> moreWires = new ArrayList<>(wires);
        List<Wire> moreGrounds = new ArrayList<>(grounds);
        List<Yoke> moreYokes = new ArrayList<>(yokes);
        Wire wire = new Wire(extra.say(), extra.size(), 1, 1);
        for (int i = 0; i < extra.wires(); i++) {
            moreWires.add(wire);
        }
        for (int i = 0; i < extra.grounds(); i++) {
            moreGrounds.add(wire);
        }
        if (extra.gangs() > 0) {
            moreYokes.add(new Yoke(extra.say(), wire.room(), extra.gangs(), extra.gangs()));
        }
        return new Contents(moreWires, moreGrounds, moreYokes, clamps, fittings, blocks, leads, mayHoldMore);
    }
}
