package org.splicebook.survey;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.splicebook.loadflow.LoadCase;
import org.splicebook.loadflow.LoadFlow;

/**
 * What explains the symptoms, ranked. A chance ranks and never excludes: none is 0.
 *
 * @param classes suspects that no test from outside tells apart stand together; the most likely class first
 * @param next the test that tells most for its trouble; empty where none from outside tells the likely classes apart
 * @param explained whether some single fault or pair explains every symptom
 * @param unrelated what would show none of the symptoms, together: the chance that nothing on record explains them, and that what was told
 *     is mistaken or comes from elsewhere; empty of suspects where there are none
 * @param nothingWrong whether every symptom is just what the house shows without any fault
 * @param sound what the house shows without any fault
 */
public record Diagnosis(
        List<Alike> classes,
        Alike unrelated,
        Optional<NextTest> next,
        boolean explained,
        boolean nothingWrong,
        Seen sound) {
    /** A symptom that a house without a fault shows so likely speaks for none. */
    private static final double AS_SOUND = 0.89;
    /** By so much a fault has to make a symptom likelier than no fault does, to have to do with it. */
    private static final double LIKELIER = 1.02;

    /** So likely a symptom has to be where it counts as explained. */
    private static final double FITS = 0.15;

    private static final int MOST_PAIRED = 30;

    /**
     * Suspects that no test from outside tells apart.
     *
     * @param suspects the most likely first
     * @param chance from 0 to 1, among all that are looked for
     * @param silent whether they show nothing from outside in any state; no of what is unlikely
     * @param shown what they foretell, by state; of what is unlikely in the state of the symptoms only
     */
    public record Alike(List<Suspect> suspects, double chance, boolean silent, List<Seen> shown) {
        public Alike {
            suspects = List.copyOf(suspects);
            shown = List.copyOf(shown);
        }

        /** {@return what they foretell in the state of the symptoms} */
        public Seen seen() {
            return shown.get(0);
        }
    }

    public Diagnosis {
        classes = List.copyOf(classes);
    }

    /** {@return what a class shows otherwise than a house without a fault, in words} */
    public List<String> foretold(Alike alike) {
        return Foretold.lines(alike.seen(), sound);
    }

    /** {@return whether anything is on a load point by the record, nothing being wrong} */
    public boolean isFedWithoutFault(String point) {
        return sound.at(point).level() != Symptom.Level.DEAD;
    }

    /** {@return whether the ground of a load point leads anywhere by the record, nothing being wrong: else no reading to it tells anything} */
    public boolean isGroundedWithoutFault(String point) {
        return !Double.isNaN(sound.at(point).hotGround());
    }

    /** A suspect with what it foretells under each condition, and how well that goes with the symptoms, and whether it has to do with any. */
    record Judged(Suspect suspect, List<Seen> seen, double weight, boolean explains, boolean bears) {}

    /**
     * {@return what explains symptoms that were seen in one state of a house}
     *
     * @throws org.splicebook.problem.ProblemException when the state or a symptom names something that is not there
     */
    public static Diagnosis of(LoadFlow flow, LoadCase state, List<Observed> symptoms) {
        return of(flow, state, symptoms, Set.of());
    }

    /** The same, with the boxes, devices or panels that someone worked on last. */
    public static Diagnosis of(LoadFlow flow, LoadCase state, List<Observed> symptoms, Collection<String> touched) {
        return new Search(new Workbench(flow, state), symptoms, touched).diagnosis();
    }

    /** {@return the faults that show nothing from outside in any state that people can make: no symptom speaks for or against them} */
    public static List<Suspect> silent(LoadFlow flow, LoadCase state) {
        return new Workbench(flow, state).silent();
    }

    /** One search. */
    private static final class Search {
        private final Workbench bench;
        private final Collection<String> touched;
        private final Map<Condition, List<Symptom>> byCondition = new LinkedHashMap<>();

        private Search(Workbench bench, List<Observed> symptoms, Collection<String> touched) {
            this.bench = bench;
            this.touched = touched;
            byCondition.put(Condition.USUAL, new ArrayList<>());
            symptoms.forEach(o -> byCondition
                    .computeIfAbsent(o.when(), k -> new ArrayList<>())
                    .add(o.symptom()));
        }

        private Diagnosis diagnosis() {
            List<Seen> sound = seen(Suspect.NONE);
            Judged none = judge(Suspect.NONE, sound, sound);
            Regions regions = bench.regions();
            Set<Integer> there = where(regions, sound);
            List<Judged> judged = new ArrayList<>(bench.suspects().parallelStream()
                    .map(s -> judge(s, regions.mayReach(s, there) ? seen(s) : sound, sound))
                    .toList());
            boolean explained = none.explains || judged.stream().anyMatch(Judged::explains);
            if (!explained) {
                List<Judged> pairs = pairs(judged, sound);
                judged.addAll(pairs);
                explained = pairs.stream().anyMatch(Judged::explains);
            }
            double sum = judged.stream().mapToDouble(Judged::weight).sum();
            List<Alike> classes =
                    bench.classes(judged.stream().filter(Judged::bears).toList(), sum);
            return new Diagnosis(
                    classes,
                    unrelated(judged, sum, sound.get(0)),
                    NextTest.best(bench, classes),
                    explained,
                    none.explains,
                    sound.get(0));
        }

        private static Alike unrelated(List<Judged> judged, double sum, Seen sound) {
            List<Judged> others = judged.stream()
                    .filter(j -> !j.bears)
                    .sorted(Comparator.comparingDouble(Judged::weight).reversed())
                    .toList();
            double chance = others.stream().mapToDouble(Judged::weight).sum() / sum;
            return new Alike(others.stream().map(Judged::suspect).toList(), chance, false, List.of(sound));
        }

        /** Where something is seen that a house without a fault does not show. */
        private Set<Integer> where(Regions regions, List<Seen> sound) {
            Set<Integer> there = new HashSet<>();
            int c = 0;
            for (List<Symptom> symptoms : byCondition.values()) {
                Seen here = sound.get(c++);
                for (Symptom y : symptoms) {
                    if (y.chance(here) < AS_SOUND) {
                        y.about().forEach(a -> there.addAll(regions.of(a)));
                    }
                }
            }
            return there;
        }

        private List<Seen> seen(Suspect s) {
            return byCondition.keySet().stream().map(c -> bench.seen(c, s)).toList();
        }

        /** What makes no symptom likelier than no fault does would be there by chance, beside whatever people came for. */
        private Judged judge(Suspect s, List<Seen> seen, List<Seen> sound) {
            double fit = 1;
            boolean explains = true;
            boolean bears = false;
            int c = 0;
            for (List<Symptom> symptoms : byCondition.values()) {
                Seen here = seen.get(c);
                Seen without = sound.get(c++);
                for (Symptom y : symptoms) {
                    double chance = s.isGraded() ? y.chance(here, without) : y.chance(here);
                    fit *= chance;
                    explains &= chance >= FITS;
                    bears |= chance > LIKELIER * y.chance(without);
                }
            }
            double there = touched.stream().anyMatch(s.boxes()::contains) ? FaultKind.touched() : 1;
            double shows = bears ? 1 : FaultKind.unnoticed();
            return new Judged(s, seen, Math.max(fit * shows * s.weight() * there, Double.MIN_NORMAL), explains, bears);
        }

        /** Those that fit best, and for each symptom the one that goes with it and with most others, two by two. */
        private List<Judged> pairs(List<Judged> singles, List<Seen> sound) {
            Map<Integer, Judged> unlike = new LinkedHashMap<>();
            for (Judged j : singles.stream().filter(Judged::bears).toList()) {
                unlike.merge(j.seen.get(0).sketch(), j, (a, b) -> a.weight >= b.weight ? a : b);
            }
            List<Judged> ranked = unlike.values().stream()
                    .sorted(Comparator.comparingDouble(Judged::weight).reversed())
                    .toList();
            Set<Judged> chosen = new LinkedHashSet<>(ranked.subList(0, Math.min(MOST_PAIRED, ranked.size())));
            int c = 0;
            for (List<Symptom> symptoms : byCondition.values()) {
                int at = c++;
                for (Symptom y : symptoms) {
                    ranked.stream()
                            .filter(j -> y.chance(j.seen.get(at)) >= FITS)
                            .limit(2)
                            .forEach(chosen::add);
                }
            }
            List<Judged> some = new ArrayList<>(chosen);
            List<Suspect> pairs = new ArrayList<>();
            for (int a = 0; a < some.size(); a++) {
                for (int b = a + 1; b < some.size(); b++) {
                    pairs.add(some.get(a).suspect.and(some.get(b).suspect));
                }
            }
            return pairs.parallelStream().map(p -> judge(p, seen(p), sound)).toList();
        }
    }
}
