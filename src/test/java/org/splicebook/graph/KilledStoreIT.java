package org.splicebook.graph;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.splicebook.store.Progress;
import org.splicebook.wiring.Derivation;

/**
 * A store whose process is killed while it writes loses nothing that it acknowledged. Many kills, with how many and when:
 *
 * <pre>mvn -Psoak verify -Dit.test=KilledStoreIT -Dsplicebook.kills=50 -Dsplicebook.seed=7</pre>
 */
class KilledStoreIT {
    private static final long SEED = Long.getLong("splicebook.seed", 1);
    private static final int MANY = Integer.getInteger("splicebook.kills", 50);

    @TempDir
    Path folder;

    @Test
    void killedTwiceItKeepsEveryAcknowledgedRevision() throws Exception {
        killAndLook(2);
    }

    @Test
    @Tag("soak")
    void killedManyTimesItKeepsEveryAcknowledgedRevision() throws Exception {
        killAndLook(MANY);
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

    private void killAndLook(int kills) throws Exception {
        Random random = new Random(SEED);
        List<String> acknowledged = new ArrayList<>();
        for (int kill = 1; kill <= kills; kill++) {
            int before = acknowledged.size();
            int wait = random.nextInt(1500);
            runUntilKilled(LoadingProcess.class, acknowledged, wait);
            assertThat(acknowledged)
                    .as("nothing was stored before kill %d", kill)
                    .hasSizeGreaterThan(before);
            look(acknowledged, "seed " + SEED + ", kill " + kill + " after " + wait + " ms");
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

    private void look(List<String> acknowledged, String when) {
        try (Neo4jHouseStore store = Stores.embedded(folder, TestHouses.TEXT, Clock.systemUTC(), Derivation::derive)) {
            for (String line : acknowledged) {
                String[] said = line.split(" ");
                assertThat(store.findRevision(said[0], Long.parseLong(said[1])))
                        .as("%s: %s", when, line)
                        .hasValueSatisfying(
                                s -> assertThat(s.revision().digest()).isEqualTo(said[2]));
            }
            assertThat(store.verify(false, Progress.NONE).differences())
                    .as(when)
                    .isEmpty();
        }
    }
}
