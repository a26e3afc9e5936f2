package org.splicebook.panelplan.schedule;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/** What a schedule comes to by each goal, counted anew from what the goals mean. */
final class Outside {
    private Outside() {}

    static List<Long> values(ScheduleTask task, List<PlacedUnit> placed) {
        Map<String, Unit> units = new HashMap<>();
        task.units().forEach(u -> units.put(u.name(), u));
        Set<Integer> tandems = new HashSet<>();
        Set<Integer> free = new HashSet<>();
        for (int s = 1; s <= task.frame().spaces(); s++) {
            free.add(s);
        }
        free.removeAll(task.frame().kept());
        long lengthened = 0;
        long moved = 0;
        List<Long> legs = new ArrayList<>();
        for (int i = 0; i < task.frame().legs(); i++) {
            legs.add(0L);
        }
        for (PlacedUnit p : placed) {
            Unit u = units.get(p.unit());
            if (!p.half().isEmpty()) {
                tandems.addAll(p.spaces());
            }
            free.removeAll(p.spaces());
            for (int i = 0; i < u.poles().size(); i++) {
                Unit.Pole pole = u.poles().get(i);
                int s = p.spaces().get(i);
                int leg = ((s - 1) / 2) % task.frame().legs();
                legs.set(leg, legs.get(leg) + Math.round(pole.va() / 60.0));
                if (pole.today() > 0) {
                    int was = (pole.today() - 1) / 2;
                    int is = (s - 1) / 2 + task.reach().lower();
                    int side = pole.today() % 2 == s % 2 ? 0 : task.reach().across();
                    int up = was - is + side;
                    int down = is - was + side;
                    int needed = switch (task.reach().entry()) {
                        case TOP -> down;
                        case BOTTOM -> up;
                        case UNKNOWN -> Math.max(up, down);
                    };
                    lengthened += needed > task.reach().slack() ? pole.wires() : 0;
                    moved += (long) (Math.abs(is - was) + side) * pole.wires();
                }
            }
        }
        long groups = free.stream().filter(s -> !free.contains(s - 2)).count();
        long balance = legs.stream().mapToLong(x -> x).max().orElse(0)
                - legs.stream().mapToLong(x -> x).min().orElse(0);
        return List.of((long) tandems.size(), lengthened, balance, groups, moved);
    }
}
