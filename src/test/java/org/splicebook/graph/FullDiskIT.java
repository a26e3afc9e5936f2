package org.splicebook.graph;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.store.FolderFiles;
import org.splicebook.store.Health;
import org.splicebook.store.HouseStore;
import org.splicebook.store.Papers;
import org.splicebook.store.Progress;
import org.splicebook.wiring.Derivation;

/** A disk that is full, or takes no more of a file: what cannot be stored is refused by its cause, and nothing is stored by half. */
class FullDiskIT {
    private static final long SEED = Long.getLong("splicebook.seed", 1);
    private static final int MEBIBYTE = 1 << 20;

    @TempDir
    Path folder;

    /** A disk of its own in memory; left out, and told so, where nobody may mount one. */
    @Test
    void withLittleRoomNothingIsStoredReadingGoesOnAndWithRoomSoDoesWriting() throws Exception {
        assumeTrue(
                run("mount", "-t", "tmpfs", "-o", "size=420m", "splicebook", folder.toString()) == 0,
                "left out: no disk may be mounted here, so that none can be filled");
        try (Neo4jHouseStore store = open(folder)) {
            MixedWrites writes = new MixedWrites(store, new Random(SEED));
            List<String> acknowledged = new ArrayList<>();
            for (int i = 0; i < 20; i++) {
                acknowledged.add(writes.one());
            }
            assertThat(store.health().wrong()).isEmpty();
            Path ballast = folder.resolve("ballast");
            fill(ballast, folder, Condition.LEAST_ROOM_BYTES / 2);
            String before = state(store);

            for (int i = 0; i < 20; i++) {
                assertThatThrownBy(writes::one).isInstanceOfSatisfying(ProblemException.class, e -> {
                    assertThat(e.problems().get(0).kind()).isEqualTo(ProblemKind.STORE_AWAY);
                    assertThat(e.problems().get(0).said()).contains(folder.toString(), "MiB left", "Make room");
                });
            }
            assertThat(state(store)).as("nothing was stored").isEqualTo(before);
            Health cramped = store.health();
            assertThat(cramped.up()).isTrue();
            assertThat(cramped.wrong()).contains("MiB left", "Make room");
            assertThat(acknowledged).allMatch(line -> MixedWrites.isKept(store, line));
            assertThat(store.ask("load-points", "house-0", Map.of()).isOk())
                    .as("reading goes on")
                    .isTrue();

            fill(ballast, folder, 0);
            assertFileIsRefused(new FolderFiles(folder.resolve("files")));
            Files.delete(ballast);
            assertThat(store.health().wrong()).isEmpty();
            for (int i = 0; i < 20; i++) {
                acknowledged.add(writes.one());
            }
            assertThat(acknowledged).allMatch(line -> MixedWrites.isKept(store, line));
            assertThat(store.verify(false, Progress.NONE).differences()).isEmpty();
        } finally {
            int unused = run("umount", folder.toString());
        }
    }

    /** Such a limit comes without any warning, as a quota does: the database stops, says why, and has all when it is started again. */
    @Test
    @Tag("soak")
    void whereFilesMayGrowNoFurtherTheDatabaseStopsSaysSoAndLosesNothing() {
        List<String> acknowledged = new ArrayList<>();
        List<String> refused = new ArrayList<>();
        ChildProcess child = ChildProcess.start(
                WritingProcess.class, List.of(String.valueOf(SEED), folder.toString()), "ulimit -f 8192");
        try {
            for (String line = child.line(); line != null && refused.size() < 3; line = child.line()) {
                (line.contains(" ! ") ? refused : acknowledged).add(line.substring(2));
            }
        } finally {
            child.kill();
        }
        assertThat(acknowledged).as("written before: " + refused).isNotEmpty();
        assertThat(refused)
                .hasSize(3)
                .allSatisfy(line -> assertThat(line)
                        .contains("STORE_AWAY", "up: false", "File too large", "start the program again"));
        try (Neo4jHouseStore store = open(folder)) {
            assertThat(acknowledged).allMatch(line -> MixedWrites.isKept(store, line));
            assertThat(store.verify(false, Progress.NONE).differences()).isEmpty();
            assertThat(new MixedWrites(store, new Random(SEED)).one()).isNotEmpty();
        }
    }

    private static Neo4jHouseStore open(Path folder) {
        return Stores.embedded(folder, TestHouses.TEXT, Clock.systemUTC(), Derivation::derive);
    }

    private static void assertFileIsRefused(FolderFiles files) throws IOException {
        byte[] content = new byte[4 * MEBIBYTE];
        new Random(SEED).nextBytes(content);
        assertThatThrownBy(() -> files.keep(content)).isInstanceOfSatisfying(ProblemException.class, e -> {
            assertThat(e.problems().get(0).kind()).isEqualTo(ProblemKind.STORE_AWAY);
            assertThat(e.problems().get(0).said()).contains("No space left", "has room");
        });
        assertThat(files.list()).isEmpty();
    }

    private static String state(HouseStore store) {
        StringBuilder all = new StringBuilder();
        store.listHouses()
                .forEach(r -> all.append(store.revisions(r.house()))
                        .append(store.sightings(r.house()))
                        .append(store.drafts(r.house()))
                        .append(store.papers().list(Papers.VISIT, r.house())));
        return all.toString() + store.properties().list();
    }

    /** Fills a disk with a file until so many bytes are left. */
    private static void fill(Path ballast, Path folder, long left) throws IOException {
        byte[] block = new byte[MEBIBYTE];
        try (OutputStream out = Files.newOutputStream(ballast, StandardOpenOption.CREATE, StandardOpenOption.APPEND)) {
            while (Files.getFileStore(folder).getUsableSpace() > left) {
                out.write(block);
            }
        } catch (IOException e) {
            assertThat(left).as("filled to the last byte").isZero();
        }
    }

    private static int run(String... command) throws IOException, InterruptedException {
        try {
            return new ProcessBuilder(command).inheritIO().start().waitFor();
        } catch (IOException e) {
            return -1; // There is no such command here.
        }
    }
}
