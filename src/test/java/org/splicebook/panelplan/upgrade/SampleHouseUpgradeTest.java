package org.splicebook.panelplan.upgrade;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.splicebook.housefile.DraftFiles;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.loadflow.LoadCase;
import org.splicebook.loadflow.LoadFlow;
import org.splicebook.loadflow.Overload;
import org.splicebook.loadflow.Solution;
import org.splicebook.loadflow.Trips;
import org.splicebook.panelplan.Demand;
import org.splicebook.record.Breaker;
import org.splicebook.record.House;
import org.splicebook.record.Panel;
import org.splicebook.rewire.CurrentChange;
import org.splicebook.rewire.Drafts;
import org.splicebook.rules.Checks;
import org.splicebook.rules.Packs;
import org.splicebook.wiring.CrossingKind;
import org.splicebook.wiring.Derivation;
import org.splicebook.wiring.LoadPointWiring;
import org.splicebook.wiring.Wiring;

/** The sample house from its panel of 150 A to one of 200 A, with a vehicle charger and a second heat pump. */
class SampleHouseUpgradeTest {
    private static final House HOUSE = HouseFiles.read(Path.of("sample-house")).get();
    private static UpgradePlan plan;

    @BeforeAll
    static void made() {
        plan = Plans.chargerAndHeatPump(HOUSE);
    }

    @Test
    void findsNothingThatTheOldHouseHadNotAndLessInAll() {
        assertThat(plan.findings().added()).isEmpty();
        assertThat(Checks.of(plan.after(), Packs.of(HOUSE)))
                .hasSizeLessThan(Checks.of(HOUSE, Packs.of(HOUSE)).size());
        Set<String> cured = plan.findings().cured().stream().map(f -> f.key()).collect(Collectors.toSet());
        assertThat(cured)
                .contains(
                        "multiwire-without-common-disconnect/main:C9a.white",
                        "neutral-shared-on-one-leg/main:C13a.white",
                        "two-circuits-on-one-yoke/dining-1",
                        "subpanel-bonded/garage-panel",
                        "wire-too-small/C9d.black",
                        "spare-that-feeds/main.16");
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

    @Test
    void bothSharedNeutralsComeUnderOneHandleOnUnlikeLegs() {
        Wiring after = Derivation.derive(plan.after());
        assertThat(after.crossings())
                .extracting(c -> c.kind())
                .doesNotContain(CrossingKind.MULTIWIRE_WITHOUT_COMMON_DISCONNECT, CrossingKind.SHARED_ON_ONE_LEG)
                .contains(CrossingKind.MULTIWIRE);
    }

    @Test
    void everyWireThatLandedLandsAgainAndEveryLoadIsFedAsBefore() {
        Panel was = HOUSE.panels().get("main");
        Panel is = plan.after().panels().get("main");
        Set<String> before =
                Plans.landings(was).values().stream().flatMap(List::stream).collect(Collectors.toSet());
        List<String> after =
                Plans.landings(is).values().stream().flatMap(List::stream).toList();
        assertThat(after).containsAll(before).doesNotHaveDuplicates();
        Map<String, Integer> feeds = feeds(Derivation.derive(HOUSE));
        Map<String, Integer> now = feeds(Derivation.derive(plan.after()));
        feeds.forEach((point, n) -> assertThat(now.get(point)).as(point).isEqualTo(n));
        assertThat(now.get("new-ev")).isEqualTo(2);
        assertThat(now.get("new-heat-pump")).isEqualTo(2);
    }

    private static Map<String, Integer> feeds(Wiring w) {
        Map<String, Integer> all = new HashMap<>();
        for (LoadPointWiring l : w.loadPoints()) {
            all.put(l.id(), (int)
                    l.feeds().stream().map(f -> f.pole()).distinct().count());
        }
        return all;
    }

    @Test
    void theBorrowedNeutralIsToldAndGetsNoBreakerThatWouldTrip() {
        assertThat(plan.separate()).anyMatch(s -> s.startsWith("Circuit 10: borrowed"));
        for (String key : List.of("10", "20")) {
            Circuit c = plan.circuits().stream()
                    .filter(x -> x.was().contains(key))
                    .findFirst()
                    .orElseThrow();
            assertThat(c.protects()).isEmpty();
        }
    }

    @Test
    void theWeakestWireDecidesAndABareBreakerIsLeftOut() {
        Circuit pair = plan.circuits().stream()
                .filter(c -> c.was().contains("9"))
                .findFirst()
                .orElseThrow();
        assertThat(pair.was()).containsExactly("9", "11");
        assertThat(pair.amperes()).isEqualTo(15);
        assertThat(plan.circuits()).noneMatch(c -> c.was().contains("35"));
    }

    @Test
    void isProvedAndFits() {
        assertThat(plan.schedule().isProved()).isTrue();
        assertThat(plan.demands()).allMatch(d -> d.verdict() == Demand.Verdict.FITS);
        assertThat(plan.after().sources().get("service").rating().said()).isEqualTo("200 A");
        assertThat(UpgradePlan.unbalance(plan.legsAfter())).isLessThan(0.05);
    }

    @Test
    void theDirectoryHasNoTwoLinesAlike() {
        List<String> labels = plan.after().panels().get("main").breakers().values().stream()
                .map(Breaker::label)
                .toList();
        assertThat(labels).doesNotHaveDuplicates();
    }

    @Test
    void theDraftReadsBackAndIsEnteredAsOne() {
        String text = DraftFiles.write(plan.draft());
        DraftFiles.Written w = DraftFiles.parse("again", text, HOUSE).get();
        assertThat(w.draft()).isEqualTo(plan.draft());
        assertThat(Drafts.of(w.draft(), HOUSE).get()).isEqualTo(plan.after());
    }

    @Test
    void thePaperNamesEveryWireAndPricesWhatTheListHas() {
        Prices prices = Prices.read("prices", "breaker 15 A; 10\nbreaker 15 A, arc-fault; 60.50\n")
                .get();
        List<Page> pages = Papers.of(plan, prices);
        Page landings = pages.stream()
                .filter(p -> p.id().equals("landings"))
                .findFirst()
                .orElseThrow();
        List<String> wires = new ArrayList<>();
        landings.rows().forEach(r -> wires.add(r.get(0)));
        Plans.landings(HOUSE.panels().get("main"))
                .values()
                .forEach(all -> assertThat(wires).containsAll(all));
        Page parts =
                pages.stream().filter(p -> p.id().equals("parts")).findFirst().orElseThrow();
        assertThat(parts.rows())
                .anyMatch(r ->
                        r.get(1).equals("breaker 15 A, arc-fault") && r.get(2).equals("60.50"));
        assertThat(parts.rows())
                .anyMatch(r -> r.get(1).equals("breaker 15 A") && r.get(2).equals("10.00"));
        assertThat(pages)
                .allSatisfy(
                        p -> assertThat(p.rows()).allSatisfy(r -> assertThat(r).hasSameSizeAs(p.columns())));
    }
}
