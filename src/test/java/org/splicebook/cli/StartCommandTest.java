package org.splicebook.cli;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class StartCommandTest {
    private final FakeProgram program = new FakeProgram();

    @Test
    void emptyStoreGetsTheSampleHouse() {
        program.run("start", "--once");
        assertThat(program.store.listHouses()).hasSize(1);
        assertThat(program.waited).isFalse();
    }
}
