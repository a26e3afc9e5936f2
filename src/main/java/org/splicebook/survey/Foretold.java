package org.splicebook.survey;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeSet;

/** What a house with a fault in it shows otherwise than without, in words. */
final class Foretold {
    private static final int MOST = 8;

    private Foretold() {}

    /** {@return one line for each way to be otherwise: dead, dim, bright, other volts, tripped} */
    static List<String> lines(Seen with, Seen sound) {
        Map<String, List<String>> by = new LinkedHashMap<>();
        List<String> volts = new ArrayList<>();
        for (String name : with.names()) {
            Seen.AtPoint now = with.at(name);
            Seen.AtPoint before = sound.at(name);
            if (now.level() != before.level()) {
                by.computeIfAbsent(word(now.level()), k -> new ArrayList<>()).add(name);
            } else if (now.differs(before)) {
                volts.add(name + " " + now.said());
            }
        }
        List<String> lines = new ArrayList<>();
        by.forEach((word, names) -> lines.add(word + ": " + some(names)));
        if (!volts.isEmpty()) {
            lines.add("other readings: " + volts.get(0)
                    + (volts.size() == 1 ? "" : ", and at " + (volts.size() - 1) + " more"));
        }
        TreeSet<String> tripped = new TreeSet<>(with.tripped());
        tripped.removeAll(sound.tripped());
        if (!tripped.isEmpty()) {
            lines.add("tripped or off: " + some(List.copyOf(tripped)));
        }
        return lines;
    }

    private static String word(Symptom.Level level) {
        return level == Symptom.Level.LIVE ? "live" : level.name().toLowerCase(Locale.ROOT);
    }

    /** {@return the first few of them, and how many more there are} */
    static String some(List<String> names) {
        return names.size() <= MOST
                ? String.join(", ", names)
                : String.join(", ", names.subList(0, MOST)) + " and " + (names.size() - MOST) + " more";
    }
}
