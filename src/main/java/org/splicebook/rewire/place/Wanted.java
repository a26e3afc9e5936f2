package org.splicebook.rewire.place;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.problem.Where;
import org.splicebook.record.Ordered;
import org.splicebook.record.Protection;

/**
 * What is to be covered.
 *
 * @param functions against what
 * @param points the load points that are to be protected; none: those that a check finds to ask for it
 * @param alsoAsked whether what a check only asks about is to be covered as if it had to be
 */
public record Wanted(Set<Protection> functions, List<String> points, boolean alsoAsked) {
    /** What may be asked for. */
    public static final List<Protection> FUNCTIONS = List.of(Protection.GROUND_FAULT, Protection.ARC_FAULT);

    public Wanted {
        functions = Ordered.set(functions);
        points = List.copyOf(points);
    }

    /** {@return what a check finds to ask for either protection} */
    public static Wanted byCheck() {
        return new Wanted(Set.copyOf(FUNCTIONS), List.of(), false);
    }

    /**
     * {@return what is wanted, in the words of commands and routes, or what is wrong with them}
     *
     * @param against {@code ground-fault}, {@code arc-fault}; none for both
     * @param points load points; none for what a check finds
     */
    public static Result<Wanted> parse(List<String> against, List<String> points, boolean alsoAsked) {
        Set<Protection> functions = EnumSet.noneOf(Protection.class);
        List<Problem> problems = new ArrayList<>();
        for (String word : against) {
            FUNCTIONS.stream()
                    .filter(f -> f.word().equals(word))
                    .findFirst()
                    .ifPresentOrElse(
                            functions::add,
                            () -> problems.add(Problem.error(
                                    ProblemKind.BAD_VALUE,
                                    Where.field("against"),
                                    word + " is nothing that is protected against here.",
                                    "Write ground-fault or arc-fault.")));
        }
        return problems.isEmpty()
                ? Result.ok(new Wanted(functions.isEmpty() ? Set.copyOf(FUNCTIONS) : functions, points, alsoAsked))
                : new Result.Failed<>(problems);
    }

    /** {@return it in words} */
    public String said() {
        String what = String.join(
                " and ",
                FUNCTIONS.stream()
                        .filter(functions::contains)
                        .map(Protection::word)
                        .toList());
        return what + " protection "
                + (points.isEmpty()
                        ? "where a check asks for it" + (alsoAsked ? ", or may" : "")
                        : "for " + String.join(", ", points));
    }
}
