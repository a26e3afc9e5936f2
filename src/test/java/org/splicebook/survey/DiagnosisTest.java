package org.splicebook.survey;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;

class DiagnosisTest {
    @Test
    void aFaultThatShowsRanksHighAndIsNeverRuledOut() {
        ranks(40);
    }

    @Test
    @Tag("full")
    void aThousandFaults() {
        ranks(1000);
    }

    private static void ranks(int seeds) {
        int shown = 0;
        int high = 0;
        StringBuilder low = new StringBuilder();
        for (long seed = 0; seed < seeds; seed++) {
            RandomFaults.Outcome o = RandomFaults.one(seed);
            if (o.shows()) {
                shown++;
                assertThat(o.chance()).as("seed " + seed).isPositive();
                if (o.rank() < 3) {
                    high++;
                } else {
                    low.append(' ').append(seed).append(':').append(o.rank());
                }
            }
        }
        System.out.println(high + " of " + shown + " that show among the first three, of " + seeds + "; not:" + low);
        assertThat(high).as("among the first three; not these seeds:" + low).isGreaterThanOrEqualTo(shown * 95 / 100);
    }
}
