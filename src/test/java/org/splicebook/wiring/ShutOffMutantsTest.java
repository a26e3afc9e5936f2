package org.splicebook.wiring;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Whether half-known houses notice a fault in the shut-off: each of its {@code mutants.yaml} is put in, and something stays live. */
@Tag("full")
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class ShutOffMutantsTest {
    @TempDir
    Path folder;

    static List<MutantsTest.Mutant> mutants() throws IOException {
        return MutantsTest.mutants(Path.of("src/test/resources/org/splicebook/wiring/shutoff/mutants.yaml"));
    }

    @ParameterizedTest
    @MethodSource("mutants")
    void everyFaultLeavesSomethingLiveThatIsNoticed(MutantsTest.Mutant mutant) throws Exception {
        Path classes = Files.createTempDirectory(folder, "mutant");
        MutantLoader.compile(mutant.file(), mutant.source(), classes);
        assertThat(MutantsTest.noticed("org.splicebook.oracle.FirstMiss", classes))
                .as("no half-known house notices this fault: %s", mutant)
                .isNotEmpty();
    }

    @Test
    void nothingIsNoticedWhereThereIsNoFault() throws Exception {
        assertThat(MutantsTest.noticed("org.splicebook.oracle.FirstMiss", folder.resolve("nothing")))
                .isEmpty();
    }
}
