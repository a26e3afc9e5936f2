package org.splicebook.graph;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtensionContext;
import org.junit.jupiter.api.io.TempDir;
import org.splicebook.answer.Answer;
import org.splicebook.answer.Row;
import org.splicebook.housefile.HouseWriter;
import org.splicebook.oracle.RandomHouses;
import org.splicebook.oracle.Shape;
import org.splicebook.record.House;
import org.splicebook.store.Progress;
import org.splicebook.store.Revision;
import org.splicebook.store.StoredHouse;
import org.splicebook.wiring.Derivation;

class EmbeddedStoreIT extends HouseStoreContract {
    @Override
    OneDatabase database(ExtensionContext context) {
        return OneDatabase.embedded(context);
    }

    @Test
    void aRestartKeepsEverything(@TempDir Path folder) {
        House house = TestHouses.workshop("alder", "Alder");
        Revision revision;
        try (Neo4jHouseStore store = open(folder)) {
            revision = store.put(house, 0, "Rowan", "first walk").get();
        }
        try (Neo4jHouseStore store = open(folder)) {
            assertThat(store.findHouse("alder")).contains(new StoredHouse(house, revision));
            assertThat(store.revisions("alder")).containsExactly(revision);
            assertThat(store.verify(false, Progress.NONE).clean()).isTrue();
            assertThat(store.health().kind()).isEqualTo("embedded");
        }
    }

    @Test
    void aHouseThatBecomesQuiteAnotherHasTheGraphOfTheOther(ExtensionContext context) {
        Neo4jHouseStore store = database(context).store();
        for (int i = 0; i < 4; i++) {
            String text = HouseWriter.write(RandomHouses.house(100 + i / 2, Shape.SMALL))
                    .replaceFirst("house: \\S+", "house: alder");
            store.put(TestHouses.of(text), i, "Rowan", "").get();
            assertThat(store.verify(false, Progress.NONE).differences())
                    .as("write %d", i)
                    .isEmpty();
        }
    }

    /** A device that goes by another name each time: an answer has to be all of the one revision, or all of the next. */
    @Test
    void whatIsAskedWhileAHouseChangesIsAnsweredFromOneRevision(ExtensionContext context) throws Exception {
        Neo4jHouseStore store = database(context).store();
        House odd = TestHouses.workshop("alder", "Alder");
        House even = TestHouses.of(HouseWriter.write(odd).replace("bench-1", "bench-2"));
        List<String> ofOdd = List.of("bench-1.bottom", "bench-1.top");
        List<String> ofEven = List.of("bench-2.bottom", "bench-2.top");
        store.put(odd, 0, "Rowan", "").get();
        ExecutorService pool = Executors.newFixedThreadPool(3);
        AtomicBoolean isDone = new AtomicBoolean();
        try {
            List<Future<Integer>> readers = IntStream.range(0, 3)
                    .mapToObj(i -> pool.submit(() -> {
                        int asked = 0;
                        while (!isDone.get()) {
                            Answer answer = (Answer) store.ask("what-goes-off", "alder", Map.of("thing", "main.3"))
                                    .get();
                            long revision = answer.heading().revision();
                            assertThat(answer.rows(Row.Status.SHOWN))
                                    .as("revision %d", revision)
                                    .extracting(Row::subject)
                                    .containsExactlyElementsOf(revision % 2 == 1 ? ofOdd : ofEven);
                            asked++;
                        }
                        return asked;
                    }))
                    .toList();
            for (int i = 1; i <= 40 && readers.stream().noneMatch(Future::isDone); i++) {
                store.put(i % 2 == 1 ? even : odd, i, "Rowan", "").get();
            }
            isDone.set(true);
            for (Future<Integer> reader : readers) {
                assertThat(reader.get()).isPositive();
            }
        } finally {
            isDone.set(true);
            pool.shutdownNow();
        }
    }

    @Test
    void aWriteTouchesOnlyWhatDiffers(ExtensionContext context) {
        OneDatabase database = database(context);
        String bench = "MATCH (n {key: 'alder/bench-1'}) RETURN elementId(n) AS id";
        database.store()
                .put(TestHouses.workshop("alder", "Alder"), 0, "Rowan", "")
                .get();
        var before = database.tool().executableQuery(bench).execute().records();
        database.store()
                .put(TestHouses.workshop("alder", "Alder again"), 1, "Rowan", "")
                .get();
        assertThat(database.tool().executableQuery(bench).execute().records()).isEqualTo(before);
    }

    private static Neo4jHouseStore open(Path folder) {
        return Stores.embedded(folder, TestHouses.TEXT, Clock.systemUTC(), Derivation::derive);
    }
}
