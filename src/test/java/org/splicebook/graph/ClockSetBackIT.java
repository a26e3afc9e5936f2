package org.splicebook.graph;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.splicebook.housefile.PropertyFiles;
import org.splicebook.people.TestClock;
import org.splicebook.property.Properties;
import org.splicebook.record.Property;
import org.splicebook.store.Papers;
import org.splicebook.store.Revision;
import org.splicebook.wiring.Derivation;

/** A machine whose clock goes back keeps the order in which things were stored. */
class ClockSetBackIT {
    private static final String HOUSE = "alder";

    @TempDir
    Path folder;

    @Test
    void revisionsKeepTheirOrderAndWhatStoodAtAMomentIsFound() {
        TestClock clock = new TestClock();
        try (Neo4jHouseStore store = Stores.embedded(folder, TestHouses.TEXT, clock, Derivation::derive)) {
            List<Revision> made = new ArrayList<>();
            Property row = PropertyFiles.parse("row", Properties.text("alder-row.yaml"))
                    .get()
                    .property();
            long ofRow = 0;
            for (Duration step : List.of(
                    Duration.ZERO,
                    Duration.ofHours(1),
                    Duration.ofDays(-400),
                    Duration.ofSeconds(1),
                    Duration.ofDays(500))) {
                clock.pass(step);
                made.add(store.put(TestHouses.workshop(HOUSE, "Alder " + made.size()), made.size(), "Rowan", "")
                        .get());
                ofRow = store.properties().put(row, ofRow, "Rowan", "").get().number();
                store.papers()
                        .append(Papers.VISIT, HOUSE, "visit", "line " + made.size(), made.size() - 1, "Rowan")
                        .get();
            }
            assertThat(store.revisions(HOUSE)).isEqualTo(made);
            assertThat(made).extracting(Revision::stored).isSorted();
            assertThat(store.properties().revisions(row.id()))
                    .hasSize(made.size())
                    .extracting(Revision::stored)
                    .isSorted();
            assertThat(store.papers()
                            .find(Papers.VISIT, HOUSE, "visit")
                            .orElseThrow()
                            .lines())
                    .extracting(l -> l.text())
                    .containsExactly("line 1", "line 2", "line 3", "line 4", "line 5");

            Instant first = made.get(0).stored();
            assertThat(at(store, first.minus(1, ChronoUnit.MICROS))).isZero();
            assertThat(at(store, first)).isEqualTo(1);
            // The clock was set back after the second: what followed stands from the second's moment on.
            Instant second = made.get(1).stored();
            assertThat(at(store, second.minus(1, ChronoUnit.MICROS))).isEqualTo(1);
            assertThat(at(store, second)).isEqualTo(4);
            assertThat(at(store, made.get(4).stored().minus(1, ChronoUnit.MICROS)))
                    .isEqualTo(4);
            assertThat(at(store, made.get(4).stored())).isEqualTo(5);
        }
    }

    private static long at(Neo4jHouseStore store, Instant moment) {
        return store.findAsOf(HOUSE, moment).map(s -> s.revision().number()).orElse(0L);
    }
}
