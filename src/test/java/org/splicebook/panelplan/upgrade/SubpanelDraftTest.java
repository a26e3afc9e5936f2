package org.splicebook.panelplan.upgrade;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Consumer;
import java.util.stream.Collectors;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.splicebook.housefile.DraftFiles;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.housefile.HouseWriter;
import org.splicebook.loadflow.LoadCase;
import org.splicebook.loadflow.LoadFlow;
import org.splicebook.loadflow.Overload;
import org.splicebook.loadflow.Solution;
import org.splicebook.loadflow.Trips;
import org.splicebook.panelplan.TellReader;
import org.splicebook.record.House;
import org.splicebook.record.Move;
import org.splicebook.record.Panel;
import org.splicebook.record.Ref;
import org.splicebook.rewire.CurrentChange;
import org.splicebook.rewire.DraftAnswer;
import org.splicebook.rewire.Drafts;
import org.splicebook.rewire.Entered;
import org.splicebook.rules.Packs;
import org.splicebook.wiring.Derivation;
import org.splicebook.wiring.LoadPointWiring;
import org.splicebook.wiring.Supply;
import org.splicebook.wiring.Wiring;

/** The moves of a further panel: every load is served as before, nothing new is found, and it stays so in either state of an interlock. */
class SubpanelDraftTest {
    private static final House HOUSE = HouseFiles.read(Path.of("sample-house")).get();
    private static SubpanelPlan room;
    private static SubpanelPlan backed;

    @BeforeAll
    static void made() {
        room = plan(w -> {
            w.free(6);
            w.feeder("60 A");
            w.spaces(12);
        });
        backed = plan(w -> {
            w.source("7.6 kW");
            w.surge("12 kW");
            w.spaces(14);
            w.want("sump-pump");
            w.want("furnace");
        });
    }

    private static SubpanelPlan plan(Consumer<SubpanelReader> wanted) {
        TellReader loads = new TellReader(HOUSE);
        loads.allListed();
        SubpanelReader reader = new SubpanelReader(HOUSE, null, loads);
        reader.year(2026);
        wanted.accept(reader);
        return Subpanels.plan(HOUSE, Packs.of(HOUSE), reader.read().get(), null).get();
    }

    private static SubpanelPlan.Drafted of(SubpanelPlan plan) {
        assertThat(plan.notDrafted()).isEmpty();
        return Objects.requireNonNull(plan.drafted());
    }

    /** What each load point has: hots, neutral, ground, by how many ways from the service. */
    static Map<String, List<Object>> served(House house) {
        Wiring w = Derivation.derive(house);
        Map<String, List<Object>> all = new TreeMap<>();
        for (LoadPointWiring l : w.loadPoints()) {
            all.put(
                    l.id(),
                    List.of(
                            l.feeds().stream().map(f -> f.pole()).distinct().count(),
                            l.returns().stream().map(r -> r.over()).collect(Collectors.toSet()),
                            l.grounds().isEmpty()));
        }
        return all;
    }

    @Test
    void everyLoadIsServedAsBefore() {
        assertThat(served(of(room).after())).isEqualTo(served(HOUSE));
    }

    @Test
    void nothingNewIsFound() {
        assertThat(of(room).findings().added()).isEmpty();
        assertThat(of(backed).findings().added()).isEmpty();
    }

    @Test
    void passesLoadFlow() {
        for (SubpanelPlan p : List.of(room, backed)) {
            assertThat(of(p).currents()).noneMatch(CurrentChange::isWorse);
            LoadFlow flow = LoadFlow.of(of(p).after());
            Solution s = flow.solve(LoadCase.typical()).get();
            assertThat(s.settled()).isTrue();
            assertThat(Trips.in(s)).isEmpty();
            assertThat(Overload.in(flow, s)).isEmpty();
        }
    }

    @Test
    void wholeCircuitsGoOverAndNothingOfThemStaysOnTheOldBars() {
        for (SubpanelPlan p : List.of(room, backed)) {
            Panel before = Objects.requireNonNull(HOUSE.panels().get("main"));
            Panel main = Objects.requireNonNull(of(p).after().panels().get("main"));
            Set<String> keys = p.moves().stream()
                    .flatMap(m -> m.said().stream())
                    .flatMap(s -> List.of(s.split(", ")).stream())
                    .collect(Collectors.toSet());
            assertThat(main.breakers().values().stream()
                            .filter(b -> !("Panel " + further(p).name()).equals(b.label()))
                            .map(b -> b.key()))
                    .doesNotContainAnyElementsOf(keys);
            Set<String> spaces =
                    keys.stream().flatMap(k -> List.of(k.split("\\+")).stream()).collect(Collectors.toSet());
            Set<String> cables = new HashSet<>();
            before.joints().stream()
                    .filter(j -> j.members().stream().anyMatch(r -> spaces.contains(r.said())))
                    .flatMap(j -> j.members().stream())
                    .filter(r -> r instanceof Ref.WireEnd)
                    .forEach(r -> cables.add(((Ref.WireEnd) r).cable()));
            assertThat(main.joints())
                    .filteredOn(j -> j.members().contains(new Ref.PanelTerminal("n")))
                    .allSatisfy(j -> assertThat(j.members())
                            .noneMatch(r -> r instanceof Ref.WireEnd w && cables.contains(w.cable())));
        }
    }

