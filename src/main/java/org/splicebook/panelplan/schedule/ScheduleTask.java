package org.splicebook.panelplan.schedule;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.ToIntFunction;

/**
 * What is to be placed, and in what.
 *
 * @param frame the new panel
 * @param units what goes into it; names differ
 * @param reach how far today's wires reach
 */
public record ScheduleTask(Frame frame, List<Unit> units, Reach reach) {
    /** Demand is an estimate: the legs are balanced to half an ampere at 120 V. */
    public static final int STEP_VA = 60;

    public ScheduleTask {
        units = List.copyOf(units);
    }

    /** One way to place a unit. */
    record Option(PlacedUnit placed, int lengthened, int moved) {}

    /** {@return every lawful way to place a unit by itself, halves of tandems among them} */
    List<Option> options(Unit u) {
        List<Option> all = new ArrayList<>();
        Set<Integer> usable = frame.usable();
        int n = u.poles().size();
        for (int top : usable) {
            List<Integer> spaces = new ArrayList<>();
            for (int i = 0; i < n; i++) {
                spaces.add(top + 2 * i);
            }
            if (!usable.containsAll(spaces)
                    || (u.allowed() != null && !u.allowed().contains(top))) {
                continue;
            }
            add(all, u, new PlacedUnit(u.name(), spaces, ""));
            if (n == 2) {
                add(all, u, new PlacedUnit(u.name(), List.of(top + 2, top), ""));
            }
            if (u.mayBeHalf() && frame.tandem().contains(top)) {
                add(all, u, new PlacedUnit(u.name(), spaces, "a"));
                add(all, u, new PlacedUnit(u.name(), spaces, "b"));
            }
        }
        return all;
    }

    private void add(List<Option> all, Unit u, PlacedUnit p) {
        if (u.locked() != null && !u.locked().equals(p.key())) {
            return;
        }
        int lengthened = 0;
        int moved = 0;
        for (int i = 0; i < u.poles().size(); i++) {
            Unit.Pole pole = u.poles().get(i);
            if (pole.today() > 0) {
                int to = p.spaces().get(i);
                lengthened += reach.missing(pole.today(), to) > 0 ? pole.wires() : 0;
                moved += reach.moved(pole.today(), to) * pole.wires();
            }
        }
        all.add(new Option(p, lengthened, moved));
    }

    /** {@return the demand on each leg in volt-amperes} */
    public long[] legs(List<PlacedUnit> placed) {
        Map<String, Unit> byName = new HashMap<>();
        units.forEach(u -> byName.put(u.name(), u));
        long[] legs = new long[frame.legs()];
        for (PlacedUnit p : placed) {
            Unit u = byName.get(p.unit());
            for (int i = 0; u != null && i < p.spaces().size(); i++) {
                legs[frame.leg(p.spaces().get(i))] += u.poles().get(i).va();
            }
        }
        return legs;
    }

    /** {@return a pole's demand in steps} */
    static int steps(Unit.Pole pole) {
        return Math.round(pole.va() / (float) STEP_VA);
    }

    /** {@return what a complete schedule comes to by a goal} */
    public long value(Goal goal, List<PlacedUnit> placed) {
        return switch (goal) {
            case TANDEMS ->
                placed.stream()
                        .filter(p -> !p.half().isEmpty())
                        .map(p -> p.spaces().get(0))
                        .distinct()
                        .count();
            case LENGTHENED ->
                placed.stream().mapToLong(p -> option(p).lengthened()).sum();
            case BALANCE -> balance(placed);
            case FREE_GROUPS -> freeGroups(placed);
            case MOVEMENT -> placed.stream().mapToLong(p -> option(p).moved()).sum();
        };
    }

    /** {@return what no schedule goes below by a goal, as far as each unit by itself and a count tell} */
    public long least(Goal goal) {
        int poles = units.stream().mapToInt(u -> u.poles().size()).sum();
        int room = frame.usable().size();
        return switch (goal) {
            case TANDEMS -> Math.max(0, poles - room);
            case LENGTHENED -> each(Option::lengthened);
            case BALANCE -> frame.legs() == 2 ? steps() % 2 : 0;
            case FREE_GROUPS -> room > poles ? 1 : 0;
            case MOVEMENT -> each(Option::moved);
        };
    }

    private long each(ToIntFunction<Option> of) {
        return units.stream()
                .mapToLong(u -> options(u).stream().mapToInt(of).min().orElse(0))
                .sum();
    }

    private long steps() {
        return units.stream()
                .flatMap(u -> u.poles().stream())
                .mapToLong(ScheduleTask::steps)
                .sum();
    }

    private Option option(PlacedUnit p) {
        return units.stream()
                .filter(u -> u.name().equals(p.unit()))
                .flatMap(u -> options(u).stream())
                .filter(o -> o.placed().equals(p))
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException("no such place: " + p));
    }

    private long balance(List<PlacedUnit> placed) {
        long[] legs = new long[frame.legs()];
        for (PlacedUnit p : placed) {
            Unit u = units.stream()
                    .filter(x -> x.name().equals(p.unit()))
                    .findFirst()
                    .orElseThrow();
            for (int i = 0; i < p.spaces().size(); i++) {
                legs[frame.leg(p.spaces().get(i))] += steps(u.poles().get(i));
            }
        }
        return Arrays.stream(legs).max().orElse(0) - Arrays.stream(legs).min().orElse(0);
    }

    private long freeGroups(List<PlacedUnit> placed) {
        Set<Integer> free = new TreeSet<>(frame.usable());
        placed.forEach(p -> p.spaces().forEach(free::remove));
        return free.stream().filter(s -> !free.contains(s - 2)).count();
    }
}
