package org.splicebook.record;

import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * A box, or a spot in the open air where wires are joined.
 *
 * @param name its key
 * @param place where it is
 * @param shell what it is made of and its volume; null when not said
 * @param cableEntries how many cables were counted entering, if someone counted
 * @param hidden whether it is buried behind a finish
 * @param devices by key
 * @param joints what touches what
 * @param complete what is wholly listed; null takes the house's default
 * @param about basis, age, note
 */
public record Box(
        String name,
        @Nullable String place,
        @Nullable Shell shell,
        @Nullable Integer cableEntries,
        boolean hidden,
        Map<String, Device> devices,
        List<Joint> joints,
        @Nullable Set<Complete> complete,
        Provenance about) {
    /**
     * The box itself.
     *
     * @param material {@code steel}, {@code plastic}, {@code none} (in the open air), ...
     * @param volume marked volume; it goes before that of the standard size
     * @param clamps {@code inside}, {@code outside}, {@code none}
     * @param depth how far its edge lies behind the finished surface
     * @param size its standard size; null when not known or when it has none
     * @param gangs how many gangs wide it is; null when not said
     * @param parts rings, covers, barriers and what else counts for the room in it
     * @param note free words
     */
    public record Shell(
            String material,
            @Nullable Quantity volume,
            @Nullable String clamps,
            @Nullable Quantity depth,
            @Nullable StandardBox size,
            @Nullable Integer gangs,
            List<BoxPart> parts,
            @Nullable String note) {
        public Shell {
            parts = List.copyOf(parts);
        }

        /** A shell of no standard size, without parts and note. */
        public Shell(String material, @Nullable Quantity volume, @Nullable String clamps, @Nullable Quantity depth) {
            this(material, volume, clamps, depth, null, null, List.of(), null);
        }
    }

    public Box {
        devices = Ordered.map(devices);
        joints = List.copyOf(joints);
        complete = complete == null ? null : Ordered.set(complete);
    }

    /** {@return the same box with these devices} */
    public Box withDevices(Map<String, Device> others) {
        return new Box(name, place, shell, cableEntries, hidden, others, joints, complete, about);
    }

    /** {@return the same box of which this is said} */
    public Box withAbout(Provenance other) {
        return new Box(name, place, shell, cableEntries, hidden, devices, joints, complete, other);
    }

    /** {@return the same box with these joints, and this said of what is wholly listed} */
    public Box withJoints(List<Joint> others, @Nullable Set<Complete> listed) {
        return new Box(name, place, shell, cableEntries, hidden, devices, others, listed, about);
    }
}
