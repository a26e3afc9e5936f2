package org.splicebook.rules;

import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * The rules that a check goes by.
 *
 * @param id its id: {@code us-2023}, {@code physics}, {@code iec}
 * @param title what people call it
 * @param edition the year of its edition; null where it has none
 * @param rules what it says of each rule, by id
 */
public record Pack(String id, String title, @Nullable Integer edition, Map<String, RuleText> rules) {
    public Pack {
        rules = Map.copyOf(rules);
    }
}
