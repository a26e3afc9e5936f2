package org.splicebook.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.loadflow.FlowReport;
import org.splicebook.render.Json;

class CommandsTest {
    private final FakeProgram program = new FakeProgram();
    private final String alderRow = program.sampleHouse().toString();

    @TempDir
    private Path folder;

    private String broken() throws IOException {
        return Files.writeString(folder.resolve("broken.yaml"), "splicebook: 1\nhouse: x\nwibble: 2\nwobble: 3\n")
                .toString();
    }

    @Test
    void fileWithoutProblemsIsFine() {
        assertThat(program.run("check-file", alderRow)).isZero();
        assertThat(program.out()).contains("is fine: house alder-row-14b");
    }

    @Test
    void everyProblemOfAFileIsPrintedWithItsPlace() throws IOException {
        String file = broken();
        assertThat(program.run("check-file", file)).isEqualTo(1);
        assertThat(program.out()).contains("broken.yaml:3:1", "wibble", "broken.yaml:4:1", "wobble", "2 problems");
        assertThat(program.run("check-file", "--json", file)).isEqualTo(1);
        assertThat(Json.read(program.out()).path("problems")).hasSize(2);
    }

    @Test
    void loadedHouseIsStoredOnceAndReplacedOnlyWhenTold() {
        assertThat(program.run("load", alderRow)).isZero();
        assertThat(program.out()).contains("Stored alder-row-14b", "revision 1");
        assertThat(program.run("load", alderRow)).isEqualTo(5);
        assertThat(program.err()).contains("stored already", "--replace");
        assertThat(program.run("load", "--replace", alderRow)).isZero();
        assertThat(program.out()).contains("revision 2");
    }

    @Test
    void ifOneFileIsBrokenNoneIsStored() throws IOException {
        assertThat(program.run("load", alderRow, broken())).isEqualTo(1);
        assertThat(program.store.listHouses()).isEmpty();
    }

    @Test
    void oneHouseInTwoFilesIsRefused() {
        assertThat(program.run("load", alderRow, alderRow)).isEqualTo(1);
        assertThat(program.store.listHouses()).isEmpty();
    }

    @Test
    void exportedHouseReadsBackAsTheSame() {
        program.run("load", alderRow);
        assertThat(program.run("export", "alder-row-14b")).isZero();
        assertThat(HouseFiles.parse("out", program.out()).get())
                .isEqualTo(HouseFiles.read(program.sampleHouse()).get());
        assertThat(program.run("export", "none")).isEqualTo(4);
    }

    @Test
    void exportLosesNoFileUnlessForced() throws IOException {
        program.run("load", alderRow);
        Path file = Files.writeString(folder.resolve("mine.yaml"), "# my comment\n");
        assertThat(program.run("export", "alder-row-14b", "-o", file.toString()))
                .isEqualTo(5);
        assertThat(file).hasContent("# my comment");
        assertThat(program.run("export", "alder-row-14b", "--force", "-o", file.toString()))
                .isZero();
        assertThat(Files.readString(file)).contains("alder-row-14b");
    }

    @Test
    void questionIsAskedOfTheOnlyHouseWithoutNamingIt() {
        program.run("load", alderRow);
        assertThat(program.run("ask", "goes-off", "breaker=main.6")).isZero();
        assertThat(program.out()).contains("What should be off when main.6", "1 shown, 1 possible", "No tap is buried");
        assertThat(program.run("ask", "--json", "goes-off", "--house", "alder-row-14b", "breaker=main.2+4"))
                .isZero();
        JsonNode reply = Json.read(program.out());
        assertThat(reply.path("parameters").path("breaker").asText()).isEqualTo("main.2+4");
    }

    @Test
    void withoutAHouseTheQuestionSaysSo() {
        assertThat(program.run("ask", "goes-off", "breaker=main.6")).isEqualTo(1);
        assertThat(program.err()).contains("No house is stored yet");
        assertThat(program.run("ask", "all-houses")).isZero();
    }

    @Test
    void problemsAreJsonWhereJsonWasAsked() {
        assertThat(program.run("ask", "--json", "none", "--house", "none")).isEqualTo(4);
        assertThat(Json.read(program.out())
                        .path("problems")
                        .path(0)
                        .path("code")
                        .asText())
                .isEqualTo("not-found");
    }

