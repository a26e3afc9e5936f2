package org.splicebook.property;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.BiFunction;
import org.splicebook.answer.Heading;
import org.splicebook.answer.Nearest;
import org.splicebook.answer.Parameters;
import org.splicebook.answer.Question;
import org.splicebook.answer.Reply;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.problem.Where;
import org.splicebook.store.Revision;

/** The questions that can be asked of a property. A new one is added here. */
public final class PropertyQuestions {
    private static final String ORIGIN = "computed";
    private static final String PART = "a unit or common part";

    /** A question and what answers it. */
    private record Known(Question question, Map<String, List<String>> choices, Answering answering) {}

    /** Answers a question that is well asked. */
    interface Answering extends BiFunction<Joined, Asked, Reply> {}

    /**
     * A question as it is asked of a property.
     *
     * @param heading what was asked
     * @param parameters every parameter, defaults filled in
     */
    record Asked(Heading heading, Map<String, String> parameters) {
        String value(String parameter) {
            return parameters.getOrDefault(parameter, "");
        }
    }

    private static final Map<String, Known> ALL = all();

    private PropertyQuestions() {}

    private static Map<String, Known> all() {
        Map<String, Known> all = new LinkedHashMap<>();
        add(
                all,
                "goes-dark",
                "What changes in all units when {thing} of {part} is lost ({how})?",
                List.of("part", "place", "change"),
                Map.of("how", LossOf.HOWS),
                OutageAnswer::of,
                new Question.Parameter("part", PART + ", for example common", ""),
                new Question.Parameter(
                        "thing",
                        "a breaker, main, cable (a riser), source, joint or device of it, for example switch.1+3",
                        ""),
                new Question.Parameter("how", "how it is lost: " + String.join(", ", LossOf.HOWS), LossOf.USUAL));
        add(
                all,
                "other-meters",
                "Which load points are counted by a meter that another part pays for (parts: {part})?",
                List.of("part", "place", "meter", "paid by"),
                Map.of(),
                MeterAnswer::of,
                new Question.Parameter("part", PART, MeterAnswer.ALL));
        add(
                all,
                "neutrals-across",
                "Which load points return over another unit's wiring than they are fed from (parts: {part})?",
                List.of("part", "place", "fed from", "returns over"),
                Map.of(),
                NeutralAnswer::of,
                new Question.Parameter("part", PART, MeterAnswer.ALL));
        add(
                all,
                "against-type",
                "In what does {unit} differ from its type?",
                List.of("type", "unit"),
                Map.of(),
                TypeAnswer::of,
                new Question.Parameter("unit", "a unit that has a type, for example 14b", ""));
        add(
                all,
                "tests-due",
                "Which tests are due in all units (parts: {part}; {on}, looking {within} days ahead)?",
                List.of("part", "building", "place", "test", "last", "due", "because"),
                Map.of(),
                DueAnswer::of,
                new Question.Parameter("part", PART, MeterAnswer.ALL),
                new Question.Parameter("on", "the day that it is asked on, for example 2026-05-01", DueAnswer.TODAY),
                new Question.Parameter("within", "how many days to look ahead", "31"));
        return all;
    }

    private static void add(
            Map<String, Known> all,
            String id,
            String words,
            List<String> columns,
            Map<String, List<String>> choices,
            Answering answering,
            Question.Parameter... parameters) {
        List<String> whole = new java.util.ArrayList<>(List.of("subject", "status", "basis"));
        whole.addAll(columns);
        Question q = new Question(id, words, List.of(parameters), whole, Question.Kind.ANSWER, false, ORIGIN);
        all.put(id, new Known(q, choices, answering));
    }

    /** {@return the questions} */
    public static List<Question> list() {
        return ALL.values().stream().map(Known::question).toList();
    }

    /**
     * Asks.
     *
     * @param joined the property with its records
     * @param id the question
     * @param given its parameters
     */
    public static Result<Reply> ask(Joined joined, String id, Map<String, String> given) {
        Known known = ALL.get(id);
        if (known == null) {
            return Result.failed(Problem.error(
                    ProblemKind.NOT_FOUND,
                    Where.field("question"),
                    "There is no question " + id + " of a property.",
                    Nearest.cure(id, ALL.keySet())));
        }
        Question question = known.question();
        List<Problem> wrong =
                Parameters.wrong(question, known.choices(), joined.property().id(), given);
        if (!wrong.isEmpty()) {
            return new Result.Failed<>(wrong);
        }
        Map<String, String> all = Parameters.filled(question, given);
        Revision r = joined.stored().revision();
        Heading heading = new Heading(id, question.said(all), r.house(), r.name(), r.number(), r.stored(), all, false);
        try {
            return Result.ok(known.answering().apply(joined, new Asked(heading, all)));
        } catch (ProblemException e) {
            return new Result.Failed<>(e.problems());
        }
    }

    /** {@return the name of a part that a parameter gives} */
    static String part(Joined joined, Asked asked, String parameter) {
        String name = asked.value(parameter);
        if (!joined.property().parts().containsKey(name)) {
            throw new ProblemException(Problem.error(
                    ProblemKind.NOT_FOUND,
                    Where.field(parameter),
                    "The property " + joined.property().id() + " has no unit or common part " + name + ".",
                    Nearest.cure(name, joined.property().parts().keySet())));
        }
        return name;
    }
}
