package org.splicebook.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class ArchiveCommandsTest {
    @TempDir
    Path folder;

    @Test
    void aHouseGoesFromOneStoreToAnotherWithItsPapers() throws IOException {
        FakeProgram program = new FakeProgram();
        String file = folder.resolve("handover.zip").toString();
        assertThat(program.run("load", program.sampleHouse().toString())).isZero();
        assertThat(program.run("archive", file, "alder-row-14b", "--papers"))
                .as(program.err())
                .isZero();
        assertThat(program.out()).contains("Wrote 1 house and 0 properties");
        assertThat(program.run("archive", file)).isEqualTo(ExitCodes.CONFLICT);
        assertThat(program.run("archive", file, "--force", "none")).isEqualTo(ExitCodes.NOT_FOUND);
        assertThat(program.run("restore", file)).isEqualTo(ExitCodes.CONFLICT);
        try (var all = Files.list(folder)) {
            assertThat(all).hasSize(1);
        }

        FakeProgram other = new FakeProgram();
        assertThat(other.run("restore", file, "--check")).isZero();
        assertThat(other.out()).contains("is whole: 1 houses");
        assertThat(other.store.listHouses()).isEmpty();
        assertThat(other.run("restore", file)).isZero();
        assertThat(other.out()).contains("Restored alder-row-14b");
        assertThat(other.store.findHouse("alder-row-14b").orElseThrow().house())
                .isEqualTo(
                        program.store.findHouse("alder-row-14b").orElseThrow().house());
        assertThat(other.run("restore", program.sampleHouse().toString())).isEqualTo(ExitCodes.FOUND);
    }
}
