package org.splicebook.survey.passes;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.record.House;
import org.splicebook.record.Sighting;
import org.splicebook.wiring.Derivation;

/** What readings teach beside the point that they were made at, and which of them do not go with the rest. */
class LearningTest {
    private static final int MAIN = 8;

    /** Eight breakers, the first two of them two-pole, and four in a subpanel of which nobody knows what feeds it. */
    private static List<Throw> withSub() {
        List<Throw> all = new ArrayList<>();
        for (int i = 0; i < MAIN; i++) {
            all.add(new Throw(
                    "main." + i, List.of("main." + i), -1, false, i < 2 ? 2 : 1, null, Throw.Stay.FREE, null));
        }
        for (int i = 0; i < 4; i++) {
            all.add(new Throw("sub." + i, List.of("sub." + i), -1, true, 1, null, Throw.Stay.FREE, null));
        }
        return all;
    }

    private static int either(Survey survey, int a, int b) {
        return IntStream.range(0, survey.causes().size())
                .filter(c -> survey.causes().get(c).kind() == Cause.Kind.EITHER
                        && survey.causes().get(c).a() == Math.min(a, b)
                        && survey.causes().get(c).b() == Math.max(a, b))
                .findFirst()
                .orElseThrow();
    }

    /** Three points of the subpanel show that main.1 feeds it; a fourth was read only with its own breaker off. */
    @Test
    void whatOnePointOfASubpanelShowsOfItsFeederHoldsForTheOthers() {
        Survey survey = Survey.plain(withSub(), Walks.points(4), Chances.OLD_HOUSE);
        List<Pass> passes = List.of(Pass.of(MAIN), Pass.of(1), Pass.of(MAIN + 1), Pass.of(0));
        List<Reading> own = List.of(new Reading(3, 0, true));
        List<Reading> all = new ArrayList<>(own);
        for (int p = 0; p < 3; p++) { // out with their own breaker and with main.1, lit with main.0
            all.add(new Reading(p, 0, false));
            all.add(new Reading(p, 1, true));
            all.add(new Reading(p, 2, true));
            all.add(new Reading(p, 3, false));
        }
        double before = Posterior.of(survey, passes, own).share(3, either(survey, MAIN, 1));
        double after = Posterior.of(survey, passes, all).share(3, either(survey, MAIN, 1));
        assertThat(after).isGreaterThan(1.5 * before).isGreaterThan(0.6);
        assertThat(Posterior.of(survey, passes, all).share(3, either(survey, MAIN, 0)))
                .as("the other two-pole breaker hardly feeds it, and is not ruled out")
                .isPositive()
                .isLessThan(0.1 * before);
    }

    @Test
    void houseWithASubpanelOfUnknownFeedIsMappedWholeAndNoCauseIsRuledOut() {
        for (long seed = 1; seed <= 4; seed++) {
            Survey survey = Survey.plain(withSub(), Walks.points(24), Chances.OLD_HOUSE.withMisreads(0.005));
            Random random = new Random(seed);
            List<Cause> truth = new ArrayList<>();
            for (int p = 0; p < 24; p++) {
                int t = random.nextInt(survey.throwing().size());
                truth.add(t < MAIN ? Cause.once(t) : survey.causes().get(either(survey, t, 1)));
            }
            Simulation.Outcome out = new Simulation(survey, truth, Costs.ON_FOOT, 0.99, seed).adaptive();
            assertThat(out.right()).as("seed %d", seed).isGreaterThanOrEqualTo(23);
            Posterior known = Posterior.of(survey, List.of(Pass.of(1)), List.of(new Reading(0, 0, true)));
            for (int c = 0; c < survey.causes().size(); c++) {
                assertThat(known.share(1, c)).isPositive();
            }
        }
    }

    private static final House QUAY = HouseFiles.parse("quay.yaml", """
                    splicebook: 1
                    house: quay-cottage
                    panels:
                      main:
                        supply: service
                        breakers:
                          1: {rating: 15 A, label: Hall}
                          3: {rating: 15 A, label: Bench}
                          5: {rating: 15 A}
                          7+9: {rating: 50 A}
                      sub: {breakers: {1: {rating: 15 A}, 3: {rating: 15 A, label: Freezer}}}
                    sources: {service: {system: split-phase 120/240, bond: main}}
                    places: {hall: {kind: hall}, shed: {kind: garage}}
                    boxes:
                      a: {place: hall, devices: {hall-1: {kind: luminaire}}}
                      b: {place: hall, devices: {hall-2: {kind: luminaire}}}
                      c: {place: shed, devices: {shed-1: {kind: luminaire}}}
                    """).get();

    private static RecordedSurvey survey(List<Sighting> seen, List<List<String>> onOneBreaker) {
        return RecordedSurvey.of(
                Derivation.derive(QUAY), seen, Wishes.NONE, Chances.OLD_HOUSE.withMisreads(0.02), onOneBreaker);
    }

