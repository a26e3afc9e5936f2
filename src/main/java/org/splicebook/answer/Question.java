package org.splicebook.answer;

import java.util.List;
import java.util.Map;

/**
 * A question that can be asked, as its file states it.
 *
 * @param id the file's name without its ending
 * @param words the question in words; {@code {breaker}} stands for a parameter
 * @param parameters what has to be given
 * @param columns its columns
 * @param kind whether it is an answer (the program adds the why) or a listing
 * @param acrossHouses whether it is asked of all houses rather than one
 * @param origin where its file lies, for people
 */
public record Question(
        String id,
        String words,
        List<Parameter> parameters,
        List<String> columns,
        Kind kind,
        boolean acrossHouses,
        String origin) {
    /** Answer or listing. */
    public enum Kind {
        ANSWER,
        LISTING
    }

    /**
     * One parameter.
     *
     * @param name its name
     * @param meaning what it is, with an example
     * @param otherwise its default; empty where it has to be given
     */
    public record Parameter(String name, String meaning, String otherwise) {}

    /** {@return the question in words with these parameters in it} */
    public String said(Map<String, String> given) {
        String said = words;
        for (Map.Entry<String, String> p : given.entrySet()) {
            said = said.replace("{" + p.getKey() + "}", p.getValue());
        }
        return said;
    }

    public Question {
        parameters = List.copyOf(parameters);
        columns = List.copyOf(columns);
    }
}
