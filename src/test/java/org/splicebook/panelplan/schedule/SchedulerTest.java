package org.splicebook.panelplan.schedule;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Set;
import java.util.stream.IntStream;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.splicebook.panelplan.upgrade.Wanted;
import org.splicebook.problem.Result;

/** Every schedule is lawful by an independent look, and the best there is where that can be searched through. */
class SchedulerTest {
    private static final double SECONDS = 20;

    private static Unit one(String name, int va, int today) {
        return new Unit(name, List.of(new Unit.Pole(va, today, 1)), true, null, null);
    }

    private static Unit two(String name, int va, int today, int other) {
        return new Unit(name, List.of(new Unit.Pole(va, today, 1), new Unit.Pole(va, other, 1)), false, null, null);
    }

    private static final Reach FREE = new Reach(Reach.Entry.TOP, 99, 0, 0);

    @Test
    void partnersThatShareANeutralComeOnUnlikeLegs() {
        // Both were on one leg: spaces 1 and 5.
        ScheduleTask task = new ScheduleTask(new Frame(8, 2), List.of(two("pair", 1000, 1, 5)), FREE);
        PlacedUnit p =
                Scheduler.solve(task, SECONDS, Scheduler.Progress.NONE).get().of("pair");
        assertThat(task.frame().leg(p.spaces().get(0)))
                .isNotEqualTo(task.frame().leg(p.spaces().get(1)));
    }

    @Test
    void nothingMovesWhereNothingHasTo() {
        List<Unit> units = List.of(two("a", 2000, 1, 3), two("b", 2000, 2, 4), one("c", 600, 5), one("d", 600, 8));
        ScheduleTask task = new ScheduleTask(new Frame(12, 2), units, new Reach(Reach.Entry.UNKNOWN, 0, 8, 0));
        Schedule s = Scheduler.solve(task, SECONDS, Scheduler.Progress.NONE).get();
        assertThat(s.placed()).extracting(PlacedUnit::key).containsExactly("1+3", "2+4", "5", "8");
        assertThat(s.isProved()).isTrue();
    }

    @Test
    void lockedOnesStayAndKeptSpacesStayFree() {
        Unit locked = new Unit("x", List.of(new Unit.Pole(100, 1, 1)), true, null, "6");
        ScheduleTask task = new ScheduleTask(
                new Frame(6, 2, Set.of(), 6, Set.of(1, 2)), List.of(locked, one("y", 100, 2), one("z", 100, 3)), FREE);
        Schedule s = Scheduler.solve(task, SECONDS, Scheduler.Progress.NONE).get();
        assertThat(s.of("x").key()).isEqualTo("6");
        assertThat(s.placed()).flatExtracting(PlacedUnit::spaces).doesNotContain(1, 2);
    }

    @Test
    void tandemsAreTakenOnlyWhereThereIsNoRoomOtherwise() {
        List<Unit> five =
                IntStream.range(0, 5).mapToObj(i -> one("c" + i, 100, 0)).toList();
        Frame frame = new Frame(4, 2, Set.of(3, 4), 6, Set.of());
        Schedule s = Scheduler.solve(new ScheduleTask(frame, five, FREE), SECONDS, Scheduler.Progress.NONE)
                .get();
        assertThat(s.task().value(Goal.TANDEMS, s.placed())).isEqualTo(1);
        Schedule four = Scheduler.solve(
                        new ScheduleTask(frame, five.subList(0, 4), FREE), SECONDS, Scheduler.Progress.NONE)
                .get();
        assertThat(four.placed()).allMatch(p -> p.half().isEmpty());
    }

    @Test
    void saysWhyThereIsNoSchedule() {
        List<Unit> seven =
                IntStream.range(0, 7).mapToObj(i -> one("c" + i, 100, 0)).toList();
        Result<Schedule> tooMany =
                Scheduler.solve(new ScheduleTask(new Frame(6, 2), seven, FREE), SECONDS, Scheduler.Progress.NONE);
        assertThat(tooMany.problems())
                .singleElement()
                .satisfies(p -> assertThat(p.message()).contains("7 poles"));
        Unit wrong = new Unit("x", List.of(new Unit.Pole(1, 0, 1), new Unit.Pole(1, 0, 1)), false, null, "1+2");
        assertThat(Scheduler.solve(
                                new ScheduleTask(new Frame(6, 2), List.of(wrong), FREE),
                                SECONDS,
                                Scheduler.Progress.NONE)
                        .problems())
                .singleElement()
                .satisfies(p -> assertThat(p.message()).contains("cannot be locked in 1+2"));
    }

    static LongStream few() {
        return LongStream.range(0, 50);
    }

    static LongStream many() {
        return LongStream.range(1000, 1000 + Integer.getInteger("schedule.panels", 40));
    }

    @ParameterizedTest
    @MethodSource("few")
    void everyScheduleOfFewRandomPanelsIsLawful(long seed) {
        lawful(seed, 0.5);
    }

    @Tag("full")
    @ParameterizedTest
    @MethodSource("many")
    void everyScheduleOfManyRandomPanelsIsLawful(long seed) {
        lawful(seed, 1);
    }

    static LongStream large() {
        return LongStream.range(500, 508);
    }

