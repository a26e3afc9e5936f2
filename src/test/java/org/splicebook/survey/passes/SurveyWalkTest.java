package org.splicebook.survey.passes;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Surveys walked in houses whose truth is known. */
class SurveyWalkTest {
    private static final double SURE = 0.99;

    private static Simulation walk(int breakers, int points, Chances chances, long seed) {
        Survey survey = Survey.plain(Walks.breakers(breakers), Walks.points(points), chances);
        return new Simulation(survey, Walks.singleFeeds(survey, seed), Costs.ON_FOOT, SURE, seed);
    }

    @ParameterizedTest
    @ValueSource(ints = {6, 12, 24, 31, 42})
    void withoutMisreadsACodedPlanFindsEveryBreaker(int breakers) {
        Simulation walk = walk(breakers, 3 * breakers, Chances.PLAIN, breakers);
        Simulation.Outcome out = walk.planned(Plans.coded(walk.survey(), 1));
        assertThat(out.right()).isEqualTo(out.points());
        assertThat(out.passes()).isEqualTo((int) Math.ceil(Math.log(breakers + 1) / Math.log(2)));
    }

    @ParameterizedTest
    @ValueSource(ints = {6, 12, 24})
    void choosingEachPassFindsEveryBreakerWithoutMisreads(int breakers) {
        Simulation walk = walk(breakers, 3 * breakers, Chances.PLAIN, breakers);
        Simulation.Outcome out = walk.adaptive();
        assertThat(out.right()).isEqualTo(out.points());
        assertThat(out.minutes())
                .isLessThan(walk.repeated(Plans.oneAtATime(walk.survey())).minutes());
    }

    /** A point of each hypothesis is told for what it is in the end. */
    @Test
    void fedTwiceFedElsewhereAcrossTwoLatchedAndAlwaysOutAreFound() {
        Chances chances = Chances.OLD_HOUSE.withMisreads(0.001);
        Survey survey = Survey.plain(Walks.breakers(6), Walks.points(6), chances);
        List<Cause> truth = List.of(
                Cause.once(0),
                new Cause(Cause.Kind.TWICE, 1, 4),
                new Cause(Cause.Kind.EITHER, 2, 3),
                new Cause(Cause.Kind.LATCHED, 5, -1),
                new Cause(Cause.Kind.NEVER, -1, -1),
                new Cause(Cause.Kind.ALWAYS_OUT, -1, -1));
        for (long seed = 1; seed <= 20; seed++) {
            Simulation.Outcome out = new Simulation(survey, truth, Costs.ON_FOOT, SURE, seed).adaptive();
            assertThat(out.right()).as("seed %d", seed).isGreaterThanOrEqualTo(5);
        }
    }

    @Test
    void noCauseIsEverRuledOut() {
        Survey survey = Survey.plain(Walks.breakers(8), Walks.points(2), Chances.OLD_HOUSE);
        Random random = new Random(5);
        List<Pass> passes = new ArrayList<>();
        List<Reading> readings = new ArrayList<>();
        for (int k = 0; k < 60; k++) {
            passes.add(Pass.of(random.nextInt(8)));
            readings.add(new Reading(0, k, random.nextBoolean()));
        }
        Posterior known = Posterior.of(survey, passes, readings);
        for (int c = 0; c < survey.causes().size(); c++) {
            assertThat(known.share(0, c)).isPositive();
        }
    }

    @Test
    void whatMustStayOnIsNeverChosen() {
        for (long seed = 1; seed <= 60; seed++) {
            Random random = new Random(seed);
            List<Throw> throwing = new ArrayList<>(Walks.breakers(4 + random.nextInt(10)));
            for (int i = 1; i < throwing.size(); i++) {
                Throw t = random.nextInt(3) == 0 ? throwing.get(i).under(0) : throwing.get(i);
                int rule = random.nextInt(5);
                throwing.set(
                        i, t.staying(rule == 0 ? Throw.Stay.ON : rule == 1 ? Throw.Stay.ALONE : Throw.Stay.FREE, null));
            }
            Survey survey = Survey.plain(throwing, Walks.points(20), Chances.OLD_HOUSE);
            List<Pass> passes = new ArrayList<>();
            List<Reading> readings = new ArrayList<>();
            for (int k = 0; k < 6; k++) {
                int pass = k;
                NextPass.choose(Posterior.of(survey, passes, readings), Costs.ON_FOOT, SURE)
                        .ifPresent(c -> {
                            passes.add(c.pass());
                            c.walk().forEach(p -> readings.add(new Reading(p, pass, random.nextBoolean())));
                        });
            }
            assertThat(passes).as("seed %d", seed).allMatch(p -> survey.isAllowed(p.off()));
        }
    }

    @Tag("full")
    @Test
    void withOneReadingInFiftyWrongNinePassesAreNearlyAlwaysRight() {
        int right = 0;
        int points = 0;
        for (long seed = 1; seed <= 60; seed++) {
            Simulation walk = walk(31, 100, single(0.02), seed);
            Simulation.Outcome out = walk.planned(Plans.coded(walk.survey(), 3));
            assertThat(out.passes()).isEqualTo(9);
            right += out.right();
            points += out.points();
        }
        System.out.printf("coded, 9 passes, 31 breakers, 2 %%: %.2f %% right%n", 100.0 * right / points);
        assertThat((double) right / points).isGreaterThanOrEqualTo(0.985);
    }

