package org.splicebook.housefile;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assertions.assertTimeoutPreemptively;

import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemKind;

/** Files made to do harm are refused, clearly and at once. */
class HostileInputTest {
    private static final String HEAD = "splicebook: 1\nhouse: a\n";
    private static final Duration SOON = Duration.ofSeconds(1);
    private static final Duration AT_LAST = Duration.ofSeconds(30);

    @TempDir
    Path folder;

    @BeforeAll
    static void warm() {
        Fixtures.house("alder-row.yaml");
        for (int i = 0; i < 3; i++) {
            HouseFiles.parse("f", HEAD + "complete: [" + "a,".repeat(50_000) + "]");
        }
    }

    static Stream<Arguments> texts() {
        return Stream.of(
                Arguments.of("50 MB", HEAD + "note: " + "x".repeat(50_000_000), ProblemKind.TOO_LARGE),
                Arguments.of(
                        "many bytes in few characters", HEAD + "note: " + "配".repeat(2_000_000), ProblemKind.TOO_LARGE),
                Arguments.of("deep lists", HEAD + "note: " + "[".repeat(100_000), ProblemKind.TOO_LARGE),
                Arguments.of("deep maps", HEAD + "note: " + "{a: ".repeat(100_000), ProblemKind.TOO_LARGE),
                Arguments.of("deep blocks", HEAD + "note:\n" + "- ".repeat(20_000), ProblemKind.TOO_LARGE),
                Arguments.of("aliases that explode", explosion(), ProblemKind.TOO_LARGE),
                Arguments.of("one alias", HEAD + "note: *a\n", ProblemKind.TOO_LARGE),
                Arguments.of("an anchor", HEAD + "note: &a b\n", ProblemKind.TOO_LARGE),
                Arguments.of(
                        "too many parts", HEAD + "complete: [" + "a,".repeat(300_000) + "]", ProblemKind.TOO_LARGE),
                Arguments.of("a long name", HEAD + "name: " + "x".repeat(5_000), ProblemKind.TOO_LARGE),
                Arguments.of("a long note", HEAD + "note: " + "x".repeat(21_000), ProblemKind.TOO_LARGE),
                Arguments.of("a tag", HEAD + "note: !!java.net.URL [\"http://localhost\"]", ProblemKind.SYNTAX),
                Arguments.of("a key that is a list", HEAD + "[a, b]: c", ProblemKind.SYNTAX),
                Arguments.of("a byte that is no text", HEAD + "note: a\u0000b", ProblemKind.SYNTAX),
                Arguments.of("a name that rings", HEAD + "boxes: {\"a\\ab\": {}}", ProblemKind.BAD_NAME),
                Arguments.of("a name that turns round", HEAD + "boxes: {\"a\\u202Eb\": {}}", ProblemKind.BAD_NAME),
                Arguments.of("a name that cannot be seen", HEAD + "boxes: {\"a\\u200Bb\": {}}", ProblemKind.BAD_NAME),
                Arguments.of("a name that is a path", HEAD + "boxes: {../../etc: {}}", ProblemKind.BAD_NAME),
                Arguments.of("a label that turns round", HEAD + "name: \"a\\u2066b\"", ProblemKind.BAD_VALUE),
                Arguments.of(
                        "joints of nothing",
                        HEAD + "boxes: {b: {joints: [[" + "x.y,".repeat(60_000) + "]]}}",
                        ProblemKind.DANGLING_NAME),
                Arguments.of(
                        "a cable of many wires",
                        HEAD + "cables: {K: {kind: EMT, ends: [b, \"?\"], wires: {" + numbered("w%d: red,", 40_000)
                                + "}}}\nboxes: {b: {joints: [[" + numbered("K.w%d,", 40_000) + "]]}}",
                        ProblemKind.TOO_LARGE),
                Arguments.of(
                        "a number that is long", HEAD + "area: " + "9".repeat(4_000) + " m2", ProblemKind.BAD_UNIT));
    }

    private static String numbered(String pattern, int count) {
        return IntStream.range(0, count)
                .mapToObj(i -> String.format(pattern, i))
                .collect(Collectors.joining());
    }

