package org.splicebook.survey;

import java.util.HashMap;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.splicebook.record.Cable;
import org.splicebook.record.House;

/** In which boxes and panels a named part of a circuit sits. */
final class Whereabouts {
    private final House house;
    private final Map<String, String> boxOfDevice = new HashMap<>();

    Whereabouts(House house) {
        this.house = house;
        house.boxes().values().forEach(b -> b.devices().keySet().forEach(d -> boxOfDevice.put(d, b.name())));
    }

    /**
     * {@return the boxes and panels of a branch or node; empty where it is in none}
     *
     * @param name {@code bench:K1.white}, {@code K1.white}, {@code K1.white@2}, {@code dim[line,load]}, {@code main.6}
     */
    Set<String> of(String name) {
        Set<String> boxes = new TreeSet<>();
        int colon = name.indexOf(':');
        String first = name.split("[.@\\[:/]", 2)[0];
        String holder = colon > 0 ? name.substring(0, colon) : first;
        if (house.boxes().containsKey(holder) || house.panels().containsKey(holder)) {
            boxes.add(holder);
        } else if (boxOfDevice.containsKey(first)) {
            boxes.add(boxOfDevice.get(first));
        } else if (house.cables().containsKey(first)) {
            Cable c = house.cables().get(first);
            for (int i = 0; i < c.ends().size(); i++) {
                String box = c.ends().get(i).boxOrNull();
                boolean isThisEnd = !name.contains("@") || name.endsWith("@" + (i + 1));
                if (box != null && isThisEnd) {
                    boxes.add(box);
                }
            }
        }
        return boxes;
    }
}
