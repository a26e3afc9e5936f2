package org.splicebook.graph;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;

class TurnsTest {
    private final ExecutorService pool = Executors.newFixedThreadPool(8);

    @AfterEach
    void stop() {
        pool.shutdownNow();
    }

    @Test
    void noMoreThanSoManyRunAtOnceAndAllAreDone() throws Exception {
        Turns turns = new Turns(2, Duration.ofSeconds(60));
        AtomicInteger running = new AtomicInteger();
        AtomicInteger most = new AtomicInteger();
        CountDownLatch two = new CountDownLatch(2);
        List<Future<Integer>> all = new ArrayList<>();
        for (int i = 0; i < 8; i++) {
            int number = i;
            all.add(pool.submit(() -> turns.take(() -> {
                most.accumulateAndGet(running.incrementAndGet(), Math::max);
                two.countDown();
                await(two);
                running.decrementAndGet();
                return number;
            })));
        }
        for (int i = 0; i < 8; i++) {
            assertThat(all.get(i).get()).isEqualTo(i);
        }
        assertThat(most).hasValue(2);
    }

    @Test
    void whoWaitsTooLongIsRefusedAndATurnThatFailedIsFree() throws Exception {
        Turns turns = new Turns(1, Duration.ofMillis(10));
        CountDownLatch begun = new CountDownLatch(1);
        CountDownLatch end = new CountDownLatch(1);
        Future<Integer> first = pool.submit(() -> turns.take(() -> {
            begun.countDown();
            await(end);
            throw new IllegalArgumentException("failed");
        }));
        await(begun);
        assertThatThrownBy(() -> turns.take(() -> 1))
                .isInstanceOfSatisfying(
                        ProblemException.class,
                        e -> assertThat(e.problems().get(0).kind()).isEqualTo(ProblemKind.TOO_MANY));
        end.countDown();
        assertThatThrownBy(first::get).hasMessageContaining("failed");
        assertThat(turns.take(() -> 2)).isEqualTo(2);
    }

    private static void await(CountDownLatch latch) {
        try {
            latch.await();
        } catch (InterruptedException e) {
            throw new IllegalStateException(e);
        }
    }
}
