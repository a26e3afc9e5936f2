package org.splicebook.survey;

import java.util.ArrayList;
import java.util.List;

/** Goes from test to test until one class is left, in every way that the tests can come out. */
final class DiagnosisWalk {
    /**
     * What walks take on average, each class as likely as the diagnosis says.
     *
     * @param tests how many tests
     * @param bits what there is to be learnt: no plan of tests with two outcomes each takes fewer
     */
    record Mean(double tests, double bits) {}

    private DiagnosisWalk() {}

    /** {@return the mean over the classes of a diagnosis that are looked at in every state} */
    static Mean of(Workbench bench, Diagnosis d) {
        List<Diagnosis.Alike> open =
                d.classes().stream().filter(c -> c.shown().size() > 1).toList();
        double sum = open.stream().mapToDouble(Diagnosis.Alike::chance).sum();
        double bits = -open.stream()
                .mapToDouble(c -> c.chance() / sum * Math.log(c.chance() / sum) / Math.log(2))
                .sum();
        return new Mean(tests(bench, open) / sum, bits);
    }

    private static double tests(Workbench bench, List<Diagnosis.Alike> open) {
        NextTest t = open.size() < 2 ? null : NextTest.best(bench, open).orElse(null);
        if (t == null) {
            return 0;
        }
        double all = 0;
        for (List<Diagnosis.Alike> group : t.split(bench, open)) {
            all += tests(bench, group);
        }
        return all + open.stream().mapToDouble(Diagnosis.Alike::chance).sum();
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
