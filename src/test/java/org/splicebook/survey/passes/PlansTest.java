package org.splicebook.survey.passes;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** What plans promise: how few passes, and that what is off in them may be off. */
class PlansTest {
    private static final List<Point> ONE_POINT = List.of(new Point("p", "room", "d"));

    private static Survey survey(List<Throw> throwing, Chances chances) {
        return Survey.plain(throwing, ONE_POINT, chances);
    }

    /** Bit k is whether the cause is out in pass k. */
    private static BitSet answers(Survey survey, Cause cause, List<Pass> passes) {
        BitSet word = new BitSet();
        for (int k = 0; k < passes.size(); k++) {
            BitSet off = survey.unpowered(passes.get(k).off());
            word.set(k, cause.isOut(off, off));
        }
        return word;
    }

    private static int leastDistance(Survey survey, List<Pass> passes) {
        int least = Integer.MAX_VALUE;
        for (int i = 0; i < survey.causes().size(); i++) {
            for (int j = 0; j < i; j++) {
                BitSet a = answers(survey, survey.causes().get(i), passes);
                a.xor(answers(survey, survey.causes().get(j), passes));
                least = Math.min(least, a.cardinality());
            }
        }
        return least;
    }

    @Test
    void everyBreakerAndNoneAnswerDifferentlyInAsFewPassesAsAnyPlanCouldHave() {
        for (int n = 1; n <= 63; n++) {
            Survey survey = survey(Walks.breakers(n), Chances.PLAIN);
            List<Pass> passes = Plans.coded(survey, 1);
            assertThat(passes).as("%d breakers", n).hasSize((int) Math.ceil(Math.log(n + 1) / Math.log(2)));
            assertThat(leastDistance(survey, passes)).as("%d breakers", n).isPositive();
        }
    }

    @ParameterizedTest
    @CsvSource({"31, 3, 9", "31, 4, 10", "12, 3, 8", "42, 3, 10"})
    void codesWithDistanceAreAsLongAsTheShortenedHammingCodes(int breakers, int distance, int most) {
        Survey survey = survey(Walks.breakers(breakers), Chances.PLAIN);
        List<Pass> passes = Plans.coded(survey, distance);
        assertThat(passes).hasSizeLessThanOrEqualTo(most);
        assertThat(leastDistance(survey, passes)).isGreaterThanOrEqualTo(distance);
    }

    /** Subpanels and breakers that must stay on or go alone. */
    private static List<Throw> withRules(Random random, int n) {
        List<Throw> all = new ArrayList<>();
        for (int i = 0; i < n; i++) {
            Throw t = Throw.free("main." + i);
            if (i > 0 && random.nextInt(3) == 0) {
                t = t.under(0);
            }
            int rule = random.nextInt(8);
            all.add(t.staying(
                    i > 0 && rule == 0 ? Throw.Stay.ON : i > 0 && rule == 1 ? Throw.Stay.ALONE : Throw.Stay.FREE,
                    null));
        }
        return all;
    }

    /** The fewest allowed passes that part what any allowed passes part, by trying all. */
    private static int fewest(Survey survey) {
        int n = survey.throwing().size();
        List<Pass> allowed = IntStream.range(1, 1 << n)
                .mapToObj(m -> new Pass(BitSet.valueOf(new long[] {m})))
                .filter(p -> survey.isAllowed(p.off()))
                .toList();
        int wanted = parted(survey, allowed);
        for (int k = 0; ; k++) {
            if (some(survey, allowed, 0, k, new ArrayList<>(), wanted)) {
                return k;
            }
        }
    }

    private static boolean some(Survey s, List<Pass> allowed, int from, int left, List<Pass> chosen, int wanted) {
        if (left == 0) {
            return parted(s, chosen) == wanted;
        }
        if ((long) parted(s, chosen) << left < wanted) {
            return false;
        }
        for (int i = from; i < allowed.size(); i++) {
            chosen.add(allowed.get(i));
            boolean found = some(s, allowed, i + 1, left - 1, chosen, wanted);
            chosen.remove(chosen.size() - 1);
            if (found) {
                return true;
            }
        }
        return false;
    }

