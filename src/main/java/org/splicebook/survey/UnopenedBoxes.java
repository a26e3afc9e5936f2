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
 * @param beside how many dead ones besides may be fed past it, though the cables lead round it too
 */
public record UnopenedBoxes(String box, int dead, int live, int beside) {
    /** What a way past a box counts beside one that has to lead through it. */
    private static final double ROUND = 0.25;

    /**
     * {@return boxes whose joints are not known whole, the likeliest first: those that most dead points hang on, and of
     *     these those that fewest live ones do; what lives beyond a box speaks little against it, since its joints are many}
     *
     * @param dead the boxes of the dead load points, one for each
     * @param live those of the ones that work
     */
    public static List<UnopenedBoxes> of(House house, List<String> dead, List<String> live) {
        Map<String, Set<String>> beside = beside(house);
        Set<String> whole = reached(house.panels().keySet(), beside, "");
        List<UnopenedBoxes> all = new ArrayList<>();
        for (String box : house.boxes().keySet()) {
            if (!house.isComplete(house.boxes().get(box), Complete.JOINTS)) {
                Set<String> home = reached(house.panels().keySet(), beside, box);
                int hit = count(dead, box, home, whole);
                int near = near(house, dead, box, beside) - hit;
                if (hit > 0 || near > 0) {
                    all.add(new UnopenedBoxes(box, hit, count(live, box, home, whole), Math.max(0, near)));
                }
            }
        }
        all.sort(Comparator.comparingDouble((UnopenedBoxes u) -> -u.dead - ROUND * u.beside)
                .thenComparingInt(UnopenedBoxes::live));
        return all;
    }

    /** How many of the boxes hang together with this one by cables that pass no panel. */
    private static int near(House house, List<String> boxes, String box, Map<String, Set<String>> beside) {
        Map<String, Set<String>> apart = new HashMap<>(beside);
        apart.keySet().removeAll(house.panels().keySet());
        Set<String> together = reached(List.of(box), apart, "");
        return (int) boxes.stream().filter(together::contains).count();
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
