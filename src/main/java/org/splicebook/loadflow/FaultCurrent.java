package org.splicebook.loadflow;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.SourceSystem;

/**
 * What a fault without resistance draws at one place, and what clears it.
 *
 * @param at the load point, or the panel whose lugs it is at
 * @param between what touches
 * @param amperes what flows through the fault; null where the ground terminal leads nowhere
 * @param clears what is bound to open first, or may; null where nothing answers to it
 * @param outcome what comes of it
 */
public record FaultCurrent(
        String at,
        Between between,
        @Nullable Double amperes,
        @Nullable Drive clears,
        Outcome outcome) {
    /** What touches. */
    public enum Between {
        HOT_AND_GROUND,
        HOT_AND_RETURN,
        TWO_LEGS
    }

    /** What comes of a fault. */
    public enum Outcome {
        /** Something is bound to open within a few cycles. */
        AT_ONCE,
        /** Something is bound to open, but by heat: seconds or minutes. */
        BY_HEAT,
        /** It may stay. */
        MAY_STAY,
        /** No current flows, and nothing opens: metal stays live. */
        NO_WAY_BACK,
        /** At a panel's supply lugs: what the interrupting rating of what is in it must match; the utility's fuse clears it. */
        BEFORE_THE_PANEL
    }

    private static final double FEW_CYCLES = 0.1;

    /**
     * {@return faults at every load point that is live, those that may stay first}
     *
     * @throws org.splicebook.problem.ProblemException when the case names something that is not there
     */
    public static Report<FaultCurrent> atLoadPoints(LoadFlow flow, LoadCase state) {
        Solution sound = flow.solve(state).get();
        List<FaultCurrent> rows = new ArrayList<>();
        for (LoadPoint p : sound.circuit().loadPoints()) {
            LoadPoint.Pair pair = p.pairs().get(0);
            Branch load = sound.circuit().branches().get(pair.branch());
            Volts across = sound.volts(load.from(), load.to());
            if (!across.floats() && across.magnitude() > pair.volts() / 2) {
                Between between = pair.volts() > 200 ? Between.TWO_LEGS : Between.HOT_AND_RETURN;
                rows.add(fault(flow, state, p.name(), between, load.from(), load.to()));
                if (p.ground() >= 0) {
                    rows.add(toGround(flow, sound, p, load.from()));
                }
            }
        }
        rows.sort(Comparator.comparing((FaultCurrent f) ->
                        f.outcome == Outcome.NO_WAY_BACK ? 0 : f.outcome == Outcome.MAY_STAY ? 1 : 2)
                .thenComparing(f -> f.amperes == null ? 0 : f.amperes));
        return Report.on(
                sound,
                rows,
                "The fault itself has no resistance; an arc draws less and may clear later or never. Cold wires let more pass.");
    }

    /** {@return what faults at the supply lugs of each panel draw, which the interrupting ratings in it must match (110.9)} */
    public static Report<FaultCurrent> atPanels(LoadFlow flow, LoadCase state) {
        Solution sound = flow.solve(state).get();
        List<FaultCurrent> rows = new ArrayList<>();
        for (String panel : sound.circuit().house().panels().keySet()) {
            Integer lug = sound.circuit().findNode(panel + ".line-1");
            Integer other = sound.circuit().findNode(panel + ".line-2");
            Integer neutral = sound.circuit().findNode(panel + ".n");
            if (lug != null && neutral != null && isLive(sound, lug, neutral)) {
                rows.add(bare(flow, state, panel, Between.HOT_AND_RETURN, lug, neutral));
            }
            if (lug != null && other != null && isLive(sound, lug, other)) {
                rows.add(bare(flow, state, panel, Between.TWO_LEGS, lug, other));
            }
        }
        return Report.on(
                sound,
                rows,
                "The utility can tell the real figure; a larger transformer or a shorter drop makes it larger. Motors that run add to it.");
    }

    private static boolean isLive(Solution s, int a, int b) {
        Volts v = s.volts(a, b);
        return !v.floats() && v.fed() && v.magnitude() > 60;
    }

    private static FaultCurrent bare(LoadFlow flow, LoadCase state, String at, Between between, int a, int b) {
        FaultCurrent f = fault(flow, state, at, between, a, b);
        return new FaultCurrent(at, between, f.amperes, f.clears, Outcome.BEFORE_THE_PANEL);
    }

    private static FaultCurrent toGround(LoadFlow flow, Solution sound, LoadPoint p, int hot) {
        Volts v = sound.volts(hot, p.ground());
        boolean live = !v.floats() && v.magnitude() > smallestPole(sound) / 2;
        return live
                ? fault(flow, sound.state(), p.name(), Between.HOT_AND_GROUND, hot, p.ground())
                : new FaultCurrent(p.name(), Between.HOT_AND_GROUND, null, null, Outcome.NO_WAY_BACK);
    }

    private static double smallestPole(Solution s) {
        return s.circuit().sources().stream()
                .flatMap(x -> x.system().poles().stream())
                .mapToDouble(SourceSystem.Pole::volts)
                .min()
                .orElse(120);
    }

    private static FaultCurrent fault(LoadFlow flow, LoadCase state, String at, Between between, int a, int b) {
        List<String> nodes = flow.circuit().nodes();
        Solution s = flow.solve(state.fault(Fault.bolted(nodes.get(a), nodes.get(b))))
                .get();
        int touches = (int)
                state.faults().stream().filter(f -> f instanceof Fault.Touch).count();
        double amperes = s.amperes("fault-" + (touches + 1)).magnitude();
        Drive first = Trips.in(s).stream()
                .min(Comparator.comparingDouble((Drive d) -> d.time().latest())
                        .thenComparingDouble(d -> d.time().earliest()))
                .orElse(null);
        return new FaultCurrent(at, between, amperes, first, outcome(amperes, first));
    }

    private static Outcome outcome(double amperes, @Nullable Drive first) {
        if (first == null || !first.time().must()) {
            return amperes < 1e-3 ? Outcome.NO_WAY_BACK : Outcome.MAY_STAY;
        }
        return Objects.requireNonNull(first).time().latest() <= FEW_CYCLES ? Outcome.AT_ONCE : Outcome.BY_HEAT;
    }
}