    /** Into how many kinds passes part the causes. */
    private static int parted(Survey survey, List<Pass> passes) {
        Set<BitSet> kinds = new HashSet<>();
        survey.causes().forEach(c -> kinds.add(answers(survey, c, passes)));
        return kinds.size();
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 20})
    void subpanelsAndBreakersThatStayOnCostAtMostOnePassMoreThanTheBestPlan(long seed) {
        Random random = new Random(seed);
        Survey survey = survey(withRules(random, 3 + random.nextInt(3)), Chances.PLAIN);
        List<Pass> passes = Plans.coded(survey, 1);
        assertThat(passes).as("seed %d", seed).allMatch(p -> survey.isAllowed(p.off()));
        assertThat(parted(survey, passes)).as("seed %d", seed).isEqualTo(parted(survey, Plans.oneAtATime(survey)));
        assertThat(passes.size()).as("seed %d", seed).isLessThanOrEqualTo(fewest(survey) + 1);
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10})
    void pointsFedTwiceCostAtMostOnePassMoreThanTheBestPlan(long seed) {
        Random random = new Random(seed);
        Survey survey = survey(withRules(random, 3 + random.nextInt(2)), new Chances(0.01, 0, 0, 0.01, 0, 0, 0));
        List<Pass> passes = Plans.forEveryCause(survey);
        assertThat(passes).as("seed %d", seed).allMatch(p -> survey.isAllowed(p.off()));
        assertThat(passes.size()).as("seed %d", seed).isLessThanOrEqualTo(fewest(survey) + 1);
    }

    /**
     * Beyond what can be tried out: no plan has fewer passes than one for each breaker that goes off alone, and for the rest what tells so
     * many answers apart.
     */
    @Test
    void housesOfUpTo42BreakersCostAtMostOnePassMoreThanAnyPlanMust() {
        for (long seed = 1; seed <= 120; seed++) {
            Random random = new Random(seed);
            int n = 6 + random.nextInt(37);
            List<Throw> throwing = new ArrayList<>(withRules(random, n));
            for (int i = 2; i < n && seed % 2 == 0; i++) { // a second subpanel, beside the first
                if (throwing.get(i).above() < 0 && random.nextInt(4) == 0) {
                    throwing.set(i, throwing.get(i).under(1));
                }
            }
            Survey survey = survey(throwing, Chances.PLAIN);
            List<Pass> passes = Plans.coded(survey, 1);
            int alone = 0;
            int free = 0;
            for (int t = 0; t < n; t++) {
                BitSet one = Pass.of(t).off();
                BitSet with = (BitSet) one.clone();
                boolean isAloneOnly = survey.unpowered(one).stream()
                        .anyMatch(x -> throwing.get(x).stay() == Throw.Stay.ALONE);
                alone += survey.isAllowed(one) && isAloneOnly ? 1 : 0;
                free += survey.isAllowed(with) && !isAloneOnly ? 1 : 0;
            }
            int least = alone + (int) Math.ceil(Math.log(free + 1) / Math.log(2) - 1e-9);
            assertThat(passes.size()).as("seed %d, %d breakers", seed, n).isLessThanOrEqualTo(least + 1);
        }
    }

    @Test
    void whatMustStayOnIsNeverOffNotEvenThroughWhatFeedsIt() {
        for (long seed = 1; seed <= 200; seed++) {
            Random random = new Random(seed);
            Survey survey = survey(withRules(random, 4 + random.nextInt(20)), Chances.PLAIN);
            for (int distance = 1; distance <= 3; distance++) {
                assertThat(Plans.coded(survey, distance)).as("seed %d", seed).allMatch(p -> survey.isAllowed(p.off()));
            }
        }
    }
}
