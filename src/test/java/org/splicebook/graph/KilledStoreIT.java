package org.splicebook.graph;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Random;
import java.util.TreeMap;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.TimeUnit;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.splicebook.store.Progress;
import org.splicebook.wiring.Derivation;

/**
 * A store whose process is killed while it writes loses nothing that it acknowledged, and keeps everything else wholly or not at all. One
 * process writes into several stores, each on a thread of its own, so that one kill strikes each of them at another moment of its own
 * writing; one kill in four comes while the process starts. How many stores are killed, and when:
 *
 * <pre>mvn -Psoak verify -Dit.test=KilledStoreIT -Dsplicebook.kills=120 -Dsplicebook.seed=7</pre>
 */
class KilledStoreIT {
    private static final long SEED = Long.getLong("splicebook.seed", 1);
    private static final int MANY = Integer.getInteger("splicebook.kills", 120);
    private static final int TOGETHER = Integer.getInteger("splicebook.together", 8);

    @TempDir
    Path folder;

    private final Random random = new Random(SEED);
    private final Map<Integer, List<String>> acknowledged = new TreeMap<>();
    private long work;
    private int started = 5_000;

    @Test
    void killedTwiceEachKeepsAllThatItAcknowledged() throws Exception {
        killAndLook(4, 2);
    }

    @Test
    @Tag("soak")
    void killedManyTimesEachKeepsAllThatItAcknowledged() throws Exception {
        killAndLook(MANY, TOGETHER);
    }

    /** Of a draft that is asked nothing stays, and what was done of one is in the house and in the draft, or in neither. */
    @Test
    void killedWhileDraftsAreAskedAndEnteredItKeepsBothOrNeither() throws Exception {
        Random random = new Random(SEED);
        List<String> acknowledged = new ArrayList<>();
        for (int kill = 1; kill <= 2; kill++) {
            runUntilKilled(DraftingProcess.class, acknowledged, 500 + random.nextInt(1500));
            try (Neo4jHouseStore store =
                    Stores.embedded(folder, TestHouses.TEXT, Clock.systemUTC(), Derivation::derive)) {
                String id = DraftingProcess.HOUSE;
                int done = store.drafts(id).stream()
                        .mapToInt(d -> d.state().done())
                        .sum();
                assertThat(store.revisions(id))
                        .as("seed %d, kill %d", SEED, kill)
                        .hasSize(1 + done);
                for (String line : acknowledged) {
                    String[] said = line.split(" ");
                    assertThat(store.findDraft(id, said[0])
                                    .orElseThrow()
                                    .state()
                                    .done())
                            .as(line)
                            .isGreaterThanOrEqualTo(Integer.parseInt(said[1]));
                }
                assertThat(store.driver()
                                .executableQuery("MATCH (n) WHERE n.house STARTS WITH '~' RETURN n")
                                .execute()
                                .records())
                        .isEmpty();
                assertThat(store.verify(false, Progress.NONE).differences()).isEmpty();
            }
        }
    }

    private void killAndLook(int kills, int together) throws Exception {
        List<Path> folders = IntStream.range(0, together)
                .mapToObj(i -> folder.resolve("store-" + i))
                .toList();
        int killed = 0;
        int writes = 0;
        for (int round = 0; killed < kills; round++) {
            boolean isStarting = round % 4 == 3;
            int wait = random.nextInt(isStarting ? started : 300);
            int first = isStarting ? 0 : 1 + random.nextInt(80);
            String when = "seed " + SEED + ", round " + round + ", killed after "
                    + (isStarting ? wait + " ms of its start" : first + " writes and " + wait + " ms");
            List<String> lines = writeUntilKilled(folders, first, wait, when);
            assertThat(isStarting || !lines.isEmpty())
                    .as("nothing was stored, %s", when)
                    .isTrue();
            killed += together;
            writes += lines.size();
            for (int i = 0; i < together; i++) {
                look(i, folders.get(i), lines, when);
            }
            System.out.println(when + ": " + killed + " stores killed, " + writes + " writes acknowledged, "
                    + work / killed + " ms of CPU a store in the killed processes");
        }
    }

    /** {@return what was acknowledged, each line after the number of its store} */
    private List<String> writeUntilKilled(List<Path> folders, int first, int wait, String when) throws Exception {
        List<String> arguments = new ArrayList<>(List.of(String.valueOf(random.nextInt(1_000_000))));
        folders.forEach(f -> arguments.add(f.toString()));
        List<String> lines = new ArrayList<>();
        long start = System.nanoTime();
        ChildProcess child = ChildProcess.start(WritingProcess.class, arguments);
        try {
            for (int i = 0; i < first; i++) {
                lines.add(Objects.requireNonNull(child.line(), when));
                if (i == 0) {
                    started = (int) Math.max(1_000, (System.nanoTime() - start) / 1_000_000);
                }
            }
            CompletableFuture<Void> killing = CompletableFuture.runAsync(
                    () -> {
                        work += child.work().toMillis();
                        child.kill();
                    },
                    CompletableFuture.delayedExecutor(wait, TimeUnit.MILLISECONDS));
            for (String line = child.line(); line != null; line = child.line()) {
                lines.add(line);
            }
            killing.get(1, TimeUnit.MINUTES);
        } finally {
            child.kill();
        }
        return lines;
    }

    /** Looks at one store after a kill: all that it ever acknowledged is there, and every graph is that of its record. */
    private void look(int number, Path of, List<String> lines, String when) {
        List<String> mine = acknowledged.computeIfAbsent(number, n -> new ArrayList<>());
        lines.stream().filter(l -> l.startsWith(number + " ")).forEach(l -> mine.add(l.substring(l.indexOf(' ') + 1)));
        try (Neo4jHouseStore store = Stores.embedded(of, TestHouses.TEXT, Clock.systemUTC(), Derivation::derive)) {
            assertThat(mine).as(when).allMatch(line -> MixedWrites.isKept(store, line));
            assertThat(store.verify(false, Progress.NONE).differences())
                    .as(when)
                    .isEmpty();
        }
    }

    private void runUntilKilled(Class<?> main, List<String> acknowledged, int wait) throws Exception {
        ChildProcess child = ChildProcess.start(main, List.of(folder.toString()));
        try {
            String first = child.line();
            if (first != null) {
                acknowledged.add(first);
            }
            CompletableFuture<Void> killing = CompletableFuture.runAsync(
                    child::kill, CompletableFuture.delayedExecutor(wait, TimeUnit.MILLISECONDS));
            for (String line = child.line(); line != null; line = child.line()) {
                acknowledged.add(line);
            }
            killing.get(1, TimeUnit.MINUTES);
        } finally {
            child.kill();
        }
    }
}