    @Test
    void questionsAreListedWithTheirParameters() {
        assertThat(program.run("questions")).isZero();
        assertThat(program.out()).contains("goes-off", "breaker=", "all houses");
    }

    @Test
    void wayIsPrintedHopByHopWithoutAStore() {
        program.isAway = true;
        assertThat(program.run("way", alderRow, "bench-1.top")).isZero();
        assertThat(program.out())
                .contains("bench-1.top from main.1", "bench-1.top returns to main.n")
                .containsSubsequence("wire K1.black", "breaker pole main.1", "source service")
                .contains("No tap is buried", "Before a hand goes near a wire");
        assertThat(program.run("way", alderRow, "bench-9")).isEqualTo(4);
        assertThat(program.err()).contains("bench-1.top");
    }

    @Test
    void unknownFeedIsNeverCalledSafe() {
        assertThat(program.run("way", alderRow, "bath-gf")).isZero();
        assertThat(program.out()).contains("What feeds bath-gf is not shown. Take it as live until it is tested.");
    }

    @Test
    void storeThatIsAwayHasAnExitCodeOfItsOwn() {
        program.isAway = true;
        assertThat(program.run("questions")).isEqualTo(3);
        assertThat(program.err()).contains("The store is away");
    }

    @Test
    void storeIsVerified() {
        program.run("load", alderRow);
        assertThat(program.run("verify-store", "--rebuild")).isZero();
        assertThat(program.out()).contains("1 house verified");
    }

    @Test
    void serverIsServedUntilItIsStopped() {
        assertThat(program.run("serve")).isZero();
        assertThat(program.out()).contains("http://127.0.0.1:7391");
        assertThat(program.waited).isTrue();
        assertThat(program.store.isClosed()).isTrue();
    }

    @Test
    void shutOffSaysTheThrowsThenTheReadingsThenTheCautions() {
        program.run("load", "sample-house");
        assertThat(program.run("shut-off", "stair-head", "--width", "44")).isZero();
        assertThat(program.out().lines()).allSatisfy(l -> assertThat(l.length()).isLessThanOrEqualTo(44));
        assertThat(program.out().replaceAll("\\s+", " "))
                .containsSubsequence(
                        "With these 2 throws everything in stair-head should be off. Only your own test tells.",
                        "Panel main (Workshop): open 10 \"Lights down\".",
                        "Prove your tester on a live point",
                        "Each of them to a ground that is known to be good",
                        "Before a hand goes near a wire")
                .doesNotContain("is dead", "is off.");
        assertThat(program.run("shut-off", "--json", "--cable", "C20a")).isZero();
        assertThat(Json.read(program.out())
                        .path("rows")
                        .path(0)
                        .path("ways")
                        .path(0)
                        .path("steps"))
                .isNotEmpty();
        assertThat(program.run("shut-off")).isEqualTo(1);
        assertThat(program.err()).contains("Nothing is named");
        assertThat(program.run("shut-off", "stairhead")).isEqualTo(4);
        assertThat(program.err()).contains("stair-head");
    }

    @Test
    void darkNamesTheThrowsOfTheWholeHouseAndWhatStaysLive() {
        program.run("load", "sample-house");
        assertThat(program.run("dark")).isZero();
        assertThat(program.out()).contains("open the main", "main.line-1", "do not touch them");
        assertThat(program.run("dark", "bath")).isZero();
        assertThat(program.out()).contains("20 \"Lights up\"", "Or everything, which is surer");
    }

    @Test
    void whatWasSeenIsRecordedUnderTheNextIdAndAWrongNameIsToldByItsKey() {
        program.run("load", "sample-house");
        assertThat(program.run(
                        "sight",
                        "with-off=main.34",
                        "at=front-4.top",
                        "before=lit",
                        "read=not lit",
                        "after=lit",
                        "levers=front-sw:up",
                        "instrument=lamp",
                        "date=2026-04-01"))
                .isZero();
        assertThat(program.out()).contains("Recorded as s36 of 2026-04-01");
        assertThat(program.store.sightings("pear-tree-house")).hasSize(36);
        assertThat(program.run("sight", "volts=118", "between=bath-1.top.hot,bath-9.top.hot"))
                .isEqualTo(1);
        assertThat(program.err()).contains("bath-9", "Did you mean bath-1");
        assertThat(program.run("sight", "at=bath-1.top", "lamps=12")).isEqualTo(1);
    }

