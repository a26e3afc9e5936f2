package org.splicebook.loadflow;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.splicebook.housefile.HouseFiles;

/** What is judged of a solution: overloads, voltages, heat. */
class JudgementsTest {
    private static LoadFlow house(String breakers, String joints, String k1) {
        return LoadFlow.of(
                HouseFiles.parse("h", """
                splicebook: 1
                house: judged
                complete: [cables, joints, breakers, landings]
                sources: {service: {system: split-phase 120/240, bond: main}}
                panels:
                  main: {supply: service, breakers: {%s}, joints: [%s, [n, K1.white]]}
                cables:
                  K1: {kind: NM, wires: %s, ends: [main, bench], length: 50 ft}
                boxes:
                  bench:
                    devices: {bench-1: {kind: duplex-receptacle, tabs: {hot: out, neutral: in}}}
                    joints:
                      - [K1.black, bench-1.top.hot]
                      - [K1.red, bench-1.bottom.hot]
                      - [K1.white, bench-1.neutral]
                """.formatted(breakers, joints, k1)).get());
    }

    private static final LoadCase SIXTEEN_EACH =
            LoadCase.nothingOn().load("bench-1.top", Load.amperes(16, 1)).load("bench-1.bottom", Load.amperes(16, 1));

    @Test
    void neutralSharedOnOneLegIsOverloadedAndNoBreakerSeesIt() {
        LoadFlow flow = house("1: {rating: 20 A}, 2: {rating: 20 A}", "[1, K1.black], [2, K1.red]", "12/3");
        List<Overload> overloads = Overload.in(flow, flow.solve(SIXTEEN_EACH).get());
        assertThat(overloads).singleElement().satisfies(o -> {
            assertThat(o.wire()).isEqualTo("K1.white");
            assertThat(o.amperes()).isCloseTo(32, within(1e-3));
            assertThat(o.limit()).isEqualTo(20);
            assertThat(o.unseen()).isTrue();
        });
    }

    @Test
    void neutralSharedOnTwoLegsIsNotOverloaded() {
        LoadFlow flow = house("1: {rating: 20 A}, 3: {rating: 20 A}", "[1, K1.black], [3, K1.red]", "12/3");
        assertThat(Overload.in(flow, flow.solve(SIXTEEN_EACH).get())).isEmpty();
    }

    @Test
    void smallWireBehindALargeBreakerIsOverloadedAndNoBreakerSeesIt() {
        LoadFlow flow = house("1: {rating: 30 A}, 3: {rating: 30 A}", "[1, K1.black], [3, K1.red]", "14/3");
        LoadCase c = LoadCase.nothingOn().load("bench-1.top", Load.amperes(25, 1));
        assertThat(Overload.in(flow, flow.solve(c).get()))
                .extracting(Overload::wire, Overload::unseen)
                .containsExactlyInAnyOrder(
                        org.assertj.core.api.Assertions.tuple("K1.black", true),
                        org.assertj.core.api.Assertions.tuple("K1.white", true));
    }

    @Test
    void overloadBehindItsOwnBreakerIsSeen() {
        LoadFlow flow = house("1: {rating: 15 A}, 3: {rating: 15 A}", "[1, K1.black], [3, K1.red]", "14/3");
        LoadCase c = LoadCase.nothingOn().load("bench-1.top", Load.amperes(25, 1));
        assertThat(Overload.in(flow, flow.solve(c).get()))
                .allSatisfy(o -> assertThat(o.breakers()).containsExactly("main.1"));
    }

    @Test
    void dropOfTwelveAmperesOverFiftyFeetOfFourteenGaugeIsThreePointOneOfAHundred() {
        LoadFlow flow = house("1: {rating: 15 A}, 3: {rating: 15 A}", "[1, K1.black], [3, K1.red]", "14/3");
        LoadCase c = LoadCase.nothingOn()
                .ideal()
                .ohms("K1.black", 0.1535)
                .ohms("K1.white", 0.1535)
                .load("bench-1.top", Load.amperes(12, 1));
        VoltageAt at = VoltageAt.in(flow.solve(c).get()).get(0);
        assertThat(at.point()).isEqualTo("bench-1.top");
        assertThat(at.pole()).isEqualTo("main.1");
        assertThat(at.branchDrop()).isCloseTo(0.0307, within(1e-5));
        assertThat(at.dropsTooMuch()).isTrue();
        assertThat(at.low() || at.high()).isFalse();
    }

    @Test
    void openNeutralShowsAsHighOnOneHalfAndLowOnTheOther() {
        LoadFlow flow = house("1: {rating: 15 A}, 3: {rating: 15 A}", "[1, K1.black], [3, K1.red]", "14/3");
        LoadCase c = LoadCase.nothingOn()
                .load("bench-1.top", Load.watts(1500))
                .load("bench-1.bottom", Load.watts(100))
                .fault(new Fault.OpenJoint("bench:K1.white"));
        List<VoltageAt> all = VoltageAt.in(flow.solve(c).get());
        assertThat(all.get(0).low()).isTrue();
        assertThat(all.get(1).high()).isTrue();
    }

    @Test
    void looseConnectionIsTheHottest() {
        LoadFlow flow = house("1: {rating: 15 A}, 3: {rating: 15 A}", "[1, K1.black], [3, K1.red]", "14/3");
        LoadCase c = LoadCase.nothingOn()
                .load("bench-1.top", Load.watts(1500))
                .fault(new Fault.Loose("bench:K1.black", 0.2));
        Heat hottest = Heat.in(flow.solve(c).get(), 0).get(0);
        assertThat(hottest.arm()).isEqualTo("bench:K1.black");
        assertThat(hottest.watts()).isCloseTo(hottest.amperes() * hottest.amperes() * hottest.ohms(), within(1e-9));
    }
}
