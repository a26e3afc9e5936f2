package org.splicebook.wiring.shutoff;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;

/** Every reading to take: each wire against a ground known good, then each against every other in its box, most likely live first. */
final class ToTests {
    private ToTests() {}

    static List<ShutOff.ToTest> of(Contents contents, Reasons reasons) {
        List<String> ordered = new ArrayList<>(contents.conductors.keySet());
        ordered.sort(Comparator.comparing((String c) -> -reasons.doubt.getOrDefault(c, 0)));
        List<ShutOff.ToTest> tests = new ArrayList<>();
        ordered.forEach(c -> tests.add(new ShutOff.ToTest(c, null)));
        Map<String, List<String>> byBox = new TreeMap<>();
        ordered.forEach(c ->
                byBox.computeIfAbsent(contents.boxOf(c), k -> new ArrayList<>()).add(c));
        byBox.values().forEach(inOne -> pairs(inOne, tests));
        return tests;
    }

    private static void pairs(List<String> conductors, List<ShutOff.ToTest> tests) {
        for (int i = 0; i < conductors.size(); i++) {
            for (int k = i + 1; k < conductors.size(); k++) {
                @Nullable String against = conductors.get(k);
                tests.add(new ShutOff.ToTest(conductors.get(i), against));
            }
        }
    }
}
