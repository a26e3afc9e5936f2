package org.splicebook.graph;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Clock;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtensionContext;
import org.junit.jupiter.api.io.TempDir;
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
