package org.splicebook.rules;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.House;
import org.splicebook.record.Place;

/** How findings are put together. */
public enum Grouping {
    SEVERITY,
    PLACE,
    CIRCUIT;

    /** {@return the word for it} */
    public String word() {
        return name().toLowerCase(Locale.ROOT);
    }

    /** {@return findings by the place or circuit they are in, in the order of its names; what is in none comes last} */
    public Map<String, List<Finding>> of(House house, List<Finding> all) {
        Map<String, List<Finding>> found = new TreeMap<>();
        List<Finding> none = new ArrayList<>();
        for (Finding f : all) {
            String group = group(house, f);
            (group == null ? none : found.computeIfAbsent(group, k -> new ArrayList<>())).add(f);
        }
        Map<String, List<Finding>> ordered = new java.util.LinkedHashMap<>(found);
        if (!none.isEmpty()) {
            ordered.put(this == PLACE ? "no place said" : this == CIRCUIT ? "of no one circuit" : "", none);
        }
        return ordered;
    }

    private @Nullable String group(House house, Finding f) {
        return switch (this) {
            case SEVERITY -> f.severity().word();
            case CIRCUIT -> f.breaker();
            case PLACE -> {
                Place place = f.place() == null ? null : house.places().get(f.place());
                yield place == null || place.title() == null ? f.place() : place.title();
            }
        };
    }
}
