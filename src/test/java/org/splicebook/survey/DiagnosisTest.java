package org.splicebook.survey;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.loadflow.Load;
import org.splicebook.loadflow.LoadCase;
import org.splicebook.loadflow.LoadFlow;

class DiagnosisTest {
    private static final LoadFlow PEAR_TREE =
            LoadFlow.of(HouseFiles.read(Path.of("sample-house")).get());

    @Test
    void aFaultThatShowsRanksHighAndIsNeverRuledOut() {
        ranks(40);
    }

    @Test
    @Tag("full")
    void aThousandFaults() {
        ranks(1000);
    }

    private static void ranks(int seeds) {
        int shown = 0;
        int high = 0;
        int silent = 0;
        StringBuilder low = new StringBuilder();
        for (long seed = 0; seed < seeds; seed++) {
            RandomFaults.Outcome o = RandomFaults.one(seed);
            assertThat(o.chance()).as("seed " + seed + ", " + o.fault().words()).isPositive();
            if (o.shows()) {
                shown++;
                if (o.rank() < 3) {
                    high++;
                } else {
                    low.append(' ').append(seed).append(':').append(o.rank());
                }
            } else {
                silent++;
                assertThat(o.diagnosis().nothingWrong())
                        .as("seed " + seed + ": what shows nothing here is said to need no fault")
                        .isTrue();
            }
        }
        System.out.println(high + " of " + shown + " that show among the first three; " + silent
                + " show nothing in that state; not:" + low);
        assertThat(high * 100)
                .as("among the first three; not these seeds:" + low)
                .isGreaterThanOrEqualTo(shown * 95);
    }

    @Test
    void whatShowsNothingInAnyStateIsSaidToBeSilent() {
        Diagnosis d = Diagnosis.of(
                PEAR_TREE,
                RandomFaults.STATE,
                List.of(Observed.usually(new Symptom.Works("living-1.top", Symptom.Level.LIVE))));
        assertThat(d.nothingWrong()).isTrue();
        List<String> silent = Diagnosis.silent(PEAR_TREE, RandomFaults.STATE).stream()
                .map(Suspect::words)
                .toList();
        assertThat(silent).anyMatch(s -> s.equals("contact stuck closed: main.9"));
        assertThat(silent).noneMatch(s -> s.startsWith("tripped or switched off: main.9"));
    }

    @Test
    void testsChosenByWhatTheyTellNeedLittleMoreThanTheBitsThatThereAre() {
        tests(60);
    }

    @Test
    @Tag("full")
    void testsChosenInManyHouses() {
        tests(300);
    }

    private static void tests(int seeds) {
        double tests = 0;
        double bits = 0;
        int n = 0;
        for (long seed = 0; seed < seeds; seed++) {
            RandomFaults.Put put = RandomFaults.put(seed);
            List<Observed> told = DiagnosisWalk.complaint(
                    put.bench().seen(Condition.USUAL, Suspect.NONE), put.bench().seen(Condition.USUAL, put.fault()));
            if (!told.isEmpty()) {
                DiagnosisWalk.Mean mean =
                        DiagnosisWalk.of(put.bench(), Diagnosis.of(put.flow(), RandomFaults.STATE, told));
                tests += mean.tests();
                bits += mean.bits();
                n++;
            }
        }
        System.out.printf("%d complaints: mean %.2f tests to one class, %.2f bits%n", n, tests / n, bits / n);
        assertThat(tests).isLessThanOrEqualTo(1.3 * bits);
    }

    @Test
    @Tag("full")
    void twoFaultsAtOnceAreTold() {
        int shown = 0;
        int explained = 0;
        int both = 0;
        int one = 0;
        for (long seed = 0; seed < 200; seed++) {
            RandomFaults.Put put = RandomFaults.put(seed);
            Seen sound = put.bench().seen(Condition.USUAL, Suspect.NONE);
            Random random = new Random(seed + 5000);
            List<Suspect> showing = new ArrayList<>();
            while (showing.size() < 2) {
                Suspect s = put.bench()
                        .suspects()
                        .get(random.nextInt(put.bench().suspects().size()));
                if (put.bench().seen(Condition.USUAL, s).differs(sound)) {
                    showing.add(s);
                }
            }
            Suspect pair = showing.get(0).and(showing.get(1));
            Seen now = put.bench().seen(Condition.USUAL, pair);
            Diagnosis d = Diagnosis.of(put.flow(), RandomFaults.STATE, RandomFaults.told(sound, now, random));
            shown++;
            explained += d.explained() ? 1 : 0;
            List<Suspect> top = d.classes().stream()
                    .limit(3)
                    .flatMap(c -> c.suspects().stream())
                    .toList();
            boolean first = names(top, showing.get(0));
            boolean second = names(top, showing.get(1));
            both += top.stream()
                            .anyMatch(s -> s.words().contains(showing.get(0).words())
                                    && s.words().contains(showing.get(1).words()))
                    ? 1
                    : 0;
            one += first || second ? 1 : 0;
        }
        System.out.println("of " + shown + " pairs of faults that show, " + explained + " are explained, " + both
                + " stand as that pair among the first three, of " + one + " at least one of the two does");
        assertThat(explained * 100).isGreaterThanOrEqualTo(shown * 80);
    }

    private static boolean names(List<Suspect> top, Suspect s) {
        return top.stream().anyMatch(t -> t.words().contains(s.words()));
    }

    @Test
    void whatWasTouchedLastComesFirstAmongEquals() {
        List<Observed> dead = List.of(Observed.usually(new Symptom.Works("living-2.top", Symptom.Level.DEAD)));
        Diagnosis d = Diagnosis.of(PEAR_TREE, LoadCase.typical(), dead, List.of("living-east"));
        assertThat(d.classes().get(0).suspects().get(0).boxes()).contains("living-east");
    }

    @Test
    void aReadingToGroundTellsTheLostNeutralFromTheLostHot() {
        List<Observed> dead = List.of(Observed.usually(new Symptom.Works("garage-1.top", Symptom.Level.DEAD)));
        List<Observed> more = new ArrayList<>(dead);
        more.add(Observed.usually(new Symptom.Reads("garage-1.top", Symptom.Between.HOT_GROUND, 0)));
        double before = chance(Diagnosis.of(PEAR_TREE, LoadCase.typical(), dead), "open", "white");
        double after = chance(Diagnosis.of(PEAR_TREE, LoadCase.typical(), more), "open", "white");
        assertThat(after).as("no volts to ground: hardly the neutral").isLessThan(before / 2);
    }

    @Test
    void whatDimsOnlyWhileAHeaterRunsIsLoose() {
        Condition heater = new Condition(Map.of("living-3.top", Load.watts(1500)), Map.of(), Set.of());
        Diagnosis d = Diagnosis.of(
                PEAR_TREE,
                LoadCase.typical(),
                List.of(
                        Observed.usually(new Symptom.Works("living-2.top", Symptom.Level.LIVE)),
                        new Observed(heater, new Symptom.Works("living-2.top", Symptom.Level.DIM))));
        assertThat(d.classes().stream().limit(4).map(c -> c.suspects().get(0).words()))
                .allSatisfy(w -> assertThat(w).startsWith("loose").containsAnyOf("C11", "C9a"));
    }

    private static double chance(Diagnosis d, String kind, String inWords) {
        return d.classes().stream()
                .filter(c -> c.suspects().get(0).words().startsWith(kind)
                        && c.suspects().get(0).words().contains(inWords))
                .mapToDouble(Diagnosis.Alike::chance)
                .sum();
    }
}
