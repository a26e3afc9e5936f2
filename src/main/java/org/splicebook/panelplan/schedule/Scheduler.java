package org.splicebook.panelplan.schedule;

import com.google.ortools.Loader;
import com.google.ortools.sat.BoolVar;
import com.google.ortools.sat.CpModel;
import com.google.ortools.sat.CpSolver;
import com.google.ortools.sat.CpSolverSolutionCallback;
import com.google.ortools.sat.CpSolverStatus;
import com.google.ortools.sat.IntVar;
import com.google.ortools.sat.LinearExpr;
import com.google.ortools.sat.LinearExprBuilder;
import com.google.ortools.sat.Literal;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.problem.Where;

/** Fills a panel: the goals one after the other, each held while the next is bettered. */
public final class Scheduler {
    /** One thread of search finds the same schedule whenever it is run to its proof. */
    private static final int THREADS = 1;

    private static final double LEAST_SECONDS = 0.2;
    private static final double SHARE = 0.6;

    /** Told of every better schedule that is found on the way. */
    @FunctionalInterface
    public interface Progress {
        /** Nobody listens. */
        Progress NONE = (goal, value, bound) -> {};

        /** A schedule of that value by the goal that is searched for was found; none is below the bound. */
        void better(Goal goal, long value, long bound);
    }

    private record Choice(ScheduleTask.Option option, BoolVar taken) {}

    private final ScheduleTask task;
    private final CpModel model = new CpModel();
    private final Map<String, List<Choice>> choices = new LinkedHashMap<>();
    private final List<IntVar> free = new ArrayList<>();
    private final Map<Integer, List<Choice>> whole = new LinkedHashMap<>();
    private final Map<Integer, List<Choice>> halves = new LinkedHashMap<>();
    private final Map<Integer, BoolVar> tandems = new LinkedHashMap<>();

    private Scheduler(ScheduleTask task) {
        this.task = task;
    }

    /**
     * {@return the best schedule that is found in a time, or why there is none}
     *
     * @param seconds how long to search at most, in all; what is not proved then is told with its bound
     */
    public static Result<Schedule> solve(ScheduleTask task, double seconds, Progress progress) {
        List<Problem> problems = new ArrayList<>();
        for (Unit u : task.units()) {
            if (task.options(u).isEmpty()) {
                problems.add(Problem.error(
                        ProblemKind.CONFLICT,
                        Where.field(u.name()),
                        u.locked() == null
                                ? "No place of the panel takes " + u.name() + "."
                                : u.name() + " cannot be locked in " + u.locked() + ".",
                        "Spaces run from 1 to " + task.frame().spaces()
                                + "; two poles take two under each other in one column, as 5+7; kept ones stay free."));
            }
        }
        int poles = task.units().stream().mapToInt(u -> u.poles().size()).sum();
        if (poles > task.frame().mostCircuits()) {
            problems.add(Problem.error(
                    ProblemKind.CONFLICT,
                    Where.field("panel"),
                    poles + " poles are wanted; the panel's label allows "
                            + task.frame().mostCircuits() + ".",
                    "Choose a larger panel, or put a panel beside it."));
        }
        if (!problems.isEmpty()) {
            return new Result.Failed<>(problems);
        }
        Loader.loadNativeLibraries();
        return new Scheduler(task).run(seconds, progress, poles);
    }

    private Result<Schedule> run(double seconds, Progress progress, int poles) {
        place();
        Map<Goal, LinearExpr> goals = goals();
        long end = System.nanoTime() + (long) (seconds * 1e9);
        List<Schedule.Stage> stages = new ArrayList<>();
        List<PlacedUnit> best = List.of();
        for (Goal goal : Goal.values()) {
            LinearExpr value = Objects.requireNonNull(goals.get(goal));
            double left = Math.max(LEAST_SECONDS, (end - System.nanoTime()) / 1e9);
            boolean isLast = goal == Goal.MOVEMENT;
            boolean isFirst = stages.isEmpty();
            model.minimize(value);
            CpSolver solver = new CpSolver();
            // The first has to find a schedule at all, and is given all the time there is.
            solver.getParameters()
                    .setMaxTimeInSeconds(isLast || isFirst ? left : left * SHARE)
                    .setNumWorkers(THREADS)
                    .setRandomSeed(1);
            CpSolverStatus status = solver.solve(model, new CpSolverSolutionCallback() {
                @Override
                public void onSolutionCallback() {
                    progress.better(goal, value(value), 0);
                }
            });
            boolean found = status == CpSolverStatus.OPTIMAL || status == CpSolverStatus.FEASIBLE;
            if (!found && isFirst) {
                return none(status, poles);
            }
            if (found) {
                best = read(solver);
            }
            long is = task.value(goal, best);
            long bound = found ? Math.max(0, Math.min(is, (long) Math.ceil(solver.bestObjectiveBound() - 1e-6))) : 0;
            stages.add(new Schedule.Stage(goal, is, bound));
            progress.better(goal, is, bound);
            model.clearObjective();
            model.addLessOrEqual(value, is);
            hint(best);
        }
        return Result.ok(new Schedule(task, best, stages));
    }

