package org.splicebook.ask;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.splicebook.answer.Answer;
import org.splicebook.answer.Row;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.problem.Where;
import org.splicebook.record.House;
import org.splicebook.store.ForwardingStore;
import org.splicebook.store.HouseStore;
import org.splicebook.store.MemoryStore;
import org.splicebook.store.Revision;
import org.splicebook.upkeep.TestLog;
import org.splicebook.wiring.Derivation;

/** What changes ask to be tested again, and what closes it. */
class DueQuestionTest {
    private static final String ROW = """
            splicebook: 1
            house: quince-court-7
            basis: seen
            complete: [cables, joints, breakers, landings]
            sources: {service: {system: split-phase 120/240, bond: main}}
            places: {bath: {name: Bath, kind: bathroom}}
            panels:
              main:
                place: bath
                supply: service
                spaces: 4
                breakers: {1: {rating: 15 A}, 2: {rating: 15 A}}
                joints: [[1, K1.black], [n, K1.white, K2.white], [g, K1.bare, K2.bare], [2, K2.black]]
            cables:
              K1: {kind: NM, wires: 14/2+ground, ends: [main, vanity]}
              K2: {kind: NM, wires: 14/2+ground, ends: [main, bed]}
              K3: {kind: NM, wires: 14/2+ground, ends: [vanity, far]}
            boxes:
              vanity:
                place: bath
                devices: {bath-gf: {kind: ground-fault-receptacle}}
                joints:
                  - [K1.black, bath-gf.line.hot]
                  - [K1.white, bath-gf.line.neutral]
                  - [K1.bare, K3.bare, bath-gf.ground]
                  - [K3.black, bath-gf.load.hot]
                  - [K3.white, bath-gf.load.neutral]
              far:
                place: bath
                devices: {far-1: {kind: single-receptacle}}
                joints: [[K3.black, far-1.hot], [K3.white, far-1.neutral], [K3.bare, far-1.ground]]
              bed:
                place: bath
                devices: {bed-1: {kind: single-receptacle}}
                joints: [[K2.black, bed-1.hot], [K2.white, bed-1.neutral], [K2.bare, bed-1.ground]]
            """;
    private static final String TODAY =
            LocalDate.now(ZoneOffset.UTC).plusDays(1).toString();

    private final MemoryStore memory = new MemoryStore();
    private final HouseStore store = new AnsweringStore(memory, Derivation::derive);

    @BeforeEach
    void put() {
        put(ROW, 0);
    }

    private void put(String text, long expected) {
        House house = HouseFiles.parse("house", text).get();
        House kept = memory.findHouse(house.id())
                .map(s -> house.withTests(s.house().tests()))
                .orElse(house);
        memory.put(kept, expected, "Rowan", "").get();
    }

    private Set<String> again() {
        Answer a = (Answer) store.ask("due", "quince-court-7", Map.of()).get();
        Set<String> again = new TreeSet<>();
        a.rows().stream()
                .filter(r -> r.columns().get(Row.REVISION) instanceof Long revision && revision > 1)
                .forEach(r -> again.add(r.subject()));
        return again;
    }

    private void test(String what, String device, String result, String date) {
        Revision unused = TestLog.append(
                store,
                "quince-court-7",
                List.of(Map.of("what", what, "device", device, "result", result, "date", date)),
                TODAY,
                "Rowan");
    }

    @Test
    void aFirstRevisionAsksForNothingButWhatIsDueByItsInterval() {
        assertThat(again()).isEmpty();
        Answer a = (Answer) store.ask("due", "quince-court-7", Map.of()).get();
        assertThat(a.rows())
                .singleElement()
                .satisfies(r -> assertThat(r.subject()).isEqualTo("bath-gf"));
        assertThat(a.outcome()).isEqualTo("1 never, as far as recorded.");
    }

