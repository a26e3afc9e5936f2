package org.splicebook.wiring;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.tuple;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.assertj.core.groups.Tuple;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.record.House;
import org.splicebook.record.Protection;

/** What is planted in the sample house is derived, and nothing is that its page does not tell. */
class SampleHouseWiringTest {
    private static final Path FOLDER = Path.of("sample-house");
    private static final Set<String> UNOPENED = Set.of("bedroom-front", "bedroom-back", "bedroom-small", "attic");

    private static House house;
    private static Wiring wiring;

    @BeforeAll
    static void derive() {
        house = HouseFiles.read(FOLDER).get();
        wiring = Derivation.derive(house);
    }

    @Test
    void theCrossingsAreThoseOfThePageAndNoOthers() {
        assertThat(wiring.crossings())
                .extracting(Crossing::kind, Crossing::island, Crossing::poles, Crossing::box, Crossing::device)
                .containsExactlyInAnyOrder(
                        crossing(CrossingKind.MULTIWIRE, "main:C1a.white", List.of("main.1", "main.3"), null),
                        crossing(CrossingKind.MULTIWIRE, "main:C5a.white", List.of("main.5", "main.7"), null),
                        crossing(CrossingKind.MULTIWIRE, "main:C6a.white", List.of("main.6", "main.8"), null),
                        crossing(
                                CrossingKind.MULTIWIRE_WITHOUT_COMMON_DISCONNECT,
                                "main:C9a.white",
                                List.of("main.11", "main.9"),
                                null),
                        crossing(
                                CrossingKind.SHARED_ON_ONE_LEG, "main:C13a.white", List.of("main.13", "main.21"), null),
                        crossing(CrossingKind.BORROWED, "main:C20a.white", List.of("main.10", "main.20"), "stair-head"),
                        crossing(CrossingKind.NEUTRAL_TO_GROUND, "garage-panel.n", List.of(), "garage-panel"));
    }

    @Test
    void thePageListsEveryCrossing() throws IOException {
        String page = Files.readString(FOLDER.resolve("README.md"));
        String table = page.substring(page.indexOf("## Every crossing"), page.indexOf("## Other oddities"));
        for (Crossing c : wiring.crossings()) {
            String kind = c.kind().name().toLowerCase(java.util.Locale.ROOT).replace('_', '-');
            String where = c.kind() == CrossingKind.NEUTRAL_TO_GROUND
                    ? "`" + c.box() + "`"
                    : "`" + c.island().replace("main:", "") + "`";
            assertThat(table.lines()).anyMatch(l -> l.startsWith("| " + kind + " |") && l.contains(where));
        }
    }

    @Test
    void theStairLightAloneBorrows() {
        assertThat(crossing(CrossingKind.BORROWED).loadPoints()).containsExactly("stair-light");
        assertThat(breakers("stair-light")).containsExactly("main.10");
        assertThat(relies("stair-light", Conductor.NEUTRAL))
                .contains("C20a.white")
                .doesNotContain("C10a.white");
    }

    @Test
    void withTheBorrowedHomeRunCutTheBathStaysLiveThroughTheStairLight() {
        assertThat(wiring.losses().stream()
                        .filter(l -> l.mode() == LossMode.CABLE_CUT
                                && l.thing().name().equals("C20a"))
                        .flatMap(l -> l.rows().stream())
                        .filter(r -> r.hot() == LossRow.Hot.LOST_LIVE_THROUGH_LOAD)
                        .map(LossRow::loadPoint))
                .containsExactly(
                        "bath-fan", "bath-light", "upper-hall-1.bottom", "upper-hall-1.top", "upper-hall-light");
    }

    @Test
    void theBenchSharesItsNeutralOnOneLeg() {
        assertThat(crossing(CrossingKind.SHARED_ON_ONE_LEG).loadPoints())
                .containsExactly(
                        "bench-1.bottom",
                        "bench-1.top",
                        "bench-2.bottom",
                        "bench-2.top",
                        "bench-3.bottom",
                        "bench-3.top");
        assertThat(point("bench-1.top").feeds().get(0).sourcePoles())
                .isEqualTo(point("bench-2.top").feeds().get(0).sourcePoles());
    }

    @Test
    void theSideboardsDuplexIsSplitBetweenTwoBreakers() {
        assertThat(breakers("dining-1.top")).containsExactly("main.9");
        assertThat(breakers("dining-1.bottom")).containsExactly("main.11");
        assertThat(point("dining-1.top").feeds().get(0).sourcePoles())
                .isNotEqualTo(point("dining-1.bottom").feeds().get(0).sourcePoles());
    }

