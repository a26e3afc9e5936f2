package org.splicebook.loadflow;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** The kept case of one circuit that carries its breaker's rating, nothing else being on. */
public final class RatedCircuit {
    private RatedCircuit() {}

    /**
     * {@return a case with the loads that a breaker feeds taking its rating together, shared out evenly; empty where it feeds none or
     * its rating is not recorded}
     *
     * @param flow the house
     * @param state switch positions, faults and conditions; its loads are replaced
     * @param breaker a breaker or fuse: {@code main.2+4}
     */
    public static Optional<LoadCase> of(LoadFlow flow, LoadCase state, String breaker) {
        LoadCase nothing = new LoadCase(
                LoadCase.Base.NOTHING_ON,
                state.physics(),
                state.levers(),
                state.closed(),
                Map.of(),
                state.ohms(),
                state.sources(),
                state.faults());
        Solution s = flow.solve(nothing).get();
        Map<Integer, List<String>> byPole = fedBy(s, breaker);
        LoadCase rated = nothing;
        for (Map.Entry<Integer, List<String>> e : byPole.entrySet()) {
            Double rating =
                    Overload.rating(s.circuit().house(), s.circuit().branches().get(e.getKey()));
            if (rating == null) {
                return Optional.empty();
            }
            for (String pair : e.getValue()) {
                rated = rated.load(pair, Load.amperes(rating / e.getValue().size(), 1));
            }
        }
        return byPole.isEmpty() ? Optional.empty() : Optional.of(rated);
    }

    /** The pairs that each pole of a breaker feeds; where the breaker feeds loads across its poles, those alone, under the first. */
    private static Map<Integer, List<String>> fedBy(Solution s, String breaker) {
        Trace trace = new Trace(s);
        Map<Integer, List<String>> across = new LinkedHashMap<>();
        Map<Integer, List<String>> single = new LinkedHashMap<>();
        for (LoadPoint p : s.circuit().loadPoints()) {
            Branch load = s.circuit().branches().get(p.pairs().get(0).branch());
            Integer first = pole(s, trace.home(load.from()), breaker);
            Integer second = pole(s, trace.home(load.to()), breaker);
            if (first != null && second != null && !first.equals(second)) {
                across.computeIfAbsent(Math.min(first, second), k -> new ArrayList<>())
                        .add(load.name());
            } else if (first != null && second == null) {
                single.computeIfAbsent(first, k -> new ArrayList<>()).add(load.name());
            }
        }
        return across.isEmpty() ? single : across;
    }

    private static @Nullable Integer pole(Solution s, Trace.Home home, String breaker) {
        for (int pole : home.poles()) {
            Gate gate = Objects.requireNonNull(s.circuit().branches().get(pole).gate());
            if (gate.thing().equals(breaker)) {
                return pole;
            }
        }
        return null;
    }
}