    @Test
    void aChangeOfWiringAsksForWhatHangsOnItAndForItsProtection() {
        put(
                ROW.replace("[K3.black, bath-gf.load.hot]", "[K3.black, K1.black]")
                        .replace("      - [K1.black, bath-gf.line.hot]\n", "      - [bath-gf.line.hot]\n"),
                1);
        Set<String> open = again();
        assertThat(open).contains("far-1", "bath-gf").doesNotContain("bed-1");

        test("after-change", "far-1", "failed", TODAY);
        assertThat(again()).contains("far-1");
        test("after-change", "far-1", "passed", "2020-01-01");
        assertThat(again()).contains("far-1");
        test("after-change", "far-1", "passed", TODAY);
        assertThat(again()).doesNotContain("far-1").contains("bath-gf");
    }

    @Test
    void aTestThatWasRecordedWithOrBeforeTheChangeClosesNothing() {
        test("after-change", "far-1", "passed", TODAY);
        put(ROW.replace("14/2+ground, ends: [vanity, far]", "12/2+ground, ends: [vanity, far]"), 2);
        assertThat(again()).contains("far-1");
    }

    @Test
    void onlyItsOwnTestButtonClosesAProtectiveDevice() {
        put(ROW.replace("14/2+ground, ends: [vanity, far]", "12/2+ground, ends: [vanity, far]"), 1);
        Answer before = (Answer) store.ask("due", "quince-court-7", Map.of()).get();
        long rows = before.rows().stream()
                .filter(r -> r.subject().equals("bath-gf"))
                .count();
        test("trip-button", "bath-gf", "passed", TODAY);
        Answer after = (Answer)
                store.ask("due", "quince-court-7", Map.of("within", "5")).get();
        assertThat(rows).isPositive();
        assertThat(after.rows())
                .filteredOn(r -> String.valueOf(r.columns().get("test")).equals("Test button"))
                .isEmpty();
    }

    @Test
    void whatOnlySaysSomethingElseAsksForNothing() {
        put(ROW.replace("house: quince-court-7", "house: quince-court-7\nnote: the key is with the neighbour"), 1);
        assertThat(again()).isEmpty();
    }

    @Test
    void aTestOfWhatIsNotThereIsRefused() {
        assertThatThrownBy(() -> test("trip-button", "no-gf", "passed", TODAY))
                .isInstanceOf(ProblemException.class)
                .hasMessageContaining("no-gf");
        assertThat(memory.revisions("quince-court-7")).hasSize(1);
    }

    @Test
    void theSameTestSentTwiceIsRecordedOnceAndAnotherUnderItsIdIsRefused() {
        Map<String, String> one = Map.of("id", "x1", "what", "trip-button", "device", "bath-gf", "result", "passed");
        Revision first = TestLog.append(store, "quince-court-7", List.of(one), TODAY, "Rowan");
        assertThat(TestLog.append(store, "quince-court-7", List.of(one), TODAY, "Rowan"))
                .isEqualTo(first);
        Map<String, String> other = Map.of("id", "x1", "what", "trip-button", "device", "bath-gf", "result", "failed");
        assertThatThrownBy(() -> TestLog.append(store, "quince-court-7", List.of(other), TODAY, "Rowan"))
                .hasMessageContaining("known already");
    }

    @Test
    void whatSomebodyElseStoresMeanwhileIsKept() {
        HouseStore busy = new ForwardingStore(memory) {
            private boolean isFirst = true;

            @Override
            public Result<Revision> put(House house, long expected, String who, String why) {
                if (isFirst) {
                    isFirst = false;
                    DueQuestionTest.this.put(ROW.replace("bed-1", "bed-2"), 1);
                    return Result.failed(Problem.error(ProblemKind.STALE, Where.NOWHERE, "stale", ""));
                }
                return super.put(house, expected, who, why);
            }
        };
        Map<String, String> one = Map.of("what", "trip-button", "device", "bath-gf", "result", "passed");
        assertThat(TestLog.append(busy, "quince-court-7", List.of(one), TODAY, "Rowan")
                        .number())
                .isEqualTo(3);
        House now = memory.findHouse("quince-court-7").orElseThrow().house();
        assertThat(now.boxes().get("bed").devices()).containsKey("bed-2");
        assertThat(now.tests()).hasSize(1);
    }
}
