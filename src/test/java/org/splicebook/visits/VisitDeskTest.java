package org.splicebook.visits;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDate;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.splicebook.answer.Answer;
import org.splicebook.answer.Dependence;
import org.splicebook.ask.AnsweringStore;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.problem.ProblemException;
import org.splicebook.record.House;
import org.splicebook.store.HouseStore;
import org.splicebook.store.MemoryStore;
import org.splicebook.store.Papers;
import org.splicebook.upkeep.TestLog;
import org.splicebook.wiring.Derivation;

class VisitDeskTest {
    private static final String ID = "alder-row-14b";
    private final MemoryStore memory = new MemoryStore();
    private final HouseStore store = new AnsweringStore(memory, Derivation::derive);
    private final VisitDesk desk = new VisitDesk(store);
    private String yaml;

    @BeforeEach
    void put() throws IOException {
        yaml = Files.readString(Path.of("src/test/resources/org/splicebook/housefile/alder-row.yaml"));
        assertThat(store.put(HouseFiles.parse("a", yaml).get(), 0, "me", "new").isOk())
                .isTrue();
    }

    private Visit take(Visit before, String step, String... said) {
        Map<String, String> map = new LinkedHashMap<>();
        for (int i = 0; i < said.length; i += 2) {
            map.put(said[i], said[i + 1]);
        }
        return before == null
                ? desk.take(ID, desk.next(ID), step, map, 0, "Rowan")
                : desk.take(ID, before.name(), step, map, before.version(), "Rowan");
    }

    private void change() {
        House changed = HouseFiles.parse(
                        "a",
                        yaml.replace(
                                        "bench-1: {kind: duplex-receptacle, rating: 20 A, tabs: {hot: out, neutral: in}}",
                                        "bench-1: {kind: duplex-receptacle, rating: 15 A, tabs: {hot: out, neutral: in}}")
                                .replace("- [6, K2.black]", "- [6]"))
                .get();
        long newest = store.findHouse(ID).orElseThrow().revision().number();
        assertThat(store.put(changed, newest, "Rowan", "wire off breaker 6").isOk())
                .isTrue();
    }

    @Test
    void aReportGoesOnToAClosedVisit() {
        Visit v = take(null, "report", "said", "half the flat is out", "symptoms", "dead: bench-1.top");
        assertThat(v.name()).isEqualTo("visit-1");
        assertThat(v.state().id()).isEqualTo("reported");
        Map<String, String> suspects = desk.suggested(v, "diagnose");
        assertThat(suspects.get("suspects")).contains("%");
        assertThat(suspects).containsKey("next");
        v = desk.take(ID, v.name(), "diagnose", suspects, v.version(), "Rowan");
        assertThat(desk.suggested(v, "plan")).containsKeys("who", "bring");
        v = take(v, "plan", "who", "licensed electrician", "boxes", "bench, main");
        assertThat(desk.affected(v)).anyMatch(l -> l.startsWith("bench: ")).anyMatch(l -> l.startsWith("main: "));
        v = take(v, "arrange", "day", "2026-05-01", "between", "9 and 12");
        v = take(v, "begin");
        change();
        v = take(v, "note", "what", "breaker 6 had a loose screw");
        v = take(v, "finish", "cause", "loose screw", "fix", "wire taken off until it is replaced");
        assertThat(desk.since(v)).anyMatch(l -> l.contains("wire off breaker 6"));
        List<String> open = desk.openTests(v);
        assertThat(open).isNotEmpty();
        Visit done = v;
        assertThatThrownBy(() -> take(done, "close")).hasMessageContaining("asks for tests that are not recorded");
        for (String test : open) {
            String device = test.substring(0, test.indexOf(' '));
            var unused = TestLog.append(
                    store,
                    ID,
                    List.of(Map.of("what", "after-change", "device", device, "result", "passed")),
                    LocalDate.now(java.time.ZoneId.systemDefault()).toString(),
                    "Rowan");
        }
        assertThat(desk.openTests(v)).isEmpty();
        v = take(v, "close");
        assertThat(v.isOpen()).isFalse();
        assertThat(desk.since(v)).anyMatch(l -> l.startsWith("Test of "));
        v = take(v, "reopen", "why", "out again");
        assertThat(v.state().id()).isEqualTo("reported");
    }

    @Test
    void whatWasChangedBeforeTheWorkBeganIsNoTestOfIt() {
        change();
        Visit v = take(null, "report", "said", "out");
        v = take(v, "plan", "who", "licensed electrician", "boxes", "bench");
        v = take(v, "begin");
        assertThat(desk.openTests(v)).isEmpty();
        assertThat(take(take(v, "finish", "cause", "a", "fix", "b"), "close").isOpen())
                .isFalse();
    }

    @Test
    void whatCannotBeFoundOutIsNeitherTestedNorOff() {
        VisitDesk deaf = new VisitDesk(memory); // no computed question is answered
        Visit v = take(null, "report", "said", "out");
        v = take(v, "plan", "who", "licensed electrician", "boxes", "bench");
        assertThat(deaf.affected(v)).singleElement().asString().contains("Count all of it as live");
        v = take(v, "begin");
        v = take(v, "finish", "cause", "a", "fix", "b");
        assertThat(deaf.openTests(v)).hasSize(1);
        Visit done = v;
        assertThatThrownBy(() -> deaf.take(ID, done.name(), "close", Map.of(), done.version(), "Rowan"))
                .hasMessageContaining("could not be found out");
    }

