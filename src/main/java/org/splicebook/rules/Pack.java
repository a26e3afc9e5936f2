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
 * @param off the rules that a local change switched off, with the reason
 * @param changed the rules that a local change altered, with the reason
 */
public record Pack(
        String id,
        String title,
        @Nullable Integer edition,
        Map<String, RuleText> rules,
        Map<String, String> off,
        Map<String, String> changed) {
    public Pack {
        rules = Map.copyOf(rules);
        off = Map.copyOf(off);
        changed = Map.copyOf(changed);
    }
}
