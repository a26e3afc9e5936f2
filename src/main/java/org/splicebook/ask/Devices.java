package org.splicebook.ask;

import java.util.LinkedHashMap;
import java.util.Map;
import org.splicebook.record.Box;
import org.splicebook.record.Device;
import org.splicebook.record.House;

/** Devices by name. */
final class Devices {
    private Devices() {}

    /** {@return every device with its box, by its name} */
    static Map<String, Found> all(House house) {
        Map<String, Found> all = new LinkedHashMap<>();
        house.boxes().values().forEach(b -> b.devices().values().forEach(d -> all.put(d.name(), new Found(d, b))));
        return all;
    }

    /** {@return those that have a lever} */
    static Map<String, Found> switches(House house) {
        Map<String, Found> all = all(house);
        all.values().removeIf(f -> f.device().kind().levers().isEmpty());
        return all;
    }

    /**
     * A device and where it is.
     *
     * @param device the device
     * @param box its box
     */
    record Found(Device device, Box box) {}
}
