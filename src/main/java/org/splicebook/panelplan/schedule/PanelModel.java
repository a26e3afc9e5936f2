package org.splicebook.panelplan.schedule;

import com.google.ortools.sat.BoolVar;
import com.google.ortools.sat.CpModel;
import com.google.ortools.sat.CpSolver;
import com.google.ortools.sat.IntVar;
import com.google.ortools.sat.LinearArgument;
import com.google.ortools.sat.LinearExpr;
import com.google.ortools.sat.LinearExprBuilder;
import com.google.ortools.sat.Literal;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeMap;
import org.splicebook.panelplan.schedule.ScheduleTask.Option;

/**
 * The filling of a panel as a constraint problem. Every space is covered once: by a unit, by a tandem, or by nothing. Ways to place a unit
 * that differ in nothing that counts are one choice here; {@link #read} tells them apart again.
 */
final class PanelModel {
    private record Choice(Option option, BoolVar taken) {}

    /** Free spaces that lie under each other, all that lie there. */
    private record Run(Set<Integer> spaces, BoolVar taken) {}

    private final ScheduleTask task;
    private final CpModel model = new CpModel();
    private final Map<String, List<Choice>> choices = new LinkedHashMap<>();
    private final Map<Integer, BoolVar> free = new TreeMap<>();
    private final Map<Integer, BoolVar> tandems = new TreeMap<>();
    private final List<Run> runs = new ArrayList<>();

    PanelModel(ScheduleTask task) {
        this.task = task;
        Map<Integer, List<Choice>> whole = new HashMap<>();
        Map<Integer, List<Choice>> halves = new HashMap<>();
        for (Unit u : task.units()) {
            List<Choice> its = new ArrayList<>();
            for (Option o : unlike(u)) {
                Choice c = new Choice(
                        o, model.newBoolVar(u.name() + "@" + o.placed().key()));
                its.add(c);
                Map<Integer, List<Choice>> where = o.placed().half().isEmpty() ? whole : halves;
                o.placed()
                        .spaces()
                        .forEach(s ->
                                where.computeIfAbsent(s, k -> new ArrayList<>()).add(c));
            }
            choices.put(u.name(), its);
            model.addExactlyOne(its.stream().map(c -> (Literal) c.taken()).toList());
        }
        for (int s : task.frame().usable()) {
            cover(s, whole.getOrDefault(s, List.of()), halves.getOrDefault(s, List.of()));
        }
        alike();
    }

    CpModel model() {
        return model;
    }

    /** The ways to place a unit, of those alike only the best: halves of one tandem, and poles turned round that carry the same. */
    private List<Option> unlike(Unit u) {
        Map<Object, Option> best = new LinkedHashMap<>();
        boolean isEven =
                u.poles().stream().mapToInt(ScheduleTask::steps).distinct().count() == 1;
        for (Option o : task.options(u)) {
            PlacedUnit p = o.placed();
            boolean isHalf = !p.half().isEmpty();
            Object key = isHalf && u.locked() == null
                    ? List.of("half", p.spaces())
                    : isEven ? List.of(p.half(), Set.copyOf(p.spaces())) : p;
            best.merge(
                    key,
                    o,
                    (a, b) -> Comparator.comparingInt(Option::lengthened)
                                            .thenComparingInt(Option::moved)
                                            .compare(a, b)
                                    <= 0
                            ? a
                            : b);
        }
        return List.copyOf(best.values());
    }

    private void cover(int s, List<Choice> whole, List<Choice> halves) {
        LinearExprBuilder taken = LinearExpr.newBuilder();
        whole.forEach(c -> taken.add(c.taken()));
        if (!halves.isEmpty()) {
            BoolVar tandem = model.newBoolVar("tandem" + s);
            tandems.put(s, tandem);
            taken.add(tandem);
            model.addLessOrEqual(
                    sum(halves), LinearExpr.newBuilder().addTerm(tandem, 2).build());
            for (String half : List.of("a", "b")) {
                List<Literal> locked = halves.stream()
                        .filter(c -> (s + half).equals(unit(c).locked()))
                        .map(c -> (Literal) c.taken())
                        .toList();
                model.addAtMostOne(locked);
            }
        }
        BoolVar isFree = model.newBoolVar("free" + s);
        free.put(s, isFree);
        taken.add(isFree);
        model.addEquality(taken, 1);
    }

