package org.splicebook.graph;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.Test;

class RememberedTest {
    private static final List<String> HERE = List.of("house");

    private final AtomicInteger reads = new AtomicInteger();

    private int read(Remembered<Integer> remembered) {
        return remembered.of("house", reads::incrementAndGet);
    }

    @Test
    void whatWasReadIsRememberedUntilSomethingIsWritten() {
        Recall recall = new Recall(true);
        Remembered<Integer> remembered = new Remembered<>(recall);
        assertThat(read(remembered)).isEqualTo(1);
        assertThat(read(remembered)).isEqualTo(1);
        recall.committing(HERE, () -> 0);
        assertThat(read(remembered)).isEqualTo(2);
    }

    @Test
    void whatIsWrittenOfAnotherHouseEndsOnlyWhatRestsOnAnything() {
        Recall recall = new Recall(true);
        Remembered<Integer> ofHouse = new Remembered<>(recall);
        Remembered<Integer> ofAny = new Remembered<>(recall, asked -> Recall.ANYTHING, 32, value -> 1);
        assertThat(read(ofHouse)).isEqualTo(1);
        assertThat(read(ofAny)).isEqualTo(2);
        recall.committing(List.of("barn"), () -> 0);
        assertThat(read(ofHouse)).isEqualTo(1);
        assertThat(read(ofAny)).isEqualTo(3);
        recall.forget();
        assertThat(read(ofHouse)).isEqualTo(4);
    }

    @Test
    void whatWasReadDuringAWriteIsNotRemembered() {
        Recall recall = new Recall(true);
        Remembered<Integer> remembered = new Remembered<>(recall);
        recall.committing(HERE, () -> read(remembered));
        assertThat(read(remembered)).isEqualTo(2);
    }

    @Test
    void whereOthersWriteTooNothingIsRemembered() {
        Remembered<Integer> remembered = new Remembered<>(new Recall(false));
        read(remembered);
        assertThat(read(remembered)).isEqualTo(2);
    }

    @Test
    void aWriteThatFailsEndsItToo() {
        Recall recall = new Recall(true);
        Remembered<Integer> remembered = new Remembered<>(recall);
        read(remembered);
        assertThatThrownBy(() -> recall.committing(HERE, () -> {
                    throw new IllegalStateException("no room");
                }))
                .hasMessage("no room");
        assertThat(remembered.find("house")).isNull();
        assertThat(read(remembered)).isEqualTo(2);
        assertThat(read(remembered)).isEqualTo(2);
    }

    @Test
    void whatWasReadBeforeAWriteIsNotKeptAfterIt() {
        Recall recall = new Recall(true);
        Remembered<Integer> remembered = new Remembered<>(recall);
        long before = recall.mark("house");
        recall.committing(HERE, () -> 0);
        remembered.keep("house", 7, before);
        assertThat(remembered.find("house")).isNull();
    }
}