    private static Chances single(double misreads) {
        return Chances.PLAIN.withMisreads(misreads);
    }

    @Tag("full")
    @Test
    void choosingEachPassTakesLessTimeThanOneBreakerAtATime() {
        for (double misreads : new double[] {0, 0.02}) {
            for (int breakers : new int[] {12, 24, 42}) {
                double adaptive = 0;
                double singly = 0;
                double coded = 0;
                double[] right = new double[3];
                double[] passes = new double[3];
                int houses = 10;
                for (long seed = 1; seed <= houses; seed++) {
                    Simulation walk = walk(breakers, 4 * breakers, single(misreads), seed);
                    Simulation.Outcome a = walk.adaptive();
                    Simulation.Outcome s = walk.singly();
                    Simulation.Outcome c = walk.planned(Plans.coded(walk.survey(), misreads > 0 ? 3 : 1));
                    adaptive += a.minutes() / houses;
                    singly += s.minutes() / houses;
                    coded += c.minutes() / houses;
                    right[0] += a.accuracy() / houses;
                    right[1] += s.accuracy() / houses;
                    right[2] += c.accuracy() / houses;
                    passes[0] += (double) a.passes() / houses;
                    passes[1] += (double) s.passes() / houses;
                    passes[2] += (double) c.passes() / houses;
                }
                System.out.printf(
                        "%d breakers, %.0f %%: chosen %.0f min %.1f passes %.4f right; singly %.0f min %.1f passes %.4f right;"
                                + " coded %.0f min %.1f passes %.4f right; ratio %.2f, coded %.2f%n",
                        breakers,
                        misreads * 100,
                        adaptive,
                        passes[0],
                        right[0],
                        singly,
                        passes[1],
                        right[1],
                        coded,
                        passes[2],
                        right[2],
                        adaptive / singly,
                        coded / singly);
                assertThat(adaptive).as("%d breakers", breakers).isLessThan(singly);
            }
        }
    }

    /** Switches that are off all the while and devices that stay tripped: misreads that come again. */
    @Tag("full")
    @Test
    void misreadsThatComeAgainAreToldFromBreakers() {
        for (int breakers : new int[] {12, 24, 42}) {
            double[] minutes = new double[2];
            double[] right = new double[2];
            double wrong = 0;
            int houses = 5;
            for (long seed = 1; seed <= houses; seed++) {
                Survey survey = Survey.plain(
                        Walks.breakers(breakers), Walks.points(4 * breakers), Chances.OLD_HOUSE.withMisreads(0.01));
                List<Cause> truth = new ArrayList<>(Walks.singleFeeds(survey, seed));
                Random random = new Random(seed);
                for (int p = 0; p < truth.size(); p++) {
                    int what = random.nextInt(100);
                    if (what < 3) {
                        truth.set(p, new Cause(Cause.Kind.ALWAYS_OUT, -1, -1));
                    } else if (what < 6) {
                        truth.set(p, new Cause(Cause.Kind.LATCHED, truth.get(p).a(), -1));
                    }
                }
                Simulation walk = new Simulation(survey, truth, Costs.ON_FOOT, SURE, seed);
                Simulation.Outcome a = walk.adaptive();
                Simulation.Outcome s = walk.singly();
                minutes[0] += a.minutes() / houses;
                minutes[1] += s.minutes() / houses;
                right[0] += a.accuracy() / houses;
                right[1] += s.accuracy() / houses;
                wrong += (double) a.wrong() / a.points() / houses;
            }
            System.out.printf(
                    "%d breakers, 1 %% and 6 %% that come again: chosen %.0f min %.4f right, %.4f decided wrongly; singly %.0f min %.4f right; ratio %.2f%n",
                    breakers, minutes[0], right[0], wrong, minutes[1], right[1], minutes[0] / minutes[1]);
            assertThat(right[0]).as("%d breakers", breakers).isGreaterThan(0.97);
        }
    }

    @Tag("full")
    @Test
    void aPassForALargeHouseIsChosenSoon() {
        Survey survey = Survey.plain(Walks.breakers(42), Walks.points(300), Chances.OLD_HOUSE);
        List<Pass> passes = new ArrayList<>(Plans.coded(survey, 1).subList(0, 3));
        List<Cause> truth = Walks.singleFeeds(survey, 3);
        List<Reading> readings = new ArrayList<>();
        for (int k = 0; k < 3; k++) {
            for (int p = 0; p < 300; p++) {
                readings.add(new Reading(
                        p,
                        k,
                        truth.get(p).isOut(passes.get(k).off(), passes.get(k).off())));
            }
        }
        for (int i = 0; i < 8; i++) {
            long before = System.nanoTime();
            Posterior known = Posterior.of(survey, passes, readings);
            long between = System.nanoTime();
            NextPass.choose(known, Costs.ON_FOOT, SURE);
            System.out.printf(
                    "posterior %d ms, choice %d ms%n",
                    (between - before) / 1_000_000, (System.nanoTime() - between) / 1_000_000);
        }
    }
}