    private static LinearExpr sum(List<Choice> which) {
        LinearExprBuilder sum = LinearExpr.newBuilder();
        which.forEach(c -> sum.add(c.taken()));
        return sum.build();
    }

    private Unit unit(Choice c) {
        return task.units().stream()
                .filter(u -> u.name().equals(c.option().placed().unit()))
                .findFirst()
                .orElseThrow();
    }

    /** New units that differ in nothing stand in the order of the task. */
    private void alike() {
        Map<Object, Unit> last = new HashMap<>();
        for (Unit u : task.units()) {
            if (u.locked() != null || u.poles().stream().anyMatch(p -> p.today() > 0)) {
                continue;
            }
            Object key = List.of(
                    u.poles().stream().map(ScheduleTask::steps).toList(),
                    u.mayBeHalf(),
                    u.allowed() == null ? "any" : u.allowed());
            Unit before = last.put(key, u);
            if (before != null) {
                model.addLessOrEqual(place(before), place(u));
            }
        }
    }

    private LinearExpr place(Unit u) {
        LinearExprBuilder place = LinearExpr.newBuilder();
        choices(u)
                .forEach(c -> place.addTerm(
                        c.taken(),
                        c.option().placed().spaces().stream()
                                .min(Integer::compare)
                                .orElse(0)));
        return place.build();
    }

    private List<Choice> choices(Unit u) {
        return Objects.requireNonNull(choices.get(u.name()));
    }

    /** {@return what a goal counts; what only it needs is added to the model, so each is asked for once} */
    LinearExpr goal(Goal goal) {
        return switch (goal) {
            case TANDEMS -> tandems();
            case LENGTHENED -> each(Option::lengthened);
            case BALANCE -> balance();
            case FREE_GROUPS -> freeGroups();
            case MOVEMENT -> each(Option::moved);
        };
    }

    private LinearExpr tandems() {
        LinearExprBuilder sum = LinearExpr.newBuilder();
        tandems.values().forEach(sum::add);
        LinearExpr all = sum.build();
        int poles = task.units().stream().mapToInt(u -> u.poles().size()).sum();
        // Each gives room for one pole more.
        model.addGreaterOrEqual(all, Math.max(0, poles - free.size()));
        return all;
    }

    private LinearExpr each(java.util.function.ToIntFunction<Option> of) {
        LinearExprBuilder sum = LinearExpr.newBuilder();
        choices.values().forEach(its -> its.forEach(c -> sum.addTerm(c.taken(), of.applyAsInt(c.option()))));
        return sum.build();
    }

    /** Of two legs what the lower has not the higher has, so that an odd total shows by itself that they cannot be equal. */
    private LinearExpr balance() {
        int n = task.frame().legs();
        List<LinearExprBuilder> legs = new ArrayList<>();
        for (int i = 0; i < n; i++) {
            legs.add(LinearExpr.newBuilder());
        }
        long total = 0;
        for (Unit u : task.units()) {
            total += u.poles().stream().mapToInt(ScheduleTask::steps).sum();
            for (Choice c : choices(u)) {
                for (int i = 0; i < u.poles().size(); i++) {
                    legs.get(task.frame().leg(c.option().placed().spaces().get(i)))
                            .addTerm(c.taken(), ScheduleTask.steps(u.poles().get(i)));
                }
            }
        }
        IntVar low = model.newIntVar(0, total / n, "low");
        if (n == 2) {
            LinearExpr first = legs.get(0).build();
            model.addLessOrEqual(low, first);
            model.addLessOrEqual(LinearExpr.sum(new LinearArgument[] {first, low}), total);
            return LinearExpr.newBuilder().add(total).addTerm(low, -2).build();
        }
        IntVar high = model.newIntVar((total + n - 1) / n, total, "high");
        legs.forEach(l -> {
            LinearExpr leg = l.build();
            model.addLessOrEqual(leg, high);
            model.addGreaterOrEqual(leg, low);
        });
        return LinearExpr.newBuilder().add(high).addTerm(low, -1).build();
    }

