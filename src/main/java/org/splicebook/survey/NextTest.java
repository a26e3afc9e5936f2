package org.splicebook.survey;

import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.function.Function;
import org.splicebook.loadflow.Circuit;
import org.splicebook.loadflow.LoadPoint;

/**
 * A test with covers on.
 *
 * @param point the load point to go to
 * @param meter whether with a meter; else with a lamp, or by looking whether it works
 * @param bits what it is expected to tell
 * @param outcomes what can come out, each with its chance
 */
public record NextTest(String point, boolean meter, double bits, Map<String, Double> outcomes) {
    private static final double LIKELY = 1e-3;
    private static final double LEAST_BITS = 0.01;
    /** Trouble of a meter in three pairs of slots against a lamp. */
    private static final double METER_COST = 1.5;

    public NextTest {
        outcomes = new TreeMap<>(outcomes);
    }

    double worth() {
        return bits / (meter ? METER_COST : 1);
    }

    /** {@return the test that tells most for its trouble in the state of the symptoms} */
    static Optional<NextTest> best(Circuit circuit, List<Diagnosis.Alike> classes) {
        List<Diagnosis.Alike> likely =
                classes.stream().filter(c -> c.chance() > LIKELY).toList();
        return circuit.loadPoints().stream()
                .flatMap(p -> p.receptacle()
                        ? List.of(lamp(p, likely), meter(p, likely)).stream()
                        : List.of(lamp(p, likely)).stream())
                .filter(t -> t.bits >= LEAST_BITS)
                .max(Comparator.comparingDouble(NextTest::worth));
    }

    private static NextTest lamp(LoadPoint p, List<Diagnosis.Alike> classes) {
        return test(p, false, classes, s -> s.at(p.name()).level().name().toLowerCase(java.util.Locale.ROOT));
    }

    private static NextTest meter(LoadPoint p, List<Diagnosis.Alike> classes) {
        return test(p, true, classes, s -> s.at(p.name()).coarse(10) + " V");
    }

    private static NextTest test(
            LoadPoint p, boolean meter, List<Diagnosis.Alike> classes, Function<Seen, String> outcome) {
        Map<String, Double> chances = new TreeMap<>();
        double sum = 0;
        for (Diagnosis.Alike c : classes) {
            chances.merge(outcome.apply(c.seen()), c.chance(), Double::sum);
            sum += c.chance();
        }
        double bits = 0;
        for (Map.Entry<String, Double> e : chances.entrySet()) {
            double share = e.getValue() / sum;
            e.setValue(share);
            bits -= share * Math.log(share) / Math.log(2);
        }
        return new NextTest(p.name(), meter, bits, chances);
    }
}
