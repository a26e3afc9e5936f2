package org.splicebook.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.splicebook.render.Json;

/** Drafts by command: told, looked at with other commands, entered whole or in part, held up where the house has moved on. */
class DraftCommandTest {
    private static final String HOUSE = """
            splicebook: 1
            house: two-gang
            basis: assumed
            sources: {service: {system: split-phase 120/240, bond: main}}
            places: {hall: {kind: hall}}
            panels:
              main:
                supply: service
                spaces: 12
                breakers: {1: {rating: 15 A}, 3: {rating: 15 A}}
                joints: [[1, K1.black], [3, K1.red], [n, K1.white], [g, K1.bare]]
            cables:
              K1: {kind: NM, wires: 14/3+ground, ends: [main, gang]}
              K2: {kind: NM, wires: 14/2+ground, ends: [gang, far]}
            boxes:
              gang:
                place: hall
                devices: {near: {kind: duplex-receptacle}}
                joints:
                  - [K1.black, near.hot]
                  - [K1.red, K2.black]
                  - {join: [K1.white, K2.white], tail: near.neutral, by: twist-on}
                  - {join: [K1.bare, K2.bare], tail: near.ground, by: twist-on}
              far:
                place: hall
                devices: {end: {kind: duplex-receptacle}}
                joints: [[K2.black, end.hot], [K2.white, end.neutral], [K2.bare, end.ground]]
            """;

    private static final String MOVES = """
            draft: one-handle
            house: two-gang
            revision: 1
            reason: One handle for both hots.
            moves:
              - {panel: main, was: ["1", "3"], is: 1+3, as: {rating: 15 A}}
              - {device: end, kind: ground-fault-receptacle, terminals: {top.hot: line.hot, top.neutral: line.neutral}}
            """;

    private final FakeProgram program = new FakeProgram();

    @TempDir
    private Path folder;

    private String file(String name, String text) throws IOException {
        return Files.writeString(folder.resolve(name), text).toString();
    }

    @Test
    void aDraftOfAFileIsToldAndMarked() throws IOException {
        String house = file("house.yaml", HOUSE);
        String moves = file("moves.yaml", MOVES);
        assertThat(program.run("draft", house, moves, "--width", "100")).isZero();
        assertThat(program.out())
                .contains(
                        "DRAFT",
                        "Multiwire circuit without a common disconnect",
                        "1 x ground-fault receptacle",
                        "main: take out 1 and 3",
                        "Press the test button of end");
        assertThat(program.run("draft", house, moves, "--json")).isZero();
        JsonNode json = Json.read(program.out());
        assertThat(json.path("draft").asBoolean()).isTrue();
        assertThat(program.run("check", house, "--draft", moves)).isZero();
        assertThat(program.out()).startsWith("DRAFT").doesNotContain("Multiwire circuit without");
        assertThat(program.run("check", house, "--draft", moves, "--json")).isZero();
        assertThat(Json.read(program.out()).path("draft").asBoolean()).isTrue();
        assertThat(program.run("draw", house, "box", "far", "--draft", moves)).isZero();
        assertThat(program.out()).contains("Draft one-handle of two-gang", "Ground-fault receptacle");
        assertThat(program.run("draft", house, moves, "--enter")).isNotZero();
        assertThat(program.err()).contains("is a file");
    }

    @Test
    void everyQuestionLooksAtADraft() throws IOException {
        program.run("load", file("house.yaml", HOUSE));
        String moves = file("moves.yaml", MOVES);
        assertThat(program.run("shut-off", "gang")).isZero();
        assertThat(program.out()).doesNotContain("DRAFT", "1+3");
        assertThat(program.run("shut-off", "gang", "--draft", moves)).isZero();
        assertThat(program.out()).contains("DRAFT", "main.1+3", "Test every wire");
        assertThat(program.run("ask", "differences", "--draft", moves, "--width", "140"))
                .isZero();
        assertThat(program.out()).contains("DRAFT", "revision 1", "end", "breaker is new");
        assertThat(program.run("ask", "goes-off", "breaker=main.1", "--draft", moves))
                .isZero();
        assertThat(program.out()).contains("What should be off when main.1 is opened?", "DRAFT", "revision 1");
    }

    @Test
    void aDraftIsEnteredStepByStep() throws IOException {
        program.run("load", file("house.yaml", HOUSE));
        assertThat(program.run("draft", "two-gang", file("moves.yaml", MOVES), "--enter", "--steps", "1"))
                .isZero();
        assertThat(program.out()).contains("steps 1 to 1 of 2 (revision 2)", "revision: 2", "ground-fault-receptacle");
        String rest = file("rest.yaml", program.out().substring(program.out().indexOf("draft: ")));
        assertThat(program.store
                        .findHouse("two-gang")
                        .orElseThrow()
                        .house()
                        .panels()
                        .get("main")
                        .breakers())
                .containsOnlyKeys("1+3");
        assertThat(program.run("draft", "two-gang", rest, "--enter")).isZero();
        program.run("export", "two-gang");
        assertThat(program.out()).contains("ground-fault-receptacle", "basis: seen");
    }

