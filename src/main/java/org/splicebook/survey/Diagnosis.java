package org.splicebook.survey;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import org.splicebook.loadflow.LoadCase;
import org.splicebook.loadflow.LoadFlow;

/**
 * What explains the symptoms, ranked. A chance ranks and never excludes: none is 0.
 *
 * @param classes suspects that no test from outside tells apart stand together; the most likely class first
 * @param silent suspects that show nothing from outside, so that no symptom speaks for or against them
 * @param next the test that tells most for its trouble; empty where none from outside tells the likely classes apart
 * @param explained whether some single fault or pair explains every symptom
 */
public record Diagnosis(List<Alike> classes, List<Suspect> silent, Optional<NextTest> next, boolean explained) {
    /** Below this share of the best, suspects are told apart in the state of the symptoms only. */
    private static final double WORTH_A_LOOK = 1e-4;

    /** All that show nothing in any state are one class: no test from outside tells them apart. */
    private static final List<String> QUIET = List.of("quiet");

    private static final double FITS = 0.15;
    private static final int MOST_PAIRED = 30;

    /**
     * Suspects that no test from outside tells apart.
     *
     * @param chance from 0 to 1, among all that are looked for
     * @param seen what it foretells in the state of the symptoms
     */
    public record Alike(List<Suspect> suspects, double chance, Seen seen) {
        public Alike {
            suspects = List.copyOf(suspects);
        }
    }

    public Diagnosis {
        classes = List.copyOf(classes);
        silent = List.copyOf(silent);
    }

    private record Judged(Suspect suspect, Seen seen, double fit) {
        double weight() {
            return suspect.weight() * fit;
        }
    }

    /**
     * {@return what explains symptoms that were seen in one state of a house}
     *
     * @throws org.splicebook.problem.ProblemException when the state names something that is not there
     */
    public static Diagnosis of(LoadFlow flow, LoadCase state, List<Symptom> symptoms) {
        Seen sound = Seen.of(flow, state, Suspect.NONE);
        List<Judged> judged = new ArrayList<>();
        for (Suspect s : Suspects.of(flow.circuit())) {
            judged.add(judge(s, Seen.of(flow, state, s), sound, symptoms));
        }
        boolean explained = judged.stream().anyMatch(j -> explains(j, symptoms));
        if (!explained && symptoms.size() > 1) {
            List<Judged> pairs = pairs(flow, state, symptoms, judged, sound);
            judged.addAll(pairs);
            explained = pairs.stream().anyMatch(j -> explains(j, symptoms));
        }
        double best = judged.stream().mapToDouble(Judged::weight).max().orElse(1);
        double sum = judged.stream().mapToDouble(Judged::weight).sum();
        List<LoadCase> states = states(flow, state);
        List<Seen> quiet =
                states.stream().map(c -> Seen.of(flow, c, Suspect.NONE)).toList();
        Map<List<String>, List<Judged>> alike = new LinkedHashMap<>();
        List<Suspect> silent = new ArrayList<>();
        for (Judged j : judged) {
            List<String> key = new ArrayList<>(List.of(j.seen.words()));
            boolean isQuiet = !j.seen.differs(sound);
            if (isQuiet || j.weight() >= best * WORTH_A_LOOK) {
                List<Seen> shown =
                        states.stream().map(c -> Seen.of(flow, c, j.suspect)).toList();
                for (int i = 0; i < shown.size(); i++) {
                    isQuiet &= !shown.get(i).differs(quiet.get(i));
                    key.add(shown.get(i).words());
                }
                if (isQuiet) {
                    silent.add(j.suspect);
                    key = QUIET;
                }
            }
            alike.computeIfAbsent(key, k -> new ArrayList<>()).add(j);
        }
        List<Alike> classes = new ArrayList<>();
        alike.values()
                .forEach(c -> classes.add(new Alike(
                        c.stream()
                                .sorted(Comparator.comparingDouble(Judged::weight)
                                        .reversed())
                                .map(Judged::suspect)
                                .toList(),
                        c.stream().mapToDouble(Judged::weight).sum() / sum,
                        c.get(0).seen)));
        classes.sort(Comparator.comparingDouble(Alike::chance).reversed());
        return new Diagnosis(classes, silent, NextTest.best(flow.circuit(), classes), explained);
    }

    private static Judged judge(Suspect s, Seen seen, Seen sound, List<Symptom> symptoms) {
        double fit = seen.differs(sound) ? 1 : FaultKind.unnoticed();
        for (Symptom y : symptoms) {
            fit *= y.chance(seen);
        }
        return new Judged(s, seen, Math.max(fit, Double.MIN_NORMAL));
    }

    private static boolean explains(Judged j, List<Symptom> symptoms) {
        return symptoms.stream().allMatch(y -> y.chance(j.seen) >= FITS);
    }

    /** Those that fit best, and for each symptom the one that goes with it and with most others, two by two. */
    private static List<Judged> pairs(
            LoadFlow flow, LoadCase state, List<Symptom> symptoms, List<Judged> singles, Seen sound) {
        Map<String, Judged> unlike = new HashMap<>();
        for (Judged j : singles) {
            unlike.merge(j.seen.words(), j, (a, b) -> a.weight() >= b.weight() ? a : b);
        }
        List<Judged> ranked = unlike.values().stream()
                .sorted(Comparator.comparingDouble(Judged::weight).reversed())
                .toList();
        Set<Judged> chosen = new java.util.LinkedHashSet<>(ranked.subList(0, Math.min(MOST_PAIRED, ranked.size())));
        for (Symptom y : symptoms) {
            ranked.stream().filter(j -> y.chance(j.seen) >= FITS).limit(2).forEach(chosen::add);
        }
        List<Judged> some = new ArrayList<>(chosen);
        List<Judged> pairs = new ArrayList<>();
        for (int a = 0; a < some.size(); a++) {
            for (int b = a + 1; b < some.size(); b++) {
                Suspect both = some.get(a).suspect.and(some.get(b).suspect);
                pairs.add(judge(both, Seen.of(flow, state, both), sound, symptoms));
            }
        }
        return pairs;
    }

    /** The states in which people can look beside the one of the symptoms: nothing on, something everywhere, every lever moved. */
    private static List<LoadCase> states(LoadFlow flow, LoadCase state) {
        LoadCase moved = state;
        for (Map.Entry<String, List<String>> l : flow.circuit().levers().entrySet()) {
            String now = state.levers()
                    .getOrDefault(
                            l.getKey(), Objects.requireNonNull(l.getValue().get(0)));
            String next = l.getValue()
                    .get((l.getValue().indexOf(now) + 1) % l.getValue().size());
            moved = moved.lever(l.getKey(), next);
        }
        return List.of(state.withBase(LoadCase.Base.NOTHING_ON), state.withBase(LoadCase.Base.ALL_ON), moved);
    }
}