    @Test
    void neutralAndGroundLandApart() {
        for (SubpanelPlan p : List.of(room, backed)) {
            Panel is = further(p);
            assertThat(is.bonded()).isFalse();
            Set<String> onNeutral = landed(is, "n");
            Set<String> onGround = landed(is, "g");
            assertThat(onNeutral).isNotEmpty().allMatch(w -> w.contains("neutral") || w.endsWith(".n"));
            assertThat(onGround).isNotEmpty().allMatch(w -> w.contains("ground") || w.endsWith(".g"));
        }
    }

    private static Panel further(SubpanelPlan p) {
        return of(p).draft().moves().stream()
                .filter(m -> m instanceof Move.AddPanel)
                .map(m -> of(p).after().panels().get(((Move.AddPanel) m).is().name()))
                .findFirst()
                .orElseThrow();
    }

    private static Set<String> landed(Panel p, String bar) {
        return p.joints().stream()
                .filter(j -> j.members().contains(new Ref.PanelTerminal(bar)))
                .flatMap(j -> j.members().stream())
                .filter(r -> r instanceof Ref.WireEnd)
                .map(Ref::said)
                .collect(Collectors.toSet());
    }

    @Test
    void eachPoleComesOnTheLegThatWasChosenForIt() {
        for (SubpanelPlan p : List.of(room, backed)) {
            Panel is = further(p);
            long[] taken = new long[2];
            is.breakers()
                    .values()
                    .forEach(b -> b.spaces().forEach(s -> taken[SubpanelWanted.leg(Integer.parseInt(s))]++));
            long poles = p.moves().stream().mapToInt(SubpanelPlan.Moved::poles).sum();
            long onSecond = p.legs().values().stream().filter(l -> l == 1).count();
            long twos = (poles - p.legs().size()) / 2 + p.wanted().sourcePoles() / 2;
            assertThat(taken[1]).isEqualTo(onSecond + twos);
            assertThat(taken[0] + taken[1]).isEqualTo(poles + p.wanted().sourcePoles());
        }
    }

    @Test
    void whatIsBackedUpIsFedFromEitherSourceAndNeverFromBoth() {
        Panel is = further(backed);
        assertThat(is.exclusive()).containsExactly(List.of("main", "1+3"));
        Wiring w = Derivation.derive(of(backed).after());
        Set<String> moved = w.loadPoints().stream()
                .filter(l -> l.feeds().stream().anyMatch(f -> f.breaker().startsWith(is.name() + ".")))
                .map(LoadPointWiring::id)
                .collect(Collectors.toSet());
        assertThat(moved).isNotEmpty();
        assertThat(w.loadPoints())
                .filteredOn(l -> moved.contains(l.id()))
                .allSatisfy(l -> assertThat(l.supply()).isNotIn(Supply.TWICE, Supply.SHORT));
    }

    @Test
    void readsBackAndIsEnteredStepByStep() {
        for (SubpanelPlan p : List.of(room, backed)) {
            String text = DraftFiles.write(of(p).draft());
            DraftFiles.Written w = DraftFiles.parse("again", text, HOUSE).get();
            assertThat(w.draft()).isEqualTo(of(p).draft());
            assertThat(DraftFiles.parseKept(text).get()).isEqualTo(of(p).draft());
            assertThat(Drafts.of(w.draft(), HOUSE).get()).isEqualTo(of(p).after());
            for (int i = 1; i <= w.draft().moves().size(); i++) {
                House half =
                        Entered.of(HOUSE, w.draft().moves(), i, "2026-05-17").get();
                assertThat(HouseFiles.parse("half", HouseWriter.write(half)).get())
                        .as("after %d moves", i)
                        .isEqualTo(half);
            }
        }
    }

    @Test
    void isComparedLikeAnyOtherDraft() {
        var answer = DraftAnswer.of(of(room).draft(), HOUSE, Packs.of(HOUSE), 1, java.time.Instant.EPOCH)
                .get();
        assertThat(answer.sections())
                .filteredOn(s -> s.title().equals("New findings"))
                .allSatisfy(s -> assertThat(s.lines()).isEmpty());
        assertThat(SubpanelPapers.of(room)).extracting(Page::id).contains("change", "steps", "parts");
    }
}