    @Test
    void whatTheHouseHasMovedOnFromIsToldAndHeldUp() throws IOException {
        program.run("load", file("house.yaml", HOUSE));
        program.run("load", "--replace", file("house.yaml", HOUSE.replace("3: {rating: 15 A}", "3: {rating: 20 A}")));
        String moves = file("moves.yaml", MOVES);
        assertThat(program.run("draft", "two-gang", moves)).isZero();
        assertThat(program.out()).contains("Recorded otherwise since revision 1: main.");
        assertThat(program.run("draft", "two-gang", moves, "--enter")).isEqualTo(5);
        assertThat(program.err()).contains("--carry-over");
        assertThat(program.run("draft", "two-gang", moves, "--enter", "--carry-over"))
                .isZero();
    }

    @Test
    void aMoveThatCannotBeMadeIsAProblemAndNothingIsStored() throws IOException {
        program.run("load", file("house.yaml", HOUSE));
        String moves = file("moves.yaml", "draft: x\nmoves: [{cap: K9.black, in: gang}]\n");
        assertThat(program.run("draft", "two-gang", moves, "--enter")).isNotZero();
        assertThat(program.err()).contains("Move 1", "K9.black");
        assertThat(program.store.findHouse("two-gang").orElseThrow().revision().number())
                .isEqualTo(1);
    }

    @Test
    void aDraftIsKeptListedShownAndEnteredStepByStep() throws IOException {
        program.run("load", file("house.yaml", HOUSE));
        String moves = file("moves.yaml", MOVES);
        assertThat(program.run("draft", "list", "two-gang")).isZero();
        assertThat(program.out()).contains("No drafts");
        assertThat(program.run("draft", "save", "two-gang", moves)).isZero();
        assertThat(program.out()).contains("draft one-handle, version 1, on revision 1");
        assertThat(program.run("draft", "list", "two-gang", "--width", "120")).isZero();
        assertThat(program.out()).contains("one-handle", "open", "0 of 2", "One handle for both hots.");
        assertThat(program.run("draft", "list", "two-gang", "--json")).isZero();
        assertThat(Json.read(program.out()).get(0).path("mark").asText()).startsWith("DRAFT");
        assertThat(program.run("draft", "show", "two-gang", "one-handle", "--width", "120"))
                .isZero();
        assertThat(program.out()).contains("one-handle: open", "DRAFT", "main: take out 1 and 3");
        assertThat(program.run("draft", "show", "two-gang", "one-handle", "--moves"))
                .isZero();
        String kept = file("kept.yaml", program.out());
        assertThat(program.run("draft", "two-gang", kept)).isZero();

        assertThat(program.run("draft", "enter", "two-gang", "one-handle", "--steps", "1"))
                .isZero();
        assertThat(program.out()).contains("revision 2", "1 moves left");
        assertThat(program.run("draft", "save", "two-gang", file("other.yaml", MOVES.replace("15 A", "20 A"))))
                .isEqualTo(5);
        assertThat(program.run("draft", "enter", "two-gang", "one-handle")).isZero();
        assertThat(program.run("draft", "list", "two-gang")).isZero();
        assertThat(program.out()).contains("entered", "2 of 2");
        assertThat(program.run("draft", "show", "two-gang", "none")).isEqualTo(4);
        assertThat(program.run("draft", "withdraw", "two-gang", "one-handle")).isEqualTo(5);
    }

    @Test
    void aKeptDraftIsCarriedOverWithWhatConflicts() throws IOException {
        program.run("load", file("house.yaml", HOUSE));
        program.run("draft", "save", "two-gang", file("moves.yaml", MOVES));
        program.run("load", "--replace", file("house.yaml", HOUSE.replace("3: {rating: 15 A}", "3: {rating: 20 A}")));
        assertThat(program.run("draft", "show", "two-gang", "one-handle")).isZero();
        assertThat(program.out()).contains("Recorded otherwise since revision 1: main.");
        assertThat(program.run("draft", "carry-over", "two-gang", "one-handle")).isEqualTo(5);
        assertThat(program.run("draft", "carry-over", "two-gang", "one-handle", "--although"))
                .isZero();
        assertThat(program.out()).contains("revision 2");
        assertThat(program.run("draft", "withdraw", "two-gang", "one-handle")).isZero();
        assertThat(program.run("draft", "enter", "two-gang", "one-handle")).isEqualTo(5);
        assertThat(program.err()).contains("was withdrawn");
    }
}
