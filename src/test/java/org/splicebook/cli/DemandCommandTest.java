package org.splicebook.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDateTime;
import java.util.Arrays;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.splicebook.render.Json;

class DemandCommandTest {
    private static final String[] TOLD = {
        "demand",
        "sample-house",
        "--add",
        "ev 48 A",
        "--without",
        "vehicle",
        "--nameplate",
        "dryer=5 kW",
        "--nameplate",
        "range=12 kW",
        "--nameplate",
        "microwave=1.6 kVA",
        "--nameplate",
        "opener=5 A",
        "--small-appliance",
        "3",
        "--laundry",
        "1",
        "--all-listed"
    };

    private final FakeProgram program = new FakeProgram();

    private JsonNode json(String... more) {
        String[] all = Arrays.copyOf(TOLD, TOLD.length + more.length + 1);
        System.arraycopy(more, 0, all, TOLD.length, more.length);
        all[all.length - 1] = "--json";
        assertThat(program.run(all)).as(program.err()).isZero();
        return Json.read(program.out());
    }

    @Test
    void everyMethodAndEditionIsToldWithLinesThatAddUp() {
        JsonNode told = json("--peak", "8.4 kW", "--units", "12");
        assertThat(told.path("asked")).isEmpty();
        assertThat(told.path("demands").findValuesAsText("method"))
                .contains("standard", "optional", "existing", "metered", "units");
        for (JsonNode demand : told.path("demands")) {
            double sum = 0;
            for (JsonNode line : demand.path("lines")) {
                assertThat(line.path("article").asText()).isNotEmpty();
                sum += line.path("counts").asBoolean() ? line.path("va").asDouble() : 0;
            }
            assertThat(sum).isCloseTo(demand.path("va").asDouble(), within(1e-6));
        }
        assertThat(told.path("fits")).isNotEmpty();
    }

    @Test
    void textHasTheTableTheLinesAndTheCautions() {
        assertThat(program.run(TOLD)).isZero();
        assertThat(program.out())
                .contains(
                        "By method and edition",
                        "2014",
                        "2026",
                        "220.82(B)",
                        "T250.66",
                        "largest that fits",
                        "inspector")
                .doesNotContain("Still asked");
        assertThat(program.out().lines()).allMatch(l -> l.length() <= 80);
    }

    @ParameterizedTest
    @ValueSource(ints = {20, 39, 60, 200})
    void everyWidthHolds(int width) {
        assertThat(program.run("demand", "sample-house", "--lines", "--width", String.valueOf(width)))
                .isZero();
        assertThat(program.out().lines()).allMatch(l -> l.length() <= width);
    }

    @Test
    void whileAnythingIsAskedNothingFitsAndNothingIsSized() {
        assertThat(program.run("demand", "sample-house", "--json")).isZero();
        JsonNode told = Json.read(program.out());
        assertThat(told.path("asked")).isNotEmpty();
        for (JsonNode demand : told.path("demands")) {
            assertThat(demand.path("verdict").asText()).isNotEqualTo("fits");
            assertThat(demand.path("service").isNull()).isTrue();
        }
        program.run("demand", "sample-house");
        assertThat(program.out()).contains("Still asked").doesNotContain("T250.66");
    }

    @Test
    void whatIsWrongIsToldAtOnce() {
        assertThat(program.run("demand", "sample-house", "--add", "spaceship", "--without", "nothing"))
                .isEqualTo(1);
        assertThat(program.err()).contains("spaceship", "nothing", "ev 48 A");
        assertThat(program.run("demand", "sample-house", "--method", "guess", "--edition", "1999"))
                .isEqualTo(1);
        assertThat(program.err()).contains("guess", "standard, optional", "1999", "2014");
    }

    @Test
    void aYearOfReadingsStandsForTheDemandAndTenDaysDoNot(@TempDir Path folder) throws IOException {
        Path year = folder.resolve("year.csv");
        Files.writeString(year, readings(365));
        JsonNode told = json("--intervals", year.toString());
        assertThat(told.path("metered").path("usable").asBoolean()).isTrue();
        assertThat(told.path("metered").path("peakVa").asDouble()).isEqualTo(8400);
        assertThat(told.path("demands").findValuesAsText("method")).contains("metered");
        Path days = folder.resolve("days.csv");
        Files.writeString(days, readings(10));
        JsonNode less = json("--intervals", days.toString());
        assertThat(less.path("metered").path("usable").asBoolean()).isFalse();
        assertThat(less.path("demands").findValuesAsText("method")).doesNotContain("metered");
    }

    private static String readings(int days) {
        StringBuilder s = new StringBuilder("start,kW\n");
        LocalDateTime at = LocalDateTime.of(2025, 1, 1, 0, 0);
        for (int i = 0; i < days * 96; i++) {
            s.append(at).append(i == 500 ? ",8.4\n" : ",1\n");
            at = at.plusMinutes(15);
        }
        return s.toString();
    }
}
