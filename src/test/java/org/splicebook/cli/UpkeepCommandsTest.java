package org.splicebook.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class UpkeepCommandsTest {
    private static final String HOUSE = "alder-row-14b";

    @TempDir
    Path folder;

    private final FakeProgram program = new FakeProgram();

    @BeforeEach
    void load() {
        assertThat(program.run("load", program.sampleHouse().toString())).isZero();
    }

    @Test
    void aTestIsRecordedAndThenItIsNotDue() {
        assertThat(program.run("due", "--house", HOUSE, "on=2026-06-01")).isZero();
        assertThat(program.out()).contains("bath-gf", "Press TEST");
        assertThat(program.run(
                        "test",
                        "--house",
                        HOUSE,
                        "what=trip-button",
                        "device=bath-gf",
                        "result=passed",
                        "date=2026-05-30"))
                .isZero();
        assertThat(program.out()).contains("revision 2");
        assertThat(program.run("due", "--house", HOUSE, "on=2026-06-01", "within=5"))
                .isZero();
        assertThat(program.out()).doesNotContain("bath-gf");
        assertThat(program.run("test", "--house", HOUSE, "what=trip-button", "device=none", "result=passed"))
                .isEqualTo(ExitCodes.FOUND);
        assertThat(program.run("due", "--house", HOUSE, "on=May")).isEqualTo(ExitCodes.FOUND);
    }

    @Test
    void whatIsDueIsWrittenAsACalendarAndAsATable() throws IOException {
        Path ics = folder.resolve("due.ics");
        assertThat(program.run("due", "--house", HOUSE, "--calendar", "--out", ics.toString()))
                .isZero();
        assertThat(Files.readString(ics)).startsWith("BEGIN:VCALENDAR");
        Path csv = folder.resolve("due.csv");
        assertThat(program.run("ask", "due", "--house", HOUSE, "--table", csv.toString()))
                .isZero();
        assertThat(Files.readString(csv)).startsWith("subject,status,basis");
        assertThat(program.run("ask", "due", "--house", HOUSE, "--table", csv.toString()))
                .isEqualTo(ExitCodes.CONFLICT);
        assertThat(program.run(
                        "ask",
                        "due",
                        "--house",
                        HOUSE,
                        "--table",
                        folder.resolve("due.doc").toString()))
                .isEqualTo(ExitCodes.FOUND);
    }

    @Test
    void whatARevisionChangedIsTold() {
        assertThat(program.run(
                        "test",
                        "--house",
                        HOUSE,
                        "what=trip-button",
                        "device=bath-gf",
                        "result=passed",
                        "date=2026-05-30"))
                .isZero();
        assertThat(program.run("diff", HOUSE)).isZero();
        assertThat(program.out()).contains("Revision 1 to 2", "trip-button", "new");
        assertThat(program.run("diff", HOUSE, "--from", "7")).isEqualTo(ExitCodes.NOT_FOUND);
    }

    @Test
    void aListIsTakenInOnceItsCellsAreRight() throws IOException {
        Path list = folder.resolve("list.csv");
        Files.writeString(list, "Ckt,Serves,Amps\n9,Porch,lots\n");
        assertThat(program.run("import", list.toString(), "--house", HOUSE, "--panel", "main", "--store"))
                .isEqualTo(ExitCodes.FOUND);
        assertThat(program.err()).contains("C2", "is no rating");
        Files.writeString(list, "Ckt,Serves,Amps\n9,Porch,15\n");
        assertThat(program.run("import", list.toString(), "--house", HOUSE, "--panel", "main"))
                .isZero();
        assertThat(program.out()).contains("main.9 is new: 15 A, Porch", "Nothing is stored yet");
        assertThat(program.store.revisions(HOUSE)).hasSize(1);
        assertThat(program.run("import", list.toString(), "--house", HOUSE, "--panel", "main", "--store"))
                .isZero();
        assertThat(program.store.revisions(HOUSE)).hasSize(2);
    }
}
