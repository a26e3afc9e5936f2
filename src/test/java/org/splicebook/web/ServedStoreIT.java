package org.splicebook.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.net.URI;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.splicebook.archive.ArchiveWriter;
import org.splicebook.drafts.DraftDesk;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.record.Draft;
import org.splicebook.record.House;
import org.splicebook.record.Move;
import org.splicebook.store.DraftState;
import org.splicebook.store.HouseStore;
import org.splicebook.store.KeptDraft;
import org.splicebook.store.MemoryStore;
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
    void draftsGoThereAndBack() {
        store.put(alderRow, 0, "me", "").get();
        DraftDesk desk = new DraftDesk(store);
        Move cap = new Move.Cap("bench", "K1.black");
        Move back = new Move.Shift("bench", "K1.black", "bench-1.top.hot");
        Draft draft = new Draft("off", Served.ID, null, "why: \"so\"", List.of(cap, back));
        KeptDraft kept = desk.save(draft, 0, "me & you");
        assertThat(served.store.findDraft(Served.ID, "off")).contains(kept);
        assertThat(store.findDraft(Served.ID, "off")).contains(kept);
        assertThat(store.drafts(Served.ID)).containsExactly(kept);
        assertThat(store.findDraft(Served.ID, "none")).isEmpty();
        assertThat(store.drafts("none")).isEmpty();
        assertThat(kind(store.putDraft(kept.state(), 0, "me"))).isEqualTo(ProblemKind.STALE);
        assertThat(kind(store.putDraft(kept.state(), 7, "me"))).isEqualTo(ProblemKind.STALE);
        assertThat(store.askDraft("goes-off", desk.drafted(kept), Map.of("breaker", "main.6"))
                        .isOk())
                .isTrue();

        assertThat(desk.enter(kept, 1, 1, false, "me", "2026-05-17").number()).isEqualTo(2);
        KeptDraft half = served.store.findDraft(Served.ID, "off").orElseThrow();
        assertThat(half.state().done()).isEqualTo(1);
        assertThat(half.state().base()).isEqualTo(2);
        KeptDraft gone = desk.withdraw(half, 2, "me");
        assertThat(gone.state().status()).isEqualTo(DraftState.Status.WITHDRAWN);
        assertThat(served.store.findDraft(Served.ID, "off")).contains(gone);
    }

    @Test
    void anArchiveIsRestoredThereOrRefusedWhole() throws Exception {
        HouseStore here = new MemoryStore();
        here.put(alderRow, 0, "Rowan", "first").get();
        java.io.ByteArrayOutputStream out = new java.io.ByteArrayOutputStream();
        ArchiveWriter.write(out, here, List.of(Served.ID), List.of(), Map.of(), Instant.EPOCH, Progress.NONE);
        Path file = java.nio.file.Files.createTempFile("archive", ".zip");
        ServedStore there = new ServedStore(URI.create(served.server.url()));
        try {
            java.nio.file.Files.write(file, out.toByteArray());
            assertThat(there.restore(file)).extracting(r -> r.house()).containsExactly(Served.ID);
            assertThat(served.store.findHouse(Served.ID).orElseThrow().house()).isEqualTo(alderRow);
            assertThatThrownBy(() -> there.restore(file)).hasMessageContaining("is in the store");
            java.nio.file.Files.writeString(file, "no zip");
            assertThatThrownBy(() -> there.restore(file)).hasMessageContaining("no archive");
            assertThat(served.store.revisions(Served.ID)).hasSize(1);
        } finally {
            java.nio.file.Files.delete(file);
        }
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
