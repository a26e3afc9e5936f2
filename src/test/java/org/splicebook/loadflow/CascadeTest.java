package org.splicebook.loadflow;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.data.Offset.offset;

import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;

class CascadeTest {
    private static Drive heat(String unit, double earliest, double latest) {
        return new Drive(unit, Drive.Cause.OVERLOAD, unit, 30, 20, new TripTime(earliest, latest));
    }

    private static Cascade follow(Map<Set<String>, List<Drive>> drives) {
        return CascadeSearch.follow(open -> drives.getOrDefault(open, List.of()));
    }

    @Test
    void nothingTripsWhereNothingIsDriven() {
        Cascade c = follow(Map.of());
        assertThat(c.ends()).singleElement().satisfies(e -> assertThat(e.open()).isEmpty());
        assertThat(c.mustTrip()).isEmpty();
    }

    @Test
    void onlyTheQuickerTripsWhereBandsLieApart() {
        Cascade c = follow(Map.of(Set.of(), List.of(heat("branch", 1, 10), heat("main", 20, 200))));
        assertThat(c.ends()).extracting(Cascade.End::open).containsExactly(Set.of("branch"));
        assertThat(c.mustTrip()).containsExactly("branch");
    }

    @Test
    void eachMayBeFirstWhereBandsOverlap() {
        Cascade c = follow(Map.of(Set.of(), List.of(heat("branch", 1, 30), heat("main", 20, 200))));
        assertThat(c.ends()).extracting(Cascade.End::open).containsExactlyInAnyOrder(Set.of("branch"), Set.of("main"));
        assertThat(c.mustTrip()).isEmpty();
        assertThat(c.mayTrip()).containsExactly("branch", "main");
    }

    @Test
    void heatTakenBeforeATripCountsAfterIt() {
        // The second has taken 10 s of its 40 s when the first opens, so 30 s are left to it.
        Cascade c = follow(Map.of(
                Set.of(), List.of(heat("first", 10, 10), heat("second", 40, 40)),
                Set.of("first"), List.of(heat("second", 40, 40))));
        assertThat(c.ends()).singleElement().satisfies(e -> {
            assertThat(e.trips()).extracting(t -> t.drive().unit()).containsExactly("first", "second");
            assertThat(e.trips().get(1).earliest()).isCloseTo(40, offset(1e-9));
            assertThat(e.trips().get(1).latest()).isCloseTo(40, offset(1e-9));
        });
    }

    @Test
    void heatStaysWhenMoreCurrentFlowsAfterATrip() {
        // Half of its heat is taken, and what is left goes twice as fast.
        Cascade c = follow(Map.of(
                Set.of(), List.of(heat("first", 10, 10), heat("second", 20, 20)),
                Set.of("first"), List.of(heat("second", 10, 10))));
        assertThat(c.ends().get(0).trips().get(1).earliest()).isCloseTo(15, offset(1e-9));
    }

    @Test
    void whatMayHoldForEverIsAnEndAndMayTripIsAnother() {
        Cascade c = follow(Map.of(Set.of(), List.of(heat("branch", 600, Double.POSITIVE_INFINITY))));
        assertThat(c.ends()).extracting(Cascade.End::open).containsExactly(Set.of(), Set.of("branch"));
        assertThat(c.ends().get(0).mayHold()).extracting(Drive::unit).containsExactly("branch");
    }

    @Test
    void ordersThatMeetAreFollowedOnce() {
        List<Drive> all = List.of(heat("a", 1, 9), heat("b", 1, 9), heat("c", 1, 9), heat("d", 1, 9));
        Cascade c = CascadeSearch.follow(open -> all);
        assertThat(c.ends()).singleElement().satisfies(e -> assertThat(e.open()).hasSize(4));
        assertThat(c.whole()).isTrue();
    }

    @Test
    void tooManyOrdersAreSaidToBeCutShort() {
        Cascade c = CascadeSearch.follow(open -> java.util.stream.IntStream.range(0, 12)
                .mapToObj(i -> heat("u" + i, 1, 9))
                .toList());
        assertThat(c.whole()).isFalse();
        assertThat(c.mustTrip()).isEmpty();
    }
}
