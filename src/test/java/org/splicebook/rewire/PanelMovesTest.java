package org.splicebook.rewire;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.splicebook.housefile.DraftFiles;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.problem.Problem;
import org.splicebook.problem.Result;
import org.splicebook.record.House;
import org.splicebook.record.Joint;
import org.splicebook.record.Ref;
import org.splicebook.record.Sighting;

/** A panel and a service that take the place of others. */
class PanelMovesTest {
    private static final House HOUSE = HouseFiles.parse("house", """
            splicebook: 1
            house: small
            basis: seen
            sources: {service: {system: split-phase 120/240, rating: 60 A, bond: main}}
            places: {hall: {kind: hall}}
            panels:
              main:
                place: hall
                supply: service
                spaces: 8
                rating: 60 A
                fuses: {1: {rating: 15 A}, 2: {rating: 15 A}, 4: {rating: 20 A}}
                joints: [[1, K1.black], [2, K2.black], [4, K3.black], [n, K1.white, K2.white, K3.white]]
            cables:
              K1: {kind: NM, wires: 14/2, ends: [main, one]}
              K2: {kind: NM, wires: 14/2, ends: [main, one]}
              K3: {kind: NM, wires: 12/2, ends: [main, one]}
            boxes:
              one:
                place: hall
                devices: {a: {kind: single-receptacle}}
                joints: [[K1.black, a.hot], [K1.white, a.neutral]]
            sightings:
              - {id: s1, date: 2026-03-14, with-off: [main.1], at: a, before: lit, read: not lit, after: lit, instrument: lamp}
              - {id: s2, date: 2026-03-14, with-off: [main.4], at: a, read: lit}
            """).get();

    private static final String NEW = """
              - change-source: service
                as: {system: split-phase 120/240, rating: 200 A, bond: main}
              - replace-panel: main
                as:
                  place: hall
                  supply: service
                  spaces: 40
                  rating: 200 A
                  main: {poles: 2, rating: 200 A}
                  breakers: {1: {rating: 15 A, protects: [arc-fault]}, 3: {rating: 15 A}, 4: {rating: 20 A}}
                landings: {"2": "1", "1": "3"}
            """;

    private static Result<DraftFiles.Written> read(String moves) {
        return DraftFiles.parse("draft", "draft: d\nhouse: small\nmoves:\n" + moves, HOUSE);
    }

    private static Result<House> applied(String moves) {
        Result<DraftFiles.Written> read = read(moves);
        return read.isOk() ? Moves.apply(HOUSE, read.get().draft().moves()) : new Result.Failed<>(read.problems());
    }

    private static String on(House h, String terminal) {
        return h.panels().get("main").joints().stream()
                .map(Joint::members)
                .filter(m -> m.contains(new Ref.PanelTerminal(terminal)))
                .flatMap(List::stream)
                .map(Ref::said)
                .filter(s -> !s.equals(terminal))
                .sorted()
                .collect(Collectors.joining(" "));
    }

    @Test
    void wiresGoWhereTheLandingsSayAndElseStay() {
        House after = applied(NEW).get();
        assertThat(on(after, "1")).isEqualTo("K2.black");
        assertThat(on(after, "3")).isEqualTo("K1.black");
        assertThat(on(after, "4")).isEqualTo("K3.black");
        assertThat(on(after, "n")).isEqualTo("K1.white K2.white K3.white");
        assertThat(after.sources().get("service").rating().said()).isEqualTo("200 A");
        assertThat(after.panels().get("main").spaces()).isEqualTo(40);
    }

    @Test
    void whatWasObservedOfANameThatMeansSomethingElseIsForgotten() {
        assertThat(applied(NEW).get().sightings()).extracting(Sighting::id).containsExactly("s2");
    }

    @Test
    void readsBackAsWritten() {
        DraftFiles.Written w = read(NEW).get();
        String text = DraftFiles.write(w.draft());
        assertThat(DraftFiles.parse("again", text, HOUSE).get().draft()).isEqualTo(w.draft());
    }

    @Test
    void aWireWithoutATerminalIsRefusedAndNamed() {
        List<Problem> wrong = applied(NEW.replace(", 3: {rating: 15 A}", "").replace(", \"1\": \"3\"", ""))
                .problems();
        // Then the wires of 1 and 2 meet on one terminal: that is bad wiring, not a bad move. A terminal that is gone
        // is one.
        assertThat(wrong).isEmpty();
        assertThat(applied(NEW.replace(", 4: {rating: 20 A}", "")).problems())
                .singleElement()
                .satisfies(p -> assertThat(p.message()).contains("On 4 of the old panel lands K3.black"));
        assertThat(applied(NEW.replace("\"1\": \"3\"", "\"1\": \"33\"")).problems())
                .singleElement()
                .satisfies(p -> assertThat(p.message()).contains("no terminal of the new main 33"));
        assertThat(applied(NEW.replace("replace-panel: main", "replace-panel: mian"))
                        .problems())
                .singleElement()
                .satisfies(p -> assertThat(p.said()).contains("no panel").contains("main"));
        assertThat(applied(NEW.replace("change-source: service", "change-source: servise"))
                        .problems())
                .singleElement()
                .satisfies(p -> assertThat(p.message()).contains("no source"));
    }

    @Test
    void aBreakerIsKnownAgainByWhatLandedOnIt() {
        List<org.splicebook.record.Move> moves = read(NEW).get().draft().moves();
        assertThat(Renamed.breaker(moves, "main.2")).isEqualTo("main.1");
        assertThat(Renamed.breaker(moves, "main.1")).isEqualTo("main.3");
        assertThat(Renamed.breaker(moves, "main.4")).isEqualTo("main.4");
        assertThat(Renamed.breaker(moves, "a.hot")).isEqualTo("a.hot");
    }
}
