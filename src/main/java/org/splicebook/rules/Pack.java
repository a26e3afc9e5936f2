package org.splicebook.rules;

import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * The rules that a check goes by.
 *
 * @param id its id: {@code us-2023}, {@code physics}, {@code iec}
 * @param title what people call it
 * @param edition the year of its edition; null where it has none
 * @param rules what it says of each rule, by id
 * @param changes what local rules changed of it
 */
public record Pack(
        String id, String title, @Nullable Integer edition, Map<String, RuleText> rules, List<Changed> changes) {
    /**
     * What a local pack changed.
     *
     * @param rule the rule's id
     * @param what what became of it, in words
     * @param reason why
     */
    public record Changed(String rule, String what, String reason) {}

    public Pack {
        rules = Map.copyOf(rules);
        changes = List.copyOf(changes);
    }

    /** A pack as it was made, with no local changes. */
    Pack(String id, String title, @Nullable Integer edition, Map<String, RuleText> rules) {
        this(id, title, edition, rules, List.of());
    }
}