    @Test
    void anyRowCanBeAskedWhyAlone() {
        program.run("load", "sample-house");
        assertThat(program.run("ask", "still-live", "breaker=main.20", "box=stair-head", "--why", "C10g.white"))
                .isZero();
        assertThat(program.out())
                .contains("From C10g.white:", "in stair-foot: ")
                .doesNotContain("S1.white");
        assertThat(program.run("ask", "still-live", "breaker=main.20", "box=stair-head", "--why", "C99.red"))
                .isEqualTo(4);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "start",
                "serve",
                "load",
                "ask",
                "shut-off",
                "dark",
                "sight",
                "questions",
                "way",
                "check-file",
                "export",
                "verify-store",
                "bench",
                "generate-completion"
            })
    void everyCommandExplainsItself(String command) {
        assertThat(program.run(command, "--help")).isZero();
        assertThat(program.out()).contains("Usage: splicebook " + command);
    }

    @Test
    void mistypedCommandsAreUsageErrors() {
        assertThat(program.run("wibble")).isEqualTo(2);
        assertThat(program.run("ask")).isEqualTo(2);
        assertThat(program.run("ask", "goes-off", "breaker")).isEqualTo(2);
        assertThat(program.run()).isEqualTo(2);
    }

    @Test
    void versionHelpAndCompletionCome() {
        assertThat(program.run("--version")).isZero();
        assertThat(program.out()).contains("9.8.7");
        assertThat(program.run("--help")).isZero();
        assertThat(program.out()).contains("Exit codes:", "3    The store cannot be reached");
        assertThat(program.run("generate-completion")).isZero();
        assertThat(program.out()).contains("complete", "verify-store");
    }

    @Test
    void fillTellsEveryBoxBrieflyAndOneInFull() {
        assertThat(program.run("fill", alderRow, "--width", "80")).isZero();
        assertThat(program.out()).contains("bench", "stair-foot", "never an approval");
        assertThat(program.run("fill", alderRow, "bench", "--edition", "2017", "--width", "44"))
                .isZero();
        assertThat(program.out()).contains("What counts", "314.16(B)(4)", "count up to");
        assertThat(program.out().lines()).allMatch(l -> l.length() <= 44);
    }

    @Test
    void fillAsJsonHasTheBoundsOfEveryItem() {
        assertThat(program.run("fill", alderRow, "bench", "--json")).isZero();
        JsonNode fill = Json.read(program.out());
        assertThat(fill.path("capacity").path("least").asDouble()).isEqualTo(30.3);
        assertThat(fill.path("items")).isNotEmpty().allMatch(i -> i.path("room").has("least"));
        assertThat(program.run("fill", alderRow, "--json")).isZero();
        assertThat(Json.read(program.out()).path("boxes")).isNotEmpty();
    }

    @Test
    void fillOfWhatIsNoBoxIsAProblem() {
        assertThat(program.run("fill", alderRow, "nowhere")).isEqualTo(4);
        assertThat(program.run("fill", alderRow, "main")).isEqualTo(1);
        assertThat(program.err()).contains("is a panel");
    }

    @Test
    void drawWritesSvgAndDoesNotOverwrite(@TempDir Path folder) {
        Path file = folder.resolve("stairs.svg");
        assertThat(program.run("draw", alderRow, "box", "stair-foot", "-o", file.toString()))
                .isZero();
        assertThat(file).content().startsWith("<svg").contains("stair-foot");
        assertThat(program.run("draw", alderRow, "panel", "main", "-o", file.toString()))
                .isNotZero();
        assertThat(program.err()).contains("--force");
        assertThat(program.run("draw", alderRow, "box", "nowhere")).isEqualTo(4);
    }

    @Test
    void directoryIsWrittenForEveryPanelOrOne() {
        assertThat(program.run("directory", alderRow, "main", "--width", "80")).isZero();
        assertThat(program.out()).contains("Panel main", "proves nothing");
        assertThat(program.out().lines()).allMatch(l -> l.length() <= 80);
        assertThat(program.run("directory", alderRow, "--json")).isZero();
        assertThat(Json.read(program.out()).path("directories")).isNotEmpty();
        assertThat(program.run("directory", alderRow, "none")).isEqualTo(4);
    }

    @Test
    void flowOfAFileTellsVoltsAndWhatTheyHangOn() {
        assertThat(program.run("flow", alderRow, "--fault", "open service.n", "--width", "90"))
                .isZero();
        assertThat(program.out()).contains("Load points", "bench-1.top", "length not recorded", "Test every wire");
    }

    @Test
    void flowAsJsonHasPhasorsAndAssumptions() {
        assertThat(program.run("flow", alderRow, "--json", "--load", "bench-1.top=1500 W"))
                .isZero();
        JsonNode o = Json.read(program.out());
        assertThat(o.at("/points")).isNotEmpty();
        assertThat(o.at("/assumptions")).isNotEmpty();
        assertThat(o.at("/branches").findValuesAsText("branch")).contains("K1.black");
    }

    @Test
    void flowTellsEveryNameThatMeansNothing() {
        assertThat(program.run("flow", alderRow, "--load", "nothing=12 A", "--open", "main.99"))
                .isEqualTo(1);
        assertThat(program.err()).contains("nothing", "main.99", "2 problems");
    }

    @Test
    void flowPrintsANetlistForOtherSimulators() {
        assertThat(program.run("flow", alderRow, "--netlist")).isZero();
        assertThat(program.out()).startsWith("*").contains(".ac lin 1", ".end");
    }

    @Test
    void everyReportOnAStateIsMadeWithWhatItHangsOn() {
        for (FlowReport r : FlowReport.values()) {
            assertThat(program.run(
                            "flow",
                            alderRow,
                            "--report",
                            r.word(),
                            "--about",
                            switch (r) {
                                case RUN_LENGTH -> "bench-1.top";
                                case DEVICE_HOLDS -> "bath-gf";
                                default -> "main.4";
                            },
                            "--reading",
                            "bench-1.top.hot bench-1.top.neutral 119.5 V",
                            "--width",
                            "80"))
                    .as(r.word() + program.err())
                    .isZero();
            assertThat(program.out()).contains("What these figures hang on", "Test every wire");
        }
    }

    @Test
    void reportThatIsNotThereIsToldWithThoseThatAre() {
        assertThat(program.run("flow", alderRow, "--report", "wibble")).isEqualTo(1);
        assertThat(program.err()).contains("wibble", "open-neutral", "loose-neutral");
    }

    @Test
    void checkTellsWhatIsFoundAskedAndThatItIsAdvice() {
        assertThat(program.run("check", alderRow, "--width", "80")).isZero();
        assertThat(program.out()).contains("US code, 2023", "Asked", "never an approval", "Test every wire");
        assertThat(program.run("check", alderRow, "--edition", "physics", "--json"))
                .isZero();
        assertThat(Json.read(program.out()).at("/pack").asText()).isEqualTo("physics");
        assertThat(program.run("check", alderRow, "--edition", "1999")).isEqualTo(1);
        assertThat(program.err()).contains("1999", "2023");
    }

    @Test
    void acceptedFindingIsTakenOutOfTheListAndCanBeTakenBack() {
        program.run("load", alderRow);
        program.run("check", "alder-row-14b", "--json");
        JsonNode first = Json.read(program.out()).path("findings").get(0);
        String key = first.path("key").asText();
        assertThat(program.run("accept", "alder-row-14b", key)).isEqualTo(1);
        assertThat(program.run("accept", "alder-row-14b", "no-rule/nothing", "--reason", "Because."))
                .isEqualTo(4);
        assertThat(program.run("accept", "alder-row-14b", key, "--reason", "Seen by the owner."))
                .isZero();
        program.run("check", "alder-row-14b");
        assertThat(program.out()).contains("1 accepted.", "Seen by the owner.");
        program.run("check", "alder-row-14b", "--against", "alder-row-14b@1", "--json");
        assertThat(Json.read(program.out()).path("cured")).isEmpty();
        assertThat(program.run("accept", "alder-row-14b", key, "--withdraw")).isZero();
        program.run("check", "alder-row-14b", "--json");
        assertThat(Json.read(program.out()).path("findings").get(0)).isEqualTo(first);
        assertThat(program.run("check", "alder-row-14b", "--explain", key)).isZero();
        assertThat(program.out()).contains(key, "By edition", "Cure");
    }
}
