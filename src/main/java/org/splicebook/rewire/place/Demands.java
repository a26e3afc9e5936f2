package org.splicebook.rewire.place;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.splicebook.answer.Nearest;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.problem.Where;
import org.splicebook.record.Protection;
import org.splicebook.rewire.search.Protecting;
import org.splicebook.rules.AsksProtection;
import org.splicebook.rules.Certainty;
import org.splicebook.rules.Checked;
import org.splicebook.rules.Finding;
import org.splicebook.rules.Pack;
import org.splicebook.wiring.LoadPointWiring;
import org.splicebook.wiring.Sureness;
import org.splicebook.wiring.Wiring;

/**
 * What has to be covered: the load points that are named, or those that a check finds without protection that they ask for.
 *
 * @param all each load point once for each function
 * @param asked findings that only ask, left out
 */
record Demands(List<Demand> all, List<Finding> asked) {
    /** {@return what is to be covered, or which named load points there are not} */
    static Result<Demands> of(Protecting protecting, Pack pack, Wanted wanted) {
        Map<String, LoadPointWiring> points = new LinkedHashMap<>();
        protecting.wiring().loadPoints().forEach(l -> points.put(l.id(), l));
        List<Problem> problems = new ArrayList<>();
        for (String p : wanted.points()) {
            if (!points.containsKey(p)) {
                problems.add(Problem.error(
                        ProblemKind.NOT_FOUND,
                        Where.field("points"),
                        "There is no load point " + p + ".",
                        Nearest.cure(p, points.keySet())));
            }
        }
        if (wanted.functions().isEmpty() || !Wanted.FUNCTIONS.containsAll(wanted.functions())) {
            problems.add(Problem.error(
                    ProblemKind.MISSING,
                    Where.field("against"),
                    "It is not said against what.",
                    "Say ground-fault, arc-fault, or both."));
        }
        if (!problems.isEmpty()) {
            return new Result.Failed<>(problems);
        }
        return Result.ok(
                wanted.points().isEmpty()
                        ? found(protecting, pack, wanted, points)
                        : new Demands(named(protecting.wiring(), wanted, points), List.of()));
    }

    private static List<Demand> named(Wiring wiring, Wanted wanted, Map<String, LoadPointWiring> points) {
        List<Demand> all = new ArrayList<>();
        for (Protection function : Wanted.FUNCTIONS) {
            for (String p : wanted.points()) {
                LoadPointWiring l = Objects.requireNonNull(points.get(p));
                if (wanted.functions().contains(function) && !has(l, function)) {
                    all.add(new Demand(function, p, "It is wished for.", isBare(wiring, l, function)));
                }
            }
        }
        return List.copyOf(all);
    }

    private static Demands found(Protecting protecting, Pack pack, Wanted wanted, Map<String, LoadPointWiring> points) {
        Map<String, Demand> all = new LinkedHashMap<>();
        List<Finding> asked = new ArrayList<>();
        for (Finding f : Checked.of(protecting.wiring(), pack).open()) {
            Protection function = AsksProtection.of(f);
            if (function == null || !wanted.functions().contains(function)) {
                continue;
            }
            if (f.certainty() == Certainty.ASKED && !wanted.alsoAsked()) {
                asked.add(f);
                continue;
            }
            String article = f.article().isEmpty() ? "" : ", " + f.article();
            for (String p : f.outlets()) {
                LoadPointWiring l = points.get(p);
                if (l != null && !has(l, function)) {
                    all.putIfAbsent(
                            function + " " + p,
                            new Demand(function, p, f.title() + article + ".", f.certainty() == Certainty.FOUND));
                }
            }
        }
        return new Demands(List.copyOf(all.values()), List.copyOf(asked));
    }

    private static boolean has(LoadPointWiring l, Protection function) {
        return l.protections().stream().anyMatch(p -> p.function() == function && p.sureness() == Sureness.MUST);
    }

    /** Whether it has none for certain: all of its way is known, and none is on it. */
    private static boolean isBare(Wiring wiring, LoadPointWiring l, Protection function) {
        boolean isOpen =
                wiring.openRegions().stream().anyMatch(o -> o.loadPoints().contains(l.id()));
        return !isOpen
                && l.feeds().stream().anyMatch(f -> f.sureness() != Sureness.MAY)
                && l.protections().stream().noneMatch(p -> p.function() == function);
    }
}
