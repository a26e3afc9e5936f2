package org.splicebook.app;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.splicebook.cli.Commands;
import org.splicebook.cli.Program;
import org.splicebook.cli.Terminal;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.problem.ProblemException;
import org.splicebook.record.House;
import org.splicebook.render.Json;
import org.splicebook.store.HouseStore;
import org.splicebook.web.ServedStore;

class SplicebookIT {
    private static final Program.Listen ANY_PORT = new Program.Listen(null, 0, List.of());

    private final Splicebook program = new Splicebook(new Configuration(Map.of(), Path.of("/nowhere")));
    private final House alderRow = HouseFiles.read(
                    Path.of("src/test/resources/org/splicebook/housefile/alder-row.yaml"))
            .get();

    @Test
    void oneProcessHoldsTheStoreAndOthersAskItsServer(@TempDir Path folder) throws IOException {
        Program.StoreChoice here = new Program.StoreChoice(folder, null, null, null);
        try (Program.Server server = program.serve(here, ANY_PORT)) {
            Path note = folder.resolve("server.json");
            assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(note)))
                    .isEqualTo("rw-------");
            try (HouseStore other = program.open(here)) {
                assertThat(other).isInstanceOf(ServedStore.class);
                assertThat(other.put(alderRow, 0, "me", "new").isOk()).isTrue();
                assertThat(other.findHouse("alder-row-14b").orElseThrow().house())
                        .isEqualTo(alderRow);
            }
            assertThat(server.store().listHouses()).hasSize(1);
            assertThatThrownBy(() -> program.serve(here, ANY_PORT))
                    .isInstanceOf(ProblemException.class)
                    .hasMessageContaining(server.url());
        }
        assertThat(folder.resolve("server.json")).doesNotExist();
        try (HouseStore alone = program.open(here)) {
            assertThat(alone).isNotInstanceOf(ServedStore.class);
            assertThat(alone.listHouses()).hasSize(1);
        }
    }

    @Test
    void firstCommandLoadsTheSampleHouseAndAnswersThreeQuestions(@TempDir Path folder) {
        StringWriter out = new StringWriter();
        Terminal terminal = new Terminal(new PrintWriter(out), new PrintWriter(System.err, true), 80, false);
        String[] start = {"start", "--once", "--port", "0", "--json", "--data", folder.toString()};
        assertThat(Commands.run(program, terminal, start)).isZero();
        JsonNode printed = Json.read(out.toString());
        assertThat(printed.path("replies")).hasSize(3);
        assertThat(printed.path("replies").path(0).path("rows").toString()).contains("shop-gf");
    }

    @Test
    void noteOfAServerThatIsGoneIsNotBelieved(@TempDir Path folder) throws IOException {
        Files.writeString(folder.resolve("server.json"), "{\"url\": \"http://127.0.0.1:1\", \"pid\": 1}");
        assertThat(ServerNote.find(folder)).isEmpty();
        Files.writeString(folder.resolve("server.json"), "not json");
        assertThat(ServerNote.find(folder)).isEmpty();
    }
}
