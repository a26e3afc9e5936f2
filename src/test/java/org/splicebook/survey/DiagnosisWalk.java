package org.splicebook.survey;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;

/** Goes from test to test until one class is left, in every way that the tests can come out. */
final class DiagnosisWalk {
    /**
     * What walks take on average, each class as likely as the diagnosis says.
     *
     * @param tests how many tests
     * @param bits what there is to be learnt by tests from outside
     * @param first the bits of the test that tells most at the start: one with several outcomes has more than one
     * @param best what the best of all plans takes, every plan tried; not a number where the classes are too many for that
     */
    record Mean(double tests, double bits, double first, double best) {
        /** {@return so few tests as would do if each told as much as the best does at the start} */
        double bound() {
            return bits == 0 ? 0 : Math.max(1, bits / first);
        }
    }

    private static final int FEW = 9;

    private final Workbench bench;
    private final double all;
    private double tests;
    private double bits;
    private final Map<Set<Diagnosis.Alike>, Double> optimal = new HashMap<>();

    private DiagnosisWalk(Workbench bench, double all) {
        this.bench = bench;
        this.all = all;
    }

    /** {@return the mean over the classes of a diagnosis that are looked at in every state} */
    static Mean of(Workbench bench, Diagnosis d) {
        List<Diagnosis.Alike> open =
                d.classes().stream().filter(c -> c.shown().size() > 1).toList();
        DiagnosisWalk walk = new DiagnosisWalk(bench, chance(open));
        walk.on(open);
        double first = NextTest.all(bench, open).stream()
                .mapToDouble(NextTest::bits)
                .max()
                .orElse(0);
        double best = open.size() <= FEW ? walk.optimal(open) / walk.all : Double.NaN;
        return new Mean(walk.tests, walk.bits, first, best);
    }

    private static double chance(List<Diagnosis.Alike> classes) {
        return classes.stream().mapToDouble(Diagnosis.Alike::chance).sum();
    }

    private void on(List<Diagnosis.Alike> open) {
        NextTest t = open.size() < 2 ? null : NextTest.best(bench, open).orElse(null);
        if (t == null) {
            return;
        }
        double here = chance(open) / all;
        tests += here;
        for (List<Diagnosis.Alike> group : t.split(bench, open)) {
            double share = chance(group) / chance(open);
            bits -= here * share * Math.log(share) / Math.log(2);
            on(group);
        }
    }

    /** Tests times chance of the best plan for these classes. */
    private double optimal(List<Diagnosis.Alike> open) {
        Set<Diagnosis.Alike> key = Set.copyOf(open);
        Double known = optimal.get(key);
        if (known != null) {
            return known;
        }
        double best = open.size() < 2 ? 0 : Double.POSITIVE_INFINITY;
        Set<Set<Set<Diagnosis.Alike>>> done = new HashSet<>();
        for (NextTest t : open.size() < 2 ? List.<NextTest>of() : NextTest.all(bench, open)) {
            List<List<Diagnosis.Alike>> groups = t.split(bench, open);
            if (done.add(groups.stream().map(Set::copyOf).collect(Collectors.toSet()))) {
                best = Math.min(best, groups.stream().mapToDouble(this::optimal).sum());
            }
        }
        double all = done.isEmpty() ? 0 : best + chance(open);
        optimal.put(key, all);
        return all;
    }

    /** {@return the first thing that somebody notices of a fault} */
    static List<Observed> complaint(Seen sound, Seen now) {
        List<Observed> all = new ArrayList<>();
        for (String name : now.names()) {
            if (now.at(name).level() != sound.at(name).level()) {
                all.add(Observed.usually(new Symptom.Works(name, now.at(name).level())));
                return all;
            }
        }
        now.tripped().stream()
                .filter(t -> !sound.tripped().contains(t))
                .limit(1)
                .forEach(t -> all.add(Observed.usually(new Symptom.Trips(t))));
        return all;
    }
}
