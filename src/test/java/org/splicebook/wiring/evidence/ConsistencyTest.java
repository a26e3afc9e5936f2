package org.splicebook.wiring.evidence;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Contradictions are found as an exhaustive search finds them: every set of poles tried at every point, every set of facts tried. */
class ConsistencyTest {
    private static final int POLES = 4;
    private static final int FACTS = 6;
    private static final List<String> POINTS = List.of("x", "y", "z");

    static IntStream seeds() {
        return IntStream.range(0, 150);
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void conflictsAreAllSmallestSetsThatCannotHold(int seed) {
        List<Claim> claims = claims(new Random(seed));
        BitSet all = new BitSet();
        all.set(0, POLES + 1);
        Conflicts conflicts = new Consistency(claims, all, ConsistencyTest::leg).conflicts();
        Set<Set<Fact>> found =
                conflicts.found().stream().map(c -> Set.copyOf(c.facts())).collect(Collectors.toSet());
        assertThat(conflicts.all()).isTrue();
        assertThat(found).as("seed %d: %s", seed, claims).isEqualTo(byTrying(claims));
    }

    /** Two legs in turn; the last pole is the one that nobody listed. */
    private static String leg(int pole) {
        return pole == POLES ? "" : pole % 2 == 0 ? "a" : "b";
    }

    private static List<Claim> claims(Random random) {
        List<Claim> claims = new ArrayList<>();
        for (int i = 0; i < FACTS; i++) {
            Fact fact = new Fact.Sighted("s" + i);
            Claim.Kind kind = Claim.Kind.values()[random.nextInt(6)];
            String a = POINTS.get(random.nextInt(2));
            BitSet poles = new BitSet();
            IntStream.range(0, POLES + 1).filter(p -> random.nextInt(3) == 0).forEach(poles::set);
            switch (kind) {
                case SAME, UNLIKE_LEGS, ONE_LEG -> {
                    claims.add(new Claim(fact, kind, List.of(a, "z"), new BitSet()));
                    if (kind == Claim.Kind.ONE_LEG) {
                        continue;
                    }
                }
                case ALL -> {
                    poles.clear();
                    poles.set(random.nextInt(POLES));
                    claims.add(new Claim(fact, kind, List.of(a), poles));
                }
                default -> claims.add(new Claim(fact, kind, List.of(a), poles));
            }
        }
        return claims;
    }

    private static Set<Set<Fact>> byTrying(List<Claim> claims) {
        List<Fact> facts =
                new ArrayList<>(new TreeSet<>(claims.stream().map(Claim::fact).toList()));
        List<Set<Fact>> impossible = new ArrayList<>();
        for (int mask = 0; mask < 1 << facts.size(); mask++) {
            Set<Fact> chosen = new HashSet<>();
            for (int i = 0; i < facts.size(); i++) {
                if ((mask >> i & 1) != 0) {
                    chosen.add(facts.get(i));
                }
            }
            if (!canHold(claims.stream().filter(c -> chosen.contains(c.fact())).toList())) {
                impossible.add(chosen);
            }
        }
        return impossible.stream()
                .filter(s -> impossible.stream().noneMatch(t -> t.size() < s.size() && s.containsAll(t)))
                .collect(Collectors.toSet());
    }

    /** Every set of poles that one conductor can be fed from: those of one leg at most. */
    private static final int[] SETS = IntStream.range(0, 1 << POLES + 1)
            .filter(s -> legs(s).length() <= 1)
            .toArray();

    /** Tries every set of poles of one leg at each of the three points. */
    private static boolean canHold(List<Claim> claims) {
        for (int x : SETS) {
            for (int y : SETS) {
                for (int z : SETS) {
                    int[] fed = {x, y, z};
                    if (claims.stream().allMatch(c -> holds(c, fed))) {
                        return true;
                    }
                }
            }
        }
        return false;
    }

    private static String legs(int fed) {
        return ((fed & 0b0101) == 0 ? "" : "a") + ((fed & 0b1010) == 0 ? "" : "b");
    }

    private static boolean holds(Claim c, int[] fed) {
        int a = fed[POINTS.indexOf(c.points().get(0))];
        int b = fed[POINTS.indexOf(c.points().get(c.points().size() - 1))];
        int poles = c.poles().stream().map(p -> 1 << p).sum();
        boolean known = !legs(a).isEmpty() && !legs(b).isEmpty();
        return switch (c.kind()) {
            case SOME -> (a & poles) != 0;
            case NONE -> (a & poles) == 0;
            case ALL -> (a & poles) == poles;
            case SAME -> a == b;
            case UNLIKE_LEGS -> a != 0 && b != 0 && (!known || !legs(a).equals(legs(b)));
            case ONE_LEG -> !known || legs(a).equals(legs(b));
            default -> true;
        };
    }

    /** One reading against very many others, each of another breaker: nothing is said to be searched that was not. */
    @Test
    void whatIsNotSearchedFurtherIsSaidAndDisputed() {
        List<Claim> claims = new ArrayList<>();
        int many = Consistency.MOST_LOOKS;
        BitSet all = new BitSet();
        all.set(0, many);
        for (int i = 0; i < many; i++) {
            BitSet pole = new BitSet();
            pole.set(i);
            claims.add(new Claim(new Fact.Sighted("some" + i), Claim.Kind.SOME, List.of("x"), pole));
            claims.add(new Claim(new Fact.Sighted("none" + i), Claim.Kind.NONE, List.of("x"), pole));
        }
        Conflicts found = new Consistency(claims, all, p -> "").conflicts();
        assertThat(found.all()).isFalse();
        assertThat(found.isEmpty()).isFalse();
        assertThat(found.found())
                .isNotEmpty()
                .allSatisfy(c -> assertThat(c.facts()).hasSize(2));
        assertThat(found.disputed()).hasSize(2 * many);
    }

    /** Three legs: four points each unlike the other three cannot be. */
    @Test
    void withThreeLegsChoicesAreTried() {
        List<Claim> claims = new ArrayList<>();
        BitSet all = new BitSet();
        all.set(0, 3);
        for (int i = 0; i < 4; i++) {
            for (int k = i + 1; k < 4; k++) {
                claims.add(new Claim(
                        new Fact.Sighted("s" + i + k),
                        Claim.Kind.UNLIKE_LEGS,
                        List.of("p" + i, "p" + k),
                        new BitSet()));
            }
        }
        Conflicts found = new Consistency(claims, all, p -> "L" + p).conflicts();
        assertThat(found.found())
                .singleElement()
                .satisfies(c -> assertThat(c.facts()).hasSize(6));
        assertThat(found.all()).isTrue();
        assertThat(new Consistency(claims.subList(1, 6), all, p -> "L" + p)
                        .conflicts()
                        .isEmpty())
                .isTrue();
    }
}
