package org.splicebook.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.splicebook.property.Properties;
import org.splicebook.record.Basis;

class PropertyCommandTest {
    private static final String FOLDER = "src/test/resources/org/splicebook/property/";

    @TempDir
    Path folder;

    private final FakeProgram program = new FakeProgram();

    @BeforeEach
    void load() {
        assertThat(program.run("load", FOLDER + "common.yaml", FOLDER + "unit-14a.yaml", FOLDER + "unit-14b.yaml"))
                .isZero();
    }

    @Test
    void aPropertyIsLoadedListedShownAndAsked() {
        assertThat(program.run("property", "load", FOLDER + "alder-row.yaml")).isZero();
        assertThat(program.run("property", "load", FOLDER + "alder-row.yaml")).isEqualTo(ExitCodes.CONFLICT);
        assertThat(program.run("property", "load", FOLDER + "alder-row.yaml", "--replace"))
                .isZero();
        assertThat(program.run("property", "list")).isZero();
        assertThat(program.out()).contains("alder-row: Alder Row, revision 2");
        assertThat(program.run("property", "show", "alder-row")).isZero();
        assertThat(program.out()).contains("point: to-14a");
        assertThat(program.run("property", "ask", "alder-row", "goes-dark", "part=common", "thing=switch.1+3"))
                .isZero();
        assertThat(program.out()).contains("14b:hall-1", "should be off", "Part by part");
        assertThat(program.run("property", "ask", "alder-row", "goes-dark", "part=common", "thing=none"))
                .isEqualTo(ExitCodes.NOT_FOUND);
        assertThat(program.run("property", "questions")).isZero();
        assertThat(program.out()).contains("neutrals-across");
        assertThat(program.run("property", "ask", "alder-row")).isEqualTo(ExitCodes.FOUND);
    }

    @Test
    void aLinkToWhatIsNotThereIsToldAtItsLineAndNothingIsStored() throws IOException {
        Path file = folder.resolve("row.yaml");
        Files.writeString(file, Properties.text("alder-row.yaml").replace("point: to-14a", "point: to-14z"));
        assertThat(program.run("property", "load", file.toString())).isEqualTo(ExitCodes.FOUND);
        assertThat(program.err()).contains("row.yaml:21:", "no load point to-14z");
        assertThat(program.store.properties().list()).isEmpty();
    }

    @Test
    void aUnitIsBegunFromItsTypeWithEverythingAssumed() throws IOException {
        Path file = folder.resolve("row.yaml");
        Files.writeString(
                file,
                Properties.text("alder-row.yaml")
                        .replace("links:\n", "  14c: {house: alder-row-14c, type: two-room}\n\nlinks:\n"));
        assertThat(program.run("property", "load", file.toString())).isZero();
        assertThat(program.err()).contains("alder-row-14c is not stored");
        assertThat(program.run("property", "begin", "alder-row", "14c")).isZero();
        assertThat(program.store
                        .findHouse("alder-row-14c")
                        .orElseThrow()
                        .house()
                        .basis())
                .isEqualTo(Basis.ASSUMED);
        assertThat(program.run("property", "begin", "alder-row", "14c")).isNotZero();
        assertThat(program.run("property", "begin", "alder-row", "common")).isEqualTo(ExitCodes.FOUND);
    }
}