    @Test
    void halfOfTheLampsDuplexIsSwitched() {
        assertThat(relies("living-3.top", Conductor.HOT)).contains("lamp-sw");
        assertThat(relies("living-3.bottom", Conductor.HOT)).doesNotContain("lamp-sw");
    }

    @Test
    void theWhitesThatAreHotAreThoseOfThePage() {
        Set<String> hot = new TreeSet<>();
        for (WireUse w : wiring.wires()) {
            if (w.wire().endsWith(".white")
                    && w.uses().stream()
                            .anyMatch(u -> u.conductor() == Conductor.HOT && u.sureness() != Sureness.MAY)) {
                hot.add(w.wire());
            }
        }
        assertThat(hot)
                .containsExactlyInAnyOrder(
                        "C10b.white", "C10d.white", "C10g.white", "C2a.white", "C15a.white", "G2a.white");
    }

    @Test
    void theDiningSwitchHasNoNeutralInItsBox() {
        for (String wire : List.of("C10b.black", "C10b.white")) {
            assertThat(use(wire)).noneMatch(u -> u.conductor() == Conductor.NEUTRAL);
        }
    }

    @Test
    void protectiveReceptaclesReachOtherRoomsAndFloors() {
        assertThat(protectedBy("shop-gf"))
                .containsExactly(
                        "bath-1.bottom",
                        "bath-1.top",
                        "half-bath-1.bottom",
                        "half-bath-1.top",
                        "porch-1.bottom",
                        "porch-1.top",
                        "shop-gf");
        assertThat(protectedBy("garage-gf"))
                .containsExactly(
                        "garage-1.bottom",
                        "garage-1.top",
                        "garage-gf",
                        "garden-1.bottom",
                        "garden-1.top",
                        "outside-1.bottom",
                        "outside-1.top");
    }

    @Test
    void theSwappedDeviceDoesNotProtectItsOwnFace() {
        assertThat(protectedBy("sink-gf")).containsExactly("counter-laundry.bottom", "counter-laundry.top");
        assertThat(breakers("sink-gf")).containsExactly("main.22");
    }

    @Test
    void theOldRunsHaveNoGround() {
        for (String point : List.of(
                "dining-2.top",
                "living-1.top",
                "upper-hall-1.top",
                "living-6.top",
                "hall-1.top",
                "bath-light",
                "dryer")) {
            assertThat(point(point).grounds()).as(point).isEmpty();
        }
        assertThat(point("living-4.top").grounds()).isNotEmpty();
        assertThat(point("garage-light-1").grounds()).as("over the tube").isNotEmpty();
    }

    @Test
    void theBuriedSpliceCarriesBathAndPorch() {
        assertThat(house.boxes().get("buried-splice").hidden()).isTrue();
        assertThat(lost(LossMode.CABLE_CUT, "C18c"))
                .containsExactly("bath-1.bottom", "bath-1.top", "porch-1.bottom", "porch-1.top");
    }

    @Test
    void wiresThatLeadNowhereAreThoseOfThePage() {
        assertThat(wiring.wires().stream().filter(w -> w.uses().isEmpty()).map(WireUse::wire))
                .containsExactlyInAnyOrder(
                        "BELL.red",
                        "BELL.white",
                        "C20c.bare",
                        "C20e.bare",
                        "C20f.bare",
                        "C28b.red",
                        "C28c.red",
                        "C31b.red",
                        "C9d.bare");
    }

    @Test
    void whatWasNotOpenedMayHangOnThreeBreakers() {
        assertThat(wiring.openRegions()).hasSize(1);
        Wiring.OpenRegion open = wiring.openRegions().get(0);
        assertThat(open.breakers()).containsExactly("main.24", "main.34", "main.36");
        assertThat(open.cables()).contains("U1", "A1", "C34a", "C36a");
        assertThat(wiring.loadPoints().stream().filter(p -> UNOPENED.contains(p.place())))
                .hasSize(27)
                .allSatisfy(p -> {
                    assertThat(p.supply()).isEqualTo(Supply.NONE);
                    assertThat(p.feeds().stream().map(Feed::breaker).distinct())
                            .containsExactlyInAnyOrder("main.24", "main.34", "main.36");
                });
    }

