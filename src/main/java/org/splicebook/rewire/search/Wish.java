package org.splicebook.rewire.search;

import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.problem.Where;
import org.splicebook.record.Protection;

/** What a change is wanted for. */
public sealed interface Wish {
    /**
     * A finding is to go.
     *
     * @param finding its key: rule, a slash, subject
     */
    record Cure(String finding) implements Wish {
        @Override
        public String said() {
            return "cure " + finding;
        }
    }

    /** Load points are to be protected, whatever state the house is in. */
    record Protect(Protection function, List<String> points) implements Wish {
        public Protect {
            points = List.copyOf(points);
        }

        @Override
        public String said() {
            return word(function) + " protection for " + String.join(", ", points);
        }
    }

    /** {@return it in words} */
    String said();

    private static String word(Protection p) {
        return p.name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    /** {@return the wish written as {@code ground-fault=bath.top,bath.bottom}, or what is wrong with it} */
    static Result<Wish> parse(String text) {
        int eq = text.indexOf('=');
        for (Protection p : List.of(Protection.GROUND_FAULT, Protection.ARC_FAULT)) {
            if (eq > 0 && eq < text.length() - 1 && text.substring(0, eq).equals(word(p))) {
                return Result.ok(
                        new Protect(p, List.of(text.substring(eq + 1).strip().split("\\s*,\\s*"))));
            }
        }
        String known = List.of(Protection.GROUND_FAULT, Protection.ARC_FAULT).stream()
                .map(p -> word(p) + "=LOADPOINT,...")
                .collect(Collectors.joining(" or "));
        return new Result.Failed<>(List.of(Problem.error(
                ProblemKind.BAD_VALUE, Where.field("wish"), "Not a wish: " + text + ".", "Write " + known + ".")));
    }
}