    /** Free spaces are covered by runs: what a group costs is then seen at once, however long it is. */
    private LinearExpr freeGroups() {
        Map<Integer, LinearExprBuilder> over = new HashMap<>();
        free.keySet().forEach(s -> over.put(s, LinearExpr.newBuilder()));
        LinearExprBuilder groups = LinearExpr.newBuilder();
        for (int from : free.keySet()) {
            Set<Integer> spaces = new HashSet<>();
            for (int to = from; free.containsKey(to); to += 2) {
                spaces.add(to);
                Run run = new Run(Set.copyOf(spaces), model.newBoolVar("run" + from + "-" + to));
                runs.add(run);
                groups.add(run.taken());
                run.spaces().forEach(s -> Objects.requireNonNull(over.get(s)).add(run.taken()));
            }
        }
        over.forEach((s, sum) -> model.addEquality(sum, Objects.requireNonNull(free.get(s))));
        return groups.build();
    }

    /** {@return where the units are, those that share a tandem in its two halves} */
    List<PlacedUnit> read(CpSolver solver) {
        Map<Integer, Set<String>> used = new HashMap<>();
        task.units().stream()
                .filter(u -> u.locked() != null)
                .forEach(u -> choices(u).stream()
                        .filter(c -> !c.option().placed().half().isEmpty() && solver.booleanValue(c.taken()))
                        .forEach(c -> take(used, c.option().placed())));
        List<PlacedUnit> all = new ArrayList<>();
        for (Unit u : task.units()) {
            PlacedUnit p = choices(u).stream()
                    .filter(c -> solver.booleanValue(c.taken()))
                    .findFirst()
                    .orElseThrow()
                    .option()
                    .placed();
            if (!p.half().isEmpty() && u.locked() == null) {
                Set<String> there = used.getOrDefault(p.spaces().get(0), Set.of());
                p = new PlacedUnit(p.unit(), p.spaces(), there.contains("a") ? "b" : "a");
                take(used, p);
            }
            all.add(p);
        }
        return all;
    }

    private static void take(Map<Integer, Set<String>> used, PlacedUnit p) {
        used.computeIfAbsent(p.spaces().get(0), k -> new HashSet<>()).add(p.half());
    }

    /** Lets the next search begin with what was found. */
    void hint(List<PlacedUnit> best) {
        model.clearHints();
        Set<Integer> spaces = new HashSet<>();
        Set<Integer> split = new HashSet<>();
        best.forEach(p -> {
            spaces.addAll(p.spaces());
            if (!p.half().isEmpty()) {
                split.addAll(p.spaces());
            }
        });
        for (PlacedUnit p : best) {
            Objects.requireNonNull(choices.get(p.unit())).forEach(c -> model.addHint(c.taken(), isThere(c, p)));
        }
        free.forEach((s, v) -> model.addHint(v, !spaces.contains(s)));
        tandems.forEach((s, v) -> model.addHint(v, split.contains(s)));
        runs.forEach(r -> {
            int first = r.spaces().stream().min(Integer::compare).orElse(0);
            int last = r.spaces().stream().max(Integer::compare).orElse(0);
            boolean is = r.spaces().stream().noneMatch(spaces::contains)
                    && (!free.containsKey(first - 2) || spaces.contains(first - 2))
                    && (!free.containsKey(last + 2) || spaces.contains(last + 2));
            model.addHint(r.taken(), is);
        });
    }

    private static boolean isThere(Choice c, PlacedUnit p) {
        PlacedUnit o = c.option().placed();
        return o.half().isEmpty()
                ? o.equals(p)
                : !p.half().isEmpty() && o.spaces().equals(p.spaces());
    }
}