    /** As many spaces as panels have: to the proof, by every goal. */
    @Tag("full")
    @ParameterizedTest
    @MethodSource("large")
    void aPanelOfFortyTwoSpacesIsProved(long seed) {
        ScheduleTask task = RandomTasks.of(seed, 42, 0.4 + (seed - 500) % 6 * 0.1);
        Result<Schedule> found = Scheduler.solve(task, SECONDS, Scheduler.Progress.NONE);
        if (found.isOk()) {
            assertThat(Lawful.faults(task, found.get().placed()))
                    .as("seed %d", seed)
                    .isEmpty();
            assertThat(Outside.values(task, found.get().placed()))
                    .as("seed %d", seed)
                    .isEqualTo(found.get().stages().stream()
                            .map(Schedule.Stage::value)
                            .toList());
            found.get()
                    .stages()
                    .subList(0, 4)
                    .forEach(x -> assertThat(x.isProved())
                            .as("seed %d %s", seed, x.goal())
                            .isTrue());
        }
    }

    /** As the command, the pages and the interface search: by five seconds there is a proof, or a gap that is told. */
    @Tag("full")
    @ParameterizedTest
    @MethodSource("large")
    void aSearchOfTheUsualTimeEndsWithAProofOrItsGap(long seed) {
        ScheduleTask task = RandomTasks.of(seed, 42, 0.4 + (seed - 500) % 6 * 0.1);
        long begin = System.nanoTime();
        Result<Schedule> found = Scheduler.solve(task, Wanted.SECONDS, Scheduler.Progress.NONE);
        assertThat((System.nanoTime() - begin) / 1e9).as("seed %d", seed).isLessThan(5.5);
        if (found.isOk()) {
            assertThat(Lawful.faults(task, found.get().placed())).isEmpty();
            assertThat(found.get().stages()).hasSize(Goal.values().length);
            assertThat(found.get().stages())
                    .as("seed %d", seed)
                    .allSatisfy(x -> assertThat(x.bound()).isBetween(task.least(x.goal()), x.value()));
        }
    }

    private static void lawful(long seed, double seconds) {
        ScheduleTask task = RandomTasks.of(seed, 4 + (int) (seed * 7 % 39), 0.4 + (seed % 6) * 0.1);
        Result<Schedule> found = Scheduler.solve(task, seconds, Scheduler.Progress.NONE);
        if (found.isOk()) {
            Schedule s = found.get();
            assertThat(Lawful.faults(task, s.placed())).as("seed %d", seed).isEmpty();
            assertThat(s.stages())
                    .as("seed %d", seed)
                    .allSatisfy(x -> assertThat(x.bound()).isLessThanOrEqualTo(x.value()));
        }
    }

    @ParameterizedTest
    @MethodSource("few")
    void theBestOfASmallPanelIsThatOfExhaustiveSearch(long seed) {
        ScheduleTask task = RandomTasks.of(seed + 7000, 3 + (int) (seed % 4), 0.4 + (seed % 7) * 0.1);
        List<Long> best = exhaustive(task);
        Result<Schedule> found = Scheduler.solve(task, SECONDS, Scheduler.Progress.NONE);
        assertThat(found.isOk()).as("seed %d", seed).isEqualTo(best != null);
        if (best != null) {
            assertThat(found.get().isProved()).as("seed %d", seed).isTrue();
            assertThat(found.get().stages().stream().map(Schedule.Stage::value).toList())
                    .as("seed %d", seed)
                    .isEqualTo(best);
            assertThat(Outside.values(task, found.get().placed()))
                    .as("seed %d", seed)
                    .isEqualTo(best);
            for (Goal g : Goal.values()) {
                assertThat(task.least(g)).as("seed %d %s", seed, g).isLessThanOrEqualTo(best.get(g.ordinal()));
            }
        }
    }

    /** Every way to put every unit anywhere, lawful or not; of the lawful ones the best values by the goals in order. */
    private static @org.jspecify.annotations.Nullable List<Long> exhaustive(ScheduleTask task) {
        List<List<Long>> all = new ArrayList<>();
        fill(task, 0, new ArrayList<>(), all);
        return all.stream()
                .min((a, b) -> Arrays.compare(
                        a.stream().mapToLong(x -> x).toArray(),
                        b.stream().mapToLong(x -> x).toArray()))
                .orElse(null);
    }

    private static void fill(ScheduleTask task, int next, List<PlacedUnit> sofar, List<List<Long>> all) {
        if (next == task.units().size()) {
            if (Lawful.faults(task, sofar).isEmpty()) {
                all.add(Outside.values(task, sofar));
            }
            return;
        }
        Unit u = task.units().get(next);
        for (int s = 1; s <= task.frame().spaces(); s++) {
            List<Integer> down = IntStream.iterate(s, x -> x + 2)
                    .limit(u.poles().size())
                    .boxed()
                    .toList();
            List<Integer> up = down.stream().sorted(Comparator.reverseOrder()).toList();
            for (String half : u.poles().size() == 1 ? List.of("", "a", "b") : List.of("")) {
                for (List<Integer> spaces : u.poles().size() == 2 ? List.of(down, up) : List.of(down)) {
                    PlacedUnit p = new PlacedUnit(u.name(), spaces, half);
                    boolean clashes = sofar.stream()
                            .anyMatch(x -> x.spaces().stream().anyMatch(spaces::contains)
                                    && (x.half().isEmpty() || x.half().equals(half) || half.isEmpty()));
                    if (!clashes) {
                        sofar.add(p);
                        fill(task, next + 1, sofar, all);
                        sofar.remove(sofar.size() - 1);
                    }
                }
            }
        }
    }

    @Test
    void tellsOfBetterOnesOnTheWay() {
        List<Goal> told = new ArrayList<>();
        ScheduleTask task = RandomTasks.of(3, 20, 0.7);
        Scheduler.solve(task, SECONDS, (goal, value, bound) -> told.add(goal)).get();
        assertThat(told).contains(Goal.values());
    }
}
