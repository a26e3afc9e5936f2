package org.splicebook.drafts;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import org.assertj.core.api.ThrowableAssert.ThrowingCallable;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.record.Basis;
import org.splicebook.record.Draft;
import org.splicebook.record.House;
import org.splicebook.record.Joint;
import org.splicebook.record.Move;
import org.splicebook.store.DraftState.Status;
import org.splicebook.store.KeptDraft;
import org.splicebook.store.MemoryStore;

/** What a draft that is kept goes through: saved, entered step by step, carried over, withdrawn. */
class DraftDeskTest {
    private static final String DAY = "2026-05-17";
    private static final String HOUSE = """
            splicebook: 1
            house: row-3
            basis: assumed
            sources: {service: {system: split-phase 120/240, bond: main}}
            places: {hall: {kind: hall}}
            panels:
              main:
                supply: service
                spaces: 12
                breakers: {1: {rating: 15 A}}
                joints: [[1, K1.black], [n, K1.white]]
            cables:
              K1: {kind: NM, wires: 14/2, ends: [main, near]}
              K2: {kind: NM, wires: 14/2, ends: [near, far]}
            boxes:
              near:
                place: hall
                joints: [{join: [K1.black, K2.black], by: twist-on}, {join: [K1.white, K2.white], by: twist-on}]
              far:
                place: hall
                devices: {end: {kind: duplex-receptacle}}
                joints: [[K2.black, end.hot], [K2.white, end.neutral]]
            """;
    private static final Move CAP = new Move.Cap("near", "K1.black");
    private static final Move CAP_OTHER = new Move.Cap("near", "K2.black");
    private static final Move TAKE_OFF = new Move.RetireDevice("end");

    private final MemoryStore store = new MemoryStore();
    private final DraftDesk desk = new DraftDesk(store);

    @BeforeEach
    void load() {
        store.put(house(HOUSE), 0, "Rowan", "").get();
    }

    private static House house(String text) {
        return HouseFiles.parse("row", text).get();
    }

    private static Draft draft(String name, Move... moves) {
        return new Draft(name, "row-3", null, null, List.of(moves));
    }

    private KeptDraft now(String name) {
        return desk.find("row-3", name);
    }

    private long revision() {
        return desk.house("row-3").revision().number();
    }

    private static void refused(ProblemKind kind, String words, ThrowingCallable work) {
        assertThatThrownBy(work).isInstanceOfSatisfying(ProblemException.class, e -> {
            assertThat(e.problems().get(0).kind()).isEqualTo(kind);
            assertThat(e.problems().get(0).said()).contains(words);
        });
    }

    @Test
    void itIsMadeOnTheNewestRevisionUnlessItNamesAnotherAndChangesNothing() {
        assertThat(desk.save(draft("dead-end", CAP), 0, "Hazel").state().base()).isEqualTo(1);
        assertThat(revision()).isEqualTo(1);
        Draft elsewhere = new Draft("other", "row-3", 9L, null, List.of());
        refused(ProblemKind.NOT_FOUND, "no revision 9", () -> desk.save(elsewhere, 0, "Hazel"));
        for (String name : List.of("told", "questions", "Two words", "-x", "x--y", "../x", "<b>", "")) {
            refused(ProblemKind.BAD_NAME, "cannot be called", () -> desk.save(draft(name), 0, "Hazel"));
        }
        refused(
                ProblemKind.DANGLING_NAME,
                "Move 2",
                () -> desk.save(draft("x", CAP, new Move.Cap("near", "K9.black")), 0, "Hazel"));
        assertThat(store.drafts("row-3")).hasSize(1);
    }

    @Test
    void itIsEnteredStepByStepAndTheHouseStandsHalfWay() {
        desk.save(draft("dead-end", CAP, CAP_OTHER, TAKE_OFF), 0, "Hazel");
        desk.enter(now("dead-end"), 1, 1, false, "Hazel", DAY);

        KeptDraft half = now("dead-end");
        assertThat(half.state().status()).isEqualTo(Status.PARTLY_ENTERED);
        assertThat(half.state().left()).containsExactly(CAP_OTHER, TAKE_OFF);
        assertThat(half.state().base()).isEqualTo(2);
        assertThat(desk.compared(half).since()).isEmpty();
        Joint capped = desk.house("row-3").house().boxes().get("near").joints().stream()
                .filter(j ->
                        j.members().size() == 1 && j.members().get(0).said().equals("K1.black"))
                .findFirst()
                .orElseThrow();
        assertThat(capped.about().basis()).isEqualTo(Basis.SEEN);
        assertThat(capped.about().since()).isEqualTo(DAY);

        refused(ProblemKind.BAD_VALUE, "2 steps are left", () -> desk.enter(half, 2, 3, false, "Hazel", DAY));
        desk.enter(half, 2, 2, false, "Hazel", DAY);
        assertThat(now("dead-end").state().status()).isEqualTo(Status.ENTERED);
        assertThat(store.revisions("row-3")).extracting(r -> r.why()).endsWith("done: dead-end, steps 2 to 3 of 3");
        KeptDraft done = now("dead-end");
        refused(ProblemKind.CONFLICT, "entered as done", () -> desk.enter(done, 3, 1, true, "Hazel", DAY));
        refused(ProblemKind.CONFLICT, "entered as done", () -> desk.withdraw(done, 3, "Hazel"));
        refused(ProblemKind.CONFLICT, "entered as done", () -> desk.save(done.draft(), 3, "Hazel"));
    }

