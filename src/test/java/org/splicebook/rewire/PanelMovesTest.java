package org.splicebook.rewire;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
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

    private static final String FURTHER = """
              - add-panel: sub
                as: {supply: F, spaces: 4, rating: 60 A, breakers: {1: {rating: 20 A}, 3+5: {rating: 15 A}}}
                feeder: {kind: PVC, wires: {hot: black, neutral: white, ground: green}, ends: [main, sub]}
              - {move: F.hot, to: line-1, in: sub}
              - {add-box: inlet, as: {place: hall}}
              - add-source: set
                as: {kind: generator, system: single 120, rating: 15 A, at: inlet}
              - add-cable: X
                as: {kind: PVC, wires: {hot: black, neutral: white}, ends: [main, sub]}
              - add-cable: S
                as: {kind: PVC, wires: {l1: black, n: white}, ends: [inlet, sub]}
              - {move: S.l1, to: set.l1, in: inlet}
              - {splice: [K3.black, X.hot], in: main}
              - {move: X.hot, to: "1", in: sub}
              - {splice: [K3.white, X.neutral], in: main}
              - {move: X.neutral, to: n, in: sub}
              - {panel: main, was: ["4"]}
            """;

    @Test
    void aFurtherPanelComesWithItsFeederAndASourceWithItsTerminals() {
        House after = applied(FURTHER).get();
        assertThat(after.panels().get("sub").supply()).containsExactly("F");
        assertThat(after.panels().get("main").breakers()).doesNotContainKey("4");
        assertThat(after.boxes().get("inlet").joints())
                .anyMatch(j -> j.members().contains(new Ref.SourceTerminal("set", "l1")));
        DraftFiles.Written w = read(FURTHER).get();
        String text = DraftFiles.write(w.draft());
        assertThat(DraftFiles.parse("again", text, HOUSE).get().draft()).isEqualTo(w.draft());
        Worklist work = Worklist.of(HOUSE, after, w.draft().moves());
        assertThat(work.sites()).contains("main", "sub", "inlet");
        assertThat(work.steps()).anyMatch(s -> s.contains("hang sub, a panel of 4 spaces") && s.contains("feeder F"));
    }

    @Test
    void whatWasLedOverIsKnownAgainThere() {
        LedOver led = LedOver.of(HOUSE, read(FURTHER).get().draft().moves());
        assertThat(led.name("main.4")).contains("sub.1");
        assertThat(led.name("main:K3.white")).contains("sub:X.neutral");
        assertThat(led.name("main.1")).isEmpty();
        assertThat(LedOver.of(HOUSE, read(NEW).get().draft().moves()).isAny()).isFalse();
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "supply: F,|spaces: 8,|no supply",
                "supply: F,|supply: [F, service],|several supplies",
                "ends: [main, sub]}\\n  - {move: F|ends: [main, one]}\\n  - {move: F|no end in it",
                "add-panel: sub|add-panel: one|There is no box or panel",
                "at: inlet|from: shed|not said where the terminals",
                "set.l1|set.l7|terminal of set",
                "add-source: set|add-source: service|The name service is taken",
                "add-cable: X|add-cable: F|The name F is taken",
            })
    void aFurtherPanelThatCannotBeIsRefusedWithTheReason(String right, String wrong, String why) {
        String moves = FURTHER.replace(right.replace("\\n", "\n"), wrong.replace("\\n", "\n"));
        assertThat(moves).isNotEqualTo(FURTHER);
        assertThat(applied(moves).problems()).isNotEmpty();
        assertThat(applied(moves).problems().stream().map(Problem::said).collect(Collectors.joining("; ")))
                .contains(why);
    }
}