    private Result<Schedule> none(CpSolverStatus status, int poles) {
        boolean isShown = status == CpSolverStatus.INFEASIBLE;
        return Result.failed(Problem.error(
                ProblemKind.CONFLICT,
                Where.field("panel"),
                (isShown ? "It cannot be done: " : "No schedule was found in that time: ")
                        + poles + " poles, of them "
                        + task.units().stream()
                                .filter(u -> u.poles().size() > 1)
                                .count()
                        + " breakers of two poles and more, in "
                        + task.frame().usable().size() + " spaces, "
                        + task.frame().tandem().size()
                        + " of which take tandems.",
                isShown
                        ? "Take a larger panel, put one beside it, or take locks away."
                        : "Give it more time, or take a larger panel."));
    }

    private void place() {
        for (Unit u : task.units()) {
            List<Choice> its = new ArrayList<>();
            for (ScheduleTask.Option o : task.options(u)) {
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
            spaceTakesOne(s);
        }
    }

    private void spaceTakesOne(int s) {
        LinearExprBuilder taken = LinearExpr.newBuilder();
        whole.getOrDefault(s, List.of()).forEach(c -> taken.add(c.taken()));
        List<Choice> here = halves.getOrDefault(s, List.of());
        if (!here.isEmpty()) {
            BoolVar tandem = model.newBoolVar("tandem" + s);
            tandems.put(s, tandem);
            taken.add(tandem);
            for (String half : List.of("a", "b")) {
                LinearExprBuilder in = LinearExpr.newBuilder();
                here.stream()
                        .filter(c -> c.option().placed().half().equals(half))
                        .forEach(c -> in.add(c.taken()));
                model.addLessOrEqual(in, tandem);
            }
        }
        BoolVar isFree = model.newBoolVar("free" + s);
        free.add(isFree);
        taken.add(isFree);
        model.addEquality(taken, 1);
    }

    private Map<Goal, LinearExpr> goals() {
        LinearExprBuilder lengthened = LinearExpr.newBuilder();
        LinearExprBuilder moved = LinearExpr.newBuilder();
        List<LinearExprBuilder> legs = new ArrayList<>();
        for (int i = 0; i < task.frame().legs(); i++) {
            legs.add(LinearExpr.newBuilder());
        }
        long most = 0;
        for (Unit u : task.units()) {
            for (Unit.Pole p : u.poles()) {
                most += ScheduleTask.steps(p);
            }
            for (Choice c : choices.getOrDefault(u.name(), List.of())) {
                lengthened.addTerm(c.taken(), c.option().lengthened());
                moved.addTerm(c.taken(), c.option().moved());
                for (int i = 0; i < u.poles().size(); i++) {
                    int leg = task.frame().leg(c.option().placed().spaces().get(i));
                    legs.get(leg)
                            .addTerm(c.taken(), ScheduleTask.steps(u.poles().get(i)));
                }
            }
        }
        LinearExprBuilder tandem = LinearExpr.newBuilder();
        tandems.values().forEach(tandem::add);
        IntVar high = model.newIntVar(0, most, "high");
        IntVar low = model.newIntVar(0, most, "low");
        legs.forEach(l -> {
            model.addLessOrEqual(l, high);
            model.addGreaterOrEqual(l, low);
        });
        return Map.of(
                Goal.TANDEMS,
                tandem.build(),
                Goal.LENGTHENED,
                lengthened.build(),
                Goal.BALANCE,
                LinearExpr.newBuilder().add(high).addTerm(low, -1).build(),
                Goal.FREE_GROUPS,
                freeGroups(),
                Goal.MOVEMENT,
                moved.build());
    }

    private LinearExpr freeGroups() {
        LinearExprBuilder groups = LinearExpr.newBuilder();
        List<Integer> spaces = List.copyOf(task.frame().usable());
        for (int i = 0; i < spaces.size(); i++) {
            int above = spaces.indexOf(spaces.get(i) - 2);
            if (above < 0) {
                groups.add(free.get(i));
            } else {
                BoolVar begins = model.newBoolVar("group" + spaces.get(i));
                model.addGreaterOrEqual(
                        begins,
                        LinearExpr.newBuilder()
                                .add(free.get(i))
                                .addTerm(free.get(above), -1)
                                .build());
                groups.add(begins);
            }
        }
        // Told to the solver, since it does not see by itself that what is free lies somewhere.
        int poles = task.units().stream().mapToInt(u -> u.poles().size()).sum();
        if (spaces.size() > poles) {
            model.addGreaterOrEqual(groups, 1);
        }
        return groups.build();
    }

    private List<PlacedUnit> read(CpSolver solver) {
        return choices.values().stream()
                .map(its -> its.stream()
                        .filter(c -> solver.booleanValue(c.taken()))
                        .findFirst()
                        .orElseThrow()
                        .option()
                        .placed())
                .toList();
    }

    private void hint(List<PlacedUnit> best) {
        model.clearHints();
        choices.values()
                .forEach(its -> its.forEach(
                        c -> model.addHint(c.taken(), best.contains(c.option().placed()))));
    }
}