    @Test
    void everyOtherLoadPointIsFedOnceAndReturns() {
        assertThat(wiring.loadPoints().stream().filter(p -> !UNOPENED.contains(p.place())))
                .hasSize(102)
                .allSatisfy(p -> {
                    assertThat(p.supply()).as(p.id()).isEqualTo(Supply.ONCE);
                    assertThat(breakers(p.id())).as(p.id()).hasSize(1);
                    boolean twoHots = Set.of("heater", "heat-pump", "vehicle").contains(p.id());
                    assertThat(p.returns().stream().filter(r -> r.sureness() == Sureness.MUST))
                            .as(p.id())
                            .hasSize(twoHots ? 0 : 1);
                });
    }

    @Test
    void labelsThatLieAreAsThePageSays() {
        assertThat(breakers("fridge.top")).containsExactly("main.14");
        assertThat(breakers("furnace")).containsExactly("main.26");
        assertThat(breakers("dishwasher")).containsExactly("main.16");
        assertThat(breakers("porch-light")).containsExactly("main.31");
        assertThat(lost(LossMode.OFF_BY_HAND, "main.35")).isEmpty();
    }

    @Test
    void thinWireBehindTwentyAmperesIsTheOneOfThePage() {
        Set<String> thin = new TreeSet<>();
        house.cables()
                .values()
                .forEach(c -> c.wires().forEach(w -> {
                    if ("14".equals(w.size())
                            && use(c.name() + "." + w.name()).stream()
                                    .anyMatch(u ->
                                            u.conductor() == Conductor.HOT && amperes(String.valueOf(u.pole())) > 15)) {
                        thin.add(c.name());
                    }
                }));
        assertThat(thin).containsExactly("C9d");
    }

    @Test
    void inTheBareHouseAnythingMayFeedAnything() {
        Wiring bare = Derivation.derive(HouseFiles.read(FOLDER.resolve("bare")).get());
        assertThat(bare.crossings()).isEmpty();
        assertThat(bare.loadPoints()).hasSize(128).allSatisfy(p -> {
            assertThat(p.supply()).isEqualTo(Supply.NONE);
            assertThat(p.feeds()).isNotEmpty().allMatch(f -> f.sureness() == Sureness.MAY);
        });
    }

    private static Tuple crossing(
            CrossingKind kind, String island, List<String> poles, @org.jspecify.annotations.Nullable String box) {
        return tuple(kind, island, poles, box, null);
    }

    private static Crossing crossing(CrossingKind kind) {
        return wiring.crossings().stream()
                .filter(c -> c.kind() == kind)
                .findFirst()
                .orElseThrow();
    }

    private static LoadPointWiring point(String id) {
        return wiring.loadPoints().stream()
                .filter(p -> p.id().equals(id))
                .findFirst()
                .orElseThrow();
    }

    /** The breakers that are recorded to feed it. */
    private static Set<String> breakers(String id) {
        return point(id).feeds().stream()
                .filter(f -> f.sureness() != Sureness.MAY)
                .map(Feed::breaker)
                .collect(Collectors.toCollection(TreeSet::new));
    }

    private static Set<String> relies(String id, Conductor conductor) {
        return point(id).reliesOn().stream()
                .filter(r -> r.conductor() == conductor)
                .map(r -> r.thing().name())
                .collect(Collectors.toSet());
    }

    private static List<String> protectedBy(String device) {
        return wiring.loadPoints().stream()
                .filter(p -> p.protections().stream()
                        .anyMatch(b -> b.function() == Protection.GROUND_FAULT
                                && b.by().name().equals(device)
                                && b.sureness() == Sureness.MUST))
                .map(LoadPointWiring::id)
                .toList();
    }

    private static List<WireUse.Use> use(String wire) {
        return wiring.wires().stream()
                .filter(w -> w.wire().equals(wire))
                .findFirst()
                .map(WireUse::uses)
                .orElse(List.of());
    }

    private static List<String> lost(LossMode mode, String thing) {
        return wiring.losses().stream()
                .filter(l -> l.mode() == mode && l.thing().name().equals(thing))
                .flatMap(l -> l.rows().stream())
                .filter(r -> r.hot() == LossRow.Hot.LOST)
                .map(LossRow::loadPoint)
                .toList();
    }

    private static double amperes(String pole) {
        int dot = pole.indexOf('.');
        return house.panels().get(pole.substring(0, dot)).breakers().values().stream()
                .filter(b -> b.spaces().contains(pole.substring(dot + 1)))
                .findFirst()
                .orElseThrow()
                .rating()
                .base();
    }
}
