package org.splicebook.wiring.evidence;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class InstrumentsTest {
    @ParameterizedTest
    @ValueSource(
            strings = {
                "meter",
                "Lamp",
                "plug-in tester",
                "two-pole tester",
                "clamp meter",
                "solenoid tester",
                "LED lamps"
            })
    void whatTouchesOrTakesCurrentTells(String instrument) {
        assertThat(Instruments.tells(instrument)).isTrue();
        assertThat(Instruments.isField(instrument)).isFalse();
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "contactless probe",
                "non-contact tester",
                "voltage pen",
                "Contactless",
                "probe lamp",
                "tone",
                "ghost"
            })
    void whatReactsToAFieldTellsNothing(String instrument) {
        assertThat(Instruments.tells(instrument)).isFalse();
        assertThat(Instruments.isField(instrument)).isTrue();
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "finger", "eyes", "open sky"})
    void whatIsNotKnownToTellDoesNot(String instrument) {
        assertThat(Instruments.tells(instrument)).isFalse();
        assertThat(Instruments.isField(instrument)).isFalse();
    }

    @Test
    void whatIsNotNamedTellsNothing() {
        assertThat(Instruments.tells(null)).isFalse();
    }
}
