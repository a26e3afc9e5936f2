package org.splicebook.loadflow;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.record.OvercurrentType;

/**
 * Whether a breaker will hold with the loads of a case on, and where to plug in instead.
 *
 * @param breaker the breaker or fuse: {@code main.2+4}
 * @param poles what each of its poles carries
 * @param instead what could be plugged in elsewhere so that everything in the house holds, the breaker with most to spare first; empty
 *     when it holds as it is
 */
public record BreakerHolds(String breaker, List<Pole> poles, List<Instead> instead) {
    /**
     * One pole.
     *
     * @param pole the pole: {@code main.2}
     * @param amperes what it carries
     * @param rating its rating in amperes; null where it is not recorded
     * @param time when it opens; never where the rating is not recorded
     */
    public record Pole(
            String pole, double amperes, @Nullable Double rating, TripTime time) {
        /** {@return whether it carries more than 80 % of its rating, too much for three hours and more (210.20, 215.3)} */
        public boolean tooMuchForLong() {
            return rating != null && amperes > 0.8 * rating + 1e-9;
        }
    }

    /**
     * A load moved to another receptacle.
     *
     * @param load the load point that it is unplugged from
     * @param to the load point that it goes to
     * @param pole the pole that feeds it there
     * @param amperes what that pole then carries
     * @param rating its rating in amperes
     */
    public record Instead(String load, String to, String pole, double amperes, double rating) {}

    public BreakerHolds {
        poles = List.copyOf(poles);
        instead = List.copyOf(instead);
    }

    /** {@return whether none of its kind opens; false also where a rating is not known} */
    public boolean holds() {
        return poles.stream().allMatch(p -> p.rating != null && !p.time.may());
    }

    /**
     * {@return whether a breaker holds, named itself or by one of its poles}
     *
     * @throws ProblemException when there is no such breaker, or the case names something that is not there
     */
    public static Report<BreakerHolds> of(LoadFlow flow, LoadCase state, String name) {
        Solution s = flow.solve(state).get();
        String breaker = breaker(s, name);
        List<Pole> poles = poles(s, breaker);
        if (poles.isEmpty()) {
            throw new ProblemException(Problem.error(
                    ProblemKind.DANGLING_NAME,
                    Where.field("breaker"),
                    "There is no breaker or fuse \"" + breaker + "\".",
                    "Name it with its panel, as main.2+4."));
        }
        BreakerHolds as = new BreakerHolds(breaker, poles, List.of());
        List<Instead> instead = as.holds() ? List.of() : elsewhere(flow, s, breaker);
        return Report.on(
                s,
                List.of(new BreakerHolds(breaker, poles, instead)),
                "A breaker holds 1.05 times its rating ("
                        + TripCurves.of(OvercurrentType.BREAKER).source()
                        + "). What runs for three hours or more should stay below 80 % of it.",
                "The starting current of motors is not counted.");
    }

    /** The breaker of that name, or the one that a pole of that name belongs to. */
    private static String breaker(Solution s, String name) {
        return s.circuit().branches().stream()
                .filter(b -> Trace.isPole(b) && b.name().equals(name))
                .map(b -> Objects.requireNonNull(b.gate()).thing())
                .findFirst()
                .orElse(name);
    }

    private static List<Pole> poles(Solution s, String breaker) {
        List<Pole> poles = new ArrayList<>();
        for (int i = 0; i < s.circuit().branches().size(); i++) {
            Branch b = s.circuit().branches().get(i);
            if (Trace.isPole(b) && Objects.requireNonNull(b.gate()).thing().equals(breaker)) {
                Double rating = Overload.rating(s.circuit().house(), b);
                double amperes = s.amperes(i).magnitude();
                poles.add(new Pole(
                        b.name(), amperes, rating, Trips.time(s.circuit().house(), b, amperes)));
            }
        }
        return poles;
    }

    /** Every load in a receptacle behind the breaker, moved to one receptacle of every other pole, and the whole house solved again. */
    private static List<Instead> elsewhere(LoadFlow flow, Solution s, String breaker) {
        Trace trace = new Trace(s);
        Map<String, LoadPoint> onePerPole = new LinkedHashMap<>();
        List<LoadPoint> movable = new ArrayList<>();
        for (LoadPoint p : s.circuit().loadPoints()) {
            if (!p.receptacle() || p.pairs().size() != 1) {
                continue;
            }
            LoadPoint.Pair pair = p.pairs().get(0);
            List<Integer> from =
                    trace.home(s.circuit().branches().get(pair.branch()).from()).poles();
            if (from.size() != 1) {
                continue;
            }
            Branch pole = s.circuit().branches().get(from.get(0));
            boolean on = Loads.in(s.circuit(), s.state()).stream().anyMatch(l -> l.branch() == pair.branch());
            if (Objects.requireNonNull(pole.gate()).thing().equals(breaker)) {
                if (on) {
                    movable.add(p);
                }
            } else if (!on && pair.volts() < 200) {
                onePerPole.putIfAbsent(pole.name(), p);
            }
        }
        List<Instead> all = new ArrayList<>();
        for (LoadPoint p : movable) {
            Load load = Loads.in(s.circuit(), s.state()).stream()
                    .filter(l -> l.branch() == p.pairs().get(0).branch())
                    .findFirst()
                    .orElseThrow()
                    .load();
            onePerPole.forEach((pole, to) -> {
                if (p.pairs().get(0).volts() == to.pairs().get(0).volts()) {
                    LoadCase moved = s.state().load(p.name(), Load.OFF).load(to.name(), load);
                    Solution t = flow.solve(moved).get();
                    Branch b = t.circuit()
                            .branches()
                            .get(Objects.requireNonNull(t.circuit().findBranch(pole)));
                    Double rating = Overload.rating(t.circuit().house(), b);
                    if (rating != null && Trips.in(t).isEmpty()) {
                        all.add(new Instead(
                                p.name(), to.name(), pole, t.amperes(pole).magnitude(), rating));
                    }
                }
            });
        }
        all.sort((a, b) -> Double.compare(b.rating - b.amperes, a.rating - a.amperes));
        return all;
    }
}
