package org.splicebook.rules.fill;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.Box;
import org.splicebook.record.BoxPart;
import org.splicebook.record.Quantity;
import org.splicebook.record.StandardBox;
import org.splicebook.record.Unit;

/**
 * The room there is in a box (NEC 314.16(A)).
 *
 * @param lines the volume of each part in words
 * @param room the room; null where the box's own volume is not known
 * @param notKnown what is not known of it
 */
record Capacity(List<String> lines, @Nullable Room room, List<String> notKnown) {
    /** {@return a volume in cubic inches} */
    static double inches(Quantity volume) {
        return volume.unit() == Unit.CUBIC_INCH
                ? volume.value().doubleValue()
                : volume.base() / Unit.CUBIC_INCH.toBase(1);
    }

    static Capacity of(Box.@Nullable Shell shell, int gangsNeeded) {
        List<String> lines = new ArrayList<>();
        List<String> notKnown = new ArrayList<>();
        if (shell == null || (shell.volume() == null && shell.size() == null)) {
            notKnown.add("The volume of the box: read the mark inside, or measure it and give its standard size.");
            return new Capacity(lines, null, notKnown);
        }
        Room room = own(shell, gangsNeeded, lines, notKnown);
        for (BoxPart p : shell.parts()) {
            switch (p.kind()) {
                case EXTENSION_RING, PLASTER_RING, RAISED_COVER -> room = room.plus(added(p, lines, notKnown));
                case BARRIER -> room = less(room, barrier(p, lines, notKnown));
                default -> {}
            }
        }
        return new Capacity(lines, room, notKnown);
    }

    private static Room own(Box.Shell shell, int gangsNeeded, List<String> lines, List<String> notKnown) {
        if (shell.volume() != null) {
            double marked = inches(shell.volume());
            lines.add("box, marked: " + Room.inches(marked));
            return Room.of(marked);
        }
        StandardBox size = java.util.Objects.requireNonNull(shell.size());
        double one = inches(size.volume());
        if (!size.perGang()) {
            lines.add("box, " + size.title() + ": " + Room.inches(one));
            return Room.of(one);
        }
        if (shell.gangs() == null && gangsNeeded > 1) {
            notKnown.add("How many gangs the box has: it holds " + gangsNeeded + " gangs of devices.");
            lines.add("box, " + size.title() + ": at least " + Room.inches(one));
            return new Room(one, null);
        }
        int gangs = shell.gangs() == null ? 1 : shell.gangs();
        lines.add("box, " + size.title() + (gangs == 1 ? ": " : ", " + gangs + " gangs: ") + Room.inches(gangs * one));
        return Room.of(gangs * one);
    }

    private static Room added(BoxPart p, List<String> lines, List<String> notKnown) {
        String what = p.kind().name().toLowerCase(Locale.ROOT).replace('_', ' ');
        Quantity volume = p.volume() != null
                ? p.volume()
                : p.size() == null ? null : p.size().volume();
        if (volume == null) {
            notKnown.add("The volume of the " + what + ": without a mark it adds nothing.");
            lines.add(what + ", mark not known: 0 or more");
            return Room.NONE.unbounded();
        }
        lines.add(what + (p.volume() != null ? ", marked: " : ": ") + Room.inches(inches(volume)));
        return Room.of(inches(volume));
    }

    private static Room barrier(BoxPart p, List<String> lines, List<String> notKnown) {
        Double unmarked = p.material() == null
                ? null
                : FillTables.BARRIERS.get(p.material().equals("plastic") ? "plastic" : "metal");
        Double inches = p.volume() == null ? unmarked : Double.valueOf(inches(p.volume()));
        if (inches == null) {
            notKnown.add("What the barrier is made of, or its mark.");
        }
        Room takes = inches == null
                ? new Room(
                        java.util.Collections.min(FillTables.BARRIERS.values()),
                        java.util.Collections.max(FillTables.BARRIERS.values()))
                : Room.of(inches);
        lines.add("barrier: less " + takes.said());
        return takes;
    }

    private static Room less(Room room, Room taken) {
        double most = java.util.Objects.requireNonNull(taken.most());
        return new Room(room.least() - most, room.most() == null ? null : room.most() - taken.least());
    }
}
