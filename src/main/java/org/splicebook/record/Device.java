package org.splicebook.record;

import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * A device in a box.
 *
 * @param name its key, unique in the house
 * @param kind what it is, resolved
 * @param rating its rating, if known
 * @param tabs tab name to whether it is in; a tab not named is not known unless the joints tell
 * @param unused terminals seen to hold no wire
 * @param load what hangs on it, for example {@code water-heater}, {@code freezer}
 * @param watts nameplate power, if known
 * @param label words on it or on its plate
 * @param canopy how a luminaire covers its box: {@code domed} (room for its own wires), {@code flat}, or {@code none} where it brings
 *     no wires of its own into the box; null when not said
 * @param about basis, age, note
 */
public record Device(
        String name,
        DeviceKind kind,
        @Nullable Quantity rating,
        Map<String, Boolean> tabs,
        Set<String> unused,
        @Nullable String load,
        @Nullable Quantity watts,
        @Nullable String label,
        @Nullable String canopy,
        Provenance about) {
    /** A device of whose canopy nothing is said. */
    public Device(
            String name,
            DeviceKind kind,
            @Nullable Quantity rating,
            Map<String, Boolean> tabs,
            Set<String> unused,
            @Nullable String load,
            @Nullable Quantity watts,
            @Nullable String label,
            Provenance about) {
        this(name, kind, rating, tabs, unused, load, watts, label, null, about);
    }

    /** {@return the same device of which this is said} */
    public Device withAbout(Provenance other) {
        return new Device(name, kind, rating, tabs, unused, load, watts, label, canopy, other);
    }

    /** {@return the same device with that nameplate} */
    public Device withWatts(Quantity other) {
        return new Device(name, kind, rating, tabs, unused, load, other, label, canopy, about);
    }

    public Device {
        tabs = Ordered.map(tabs);
        unused = Ordered.set(unused);
    }
}
