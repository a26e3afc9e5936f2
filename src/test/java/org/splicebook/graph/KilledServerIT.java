package org.splicebook.graph;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.URI;
import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.store.Progress;
import org.splicebook.wiring.Derivation;

/**
 * A database in a process of its own that is killed while the program writes to it: the program refuses for as long as it is away, goes on
 * by itself once it is back, and what was acknowledged is there. Several databases share the killed process, each with a writer. How many
 * are killed, and when:
 *
 * <pre>mvn -Psoak verify -Dit.test=KilledServerIT -Dsplicebook.kills=80 -Dsplicebook.seed=7</pre>
 */
class KilledServerIT {
    private static final long SEED = Long.getLong("splicebook.seed", 1);
    private static final int MANY = Integer.getInteger("splicebook.kills", 80);
    private static final int TOGETHER = Integer.getInteger("splicebook.together", 4);

    @TempDir
    Path folder;

    private final Random random = new Random(SEED);
    private final List<String> arguments = new ArrayList<>();
    private final List<Writer> writers = new ArrayList<>();
    private ChildProcess child;

    @AfterEach
    void end() {
        writers.forEach(w -> w.store.close());
        if (child != null) {
            child.kill();
        }
    }

    @Test
    @Tag("soak")
    void killedManyTimesItKeepsWhatItAcknowledgedAndTheProgramGoesOn() throws Exception {
        begin();
        long work = 0;
        for (int killed = TOGETHER; killed - TOGETHER < MANY; killed += TOGETHER) {
            int wait = random.nextInt(3_000);
            String when = "seed " + SEED + ", killed " + killed + ", after " + wait + " ms of writing";
            writers.forEach(Writer::start);
            for (Writer w : writers) {
                w.hasWritten();
            }
            Thread.sleep(wait);
            work += child.work().toMillis();
            child.kill();
            writers.forEach(Writer::expectAgain);
            child = ChildProcess.start(PlainServer.class, arguments);
            for (Writer w : writers) {
                assertThat(child.line()).as(when).isNotNull();
                w.hasWritten();
            }
            for (Writer w : writers) {
                w.stop();
                assertThat(w.faults).as(when).isEmpty();
                w.look(when);
                assertThat(w.store.verify(false, Progress.NONE).differences())
                        .as(when)
                        .isEmpty();
            }
            System.out.println(when + ": "
                    + writers.stream().mapToInt(w -> w.acknowledged.size()).sum() + " writes acknowledged, "
                    + writers.stream().mapToInt(w -> w.refused.get()).sum() + " refused while it was away, "
                    + work / killed + " ms of CPU a database in the killed processes");
        }
        for (Writer w : writers) {
            w.looked = 0;
            w.look("all that was ever acknowledged, seed " + SEED);
        }
    }

    private void begin() {
        for (int i = 0; i < TOGETHER; i++) {
            arguments.addAll(List.of(folder.resolve("store-" + i).toString(), "0", Secret.random()));
        }
        child = ChildProcess.start(PlainServer.class, arguments);
        for (int i = 0; i < TOGETHER; i++) {
            URI uri = URI.create(child.line().split(" ")[0]);
            arguments.set(i * 3 + 1, String.valueOf(uri.getPort()));
            writers.add(new Writer(
                    Stores.server(
                            uri,
                            "neo4j",
                            arguments.get(i * 3 + 2),
                            TestHouses.TEXT,
                            Clock.systemUTC(),
                            Derivation::derive),
                    new Random(random.nextLong())));
        }
    }

    /** Writes on and on, also while nothing can be written. */
    private static final class Writer {
        final Neo4jHouseStore store;
        final List<String> acknowledged = Collections.synchronizedList(new ArrayList<>());
        final List<String> faults = Collections.synchronizedList(new ArrayList<>());
        final AtomicInteger refused = new AtomicInteger();
        private final MixedWrites writes;
        private volatile CountDownLatch written = new CountDownLatch(1);
        private volatile boolean isOn;
        private int looked;
        private Thread thread = new Thread(() -> {});

        Writer(Neo4jHouseStore store, Random random) {
            this.store = store;
            this.writes = new MixedWrites(store, random);
        }

        void start() {
            isOn = true;
            written = new CountDownLatch(1);
            thread = new Thread(this::run);
            thread.start();
        }

        private void run() {
            while (isOn) {
                CountDownLatch of = written;
                try {
                    acknowledged.add(writes.one());
                    of.countDown();
                } catch (ProblemException e) {
                    boolean isAway = e.problems().get(0).kind() == ProblemKind.STORE_AWAY;
                    refused.addAndGet(isAway ? 1 : 0);
                    if (!isAway) {
                        faults.add(e.problems().toString());
                    }
                } catch (RuntimeException e) {
                    faults.add(e.toString());
                }
            }
        }

        void expectAgain() {
            written = new CountDownLatch(1);
        }

        void hasWritten() throws InterruptedException {
            assertThat(written.await(2, TimeUnit.MINUTES))
                    .as("goes on writing; " + faults)
                    .isTrue();
        }

        /** Looks whether all is kept that was acknowledged since the last look. */
        void look(String when) {
            assertThat(acknowledged.subList(looked, acknowledged.size()))
                    .as(when)
                    .allMatch(line -> MixedWrites.isKept(store, line));
            looked = acknowledged.size();
        }

        void stop() throws InterruptedException {
            isOn = false;
            thread.join();
        }
    }
}
