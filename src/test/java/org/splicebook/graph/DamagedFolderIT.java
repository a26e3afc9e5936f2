package org.splicebook.graph;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.store.Progress;
import org.splicebook.wiring.Derivation;

/** A data folder in which a file is not what it was: the start says so, or mends it, and what is read is never something else. */
class DamagedFolderIT {
    private static final long SEED = Long.getLong("splicebook.seed", 1);

    @TempDir
    static Path whole;

    private static final List<String> ACKNOWLEDGED = new ArrayList<>();

    @TempDir
    Path folder;

    @BeforeAll
    static void fill() {
        try (Neo4jHouseStore store = open(whole)) {
            MixedWrites writes = new MixedWrites(store, new Random(SEED));
            for (int i = 0; i < 30; i++) {
                ACKNOWLEDGED.add(writes.one());
            }
        }
    }

    private static Neo4jHouseStore open(Path folder) {
        return Stores.embedded(folder, TestHouses.TEXT, Clock.systemUTC(), Derivation::derive);
    }

    private Path copy() throws IOException {
        try (Stream<Path> files = Files.walk(whole)) {
            for (Path from : files.filter(p -> !p.equals(whole)).toList()) {
                Files.copy(from, folder.resolve(whole.relativize(from)));
            }
        }
        return folder;
    }

    private static void assertWhole(Neo4jHouseStore store) {
        assertThat(ACKNOWLEDGED).allMatch(line -> MixedWrites.isKept(store, line));
        assertThat(store.verify(false, Progress.NONE).differences()).isEmpty();
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                "half",
                "0000000000000000000000000000000000000000000000000000000000000000",
                "\u0000\u00ff\u0001"
            })
    void secretThatIsNoneOfItsOwnIsMadeAnew(String secret) throws IOException {
        Path file = EmbeddedNeo4j.secretFile(copy());
        Files.writeString(file, secret, StandardCharsets.ISO_8859_1);
        try (Neo4jHouseStore store = open(folder)) {
            assertWhole(store);
        }
        assertThat(Files.readString(file)).matches("[0-9a-f]{64}\\s*").isNotEqualTo(secret);
    }

    @Test
    void databaseThatWasNeverFinishedIsPutAsideAndMadeAnew() throws IOException {
        Files.createDirectories(folder.resolve("neo4j/data/databases/neo4j"));
        Files.writeString(folder.resolve("neo4j/data/databases/neo4j/neostore"), "half a file");
        Files.writeString(folder.resolve("being-made"), "");
        try (Neo4jHouseStore store = open(folder)) {
            assertThat(store.listHouses()).isEmpty();
            assertThat(new MixedWrites(store, new Random(SEED)).one()).isNotEmpty();
        }
        assertThat(folder.resolve("being-made")).doesNotExist();
        assertThat(folder.resolve("neo4j-unfinished/data/databases/neo4j/neostore"))
                .hasContent("half a file");
        try (Neo4jHouseStore store = open(folder)) {
            assertThat(store.listHouses()).as("a finished one stays").isNotEmpty();
        }
    }

    /** Whatever becomes of it, nothing else than what was stored is told as what was stored. */
    @ParameterizedTest
    @CsvSource({
        "data/databases/neo4j/neostore, 0",
        "data/databases/neo4j/neostore.nodestore.db, 0",
        "data/databases/neo4j/neostore.propertystore.db, 8192",
        "data/databases/neo4j/neostore.propertystore.db.arrays, 8192",
        "data/databases/neo4j/neostore.propertystore.db.strings, 8192",
        "data/databases/neo4j/neostore.relationshipstore.db, 0",
        "data/databases/system/neostore.nodestore.db, 0",
        "data/transactions/neo4j/neostore.transaction.db.0, 0"
    })
    void damagedFileOfTheDatabaseIsFound(String name, long at) throws IOException {
        Path file = copy().resolve("neo4j").resolve(name);
        try (RandomAccessFile raw = new RandomAccessFile(file.toFile(), "rw")) {
            byte[] noise = new byte[8192];
            new Random(SEED).nextBytes(noise);
            raw.seek(Math.min(at, Math.max(0, raw.length() - noise.length)));
            raw.write(noise);
        }
        List<String> lost = new ArrayList<>();
        List<String> found = new ArrayList<>();
        try (Neo4jHouseStore store = open(folder)) {
            for (String line : ACKNOWLEDGED) {
                try {
                    if (!MixedWrites.isKept(store, line)) {
                        lost.add(line);
                    }
                } catch (ProblemException e) {
                    found.add(e.problems().get(0).said());
                }
            }
            try {
                found.addAll(store.verify(false, Progress.NONE).differences());
            } catch (ProblemException e) {
                found.add(e.problems().get(0).said());
            }
        } catch (ProblemException e) {
            assertThat(e.problems().get(0).kind()).as(e.toString()).isEqualTo(ProblemKind.STORE_AWAY);
            found.add("start: " + e.problems().get(0).said());
        }
        System.out.println(name + ": " + lost.size() + " lost, said: "
                + found.stream().limit(2).toList());
        assertThat(found.isEmpty() && !lost.isEmpty()).as("lost in silence").isFalse();
    }

    @Test
    void folderThatIsAFileIsRefusedByItsName() throws IOException {
        Path file = folder.resolve("file");
        Files.writeString(file, "x");
        assertThatThrownBy(() -> open(file)).isInstanceOfSatisfying(ProblemException.class, e -> {
            assertThat(e.problems().get(0).kind()).isEqualTo(ProblemKind.STORE_AWAY);
            assertThat(e.problems().get(0).said()).contains(file.toString());
        });
    }
}
