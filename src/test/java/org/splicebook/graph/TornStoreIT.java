package org.splicebook.graph;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.neo4j.kernel.impl.transaction.log.checkpoint.CheckPointer;
import org.neo4j.kernel.impl.transaction.log.checkpoint.SimpleTriggerInfo;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.store.Progress;
import org.splicebook.wiring.Derivation;

/**
 * What a power loss leaves of a store that is being written either starts with all that was acknowledged, every house whole, or refuses to
 * start and says so.
 *
 * <p>A power loss is modelled by what the database promises the disk, and what the disk promises it: the log of a transaction is forced
 * before the transaction is acknowledged and before a page with its changes is written; between two checkpoints pages are written in any
 * order, a page by sectors of 512 bytes, of which any may be missing; of the log what was not forced may be missing, or be noise. So a copy
 * takes the record of checkpoints first, then the files of the store while it is written, and the log last; of the log, what came after
 * that may be cut. Files taken in another order tell of no power loss: with a checkpoint that is newer than the store's files, whatever the
 * checkpoint vouches for would be missing, on any database.
 *
 * <pre>mvn -Psoak verify -Dit.test=TornStoreIT -Dsplicebook.torn=50 -Dsplicebook.seed=7</pre>
 */
class TornStoreIT {
    private static final long SEED = Long.getLong("splicebook.seed", 1);
    private static final int MANY = Integer.getInteger("splicebook.torn", 50);
    private static final int SECTOR = 512;
    private static final int MOST_NOISE = 4096;
    private static final String LOG = "neostore.transaction.db";

    @TempDir
    Path folder;

    private final Random random = new Random(SEED);
    private final List<String> acknowledged = Collections.synchronizedList(new ArrayList<>());
    private volatile boolean isOn = true;
    private Thread writer = new Thread(() -> {});

    /** What becomes of a copy. */
    private enum Damage {
        AS_COPIED,
        LOG_CUT,
        LOG_CUT_THEN_NOISE,
        SECTORS_OF_TWO_MOMENTS,
        SECTORS_OF_TWO_MOMENTS_AND_LOG_CUT
    }

    @AfterEach
    void end() throws InterruptedException {
        isOn = false;
        writer.join();
    }

    @Test
    void tornTwiceItStartsWhole() throws Exception {
        tear(2);
    }

    @Test
    @Tag("soak")
    void tornManyTimesItStartsWholeOrRefuses() throws Exception {
        tear(MANY);
    }

    private void tear(int copies) throws Exception {
        Map<String, Integer> outcomes = new TreeMap<>();
        try (Neo4jHouseStore store = open(folder.resolve("live"))) {
            CheckPointer checkpoints =
                    store.embedded().database().getDependencyResolver().resolveDependency(CheckPointer.class);
            MixedWrites writes = new MixedWrites(store, new Random(random.nextLong()));
            acknowledged.add(writes.one());
            for (int i = 0; i < copies; i++) {
                Damage damage = Damage.values()[(i + 2) % Damage.values().length];
                Path copy = folder.resolve("copy-" + i);
                if (random.nextInt(3) == 0) {
                    checkpoints.forceCheckPoint(new SimpleTriggerInfo("test"));
                }
                // While a copy is looked at nothing is written, so that the processor is for that.
                isOn = true;
                writer = new Thread(() -> {
                    while (isOn) {
                        acknowledged.add(writes.one());
                    }
                });
                writer.start();
                Thread.sleep(random.nextInt(400));
                List<String> sure = copy(folder.resolve("live"), copy, damage);
                isOn = false;
                writer.join();
                String outcome = look(copy, sure, "seed " + SEED + ", copy " + i + ", " + damage);
                outcomes.merge(damage + ": " + outcome, 1, Integer::sum);
                OneDatabase.delete(copy);
            }
        }
        System.out.println("seed " + SEED + ", " + acknowledged.size() + " writes, " + outcomes);
    }