    @Test
    void whatWasDoneOfItStaysAsItIs() {
        desk.save(draft("dead-end", CAP, CAP_OTHER), 0, "Hazel");
        desk.enter(now("dead-end"), 1, 1, false, "Hazel", DAY);
        refused(
                ProblemKind.CONFLICT,
                "first 1 moves",
                () -> desk.save(draft("dead-end", CAP_OTHER, TAKE_OFF), 2, "Hazel"));
        KeptDraft changed = desk.save(draft("dead-end", CAP, TAKE_OFF), 2, "Hazel");
        assertThat(changed.state().left()).containsExactly(TAKE_OFF);
        assertThat(changed.state().base()).isEqualTo(2);
    }

    @Test
    void whatItTouchesAndWasRecordedOtherwiseSinceHoldsItUp() {
        desk.save(draft("dead-end", CAP), 0, "Hazel");
        store.put(house(HOUSE.replace("{kind: hall}", "{kind: hall, name: Lower hall}")), 1, "Rowan", "")
                .get();
        assertThat(desk.compared(now("dead-end")).house().revision().number())
                .as("it touches nothing that changed")
                .isEqualTo(2);

        store.put(
                        house(HOUSE.replace(
                                "join: [K1.black, K2.black], by: twist-on", "join: [K1.black, K2.black], by: lever")),
                        2,
                        "Rowan",
                        "")
                .get();
        KeptDraft kept = now("dead-end");
        DraftDesk.Comparison c = desk.compared(kept);
        assertThat(c.since()).containsExactly("Recorded otherwise since revision 1: near.");
        assertThat(c.house().revision().number()).isEqualTo(1);
        refused(ProblemKind.CONFLICT, "since revision 1: near", () -> desk.enter(kept, 1, 1, false, "Hazel", DAY));
        refused(ProblemKind.CONFLICT, "since revision 1: near", () -> desk.carryOver(kept, 1, false, "Hazel"));
        KeptDraft over = desk.carryOver(kept, 1, true, "Hazel");
        assertThat(over.state().base()).isEqualTo(3);
        assertThat(desk.compared(over).since()).isEmpty();
        assertThat(desk.enter(over, 2, 1, false, "Hazel", DAY).number()).isEqualTo(4);
    }

    @Test
    void whatCannotBeMadeOnTheNewestRevisionIsToldAndNotCarriedOver() {
        desk.save(draft("take-off", TAKE_OFF), 0, "Hazel");
        store.put(
                        house(HOUSE.replace("devices: {end: {kind: duplex-receptacle}}", "devices: {}")
                                .replace("[[K2.black, end.hot], [K2.white, end.neutral]]", "[]")),
                        1,
                        "Rowan",
                        "")
                .get();
        KeptDraft kept = now("take-off");
        assertThat(desk.compared(kept).since()).anyMatch(s -> s.contains("cannot be made") && s.contains("Move 1"));
        assertThatThrownBy(() -> desk.carryOver(kept, 1, true, "Hazel")).isInstanceOf(ProblemException.class);
        assertThat(now("take-off").version()).isEqualTo(1);
    }

    @Test
    void oneThatIsWithdrawnIsTakenUpBySavingItAgain() {
        desk.save(draft("dead-end", CAP), 0, "Hazel");
        KeptDraft gone = desk.withdraw(now("dead-end"), 1, "Hazel");
        assertThat(gone.state().status()).isEqualTo(Status.WITHDRAWN);
        refused(ProblemKind.CONFLICT, "was withdrawn", () -> desk.enter(gone, 2, 1, false, "Hazel", DAY));
        assertThat(desk.save(gone.draft(), 2, "Hazel").state().status()).isEqualTo(Status.OPEN);
    }
}
