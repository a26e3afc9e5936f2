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
        Set<Set<Fact>> found = new Consistency(claims, all, ConsistencyTest::leg)
                .conflicts().stream().map(c -> Set.copyOf(c.facts())).collect(Collectors.toSet());
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

    /** Tries every set of poles of one leg at each of the three points. */
    private static boolean canHold(List<Claim> claims) {
        int sets = 1 << POLES + 1;
        for (int x = 0; x < sets; x++) {
            for (int y = 0; y < sets; y++) {
                for (int z = 0; z < sets; z++) {
                    int[] fed = {x, y, z};
                    if (IntStream.of(fed).allMatch(ConsistencyTest::onOneLeg)
                            && claims.stream().allMatch(c -> holds(c, fed))) {
                        return true;
                    }
                }
            }
        }
        return false;
    }

    private static Set<String> legs(int fed) {
        return IntStream.range(0, POLES)
                .filter(p -> (fed >> p & 1) != 0)
                .mapToObj(ConsistencyTest::leg)
                .collect(Collectors.toSet());
    }

    private static boolean onOneLeg(int fed) {
        return legs(fed).size() <= 1;
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
}
