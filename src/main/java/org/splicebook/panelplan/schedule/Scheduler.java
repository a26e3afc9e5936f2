package org.splicebook.panelplan.schedule;

import com.google.ortools.Loader;
import com.google.ortools.sat.CpModel;
import com.google.ortools.sat.CpSolver;
import com.google.ortools.sat.CpSolverSolutionCallback;
import com.google.ortools.sat.CpSolverStatus;
import com.google.ortools.sat.LinearExpr;
import java.util.ArrayList;
import java.util.List;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.problem.Where;

/** Fills a panel: the goals one after the other, each held while the next is bettered. */
public final class Scheduler {
    /** One thread of search finds the same schedule whenever it is run to its proof. */
    private static final int THREADS = 1;

    /** Less time than this is not worth a search: what was found stands, with the bound that needs none. */
    private static final double LEAST_SECONDS = 0.05;

    /** What is given to finding a schedule at all, however long the solver took to load. */
    private static final double FIRST_SECONDS = 0.5;

    private static final double SHARE = 0.6;
    private static final double CLOSE = 1e-6;

    /** All constraints are told to the linear relaxation: covers of spaces are nearly integral by themselves. */
    private static final int LINEARIZED = 2;

    /** Told of every better schedule that is found on the way. */
    @FunctionalInterface
    public interface Progress {
        /** Nobody listens. */
        Progress NONE = (goal, value, bound) -> {};

        /** A schedule of that value by the goal that is searched for was found; none is below the bound. */
        void better(Goal goal, long value, long bound);
    }

    private final ScheduleTask task;

    private Scheduler(ScheduleTask task) {
        this.task = task;
    }

    /**
     * {@return the best schedule that is found in a time, or why there is none}
     *
     * @param seconds how long to search at most, in all; what is not proved then is told with its bound
     */
    public static Result<Schedule> solve(ScheduleTask task, double seconds, Progress progress) {
        long end = System.nanoTime() + (long) (seconds * 1e9);
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
        return new Scheduler(task).run(end, progress, poles);
    }

    private Result<Schedule> run(long end, Progress progress, int poles) {
        PanelModel panel = new PanelModel(task);
        CpModel model = panel.model();
        List<Schedule.Stage> stages = new ArrayList<>();
        List<PlacedUnit> best = List.of();
        for (Goal goal : Goal.values()) {
            LinearExpr value = panel.goal(goal);
            boolean isFirst = stages.isEmpty();
            if (!isFirst) {
                panel.hint(best);
            }
            double left = (end - System.nanoTime()) / 1e9;
            long sofar = isFirst ? Long.MAX_VALUE : task.value(goal, best);
            if (!isFirst && (sofar <= task.least(goal) || left < LEAST_SECONDS)) {
                stages.add(new Schedule.Stage(goal, sofar, Math.min(sofar, task.least(goal))));
                progress.better(goal, sofar, task.least(goal));
                model.addLessOrEqual(value, sofar);
                continue;
            }
            model.minimize(value);
            CpSolver solver = new CpSolver();
            // The first has to find a schedule at all, and is given all the time there is.
            solver.getParameters()
                    .setMaxTimeInSeconds(
                            isFirst ? Math.max(FIRST_SECONDS, left) : goal == Goal.MOVEMENT ? left : left * SHARE)
                    .setNumWorkers(THREADS)
                    // Else the solver keeps Ctrl-C for itself, and the program is aborted instead of ended.
                    .setCatchSigintSignal(false)
                    .setLinearizationLevel(LINEARIZED)
                    .setRandomSeed(1);
            CpSolverStatus status = solver.solve(model, new CpSolverSolutionCallback() {
                @Override
                public void onSolutionCallback() {
                    progress.better(goal, value(value), least(bestObjectiveBound()));
                }
            });
            boolean found = status == CpSolverStatus.OPTIMAL || status == CpSolverStatus.FEASIBLE;
            if (!found && isFirst) {
                return none(status, poles);
            }
            if (found) {
                best = panel.read(solver);
            }
            long is = task.value(goal, best);
            long bound = found ? Math.max(task.least(goal), least(solver.bestObjectiveBound())) : task.least(goal);
            stages.add(new Schedule.Stage(goal, is, Math.min(is, bound)));
            progress.better(goal, is, stages.get(stages.size() - 1).bound());
            model.clearObjective();
            model.addLessOrEqual(value, is);
        }
        return Result.ok(new Schedule(task, best, stages));
    }

    private static long least(double bound) {
        return Math.max(0, (long) Math.ceil(bound - CLOSE));
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
}
