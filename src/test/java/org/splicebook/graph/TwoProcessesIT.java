package org.splicebook.graph;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.URI;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.splicebook.answer.Reply;
import org.splicebook.store.HouseStore;
import org.splicebook.store.Progress;
import org.splicebook.store.Revision;
import org.splicebook.store.StoredHouse;

/** Two processes of the program on one database of another: of two edits at once one wins, none is lost, and no answer is of before. */
class TwoProcessesIT {
    private static final long SEED = Long.getLong("splicebook.seed", 1);
    private static final int EDITS = Integer.getInteger("splicebook.edits", 200);

    @TempDir
    Path folder;

    @Test
    void editsOfTwoAreNeverLostAndAnswersAreNeverStale() {
        ChildProcess database = ChildProcess.start(PlainServer.class, List.of(folder.toString()));
        ChildProcess rival = null;
        String[] said = database.line().split(" ");
        try (HouseStore store = RivalProcess.open(URI.create(said[0]), said[1])) {
            store.put(TestHouses.workshop(RivalProcess.HOUSE, "1"), 0, "me", "").get();
            rival = ChildProcess.start(RivalProcess.class, List.of(said[0], said[1]));
            assertThat(rival.line()).isEqualTo("ready");
            long newest = 1;
            int clashes = 0;
            int together = 0;
            Random random = new Random(SEED);
            for (int i = 0; i < EDITS; i++) {
                StoredHouse before = store.findHouse(RivalProcess.HOUSE).orElseThrow();
                assertThat(before.revision().number()).isEqualTo(newest);
                boolean mine = random.nextInt(3) != 0;
                boolean theirs = !mine || random.nextBoolean();
                if (theirs) {
                    rival.tell("");
                }
                Optional<Revision> my = mine ? RivalProcess.write(store, before) : Optional.empty();
                String their = theirs ? rival.line() : "none";
                together += mine && theirs ? 1 : 0;
                clashes += (mine && my.isEmpty() ? 1 : 0) + (their.equals("stale") ? 1 : 0);
                // Each one that was acknowledged is one revision more, and nobody who waited for it sees an older one.
                newest += (my.isPresent() ? 1 : 0) + (their.matches("[0-9]+") ? 1 : 0);
                assertSeen(store, newest);
            }
            assertThat(store.revisions(RivalProcess.HOUSE))
                    .hasSize((int) newest)
                    .allSatisfy(r -> assertThat(r.name())
                            .as("each edit was made of the one before")
                            .isEqualTo(String.valueOf(r.number())));
            assertThat(store.verify(false, Progress.NONE).differences()).isEmpty();
            System.out.println("seed " + SEED + ": " + newest + " revisions, " + together
                    + " times both at once, of which one was refused " + clashes + " times");
        } finally {
            if (rival != null) {
                rival.kill();
            }
            database.kill();
        }
    }

    /** By the record, by a question of a file, and by a computed one. */
    private static void assertSeen(HouseStore store, long revision) {
        StoredHouse now = store.findHouse(RivalProcess.HOUSE).orElseThrow();
        assertThat(now.revision().number()).isEqualTo(revision);
        assertThat(now.house().said()).isEqualTo(String.valueOf(revision));
        assertThat(store.listHouses()).extracting(Revision::number).containsExactly(revision);
        for (Reply reply : List.of(
                store.ask("load-points", RivalProcess.HOUSE, Map.of()).get(),
                store.ask("differences", RivalProcess.HOUSE, Map.of("from", "1"))
                        .get())) {
            assertThat(reply.heading().revision()).isEqualTo(revision);
            assertThat(reply.heading().houseName()).isEqualTo(String.valueOf(revision));
        }
    }
}
