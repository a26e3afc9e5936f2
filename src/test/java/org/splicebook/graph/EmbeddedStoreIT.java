package org.splicebook.graph;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Clock;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtensionContext;
import org.junit.jupiter.api.io.TempDir;
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

    private static Neo4jHouseStore open(Path folder) {
        return Stores.embedded(folder, TestHouses.TEXT, Clock.systemUTC(), Derivation::derive);
    }
}
