package org.splicebook.loadflow;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.ejml.data.ZMatrixRMaj;
import org.ejml.dense.row.CommonOps_ZDRM;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The sparse solution against a dense one of a library. */
class StarMeshTest {
    @ParameterizedTest
    @ValueSource(ints = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12})
    void sparseSolutionEqualsTheDenseOne(int seed) {
        Random random = new Random(seed);
        int n = 2 + random.nextInt(60);
        int m = n - 1 + random.nextInt(n);
        int[] from = new int[m];
        int[] to = new int[m];
        double[] g = new double[m];
        double[] b = new double[m];
        for (int i = 0; i < m; i++) { // a tree first, then meshes
            from[i] = i < n - 1 ? i + 1 : random.nextInt(n);
            to[i] = i < n - 1 ? random.nextInt(i + 1) : random.nextInt(n);
            g[i] = Math.pow(10, random.nextDouble() * 4 - 2);
            b[i] = -g[i] * random.nextDouble();
        }
        ZMatrixRMaj y = new ZMatrixRMaj(n, n);
        ZMatrixRMaj current = new ZMatrixRMaj(n, 1);
        Elimination plan = Elimination.of(n, from, to);
        StarMesh mesh = new StarMesh(plan);
        for (int i = 0; i < m; i++) {
            if (from[i] != to[i]) {
                add(y, from[i], from[i], g[i], b[i]);
                add(y, to[i], to[i], g[i], b[i]);
                add(y, from[i], to[i], -g[i], -b[i]);
                add(y, to[i], from[i], -g[i], -b[i]);
                mesh.re[plan.between(from[i], to[i])] += g[i];
                mesh.im[plan.between(from[i], to[i])] += b[i];
            }
        }
        add(y, 0, 0, 1, 0);
        mesh.toReferenceRe[plan.position[0]] = 1;
        double[] xr = new double[n];
        double[] xi = new double[n];
        for (int v = 0; v < n; v++) {
            double amperes = random.nextDouble() - 0.5;
            add(current, v, 0, amperes, 1);
            xr[plan.position[v]] = amperes;
            xi[plan.position[v]] = 1;
        }
        ZMatrixRMaj volts = new ZMatrixRMaj(n, 1);
        assertThat(CommonOps_ZDRM.solve(y, current, volts)).isTrue();
        mesh.factor();
        mesh.solve(xr, xi);
        double scale = n * 100.0;
        for (int v = 0; v < n; v++) {
            assertThat(xr[plan.position[v]]).isCloseTo(volts.getReal(v, 0), within(1e-9 * scale));
            assertThat(xi[plan.position[v]]).isCloseTo(volts.getImag(v, 0), within(1e-9 * scale));
        }
    }

    private static void add(ZMatrixRMaj m, int row, int column, double re, double im) {
        m.set(row, column, m.getReal(row, column) + re, m.getImag(row, column) + im);
    }

    @Test
    void tinyLeakBesideTinyOhmsLosesNoDigits() {
        // Source side 0.1 microohm, a leak of 1e9 ohm behind it to the reference.
        Elimination plan = Elimination.of(3, new int[] {0, 1}, new int[] {1, 2});
        StarMesh mesh = new StarMesh(plan);
        mesh.re[plan.between(0, 1)] = 1e7;
        mesh.re[plan.between(1, 2)] = 1e-9;
        mesh.toReferenceRe[plan.position[2]] = 1e9;
        double[] x = new double[3];
        x[plan.position[0]] = 1e-7;
        mesh.factor();
        mesh.solve(x, new double[3]);
        assertThat(x[plan.position[1]]).isCloseTo(100, within(1e-12));
    }
}