    @Test
    void itMayBeClosedBeforeItsTestsOnlyWithAWord() {
        Visit v = take(null, "report", "said", "out");
        v = take(v, "begin");
        change();
        v = take(v, "finish", "cause", "a", "fix", "b");
        Visit done = v;
        assertThatThrownBy(() -> take(done, "close")).isInstanceOf(ProblemException.class);
        assertThat(take(v, "close", "although", "the rest follows on Monday").isOpen())
                .isFalse();
    }

    @Test
    void whatIsWrongIsToldAndNothingIsKept() {
        assertThatThrownBy(() -> take(null, "report")).hasMessageContaining("What is said is not said");
        assertThatThrownBy(() -> take(null, "close")).hasMessageContaining("There is no visit");
        assertThatThrownBy(() -> take(null, "report", "said", "x", "colour", "red"))
                .hasMessageContaining("colour");
        assertThatThrownBy(() -> take(null, "report", "said", "x", "urgent", "maybe"))
                .hasMessageContaining("maybe");
        assertThat(desk.list(ID)).isEmpty();
        Visit v = take(null, "report", "said", "out");
        assertThatThrownBy(() -> take(v, "plan", "who", "licensed electrician", "boxes", "nowhere"))
                .hasMessageContaining("no box or panel 'nowhere'");
        assertThatThrownBy(() -> take(v, "arrange", "day", "1 May", "between", "9"))
                .hasMessageContaining("does not go on");
        Visit planned = take(v, "plan", "who", "the utility");
        assertThatThrownBy(() -> take(planned, "arrange", "day", "1 May", "between", "9"))
                .hasMessageContaining("is no day");
        assertThatThrownBy(() -> take(v, "plan", "who", "the utility")).hasMessageContaining("has 2");
    }

    @Test
    void whateverIsTriedTheStateIsThatOfTheLastStepTaken() {
        Random random = new Random(3);
        for (int round = 0; round < 20; round++) {
            Visit v = take(null, "report", "said", "out");
            for (int n = 0; n < 12; n++) {
                String step =
                        VisitKinds.words().get(random.nextInt(VisitKinds.words().size()));
                Map<String, String> said = new LinkedHashMap<>();
                VisitKinds.step(step).orElseThrow().fields().stream()
                        .filter(Field::needed)
                        .forEach(f -> said.put(
                                f.name(),
                                f.choices().isEmpty()
                                        ? f.name().equals("day") ? "2026-05-01" : "so"
                                        : f.choices().get(0)));
                boolean isAllowed = VisitKinds.steps(v.state().id()).stream().anyMatch(k -> k.id().equals(step));
                String why = "seed 3, round " + round + ", " + step + " while "
                        + v.state().id();
                try {
                    Visit after = desk.take(ID, v.name(), step, said, v.version(), "Rowan");
                    assertThat(isAllowed).as(why).isTrue();
                    assertThat(after.version()).isEqualTo(v.version() + 1);
                    assertThat(after.state().id())
                            .as(why)
                            .isEqualTo(VisitKinds.step(step).orElseThrow().to());
                    v = after;
                } catch (ProblemException e) {
                    assertThat(isAllowed).as(why).isFalse();
                    assertThat(desk.find(ID, v.name())).contains(v);
                }
            }
        }
    }

    @Test
    void everyStateIsReachedAndLeftAsTheTableSays() {
        for (String word : VisitKinds.words()) {
            StepKind kind = VisitKinds.step(word).orElseThrow();
            assertThat(VisitKinds.state(kind.to()).title()).isNotEmpty();
            kind.from().stream()
                    .filter(f -> !f.isEmpty())
                    .forEach(f -> assertThat(VisitKinds.state(f)).isNotNull());
            assertThat(kind.fields()).allMatch(f -> !f.label().isEmpty());
        }
    }

    @Test
    void whoDependsOnPowerIsThoughtOfAndNobodyIsNamed() {
        Residents residents = new Residents(store);
        residents.keep(
                ID, "tenant-1", Map.of("name", "Robin Ash", "depends", "breathing machine"), Instant.now(), "me");
        Answer off = (Answer) store.ask("shut-off", ID, Map.of("box", "bench")).get();
        assertThat(off.cautions().get(0)).isEqualTo(Dependence.HERE);
        assertThat(off.toString()).doesNotContain("Robin").doesNotContain("breathing");
        assertThat(residents.list(ID).get(0).value("name")).isEqualTo("Robin Ash");
        assertThat(HouseFiles.parse(
                                "a",
                                org.splicebook.housefile.HouseWriter.write(
                                        store.findHouse(ID).orElseThrow().house()))
                        .get()
                        .toString())
                .doesNotContain("Robin");
        assertThat(residents.erase(ID, "tenant-1")).isTrue();
        assertThat(residents.erase(ID, "tenant-1")).isFalse();
        assertThat(memory.papers().list(Papers.RESIDENT, ID)).isEmpty();
        assertThat(((Answer) store.ask("shut-off", ID, Map.of("box", "bench")).get()).cautions())
                .doesNotContain(Dependence.HERE);
        residents.keep(ID, "tenant-2", Map.of("name", "A"), Instant.now(), "me");
        assertThat(((Answer) store.ask("shut-off", ID, Map.of("box", "bench")).get()).cautions())
                .doesNotContain(Dependence.HERE);
        assertThatThrownBy(() -> residents.keep(ID, "../x", Map.of("name", "A"), Instant.now(), "me"))
                .hasMessageContaining("is no key");
    }
}
