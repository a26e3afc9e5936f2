package org.splicebook.panelplan.upgrade;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.loadflow.LoadCase;
import org.splicebook.loadflow.LoadFlow;
import org.splicebook.loadflow.Overload;
import org.splicebook.loadflow.Solution;
import org.splicebook.loadflow.Trips;
import org.splicebook.record.House;
import org.splicebook.record.MainDisconnect;
import org.splicebook.record.Move;
import org.splicebook.record.Panel;
import org.splicebook.record.Quantity;
import org.splicebook.record.Source;
import org.splicebook.record.Unit;
import org.splicebook.rewire.CurrentChange;
import org.splicebook.rewire.Moves;
import org.splicebook.rules.Checks;
import org.splicebook.rules.Packs;
import org.splicebook.wiring.CrossingKind;
import org.splicebook.wiring.Derivation;

/** The sample house as it was before its service was made larger: 100 A, by moves; then to 200 A with vehicle charger and heat pump. */
class HundredAmpereUpgradeTest {
    private static final Quantity HUNDRED = new Quantity(BigDecimal.valueOf(100), Unit.AMPERE);
    private static House house;
    private static UpgradePlan plan;

    @BeforeAll
    static void made() {
        House sample = HouseFiles.read(Path.of("sample-house")).get();
        Source s = Objects.requireNonNull(sample.sources().get("service"));
        Panel p = Objects.requireNonNull(sample.panels().get("main"));
        MainDisconnect m = Objects.requireNonNull(p.main());
        Source service = new Source(
                s.name(),
                s.kind(),
                s.system(),
                HUNDRED,
                s.bond(),
                s.at(),
                s.from(),
                s.volts(),
                s.transformer(),
                null,
                s.about());
        Panel small = new Panel(
                p.name(),
                p.place(),
                p.supply(),
                p.spaces(),
                HUNDRED,
                new MainDisconnect(m.poles(), m.type(), HUNDRED, m.protects(), m.position(), m.about()),
                p.breakers(),
                p.ties(),
                p.pullOuts(),
                p.exclusive(),
                p.legs(),
                p.buses(),
                p.bonded(),
                p.neutralFuse(),
                p.electrode(),
                List.of(),
                p.complete(),
                p.about());
        house = Moves.apply(sample, List.of(new Move.ChangeSource(service), new Move.ReplacePanel(small, Map.of())))
                .get();
        plan = Plans.chargerAndHeatPump(house);
    }

    @Test
    void startsAtAHundredAmperesAndEndsAtTwoHundred() {
        assertThat(house.sources().get("service").rating().said()).isEqualTo("100 A");
        assertThat(house.panels().get("main").main().rating().said()).isEqualTo("100 A");
        assertThat(plan.after().sources().get("service").rating().said()).isEqualTo("200 A");
        assertThat(plan.after().panels().get("main").main().rating().said()).isEqualTo("200 A");
        assertThat(plan.schedule().isProved()).isTrue();
    }

    @Test
    void findsNothingThatTheOldHouseHadNotAndLessInAll() {
        assertThat(plan.findings().added()).isEmpty();
        assertThat(Checks.of(plan.after(), Packs.of(house)))
                .hasSizeLessThan(Checks.of(house, Packs.of(house)).size());
        assertThat(plan.findings().cured())
                .extracting(f -> f.key())
                .contains("subpanel-bonded/garage-panel", "neutral-shared-on-one-leg/main:C13a.white");
    }

    @Test
    void sharedNeutralsAreInOrderAndTheSubpanelStaysFed() {
        assertThat(Derivation.derive(plan.after()).crossings())
                .extracting(c -> c.kind())
                .doesNotContain(CrossingKind.MULTIWIRE_WITHOUT_COMMON_DISCONNECT, CrossingKind.SHARED_ON_ONE_LEG)
                .contains(CrossingKind.MULTIWIRE);
        Panel garage = plan.after().panels().get("garage-panel");
        assertThat(garage.supply()).isEqualTo(house.panels().get("garage-panel").supply());
        assertThat(garage.bonded()).isFalse();
    }

    @Test
    void passesLoadFlow() {
        assertThat(plan.currents()).noneMatch(CurrentChange::isWorse);
        LoadFlow flow = LoadFlow.of(plan.after());
        Solution s = flow.solve(LoadCase.typical()).get();
        assertThat(s.settled()).isTrue();
        assertThat(Trips.in(s)).isEmpty();
        assertThat(Overload.in(flow, s)).isEmpty();
    }
}
