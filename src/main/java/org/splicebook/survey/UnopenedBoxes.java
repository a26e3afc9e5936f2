package org.splicebook.survey;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.Deque;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.splicebook.record.Cable;
import org.splicebook.record.Complete;
import org.splicebook.record.House;

/**
 * A box that nobody has looked into whole and that may hold the fault.
 *
 * @param box the box
 * @param dead how many dead load points lie in it or are fed past it, by the cables recorded
 * @param live how many that work do
 */
public record UnopenedBoxes(String box, int dead, int live) {
    /**
     * {@return boxes whose joints are not known whole, the likeliest first: those that many dead points and few live ones hang on}
     *
     * @param dead the boxes of the dead load points, one for each
     * @param live those of the ones that work
     */
    public static List<UnopenedBoxes> of(House house, List<String> dead, List<String> live) {
        Map<String, Set<String>> beside = beside(house);
        List<UnopenedBoxes> all = new ArrayList<>();
        for (String box : house.boxes().keySet()) {
            if (!house.isComplete(house.boxes().get(box), Complete.JOINTS)) {
                Set<String> home = reached(house.panels().keySet(), beside, box);
                Set<String> whole = reached(house.panels().keySet(), beside, "");
                int hit = count(dead, box, home, whole);
                if (hit > 0) {
                    all.add(new UnopenedBoxes(box, hit, count(live, box, home, whole)));
                }
            }
        }
        all.sort(Comparator.comparingInt((UnopenedBoxes u) -> 2 * u.live - u.dead));
        return all;
    }

    /** What lies in the box, or has a recorded way home that ends without it. */
    private static int count(List<String> boxes, String box, Set<String> home, Set<String> whole) {
        return (int) boxes.stream()
                .filter(b -> b.equals(box) || (whole.contains(b) && !home.contains(b)))
                .count();
    }

    private static Set<String> reached(Collection<String> from, Map<String, Set<String>> beside, String without) {
        Set<String> seen = new HashSet<>(from);
        Deque<String> open = new ArrayDeque<>(from);
        while (!open.isEmpty()) {
            for (String next : beside.getOrDefault(open.remove(), Set.of())) {
                if (!next.equals(without) && seen.add(next)) {
                    open.add(next);
                }
            }
        }
        return seen;
    }

    private static Map<String, Set<String>> beside(House house) {
        Map<String, Set<String>> beside = new HashMap<>();
        for (Cable c : house.cables().values()) {
            String a = c.ends().get(0).boxOrNull();
            String b = c.ends().get(1).boxOrNull();
            if (a != null && b != null) {
                beside.computeIfAbsent(a, k -> new LinkedHashSet<>()).add(b);
                beside.computeIfAbsent(b, k -> new LinkedHashSet<>()).add(a);
            }
        }
        return beside;
    }
}
