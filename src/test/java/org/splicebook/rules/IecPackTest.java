package org.splicebook.rules;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.splicebook.record.House;

/** A home on 230 V is checked by its own pack, and the US code's rules leave it alone. */
class IecPackTest {
    private static final House IN_ORDER = Cases.house("iec", Map.of());

    @Test
    void theRecordsCountryChoosesThePack() {
        assertThat(Packs.of(IN_ORDER).id()).isEqualTo("iec");
        assertThat(Packs.of(Cases.house("us", Map.of())).id()).isEqualTo("us-2023");
        assertThat(Packs.of(Cases.house("us", Map.of("code", Map.of("country", "NO", "edition", "none"))))
                        .id())
                .isEqualTo("iec");
    }

    @Test
    void aHomeInOrderHasNothingAgainstIt() {
        assertThat(Checks.of(IN_ORDER, Packs.iec())).isEmpty();
    }

    /** A socket on 230 V takes one leg, though it has more than 200 V: rules for loads of two legs do not speak of it. */
    @Test
    void aLoadOn230VoltsIsNoLoadOfTwoLegs() {
        List<Finding> found = Checks.of(IN_ORDER, Packs.us(2023));
        assertThat(found)
                .extracting(Finding::rule)
                .doesNotContain("half-live-two-leg-load", "two-leg-load-without-common-disconnect");
    }

    /** 3,000 W take 13 A on 230 V and 25 A on 120 V. */
    @Test
    void aLoadIsCountedAtTheVoltsOfItsSystem() {
        House heater = Cases.house(
                "iec",
                Map.of(
                        "boxes.l.devices.lamp",
                        Map.of("kind", "heater-120", "watts", "3000"),
                        "panels.main.breakers.3.rating",
                        "16 A"));
        assertThat(Checks.of(heater, Packs.iec()))
                .extracting(Finding::rule)
                .doesNotContain("load-too-large-for-breaker");
        House more = Cases.house(
                "iec",
                Map.of(
                        "boxes.l.devices.lamp",
                        Map.of("kind", "heater-120", "watts", "4000"),
                        "panels.main.breakers.3.rating",
                        "16 A"));
        assertThat(Checks.of(more, Packs.iec())).extracting(Finding::rule).contains("load-too-large-for-breaker");
    }

    /** Every article of a first pack that nobody checked says so. */
    @Test
    void whatIsFromMemoryOrUnsureIsMarked() {
        assertThat(Packs.iec().rules().values())
                .filteredOn(t -> !t.article().isEmpty())
                .allSatisfy(t -> assertThat(t.mark()).isNotEmpty());
    }
}
