package org.splicebook.answer;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;

/** Checks what a question was given. */
public final class Parameters {
    private Parameters() {}

    /**
     * {@return what is wrong with it, all at once}
     *
     * @param choices the values that a parameter may have, by parameter; one that is not here may have any
     * @param house the house that is named; empty for none
     */
    public static List<Problem> wrong(
            Question question, Map<String, List<String>> choices, String house, Map<String, String> given) {
        List<Problem> problems = new ArrayList<>();
        if (house.isEmpty() != question.acrossHouses()) {
            problems.add(
                    house.isEmpty()
                            ? Problem.error(
                                    ProblemKind.MISSING,
                                    Where.field("house"),
                                    "The question " + question.id() + " is asked of one house, and none is named.",
                                    "Name the house.")
                            : Problem.error(
                                    ProblemKind.BAD_VALUE,
                                    Where.field("house"),
                                    "The question " + question.id() + " is asked of all houses.",
                                    "Leave the house out."));
        }
        List<String> known =
                question.parameters().stream().map(Question.Parameter::name).toList();
        for (String name : given.keySet()) {
            if (!known.contains(name)) {
                problems.add(Problem.error(
                        ProblemKind.UNKNOWN_KEY,
                        Where.field(name),
                        "The question " + question.id() + " has no parameter " + name + ".",
                        known.isEmpty() ? "It has none." : "It has " + String.join(", ", known) + "."));
            }
        }
        for (Question.Parameter p : question.parameters()) {
            if (p.otherwise().isEmpty() && given.getOrDefault(p.name(), "").isBlank()) {
                problems.add(Problem.error(
                        ProblemKind.MISSING,
                        Where.field(p.name()),
                        "The question " + question.id() + " needs " + p.name() + ".",
                        "Give " + p.name() + ": " + p.meaning() + "."));
            }
        }
        filled(question, given).forEach((name, value) -> {
            List<String> choice = choices.getOrDefault(name, List.of());
            if (!choice.isEmpty() && !value.isEmpty() && !choice.contains(value)) {
                problems.add(Problem.error(
                        ProblemKind.BAD_VALUE,
                        Where.field(name),
                        "The parameter " + name + " is \"" + value + "\".",
                        "It is one of " + String.join(", ", choice) + "."));
            }
        });
        return problems;
    }

    /** {@return the parameters with defaults filled in, in the order of the question} */
    public static Map<String, String> filled(Question question, Map<String, String> given) {
        return question.parameters().stream()
                .collect(Collectors.toMap(
                        Question.Parameter::name,
                        p -> {
                            String value = given.getOrDefault(p.name(), "").strip();
                            return value.isEmpty() ? p.otherwise() : value;
                        },
                        (a, b) -> a,
                        LinkedHashMap::new));
    }
}
