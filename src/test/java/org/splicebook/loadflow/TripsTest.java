package org.splicebook.loadflow;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.data.Offset.offset;

import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.splicebook.loadflow.Cascade.End;

class TripsTest {
    private static final LoadCase TYPICAL = LoadCase.typical();

    private static Cascade follow(String house, LoadCase state) {
        return Trips.follow(Houses.flow(house), state);
    }

    @Test
    void soundHouseTripsNothing() {
        for (String house : List.of("multiwire", "one-leg", "ground-fault-two-pole-breaker", "unbalanced")) {
            Cascade c = follow(house, TYPICAL);
            assertThat(c.ends()).as(house).singleElement().extracting(End::open).isEqualTo(Set.of());
            assertThat(c.ends().get(0).mayHold()).as(house).isEmpty();
        }
    }

    @Test
    void overloadOpensItsBreakerAndNoOther() {
        Cascade c = follow("multiwire", TYPICAL.load("a", Load.watts(4800)));
        assertThat(c.mustTrip()).containsExactly("main.1");
        assertThat(c.mayTrip()).containsExactly("main.1");
        Cascade.Trip t = c.ends().get(0).trips().get(0);
        assertThat(t.drive().cause()).isEqualTo(Drive.Cause.OVERLOAD);
        assertThat(t.drive().amperes()).isBetween(35.0, 40.0);
        assertThat(t.earliest()).isBetween(12.0, 60.0);
        assertThat(t.latest()).isBetween(120.0, 600.0);
    }

    @Test
    void littleTooMuchMayTripOrHold() {
        Cascade c = follow("multiwire", TYPICAL.load("a", Load.amperes(24, 1)));
        assertThat(c.ends()).extracting(End::open).containsExactly(Set.of(), Set.of("main.1"));
        assertThat(c.ends().get(0).mayHold()).extracting(Drive::at).containsExactly("main.1");
    }

    @Test
    void sharedNeutralOnOneLegBurnsAndNothingTrips() {
        LoadCase both = TYPICAL.load("a", Load.watts(1920)).load("b", Load.watts(1920));
        assertThat(follow("one-leg", both).mayTrip()).isEmpty();
    }

    @Test
    void boltedFaultOpensTheBreakerAtOnce() {
        Cascade c = follow("ground-fault-neutral-on-ground", TYPICAL.fault(Fault.bolted("K1.black@2", "K1.bare@2")));
        assertThat(c.mustTrip()).contains("main.1");
        assertThat(c.ends())
                .allSatisfy(e -> assertThat(e.trips().get(0).latest()).isLessThanOrEqualTo(0.025));
    }

    @Test
    void boltedFaultNearThePanelMayOpenTheMainInstead() {
        Cascade c = follow("unbalanced", TYPICAL.fault(Fault.bolted("KB.black@2", "KB.white@2")));
        assertThat(c.ends()).extracting(End::open).contains(Set.of("main.3"), Set.of("main.main"));
    }

    @Test
    void groundFaultUnitOpensBeforeTheBreakerSeesAnything() {
        Cascade c = follow("ground-fault-beside-multiwire", TYPICAL.fault(Fault.leak("a.hot", "main.g", 0.1, 120)));
        assertThat(c.ends()).singleElement().satisfies(e -> {
            assertThat(e.open()).containsExactly("gf");
            assertThat(e.trips().get(0).latest()).isCloseTo(0.1, offset(0.02));
        });
    }

    @Test
    void neutralOnOneOfTwoSingleUnitsTripsEitherOrBoth() {
        Cascade c = follow("ground-fault-two-single-breakers", TYPICAL.load("b", Load.OFF));
        assertThat(c.mayTrip()).containsExactly("main.1", "main.3");
        assertThat(c.ends()).isNotEmpty();
        assertThat(c.mustTrip().size() + c.ends().size()).isGreaterThan(1);
    }

    @Test
    void breakerThatIsLeftAloneTripsAfterItsNeighbour() {
        Cascade c = follow("fed-by-two-breakers", TYPICAL.load("a", Load.amperes(60, 1)));
        assertThat(c.mustTrip()).containsExactly("main.1", "main.2");
        List<Cascade.Trip> trips = c.ends().get(0).trips();
        assertThat(trips.get(0).drive().amperes()).isCloseTo(30, offset(0.1));
        assertThat(trips.get(1).drive().amperes()).isCloseTo(60, offset(0.1));
        assertThat(trips.get(1).latest() - trips.get(0).latest())
                .as("all the current goes through the second")
                .isLessThan(120);
    }

    @Test
    void fuseOfTwoPolesOpensOnePole() {
        String fuses = Houses.text("multiwire")
                .replace("breakers: {1: {rating: 20 A}, 3: {rating: 20 A}}", "fuses: {1+3: {rating: 15 A}}")
                .replace("ties: [[1, 3]]", "pull-outs: [[1, 3]]");
        Cascade c = Trips.follow(LoadFlow.of(Houses.read(fuses)), TYPICAL.load("a", Load.amperes(40, 1)));
        assertThat(c.mustTrip()).containsExactly("main.1");
        assertThat(c.mayTrip()).containsExactly("main.1");
    }
}
