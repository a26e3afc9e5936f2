package org.splicebook.housefile;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemKind;
import org.splicebook.record.House;

/** Whatever was read can be written and read again, and nothing but comments is lost. */
class RoundTripTest {
    /** Every house file among the test's resources. */
    static List<Path> houses() throws IOException {
        try (Stream<Path> all = Files.walk(Path.of("src/test/resources"))) {
            return all.filter(p -> p.toString().endsWith(".yaml"))
                    // What the cases of rules are changed from is no house file as it stands.
                    .filter(p -> !p.getParent().endsWith("cases"))
                    .filter(RoundTripTest::isHouse)
                    .sorted()
                    .toList();
        }
    }

    private static boolean isHouse(Path p) {
        try {
            return Files.readString(p).lines().anyMatch(l -> l.startsWith("splicebook: "));
        } catch (IOException e) {
            throw new java.io.UncheckedIOException(e);
        }
    }

    @ParameterizedTest
    @MethodSource("houses")
    void writingAndReadingGivesTheSameHouse(Path file) {
        House house = HouseFiles.read(file).get();
        String written = HouseWriter.write(house);
        assertThat(HouseFiles.parse("written", written).get()).as(written).isEqualTo(house);
    }

    @ParameterizedTest
    @MethodSource("houses")
    void writingTwiceGivesTheSameText(Path file) {
        String written = HouseWriter.write(HouseFiles.read(file).get());
        assertThat(HouseWriter.write(HouseFiles.parse("written", written).get()))
                .isEqualTo(written);
    }

    @Test
    void shortThingsStayOnOneLine() {
        assertThat(HouseWriter.write(Fixtures.house("alder-row.yaml")))
                .contains("  K1: {kind: NM, wires: 12/3+ground, ends: [main, bench], since: 1987, length: 9 m}"
                        .replace("since: 1987, length: 9 m", "length: 9 m, since: 1987"))
                .contains("      - {join: [K1.white, K4.n], tail: bench-1.top.neutral, by: lever}")
                .contains("      - [K4.a]")
                .contains("ends: [stair-head, {one-of: [bath-vanity, bedroom-door]}]");
    }

    @Test
    void aFileWithCommentsWarnsBeforeTheyAreLost() {
        var warning = HouseFiles.commentsAtRisk("a.yaml", "splicebook: 1\nhouse: a # mine\n");
        assertThat(warning).map(Problem::kind).contains(ProblemKind.WOULD_LOSE);
        assertThat(warning).map(p -> p.where().said()).contains("a.yaml:2:1");
        assertThat(warning.orElseThrow().isError()).isFalse();
        assertThat(HouseFiles.commentsAtRisk("a.yaml", "splicebook: 1\n\nhouse: \"a # b\"\n"))
                .isEmpty();
    }

    @Test
    void jsonIsReadByTheSameRules() {
        House house = HouseFiles.parse(
                        "body",
                        "{\"splicebook\": 1, \"house\": \"a\", \"built\": 1958,\n\t\"places\": {\"k\": {\"kind\": \"kitchen\", \"finished\": true}}, \"note\": null}")
                .get();
        assertThat(house.built()).isEqualTo(1958);
        assertThat(house.places().get("k").finished()).isTrue();
        assertThat(house.about().note()).isNull();
    }
}
