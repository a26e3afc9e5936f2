package org.splicebook.survey.passes;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.record.House;
import org.splicebook.wiring.Derivation;

/** Tests without any breaker off, of two points together: they rank, they never exclude. */
class TiesTest {
    private static final int BREAKERS = 12;

    private static Survey survey(Chances chances) {
        List<Throw> throwing = IntStream.range(0, BREAKERS)
                .mapToObj(i -> Throw.free("main." + (i + 1)).on(i % 4 < 2 ? "a" : "b"))
                .toList();
        return Survey.plain(throwing, Walks.points(40), chances);
    }

    private static double sureOfTruth(Posterior known, List<Cause> truth) {
        double sum = 0;
        for (int p = 0; p < truth.size(); p++) {
            sum += Math.log(known.share(p, known.survey().causes().indexOf(truth.get(p))));
        }
        return sum;
    }

    @Test
    void trueLegTestsAndButtonsMakeTheTruthLikelier() {
        Survey survey = survey(Chances.OLD_HOUSE);
        for (long seed = 1; seed <= 30; seed++) {
            Random random = new Random(seed);
            List<Cause> truth = Walks.singleFeeds(survey, seed);
            List<Pass> passes = List.of(Plans.coded(survey, 1).get(0));
            List<Reading> readings = new ArrayList<>();
            for (int p = 0; p < truth.size(); p++) {
                readings.add(
                        new Reading(p, 0, passes.get(0).off().get(truth.get(p).a())));
            }
            List<Tie> ties = new ArrayList<>();
            for (int i = 0; i < 15; i++) {
                int a = random.nextInt(truth.size());
                int b = random.nextInt(truth.size());
                if (a != b) {
                    ties.add(new Tie(a, b, kind(survey, truth.get(a), truth.get(b))));
                }
            }
            double before = sureOfTruth(Posterior.of(survey, passes, readings), truth);
            double after = sureOfTruth(Posterior.of(survey, passes, readings, ties), truth);
            assertThat(after).as("seed " + seed).isGreaterThanOrEqualTo(before - 1);
            if (ties.stream().anyMatch(t -> t.kind() == Tie.Kind.SAME_BREAKER)) {
                assertThat(after).as("seed " + seed).isGreaterThan(before);
            }
        }
    }

    private static Tie.Kind kind(Survey survey, Cause a, Cause b) {
        String one = survey.throwing().get(a.a()).leg();
        String other = survey.throwing().get(b.a()).leg();
        return a.a() == b.a()
                ? Tie.Kind.SAME_BREAKER
                : String.valueOf(one).equals(other) ? Tie.Kind.SAME_LEG : Tie.Kind.OTHER_LEG;
    }

    @Test
    void aLegTestToldOfAKnownPointHalvesTheBreakersOfTheOther() {
        Survey survey = survey(Chances.OLD_HOUSE);
        List<Pass> passes = new ArrayList<>();
        List<Reading> readings = new ArrayList<>();
        for (int k = 0; k < BREAKERS; k++) { // point 0 hangs on breaker 0
            passes.add(Pass.of(k));
            readings.add(new Reading(0, k, k == 0));
        }
        Posterior known = Posterior.of(survey, passes, readings, List.of(new Tie(0, 1, Tie.Kind.OTHER_LEG)));
        double onB = 0;
        for (Posterior.Ranked r : known.ranked(1, survey.causes().size())) {
            if (r.cause().isOneThrow()
                    && "b".equals(survey.throwing().get(r.cause().a()).leg())) {
                onB += r.share();
            }
            assertThat(r.share()).isPositive();
        }
        assertThat(onB).isGreaterThan(0.85);
    }

    @Test
    void noTieRulesACauseOut() {
        Survey survey = survey(Chances.OLD_HOUSE);
        List<Tie> ties = new ArrayList<>();
        for (int i = 0; i < 50; i++) {
            ties.add(new Tie(0, 1, i % 2 == 0 ? Tie.Kind.SAME_LEG : Tie.Kind.SAME_BREAKER));
        }
        Posterior known = Posterior.of(survey, List.of(), List.of(), ties);
        for (int c = 0; c < survey.causes().size(); c++) {
            assertThat(known.share(0, c)).isPositive();
        }
    }

    /** The sample house's sightings hold a reading of 241 V between the halves of a duplex, and one of 0.4 V. */
    @Test
    void metersFromHotToHotOnRecordCount() {
        House house = HouseFiles.read(Path.of("sample-house/bare")).get();
        House all = HouseFiles.read(Path.of("sample-house")).get();
        var without = RecordedSurvey.of(Derivation.derive(house), List.of(), Wishes.NONE, Chances.OLD_HOUSE, List.of());
        var with = RecordedSurvey.of(
                Derivation.derive(house),
                all.sightings().stream().filter(s -> s.id().equals("s8")).toList(),
                Wishes.NONE,
                Chances.OLD_HOUSE,
                List.of());
        assertThat(with.known().top(0)).isNotNull();
        boolean differs = false;
        for (int p = 0; p < with.survey().points().size(); p++) {
            if (with.survey().points().get(p).id().startsWith("bench-1")) {
                for (int c = 0; c < with.survey().causes().size(); c++) {
                    differs |=
                            Math.abs(with.known().share(p, c) - without.known().share(p, c)) > 1e-6;
                }
            }
        }
        assertThat(differs).isTrue();
    }

    @Test
    void figuresOfMadeUpHousesAreExactWithoutMisreadsAndChosenPassesAreQuicker() {
        for (SurveyFigures.Houses kind : List.of(SurveyFigures.Houses.PLAIN, SurveyFigures.Houses.SUBPANEL)) {
            SurveyFigures.Row row = SurveyFigures.row(kind, 12, 2);
            assertThat(row.ways()).allMatch(w -> w.right() == 1);
            assertThat(row.ways().get(1).passes()).as(kind + " coded").isLessThanOrEqualTo(5);
            assertThat(row.ratio()).isLessThan(0.8);
        }
    }
}
