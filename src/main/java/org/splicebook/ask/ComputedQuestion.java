package org.splicebook.ask;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.splicebook.answer.Question;
import org.splicebook.answer.Reply;

/**
 * A question that is answered by computing.
 *
 * @param question its words, parameters and columns, as a question's file states them
 * @param choices the values that a parameter may have, by parameter; one that is not here may have any
 * @param computation answers it
 */
record ComputedQuestion(Question question, Map<String, List<String>> choices, Computation computation) {
    /** Where people are told that such a question comes from. */
    static final String ORIGIN = "computed";

    /** Answers a question that is well asked: every parameter that names something names a thing of the house. */
    @FunctionalInterface
    interface Computation {
        Reply reply(Asked asked);
    }

    /** {@return an answer's beginnings: its parameters and columns are still to be told} */
    static Draft answer(String id, String words) {
        return new Draft(id, words);
    }

    /** A question that is being written down. */
    static final class Draft {
        private final String id;
        private final String words;
        private final List<Question.Parameter> parameters = new ArrayList<>();
        private final Map<String, List<String>> choices = new LinkedHashMap<>();
        private List<String> columns = List.of();

        private Draft(String id, String words) {
            this.id = id;
            this.words = words;
        }

        /** A parameter that has to be given. */
        Draft with(String name, String meaning) {
            parameters.add(new Question.Parameter(name, meaning, ""));
            return this;
        }

        /** A parameter that may be left out. */
        Draft with(String name, String meaning, String otherwise) {
            parameters.add(new Question.Parameter(name, meaning, otherwise));
            return this;
        }

        /** A parameter that is one of some words, the first of them its default. */
        Draft oneOf(String name, String meaning, String... words) {
            choices.put(name, List.of(words));
            return with(name, meaning + " [one of: " + String.join(", ", words) + "]", words[0]);
        }

        /** The columns after subject, status and basis. */
        Draft columns(String... further) {
            List<String> all = new ArrayList<>(List.of("subject", "status", "basis"));
            all.addAll(List.of(further));
            columns = all;
            return this;
        }

        ComputedQuestion by(Computation computation) {
            Question question = new Question(id, words, parameters, columns, Question.Kind.ANSWER, false, ORIGIN);
            return new ComputedQuestion(question, choices, computation);
        }
    }
}
