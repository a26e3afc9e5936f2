package org.splicebook.wiring.shutoff;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.Device;
import org.splicebook.record.DeviceKind;

/** Loads that nobody may cut without a thought, gravest first; what to tell people before, and what to look after when power is back. */
public enum Care {
    LIFE(
            List.of("oxygen", "ventilator", "cpap", "dialysis", "medical", "bed", "medicine"),
            "Someone's health hangs on it. Do not switch off without their word and a backup that runs.",
            "See that it runs again, and that its backup is charged."),
    ALARM(
            List.of("smoke", "alarm", "monoxide", "security"),
            "No alarm on mains power meanwhile. Tell everyone in the house, and whoever watches it from afar.",
            "Press its test button."),
    WATER(
            List.of("sump", "ejector", "well-pump", "sewage"),
            "Water may rise while it is off. Look at the pit and the weather, and keep it short.",
            "Lift the float or run it once."),
    ENTRY(
            List.of("lift", "elevator", "gate", "door-opener"),
            "Someone may be shut in or out. Ask first, and show the release by hand.",
            "Move it once."),
    HEAT(
            List.of("furnace", "boiler", "heat-tape", "stove"),
            "No heat meanwhile. In frost keep it short.",
            "See that it lights and that its circulation runs."),
    COLD(
            List.of("freezer", "refrigerator", "fridge"),
            "Keep it shut. One short outage rather than several.",
            "See that it cools again; wait five minutes before it may restart."),
    ANIMALS(List.of("aquarium", "incubator", "terrarium"), "Ask whoever keeps the animals.", "See that it runs again."),
    MOTOR(
            List.of("heat-pump", "air-conditioner", "condensing"),
            "Set its thermostat to off first.",
            "Wait five minutes before the thermostat is set again."),
    DATA(
            List.of("computer", "server", "recorder", "router", "modem", "workplace"),
            "Save the work and shut it down first.",
            "Start it again."),
    COOKING(
            List.of("range", "oven", "kiln"),
            "Let it end what it does and cool down.",
            "Set its clock; see that nothing was left switched on."),
    CHARGING(List.of("vehicle"), "End the charging first.", "See that charging goes on.");

    private final List<String> words;
    private final String tell;
    private final String restore;

    Care(List<String> words, String tell, String restore) {
        this.words = words;
        this.tell = tell;
        this.restore = restore;
    }

    /** {@return what to tell people before it goes off} */
    public String tell() {
        return tell;
    }

    /** {@return what to do when power is back} */
    public String restore() {
        return restore;
    }

    /** {@return what a device asks for, by what it is and what is said to hang on it; null for nothing} */
    public static @Nullable Care of(Device d) {
        if (d.kind().family() == DeviceKind.Family.ALARM) {
            return ALARM;
        }
        String load = d.load() == null ? "" : d.load();
        return Arrays.stream(values())
                .filter(c -> c.words.stream()
                        .anyMatch(w -> isSaid(load, w) || isSaid(d.kind().name(), w)))
                .findFirst()
                .orElse(null);
    }

    /** {@return the gravest care that words on a label tell of; null for none} */
    public static @Nullable Care ofWords(@Nullable String label) {
        String words = label == null ? "" : label.toLowerCase(Locale.ROOT).replaceAll("[^a-z]+", "-");
        return Arrays.stream(values())
                .filter(c -> c.words.stream().anyMatch(w -> isSaid(words, w)))
                .findFirst()
                .orElse(null);
    }

    /** Whether a word is among the words of a name: {@code sump} in {@code sump-pump}, {@code bed} not in {@code embedded}. */
    private static boolean isSaid(String name, String word) {
        return ("-" + name + "-").contains("-" + word + "-");
    }
}
