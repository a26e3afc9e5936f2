package org.splicebook.rules;

import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * What a pack says of a rule.
 *
 * @param id the rule's id
 * @param title the rule in a few words
 * @param severity how bad a breach is
 * @param hazard whether it is a hazard whatever the edition
 * @param since the year from which the code asked for it; null where not known
 * @param article the article in this edition; empty where no code speaks of it
 * @param mark how sure the article and its values are: empty, or in words
 * @param cure what would put it right
 * @param licensed whether the cure needs a licensed person
 * @param values what the rule goes by, by name
 * @param local whose local rules altered it and why; empty where none did
 */
public record RuleText(
        String id,
        String title,
        Severity severity,
        boolean hazard,
        @Nullable Integer since,
        String article,
        String mark,
        String cure,
        boolean licensed,
        Map<String, List<String>> values,
        String local) {
    public RuleText {
        values = Map.copyOf(values);
    }

    /** {@return a value as a list of words; empty where the pack gives none} */
    public List<String> list(String name) {
        return values.getOrDefault(name, List.of());
    }

    /** {@return whether a value is given, and is this word among others} */
    public boolean has(String name, String word) {
        return list(name).contains(word);
    }

    /**
     * {@return a value as a number}
     *
     * @throws IllegalStateException where the pack gives none
     */
    public double number(String name) {
        if (list(name).size() != 1) {
            throw new IllegalStateException("rule " + id + " needs one value " + name);
        }
        return Double.parseDouble(list(name).get(0));
    }
}
