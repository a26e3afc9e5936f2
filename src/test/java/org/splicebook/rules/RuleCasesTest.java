package org.splicebook.rules;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Each rule has a house in which it must find, one in which it must not, and one in which it must ask. */
class RuleCasesTest {
    static List<Cases.Case> cases() {
        return Cases.all().stream().filter(c -> c.never().isEmpty()).toList();
    }

    @ParameterizedTest
    @MethodSource("cases")
    void aRuleFindsAsksOrIsSilentAsItMust(Cases.Case c) {
        Pack whole = Packs.find(c.pack()).get();
        RuleText text = whole.rules().get(c.rule());
        assertThat(text).as("rule %s in pack %s", c.rule(), c.pack()).isNotNull();
        Pack alone = new Pack(whole.id(), whole.title(), whole.edition(), Map.of(c.rule(), text));
        List<Finding> all = Checks.of(c.house(), alone);
        List<String> said = all.stream()
                .map(f -> f.certainty().word() + " " + f.subject() + ": " + f.said())
                .toList();
        List<Finding> wanted = all.stream()
                .filter(f -> (f.certainty() == Certainty.FOUND) == (c.kind() == Cases.Kind.FIRES))
                .filter(f -> c.at().isEmpty() || f.subject().equals(c.at()))
                .toList();
        switch (c.kind()) {
            case FIRES -> assertThat(wanted).as("found: %s", said).isNotEmpty();
            case SILENT -> assertThat(said).isEmpty();
            case ASKS -> {
                assertThat(wanted).as("asked or possible: %s", said).isNotEmpty();
                assertThat(all).noneMatch(f -> f.certainty() == Certainty.FOUND);
            }
        }
    }

    @Test
    void everyRuleHasAllThree() {
        Map<String, Set<Cases.Kind>> has = new TreeMap<>();
        Cases.all()
                .forEach(
                        c -> has.computeIfAbsent(c.rule(), k -> new TreeSet<>()).add(c.kind()));
        Map<String, Set<Cases.Kind>> without = new TreeMap<>();
        Rules.ids().forEach(id -> {
            Set<Cases.Kind> missing = new TreeSet<>(Set.of(Cases.Kind.values()));
            missing.removeAll(has.getOrDefault(id, Set.of()));
            if (!missing.isEmpty()) {
                without.put(id, missing);
            }
        });
        assertThat(without).isEmpty();
        assertThat(Rules.ids()).containsAll(has.keySet());
    }
}