    private static Neo4jHouseStore open(Path folder) {
        return Stores.embedded(folder, TestHouses.TEXT, Clock.systemUTC(), Derivation::derive);
    }

    /** Copies a store that is being written, and damages the copy; {@return what was acknowledged so early that the copy must have it} */
    private List<String> copy(Path live, Path copy, Damage damage) throws Exception {
        List<Path> all;
        try (Stream<Path> files = Files.walk(live)) {
            all = files.filter(Files::isRegularFile).map(live::relativize).toList();
        }
        List<Path> checkpoints = named(all, "checkpoint");
        List<Path> logs = named(all, LOG);
        List<Path> rest = new ArrayList<>(all);
        rest.removeAll(checkpoints);
        rest.removeAll(logs);
        take(live, copy, checkpoints);
        take(live, copy, rest);
        if (damage.name().startsWith("SECTORS")) {
            Thread.sleep(random.nextInt(200));
            for (Path file : rest) {
                mix(live.resolve(file), copy.resolve(file));
            }
        }
        List<String> sure = List.copyOf(acknowledged);
        Map<Path, Long> forced = new TreeMap<>();
        for (Path log : logs) {
            forced.put(log, Files.size(live.resolve(log)));
        }
        Thread.sleep(random.nextInt(200));
        take(live, copy, logs);
        if (damage.name().contains("LOG_CUT")) {
            Path log = logs.stream()
                    .filter(l -> l.toString().contains("transactions/neo4j"))
                    .max(Path::compareTo)
                    .orElseThrow();
            cut(copy.resolve(log), forced.get(log), damage == Damage.LOG_CUT_THEN_NOISE);
        }
        return sure;
    }

    private static List<Path> named(List<Path> all, String name) {
        return all.stream()
                .filter(f -> f.getFileName().toString().startsWith(name))
                .toList();
    }

    private static void take(Path live, Path copy, List<Path> files) throws IOException {
        for (Path file : files) {
            Files.createDirectories(copy.resolve(file).getParent());
            if (Files.exists(live.resolve(file))) {
                Files.copy(live.resolve(file), copy.resolve(file));
            }
        }
    }

    /** Puts some sectors of what a file is now into what it was, of those that lie in both. */
    private void mix(Path now, Path was) throws IOException {
        byte[] newer = Files.readAllBytes(now);
        byte[] older = Files.readAllBytes(was);
        for (int at = 0; at + SECTOR <= Math.min(newer.length, older.length); at += SECTOR) {
            if (random.nextBoolean()) {
                System.arraycopy(newer, at, older, at, SECTOR);
            }
        }
        ByteArrayOutputStream mixed = new ByteArrayOutputStream();
        mixed.write(older);
        if (newer.length > older.length && random.nextBoolean()) {
            mixed.write(newer, older.length, newer.length - older.length);
        }
        Files.write(was, mixed.toByteArray());
    }

    /** Takes a random part of the end of a log that was not forced yet. */
    private void cut(Path log, long forced, boolean thenNoise) throws IOException {
        byte[] content = Files.readAllBytes(log);
        int spare = Math.max(1, content.length - (int) forced);
        int kept = (int) forced + random.nextInt(spare);
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        out.write(content, 0, Math.min(kept, content.length));
        if (thenNoise) {
            byte[] noise = new byte[1 + random.nextInt(MOST_NOISE)];
            random.nextBytes(noise);
            out.write(noise);
        }
        Files.write(log, out.toByteArray());
    }

    private static String look(Path copy, List<String> sure, String when) {
        try (Neo4jHouseStore store = open(copy)) {
            assertThat(sure).as(when).allMatch(line -> MixedWrites.isKept(store, line));
            assertThat(store.verify(false, Progress.NONE).differences())
                    .as(when)
                    .isEmpty();
            return "whole";
        } catch (ProblemException e) {
            assertThat(e.problems().get(0).kind()).as(when + e.problems()).isEqualTo(ProblemKind.STORE_AWAY);
            System.out.println(when + ": " + e.problems().get(0).said());
            return "refused";
        }
    }
}