    private static Sighting lamp(String pass, String off, String at, boolean out) {
        return new Sighting(
                pass + at,
                "2026-04-01",
                List.of(off),
                Map.of(),
                "lamp",
                pass,
                null,
                new Sighting.Lit(at, null, out ? Sighting.Reading.NOT_LIT : Sighting.Reading.LIT, null),
                null);
    }

    private static Posterior.Ranked top(RecordedSurvey s, String point) {
        int p = IntStream.range(0, s.survey().points().size())
                .filter(i -> s.survey().points().get(i).id().equals(point))
                .findFirst()
                .orElseThrow();
        return s.known().top(p);
    }

    @Test
    void whatMayFeedAPanelGoesOffOnlyAsWhatIsInThatPanelMay() {
        RecordedSurvey s = survey(List.of(), List.of());
        assertThat(s.survey().throwing())
                .filteredOn(t -> t.name().equals("main.7+9"))
                .allSatisfy(t -> {
                    assertThat(t.stay()).isEqualTo(Throw.Stay.ALONE);
                    assertThat(t.why()).contains("may feed sub", "sub.3");
                });
        BitSet two = new BitSet();
        for (int t = 0; t < s.survey().throwing().size(); t++) {
            two.set(
                    t,
                    List.of("main.1", "main.7+9")
                            .contains(s.survey().throwing().get(t).name()));
        }
        assertThat(s.survey().isAllowed(two)).isFalse();
    }

    @Test
    void aReadingThatAllElseSpeaksAgainstIsTold() {
        List<Sighting> seen = new ArrayList<>();
        for (int i = 1; i <= 3; i++) {
            seen.add(lamp("pass-" + i, "main.1", "hall-1", true));
        }
        seen.add(lamp("pass-4", "main.3", "hall-1", false));
        seen.add(lamp("pass-5", "main.5", "hall-1", false));
        assertThat(survey(seen, List.of()).doubted()).isEmpty();
        seen.add(lamp("pass-6", "main.1", "hall-1", false));
        List<RecordedSurvey.Doubt> doubted = survey(seen, List.of()).doubted();
        assertThat(doubted).singleElement().satisfies(d -> {
            assertThat(d.point()).isEqualTo("hall-1");
            assertThat(d.pass()).isEqualTo("pass-6");
            assertThat(d.out()).isFalse();
            assertThat(d.off()).containsExactly("main.1");
        });
    }

    @Test
    void whatThePassesFindToFeedAColdStoreGoesOffAloneFromThenOn() {
        House house = HouseFiles.parse("quay.yaml", """
                        splicebook: 1
                        house: quay-cottage
                        panels:
                          main: {supply: service, breakers: {1: {rating: 15 A}, 3: {rating: 15 A}, 5: {rating: 15 A}}}
                        sources: {service: {system: split-phase 120/240, bond: main}}
                        boxes:
                          a: {devices: {cold: {kind: single-receptacle, load: freezer}}}
                          b: {devices: {hall-1: {kind: luminaire}}}
                        """).get();
        List<Sighting> seen = List.of(lamp("pass-1", "main.3", "cold", true), lamp("pass-2", "main.1", "cold", false));
        List<Throw> before = RecordedSurvey.of(
                        Derivation.derive(house), List.of(), Wishes.NONE, Chances.OLD_HOUSE, List.of())
                .survey()
                .throwing();
        List<Throw> after = RecordedSurvey.of(Derivation.derive(house), seen, Wishes.NONE, Chances.OLD_HOUSE, List.of())
                .survey()
                .throwing();
        assertThat(before).allMatch(t -> t.stay() == Throw.Stay.FREE);
        assertThat(after)
                .filteredOn(t -> t.stay() == Throw.Stay.ALONE)
                .singleElement()
                .satisfies(t -> {
                    assertThat(t.name()).isEqualTo("main.3");
                    assertThat(t.why()).contains("cold", "passes so far");
                });
    }

    @Test
    void sagsStepsAndTonesMakeABreakerLikelier() {
        List<Sighting> seen = List.of(
                lamp("pass-1", "main.5", "shed-1", true),
                lamp("pass-2", "main.3", "shed-1", false),
                lamp("pass-3", "main.5", "shed-1", true));
        double alone = top(survey(seen, List.of()), "hall-2").share();
        Posterior.Ranked told = top(survey(seen, List.of(List.of("shed-1", "hall-2"))), "hall-2");
        assertThat(told.cause().said(survey(seen, List.of()).survey().throwing()))
                .startsWith("main.5");
        assertThat(told.share()).isGreaterThan(alone);
        Sighting step = new Sighting(
                "s1",
                "2026-04-01",
                List.of(),
                Map.of(),
                "clamp",
                null,
                null,
                new Sighting.LoadStep("hall-2", "main.3", null),
                null);
        Posterior.Ranked stepped = top(survey(List.of(step), List.of()), "hall-2");
        assertThat(stepped.cause().a()).isEqualTo(1);
        assertThat(stepped.share()).isGreaterThan(0.7).isLessThan(0.999);
    }
}
