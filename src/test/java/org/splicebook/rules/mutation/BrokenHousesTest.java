package org.splicebook.rules.mutation;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.splicebook.rules.Checks;
import org.splicebook.rules.Finding;
import org.splicebook.rules.Pack;
import org.splicebook.rules.Packs;

/** Every break of a clean house is found, and nothing where it cannot reach. */
class BrokenHousesTest {
    private static final Pack PACK = Packs.us(2023);
    private static final int HOUSES = 2000;

    /** What one break showed. */
    private record Shown(List<String> missed, List<String> outside, List<String> beside, int expected, int found) {}

    static List<Break.Kind> kinds() {
        return Stream.of(PanelBreaks.all(), BoxBreaks.all(), WiringBreaks.all(), SharedBreaks.all())
                .flatMap(List::stream)
                .toList();
    }

    @ParameterizedTest
    @MethodSource("kinds")
    void aBreakIsFoundAndNothingElsewhere(Break.Kind kind) {
        for (int seed = 0; seed < 3; seed++) {
            Shown s = show(kind, seed);
            assertThat(s.missed())
                    .as("%s, seed %d: missed; found beside: %s", kind.name(), seed, s.beside())
                    .isEmpty();
            assertThat(s.outside())
                    .as("%s, seed %d: outside", kind.name(), seed)
                    .isEmpty();
        }
    }

    @Test
    @Tag("full")
    void twoThousandBrokenHouses() {
        List<Break.Kind> kinds = kinds();
        int expected = 0;
        int missed = 0;
        int found = 0;
        int outside = 0;
        Map<String, String> first = new LinkedHashMap<>();
        Map<String, Set<String>> beside = new LinkedHashMap<>();
        for (int i = 0; i < HOUSES; i++) {
            Break.Kind kind = kinds.get(i % kinds.size());
            Shown s = show(kind, 100 + i);
            expected += s.expected();
            missed += s.missed().size();
            found += s.found();
            outside += s.outside().size();
            s.beside()
                    .forEach(f -> beside.computeIfAbsent(kind.name(), k -> new TreeSet<>())
                            .add(f.substring(0, f.indexOf('/'))));
            if (!s.missed().isEmpty() || !s.outside().isEmpty()) {
                first.putIfAbsent(
                        kind.name(), "seed " + (100 + i) + " missed " + s.missed() + " outside " + s.outside());
            }
        }
        System.out.printf(
                "%d broken houses, %d kinds: recall %d of %d, precision %d of %d%n",
                HOUSES, kinds.size(), expected - missed, expected, found - outside, found);
        if (Boolean.getBoolean("splicebook.beside")) {
            beside.forEach((kind, rules) -> System.out.println(kind + ": " + rules));
        }
        assertThat(first).isEmpty();
    }

    private static Shown show(Break.Kind kind, long seed) {
        Set<String> before = keys(Checks.of(CleanHouse.of(seed).house(), PACK));
        Break b = new Break(CleanHouse.of(seed), new Random(seed));
        kind.act().on(b);
        List<Finding> all = Checks.of(b.house.house(), PACK);
        Set<String> after = keys(all);
        List<String> missed = b.expected.stream()
                .filter(e ->
                        !after.contains(e.rule() + "/" + e.subject()) || before.contains(e.rule() + "/" + e.subject()))
                .map(e -> e.rule() + "/" + e.subject())
                .toList();
        List<Finding> fresh =
                all.stream().filter(f -> !before.contains(f.key())).toList();
        Set<String> due =
                b.expected.stream().map(e -> e.rule() + "/" + e.subject()).collect(Collectors.toSet());
        List<String> outside = new ArrayList<>();
        List<String> beside = new ArrayList<>();
        for (Finding f : fresh) {
            if (!due.contains(f.key())) {
                (reaches(f, b) ? beside : outside).add(f.certainty() + " " + f.key() + ": " + f.said());
            }
        }
        return new Shown(missed, outside, beside, b.expected.size(), fresh.size());
    }

    /** Whether what a finding is about lies in the part that the break can affect. */
    private static boolean reaches(Finding f, Break b) {
        boolean subject = b.touched.stream()
                .anyMatch(t -> isOf(f.subject(), t) || f.subject().startsWith("main:" + t));
        boolean outlets = f.outlets().stream().allMatch(o -> b.touched.stream().anyMatch(t -> isOf(o, t)));
        return subject && outlets;
    }

    private static boolean isOf(String name, String part) {
        return name.equals(part)
                || name.startsWith(part + ".")
                || name.startsWith(part + ":")
                || name.startsWith(part + " ");
    }

    private static Set<String> keys(List<Finding> all) {
        return all.stream().map(Finding::key).collect(Collectors.toCollection(TreeSet::new));
    }
}
