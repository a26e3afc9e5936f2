package org.splicebook.graph;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.neo4j.driver.internal.InternalRecord;

class RecallTest {
    private static final Recall.Known KNOWN = Recall.Known.of(new InternalRecord(List.<String>of(), List.of()));

    private final Recall recall = new Recall(true);

    @Test
    void whatWasReadIsRememberedUntilSomethingIsWritten() {
        recall.keep("a", KNOWN, recall.mark());
        assertThat(recall.of("a")).isSameAs(KNOWN);

        var unused = recall.writing(() -> true);

        assertThat(recall.of("a")).isNull();
    }

    @Test
    void whatWasReadWhileSomethingIsWrittenIsNotRemembered() {
        long before = recall.mark();
        var unused = recall.writing(() -> {
            recall.keep("a", KNOWN, before);
            recall.keep("a", KNOWN, recall.mark());
            assertThat(recall.isUnchanged(recall.mark())).isFalse();
            return true;
        });
        recall.keep("a", KNOWN, before);

        assertThat(recall.isUnchanged(before)).isFalse();
        assertThat(recall.of("a")).isNull();
    }

    @Test
    void aWriteThatFailsEndsItToo() {
        recall.keep("a", KNOWN, recall.mark());
        try {
            recall.writing(() -> {
                throw new IllegalStateException("no room");
            });
        } catch (IllegalStateException e) {
            assertThat(e).hasMessage("no room");
        }

        assertThat(recall.of("a")).isNull();
        assertThat(recall.isUnchanged(recall.mark())).isTrue();
    }

    @Test
    void whereOthersMayWriteNothingIsRemembered() {
        Recall shared = new Recall(false);
        shared.keep("a", KNOWN, shared.mark());

        assertThat(shared.of("a")).isNull();
        assertThat(shared.isUnchanged(shared.mark())).isFalse();
    }

    @Test
    void onlySoManyHousesAreRememberedTheLastAskedOnes() {
        for (int i = 0; i < 40; i++) {
            recall.keep("h" + i, KNOWN, recall.mark());
            assertThat(recall.of("h0")).isSameAs(KNOWN);
        }
        assertThat(recall.of("h1")).isNull();
        assertThat(recall.of("h39")).isSameAs(KNOWN);
    }
}
