package org.splicebook.panelplan.schedule;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Random;
import java.util.Set;

/** Random panels to be filled, from a seed. */
final class RandomTasks {
    private RandomTasks() {}

    /** {@return a panel of that many spaces, filled to about a share; it may be impossible} */
    static ScheduleTask of(long seed, int spaces, double share) {
        Random r = new Random(seed);
        int legs = r.nextInt(8) == 0 ? 3 : 2;
        Set<Integer> tandem = new HashSet<>();
        if (r.nextInt(3) == 0) {
            for (int s = spaces / 2 + 1; s <= spaces; s++) {
                tandem.add(s);
            }
        }
        Set<Integer> kept = new HashSet<>();
        if (r.nextInt(6) == 0) {
            kept.add(1 + r.nextInt(spaces));
        }
        Frame frame = new Frame(spaces, legs, tandem, spaces + tandem.size(), kept);
        int most = (int) Math.round((spaces + (r.nextInt(4) == 0 ? tandem.size() : 0)) * share);
        List<Integer> old = new ArrayList<>();
        for (int s = 1; s <= Math.max(4, spaces - 4 + r.nextInt(9)); s++) {
            old.add(s);
        }
        java.util.Collections.shuffle(old, r);
        List<Unit> units = new ArrayList<>();
        int poles = 0;
        while (poles < most) {
            int n = most - poles >= 2 && r.nextInt(3) == 0 ? 2 : 1;
            if (legs == 3 && most - poles >= 3 && r.nextInt(10) == 0) {
                n = 3;
            }
            List<Unit.Pole> its = new ArrayList<>();
            boolean isNew = r.nextInt(6) == 0;
            for (int i = 0; i < n; i++) {
                int today = isNew || old.isEmpty() ? 0 : old.remove(0);
                its.add(new Unit.Pole(r.nextInt(6000), today, r.nextInt(12) == 0 ? 2 : 1));
            }
            Set<Integer> allowed = r.nextInt(25) == 0 ? Set.of(1 + r.nextInt(spaces)) : null;
            String locked = r.nextInt(25) == 0 && n == 1 ? String.valueOf(1 + r.nextInt(spaces)) : null;
            units.add(new Unit(
                    "u" + units.size(), its, n == 1 && r.nextInt(3) > 0, allowed, allowed == null ? locked : null));
            poles += n;
        }
        Reach.Entry entry = Reach.Entry.values()[r.nextInt(3)];
        return new ScheduleTask(frame, units, new Reach(entry, r.nextInt(4), 8, r.nextInt(3) - 1));
    }
}
