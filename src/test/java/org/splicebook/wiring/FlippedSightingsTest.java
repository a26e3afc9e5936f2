package org.splicebook.wiring;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What the rule of two agreeing tests is worth: misses of shut-offs with one reading in fifty wrong, with the rule and without it. */
@Tag("soak")
class FlippedSightingsTest {
    private static final String MISSES = "org.splicebook.oracle.FlippedMisses";

    @TempDir
    Path folder;

    @Test
    void twoAgreeingTestsMissFewerThanOne() throws Exception {
        String two = MutantsTest.noticed(MISSES, folder);
        MutantsTest.Mutant one = new MutantsTest.Mutant(
                "evidence/PairedTests",
                "private static final int PASSES = 2;",
                "private static final int PASSES = 1;",
                "");
        MutantLoader.compile(one.file(), one.source(), folder);
        String single = MutantsTest.noticed(MISSES, folder);
        System.out.println(
                "one reading in fifty wrong: missed with two agreeing tests " + two + ", with one " + single);
        assertThat(count(two)).isLessThanOrEqualTo(count(single));
    }

    private static int count(String said) {
        return Integer.parseInt(said.split(" ")[0]);
    }
}
