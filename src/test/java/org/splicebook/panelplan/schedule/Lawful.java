package org.splicebook.panelplan.schedule;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/** Looks at a schedule from outside: what of it is not lawful. Written from the rules alone, without the program's own lists of places. */
final class Lawful {
    private Lawful() {}

    static List<String> faults(ScheduleTask task, List<PlacedUnit> placed) {
        List<String> faults = new ArrayList<>();
        Map<String, Unit> units = new HashMap<>();
        task.units().forEach(u -> units.put(u.name(), u));
        Set<String> seen = new HashSet<>();
        Map<Integer, List<String>> holds = new HashMap<>();
        for (PlacedUnit p : placed) {
            Unit u = units.get(p.unit());
            if (u == null || !seen.add(p.unit())) {
                faults.add(p.unit() + " is not wanted, or twice there");
                continue;
            }
            if (p.spaces().size() != u.poles().size()) {
                faults.add(p.unit() + " has not as many spaces as poles");
            }
            List<Integer> down = p.spaces().stream().sorted().toList();
            Set<Integer> legs = new HashSet<>();
            for (int i = 0; i < down.size(); i++) {
                int s = down.get(i);
                if (s < 1 || s > task.frame().spaces() || task.frame().kept().contains(s)) {
                    faults.add(p.unit() + " is in space " + s);
                }
                if (i > 0 && s != down.get(i - 1) + 2) {
                    faults.add(p.unit() + " is not in neighbouring rows of one column: " + down);
                }
                // Legs by rows: the first row is on the first leg, and so on in turn.
                legs.add(((s - 1) / 2) % task.frame().legs());
                holds.computeIfAbsent(s, k -> new ArrayList<>()).add(p.half());
            }
            if (legs.size() != u.poles().size()) {
                faults.add(p.unit() + " has two poles on one leg");
            }
            if (!p.half().isEmpty() && (!u.mayBeHalf() || !task.frame().tandem().contains(down.get(0)))) {
                faults.add(p.unit() + " is half of a tandem where none may be");
            }
            if (u.allowed() != null && !u.allowed().contains(down.get(0))) {
                faults.add(p.unit() + " is not where it is allowed");
            }
            if (u.locked() != null && !u.locked().equals(p.key())) {
                faults.add(p.unit() + " was locked in " + u.locked() + " and is in " + p.key());
            }
        }
        holds.forEach((s, halves) -> {
            boolean ok = halves.size() == 1
                    || (halves.size() == 2 && Set.copyOf(halves).equals(Set.of("a", "b")));
            if (!ok) {
                faults.add("space " + s + " holds " + halves);
            }
        });
        if (seen.size() != units.size()) {
            faults.add("not all are placed");
        }
        if (placed.stream().mapToInt(p -> p.spaces().size()).sum()
                > task.frame().mostCircuits()) {
            faults.add("more poles than the label allows");
        }
        return faults;
    }
}
