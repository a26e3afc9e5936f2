package org.splicebook.loadflow;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.util.List;
import java.util.Set;
import java.util.stream.IntStream;
import java.util.stream.LongStream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.splicebook.oracle.RandomHouses;
import org.splicebook.oracle.Shape;
import org.splicebook.record.House;
import org.splicebook.wiring.CrossingKind;
import org.splicebook.wiring.Derivation;

/** What holds in every house, state and fault. The seed of a house is its argument. */
class LawsTest {
    private static final Set<CrossingKind> IN_ORDER =
            Set.of(CrossingKind.MULTIWIRE, CrossingKind.MULTIWIRE_WITHOUT_COMMON_DISCONNECT);

    static LongStream seeds() {
        return LongStream.range(0, 60);
    }

    private static LoadFlow flow(long seed) {
        return LoadFlow.of(RandomStates.house(seed));
    }

    private static Solution solved(LoadFlow flow, long seed) {
        return flow.solve(RandomStates.of(flow.circuit(), seed, 3)).get();
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void currentsSumToZeroAtEveryJoint(long seed) {
        Solution s = solved(flow(seed), seed);
        int n = s.circuit().nodes().size();
        double[] re = new double[n];
        double[] im = new double[n];
        boolean[] winding = new boolean[n];
        double largest = 1;
        for (int i = 0; i < s.circuit().branches().size(); i++) {
            Branch b = s.circuit().branches().get(i);
            if (b.kind() == Branch.Kind.WINDING) {
                winding[b.from()] = true;
                winding[b.to()] = true;
                continue;
            }
            Complex a = s.amperes(i);
            largest = Math.max(largest, a.magnitude());
            re[b.from()] -= a.re();
            im[b.from()] -= a.im();
            re[b.to()] += a.re();
            im[b.to()] += a.im();
        }
        for (int v = 0; v < n; v++) {
            if (!winding[v]) {
                assertThat(Math.hypot(re[v], im[v]))
                        .as("at %s", s.circuit().nodes().get(v))
                        .isLessThan(1e-8 * largest);
            }
        }
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void powerInIsPowerOut(long seed) {
        Solution s = solved(flow(seed), seed);
        double out = 0;
        for (int i = 0; i < s.circuit().branches().size(); i++) {
            if (s.circuit().branches().get(i).kind() != Branch.Kind.WINDING) {
                out += s.watts(i);
            }
        }
        assertThat(s.wattsIn()).isCloseTo(out, within(1e-8 * Math.max(1, out)));
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void healthyHouseHasNoResidual(long seed) {
        House house = RandomHouses.house(seed, new Shape(14, 45, 0));
        assumeTrue(Derivation.derive(house).crossings().stream().allMatch(c -> IN_ORDER.contains(c.kind())));
        LoadFlow flow = LoadFlow.of(house);
        Solution s = flow.solve(RandomStates.of(flow.circuit(), seed, 0)).get();
        assertThat(s.residuals()).allSatisfy(r -> assertThat(r.amperes()).isLessThan(1e-6));
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void voltagesOfTwoSourcesAddUp(long seed) {
        LoadFlow flow = flow(seed);
        List<CircuitSource> sources = flow.circuit().sources();
        LoadCase both = RandomStates.of(flow.circuit(), seed, 3);
        for (CircuitSource source : sources) {
            both = both.source(source.name(), source.model());
        }
        Solution together = flow.solve(both).get();
        double[] sumRe = new double[flow.circuit().nodes().size()];
        double[] sumIm = new double[sumRe.length];
        for (CircuitSource alone : sources) {
            LoadCase c = both;
            for (CircuitSource other : sources) {
                c = other == alone ? c : c.source(other.name(), other.model().withVolts(0));
            }
            Solution s = flow.solve(c).get();
            for (int v = 0; v < sumRe.length; v++) {
                if (!s.volts(v, 0).floats()) {
                    sumRe[v] += s.volts(v, 0).known().re();
                    sumIm[v] += s.volts(v, 0).known().im();
                }
            }
        }
        for (int v = 0; v < sumRe.length; v++) {
            Volts all = together.volts(v, 0);
            if (!all.floats()) {
                assertThat(all.known().minus(new Complex(sumRe[v], sumIm[v])).magnitude())
                        .isLessThan(1e-7);
            }
        }
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void openingAnythingEnergisesNothingExceptThroughALoad(long seed) {
        LoadFlow flow = flow(seed);
        LoadCase before = RandomStates.of(flow.circuit(), seed, 0);
        Solution was = flow.solve(before).get();
        assumeTrue(noShort(was)); // what a short holds down comes up when it is cut off
        for (String gate : flow.circuit().gates()) {
            Solution is = flow.solve(before.open(gate)).get();
            Parts wired = wired(is);
            for (int v = 0; v < flow.circuit().nodes().size(); v++) {
                if (live(is, v) && !live(was, v)) {
                    assertThat(wired.isFed(v))
                            .as("%s, %s open", flow.circuit().nodes().get(v), gate)
                            .isFalse();
                }
            }
        }
    }

    private static boolean noShort(Solution s) {
        Parts wired = wired(s);
        return IntStream.range(0, s.circuit().nodes().size()).allMatch(v -> !wired.isFed(v) || live(s, v));
    }

    /** What hangs together without loads; fed is what hangs on a winding. */
    private static Parts wired(Solution s) {
        Parts wired = new Parts(s.circuit().nodes().size());
        for (int i = 0; i < s.circuit().branches().size(); i++) {
            Branch b = s.circuit().branches().get(i);
            if (b.kind() != Branch.Kind.LOAD
                    && b.kind() != Branch.Kind.WINDING
                    && s.impedance(i).isPresent()) {
                wired.join(b.from(), b.to());
            }
        }
        s.circuit().sources().forEach(x -> x.windings().forEach(wired::feed));
        return wired;
    }

    private static boolean live(Solution s, int node) {
        return !s.volts(node, 0).floats() && s.volts(node, 0).magnitude() > 30;
    }
}