    private static String explosion() {
        return HEAD + "a: &a [x,x,x,x,x,x,x,x,x]\n"
                + IntStream.range(0, 20)
                        .mapToObj(i -> "b" + i + ": &b" + i + " [*a,*a,*a,*a,*a,*a,*a,*a,*a]\n")
                        .collect(Collectors.joining());
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("texts")
    void aTextMadeToDoHarmIsRefusedWithinASecond(String name, String text, ProblemKind kind) {
        List<Problem> problems = within(SOON, () -> HouseFiles.parse("f", text).problems());
        assertThat(problems).extracting(Problem::kind).contains(kind);
        assertThat(problems).allSatisfy(p -> assertThat(p.said()).hasSizeLessThan(600));
        assertThat(problems.get(0).said()).matches("[^\\x00-\\x1f\u202e\u2066\u200b]*");
    }

    /** Where nothing is told, the API has nothing to answer with. */
    @Test
    void aFailureAlwaysHasItsReason() {
        for (String text : List.of("", "# only a remark\n", "---\n", "\n\n")) {
            assertThat(HouseFiles.parse("f", text).problems()).isNotEmpty();
            assertThat(DraftFiles.parse("f", text, Fixtures.house("alder-row.yaml"))
                            .problems())
                    .isNotEmpty();
            assertThat(DraftFiles.parseKept(text).problems()).isNotEmpty();
            assertThat(PropertyFiles.parse("f", text).problems()).isNotEmpty();
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"+12026-03-14", "-0001-03-14", "2026-02-30", "2026-3-14"})
    void aDayIsOneOfFourDigitsThatThereIs(String day) {
        String house = Fixtures.text("alder-row.yaml").replace("date: 2026-03-14", "date: " + day);
        assertThat(HouseFiles.parse("f", house).problems())
                .extracting(Problem::kind)
                .contains(ProblemKind.BAD_VALUE);
    }

    @Test
    void manyProblemsAreToldUpToAHundred() {
        String cables = IntStream.range(0, 8_000)
                .mapToObj(i -> "  K" + i + ": {kind: NM, wires: 14/2, ends: [panel-" + i + ", \"?\"], lenth: 3}\n")
                .collect(Collectors.joining());
        String boxes =
                IntStream.range(0, 8_000).mapToObj(i -> "  box-" + i + ":\n").collect(Collectors.joining());
        List<Problem> problems = within(
                Duration.ofSeconds(3),
                () -> HouseFiles.parse("f", HEAD + "cables:\n" + cables + "boxes:\n" + boxes)
                        .problems());
        assertThat(problems).hasSize(101);
        assertThat(problems.get(100).message()).isEqualTo("And 15900 more problems.");
    }

    @Test
    void aLargeHouseIsRead() {
        String text = HEAD + "cables:\n"
                + IntStream.range(0, 5_000)
                        .mapToObj(i -> "  K" + i + ": {kind: NM, wires: 14/2, ends: [b" + i + ", b" + (i + 1) + "]}\n")
                        .collect(Collectors.joining())
                + "boxes:\n"
                + IntStream.range(0, 5_001)
                        .mapToObj(i -> "  b" + i + ": {joints: [" + (i < 5_000 ? "[K" + i + ".black]" : "")
                                + (i > 0 && i < 5_000 ? ", " : "")
                                + (i > 0 ? "[K" + (i - 1) + ".black]" : "") + "]}\n")
                        .collect(Collectors.joining());
        within(
                Duration.ofSeconds(5),
                () -> assertThat(HouseFiles.parse("f", text).get().boxes()).hasSize(5_001));
    }

    @Test
    void aFileThatIsTooLargeIsNotReadWhole() throws IOException {
        Path file = Files.write(folder.resolve("a.yaml"), new byte[Limits.BYTES + 1]);
        assertThat(kinds(file)).containsExactly(ProblemKind.TOO_LARGE);
    }

    @Test
    void filesOfAFolderCountTogether() throws IOException {
        Files.writeString(folder.resolve("a.yaml"), HEAD);
        for (int i = 0; i < 3; i++) {
            Files.writeString(folder.resolve("b" + i + ".yaml"), "# " + "x".repeat(2_000_000) + "\n");
        }
        assertThat(kinds(folder)).containsExactly(ProblemKind.TOO_LARGE);
    }

    @Test
    void tooManyFilesAreRefused() throws IOException {
        for (int i = 0; i <= Limits.FILES; i++) {
            Files.writeString(folder.resolve("f" + i + ".yaml"), "");
        }
        assertThat(kinds(folder)).containsExactly(ProblemKind.TOO_LARGE);
    }

    @Test
    void bytesThatAreNotUtf8AreRefused() throws IOException {
        Path file =
                Files.write(folder.resolve("a.yaml"), (HEAD + "name: \u00e9").getBytes(StandardCharsets.ISO_8859_1));
        assertThat(kinds(file)).containsExactly(ProblemKind.SYNTAX);
    }

    @Test
    void linksThatLeadOutOfTheFolderAreNotFollowed(@TempDir Path elsewhere) throws IOException {
        Path secret = Files.writeString(elsewhere.resolve("secret.yaml"), "note: secret\n");
        Files.writeString(folder.resolve("a.yaml"), HEAD);
        Files.createSymbolicLink(folder.resolve("b.yaml"), secret);
        Files.createSymbolicLink(folder.resolve("c.yaml"), Path.of("nowhere"));
        Files.createSymbolicLink(folder.resolve("d.yaml"), Path.of("/dev/zero"));
        List<Problem> problems = HouseFiles.read(folder).problems();
        assertThat(problems).extracting(Problem::kind).containsOnly(ProblemKind.BAD_PATH);
        assertThat(problems).hasSize(3);
        assertThat(problems.toString()).doesNotContain("note: secret");
        Files.delete(folder.resolve("d.yaml"));
    }

    @Test
    void whatIsNotAPlainFileIsNotOpened() throws IOException, InterruptedException {
        Files.writeString(folder.resolve("a.yaml"), HEAD);
        Files.createDirectory(folder.resolve("b.yaml"));
        List<ProblemKind> expected = new ArrayList<>(List.of(ProblemKind.BAD_PATH));
        if (new ProcessBuilder("mkfifo", folder.resolve("c.yaml").toString())
                        .start()
                        .waitFor()
                == 0) {
            expected.add(ProblemKind.BAD_PATH);
        }
        assertThat(within(SOON, () -> kinds(folder))).isEqualTo(expected);
    }

    @Test
    void whatIsNotThereIsSaid() {
        assertThat(kinds(folder.resolve("none.yaml"))).containsExactly(ProblemKind.NOT_FOUND);
        assertThat(kinds(folder)).containsExactly(ProblemKind.NOT_FOUND);
    }

    private static List<ProblemKind> kinds(Path path) {
        return HouseFiles.read(path).problems().stream().map(Problem::kind).toList();
    }

    /** Runs something that may take so much time of a processor, however busy the machine is otherwise. */
    private static <T> T within(Duration limit, Callable<T> work) {
        return assertTimeoutPreemptively(AT_LAST, () -> {
            var clock = ManagementFactory.getThreadMXBean();
            long start = clock.getCurrentThreadCpuTime();
            T result = work.call();
            assertThat(Duration.ofNanos(clock.getCurrentThreadCpuTime() - start))
                    .isLessThan(limit);
            return result;
        });
    }
}
