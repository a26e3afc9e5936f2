package org.splicebook.wiring;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.concurrent.CyclicBarrier;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.splicebook.oracle.Hidden;
import org.splicebook.oracle.RandomHouses;
import org.splicebook.oracle.Shape;
import org.splicebook.record.House;

/** What is derived only when it is looked at is the same whoever looks first, in whatever order, and however many look at once. */
class PutOffTest {
    private static final int THREADS = 4;

    @ParameterizedTest
    @ValueSource(longs = {3, 4, 9, 14, 24})
    void theSameInWhateverOrderItIsLookedAt(long seed) {
        House house = house(seed);
        Wiring lossesFirst = Derivation.derive(house);
        List<Loss> losses = List.copyOf(lossesFirst.losses());
        Wiring relianceFirst = Derivation.derive(house);
        List<LoadPointWiring> backwards = new ArrayList<>(relianceFirst.loadPoints());
        Collections.reverse(backwards);
        backwards.forEach(p -> assertThat(p.reliesOn().toString()).isNotEmpty());
        backwards.forEach(p -> p.feeds().forEach(f -> assertThat(f.way().hops()).isNotNull()));
        assertThat(relianceFirst.losses()).as("seed %d", seed).isEqualTo(losses);
        assertThat(relianceFirst).as("seed %d", seed).isEqualTo(lossesFirst).hasSameHashCodeAs(lossesFirst);
        assertThat(relianceFirst.toString()).isEqualTo(lossesFirst.toString());
    }

    @ParameterizedTest
    @ValueSource(longs = {4, 14, 34})
    void manyMayLookAtOnce(long seed) throws Exception {
        House house = house(seed);
        String alone = told(Derivation.derive(house));
        Wiring shared = Derivation.derive(house);
        CyclicBarrier together = new CyclicBarrier(THREADS);
        ExecutorService pool = Executors.newFixedThreadPool(THREADS);
        try {
            List<Future<String>> said = new ArrayList<>();
            for (int i = 0; i < THREADS; i++) {
                boolean lossesFirst = i % 2 == 0;
                said.add(pool.submit(() -> {
                    together.await();
                    return lossesFirst ? shared.losses().size() + told(shared) : told(shared);
                }));
            }
            for (Future<String> s : said) {
                assertThat(s.get()).as("seed %d", seed).endsWith(alone);
            }
        } finally {
            pool.shutdownNow();
        }
    }

    @ParameterizedTest
    @ValueSource(longs = 4)
    void nobodyCanChangeIt(long seed) {
        Wiring wiring = Derivation.derive(house(seed));
        assertThatThrownBy(() -> wiring.losses().remove(0)).isInstanceOf(UnsupportedOperationException.class);
        assertThatThrownBy(() -> wiring.loadPoints().get(0).reliesOn().clear())
                .isInstanceOf(UnsupportedOperationException.class);
    }

    /** Every second one with something hidden. */
    private static House house(long seed) {
        House whole = RandomHouses.house(seed, Shape.of(seed));
        return seed % 2 == 0 ? Hidden.hide(whole, seed, 0.1) : whole;
    }

    private static String told(Wiring w) {
        return w.loadPoints() + "\n" + w.losses();
    }
}
