package org.splicebook.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.net.URI;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.record.House;
import org.splicebook.store.HouseStore;
import org.splicebook.store.Progress;

class ServedStoreIT {
    private Served served;
    private HouseStore store;
    private final House alderRow = HouseFiles.parse("alder", Served.ALDER_ROW).get();

    @BeforeEach
    void start() {
        served = new Served();
        store = new ServedStore(URI.create(served.server.url()));
    }

    @AfterEach
    void stop() {
        served.close();
    }

    private static ProblemKind kind(Result<?> result) {
        return result.problems().get(0).kind();
    }

    @Test
    void houseGoesThereAndBack() {
        var made = store.put(alderRow, 0, "me & you", "why not?").get();
        assertThat(made).isEqualTo(served.store.listHouses().get(0));
        assertThat(made.who()).isEqualTo("me & you");
        assertThat(store.listHouses()).containsExactly(made);
        assertThat(store.findHouse(Served.ID)).isEqualTo(served.store.findHouse(Served.ID));
        assertThat(store.findRevision(Served.ID, 1)).isPresent();
        assertThat(store.findAsOf(Served.ID, Instant.now())).isPresent();
        assertThat(store.findHouse("none")).isEmpty();
        assertThat(store.revisions("none")).isEmpty();
    }

    @Test
    void staleWritesComeBackAsProblems() {
        store.put(alderRow, 0, "me", "").get();
        assertThat(kind(store.put(alderRow, 0, "me", ""))).isEqualTo(ProblemKind.STALE);
        assertThat(kind(store.put(alderRow, 7, "me", ""))).isEqualTo(ProblemKind.STALE);
        assertThat(store.put(alderRow, 1, "me", "").isOk()).isTrue();
        assertThat(kind(store.delete(Served.ID, 1, "me", ""))).isEqualTo(ProblemKind.STALE);
        assertThat(store.delete(Served.ID, 2, "me", "").get().deleted()).isTrue();
    }

    @Test
    void manyAreRefusedWholeIfOneExists() {
        assertThat(store.putAll(List.of(alderRow), "me", "").get()).hasSize(1);
        assertThat(kind(store.putAll(List.of(alderRow), "me", ""))).isEqualTo(ProblemKind.CONFLICT);
    }

    @Test
    void sightingsGoThereAndBack() {
        store.put(alderRow, 0, "me", "").get();
        assertThat(store.sightings(Served.ID)).isEqualTo(alderRow.sightings());
        assertThat(store.appendSightings(Served.ID, alderRow.sightings()).get()).isZero();
    }

    @Test
    void questionsAndRepliesAreThoseOfTheServer() {
        store.put(alderRow, 0, "me", "").get();
        Map<String, String> parameters = Map.of("breaker", "main.2+4");
        assertThat(store.questions()).isEqualTo(served.store.questions());
        assertThat(store.ask("goes-off", Served.ID, parameters).get())
                .isEqualTo(served.store.ask("goes-off", Served.ID, parameters).get());
        assertThat(kind(store.ask("none", "", Map.of()))).isEqualTo(ProblemKind.NOT_FOUND);
        assertThat(store.verify(true, Progress.NONE).clean()).isTrue();
        assertThat(store.health().up()).isTrue();
    }

    @Test
    void serverThatIsGoneIsAStoreThatIsAway() {
        served.close();
        assertThatThrownBy(() -> store.listHouses())
                .isInstanceOfSatisfying(
                        ProblemException.class,
                        e -> assertThat(e.problems().get(0).kind()).isEqualTo(ProblemKind.STORE_AWAY));
    }
}
