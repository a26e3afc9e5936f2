package org.splicebook.survey;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.TreeSet;

/**
 * A test with covers on.
 *
 * @param kind with what
 * @param at the load point to go to, or the breaker or device whose handle or button is looked at
 * @param state in which state of the house: its place in {@link Setting#ALL}
 * @param bits what it is expected to tell
 * @param further how many tests are expected to follow: none where one class is left, at least one where several are
 * @param outcomes what can come out, in words, each with its chance
 */
public record NextTest(Kind kind, String at, int state, double bits, double further, Map<String, Double> outcomes) {
    /** With what. */
    public enum Kind {
        /** By the handle of a breaker or the button of a protective device: has it tripped? */
        HANDLE(0.7),
        /** With a lamp, or by looking whether it works. */
        LAMP(1),
        /** With a meter in three pairs of slots. */
        METER(1.5);

        private final double trouble;

        Kind(double trouble) {
            this.trouble = trouble;
        }
    }

    private static final double LIKELY = 1e-3;
    private static final double LEAST_BITS = 0.01;
    /** Trouble of bringing the house into another state first. */
    private static final double OTHER_STATE = 1;
    /** Tests that save as many further ones, but for so many, are chosen between by trouble. */
    private static final double NEARLY = 0.05;
    /** What a test tells on average, in bits, as far as it is reckoned with in advance. */
    private static final double USUAL_BITS = 1;

    public NextTest {
        outcomes = org.splicebook.record.Ordered.map(outcomes);
    }

    private double trouble() {
        return kind.trouble + (state > 0 ? OTHER_STATE : 0);
    }

    /** {@return in which state of the house} */
    public Setting setting() {
        return Setting.ALL.get(state);
    }

    /** {@return the test after which fewest are expected to follow; of those that differ little in that, the one with the least trouble} */
    static Optional<NextTest> best(Workbench bench, List<Diagnosis.Alike> classes) {
        List<NextTest> all = all(bench, classes);
        double fewest = all.stream().mapToDouble(NextTest::further).min().orElse(0);
        return all.stream()
                .filter(t -> t.further <= fewest + NEARLY)
                .min(Comparator.comparingDouble(NextTest::trouble).thenComparingDouble(NextTest::further));
    }

    /** {@return every test that tells anything between the classes that are likely} */
    static List<NextTest> all(Workbench bench, List<Diagnosis.Alike> classes) {
        double sum = chance(classes);
        List<Diagnosis.Alike> likely =
                classes.stream().filter(c -> c.chance() > LIKELY * sum).toList();
        List<NextTest> tests = between(bench, likely);
        return tests.isEmpty() ? between(bench, classes) : tests;
    }

    private static List<NextTest> between(Workbench bench, List<Diagnosis.Alike> likely) {
        List<NextTest> tests = new ArrayList<>();
        for (int state = 0; state < Setting.ALL.size(); state++) {
            int s = state;
            List<Diagnosis.Alike> there =
                    likely.stream().filter(c -> c.shown().size() > s).toList();
            if (there.size() < 2) {
                continue;
            }
            TreeSet<String> units = new TreeSet<>();
            there.forEach(c -> units.addAll(c.shown().get(s).tripped()));
            units.forEach(u -> add(tests, Kind.HANDLE, u, s, there, bench));
            for (int i = 0; i < bench.faces().points.size(); i++) {
                String point = bench.faces().points.get(i).name();
                add(tests, Kind.LAMP, point, s, there, bench);
                if (bench.faces().points.get(i).receptacle()) {
                    add(tests, Kind.METER, point, s, there, bench);
                }
            }
        }
        return tests;
    }

    /** {@return whether the same comes out of it with one as with the other} */
    static boolean same(Kind kind, String at, Seen a, Seen b, Faces faces) {
        return switch (kind) {
            case HANDLE -> a.tripped().contains(at) == b.tripped().contains(at);
            case LAMP -> a.at(faces.of(at)).level() == b.at(faces.of(at)).level();
            case METER -> !a.at(faces.of(at)).differsInVolts(b.at(faces.of(at)));
        };
    }

    private static String said(Kind kind, String at, Seen seen, Faces faces) {
        return switch (kind) {
            case HANDLE -> seen.tripped().contains(at) ? "tripped or off" : "on";
            case LAMP -> seen.at(faces.of(at)).level().name().toLowerCase(Locale.ROOT);
            case METER -> seen.at(faces.of(at)).said();
        };
    }

    /** {@return what is still to be learnt of these, in bits} */
    private static double bits(List<Diagnosis.Alike> classes) {
        double sum = chance(classes);
        return -classes.stream()
                .mapToDouble(c -> c.chance() / sum * Math.log(c.chance() / sum) / Math.log(2))
                .sum();
    }

    private static double chance(List<Diagnosis.Alike> classes) {
        return classes.stream().mapToDouble(Diagnosis.Alike::chance).sum();
    }

    /** {@return the classes by what comes out of this test} */
    List<List<Diagnosis.Alike>> split(Workbench bench, List<Diagnosis.Alike> classes) {
        return split(kind, at, state, classes, bench);
    }

    /** {@return the classes by what comes out of a test, the first of each group standing for it} */
    private static List<List<Diagnosis.Alike>> split(
            Kind kind, String at, int state, List<Diagnosis.Alike> classes, Workbench bench) {
        List<List<Diagnosis.Alike>> groups = new ArrayList<>();
        for (Diagnosis.Alike c : classes) {
            Seen seen = c.shown().get(state);
            List<Diagnosis.Alike> in = null;
            for (List<Diagnosis.Alike> g : groups) {
                if (same(kind, at, g.get(0).shown().get(state), seen, bench.faces())) {
                    in = g;
                    break;
                }
            }
            if (in == null) {
                in = new ArrayList<>();
                groups.add(in);
            }
            in.add(c);
        }
        return groups;
    }

    private static void add(
            List<NextTest> tests, Kind kind, String at, int state, List<Diagnosis.Alike> classes, Workbench bench) {
        List<List<Diagnosis.Alike>> groups = split(kind, at, state, classes, bench);
        if (groups.size() < 2) {
            return;
        }
        double sum = chance(classes);
        double bits = 0;
        double further = 0;
        Map<String, Double> outcomes = new LinkedHashMap<>();
        for (List<Diagnosis.Alike> group : groups) {
            double share = chance(group) / sum;
            outcomes.merge(said(kind, at, group.get(0).shown().get(state), bench.faces()), share, Double::sum);
            bits -= share * Math.log(share) / Math.log(2);
            further += group.size() == 1 ? 0 : share * Math.max(1, bits(group) / USUAL_BITS);
        }
        if (bits >= LEAST_BITS) {
            tests.add(new NextTest(kind, at, state, bits, further, outcomes));
        }
    }
}
