package org.splicebook.panelplan.upgrade;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.splicebook.problem.Result;
import org.splicebook.record.Breaker;
import org.splicebook.record.House;
import org.splicebook.record.Panel;

/** Fuse panels, split buses, two meters, and what a record does not tell. */
class StartingPointsTest {
    private static final String BOXES = """
            boxes:
              range-box:
                place: kitchen
                devices: {range: {kind: receptacle-120-240-old, load: range, watts: 8 kW}}
                joints: [[R.black, range.hot-1], [R.red, range.hot-2], [R.white, range.neutral]]
              room:
                place: kitchen
                devices: {a: {kind: single-receptacle}, b: {kind: single-receptacle}}
                joints: [[A.black, a.hot], [A.white, a.neutral], [B.black, b.hot], [B.white, b.neutral]]
            """;

    private static final String CABLES = """
            cables:
              R: {kind: NM, wires: 8/3, ends: [main, range-box]}
              A: {kind: NM, wires: 14/2, ends: [main, room]}
              B: {kind: NM, wires: 14/2, ends: [main, room]}
            """;

    private static House fuses() {
        return Plans.house("""
                sources: {service: {system: split-phase 120/240, rating: 60 A, bond: main}}
                places: {kitchen: {kind: kitchen}, cellar: {kind: utility}}
                panels:
                  main:
                    place: cellar
                    supply: service
                    spaces: 6
                    rating: 60 A
                    main: {poles: 2, rating: 60 A, kind: fuses}
                    fuses: {1: {rating: 40 A}, 2: {rating: 40 A}, 3: {rating: 30 A}, 4: {rating: 15 A}}
                    pull-outs: [[1, 2]]
                    legs: {1: a, 2: b, 3: a, 4: b}
                    joints: [[1, R.black], [2, R.red], [n, R.white, A.white, B.white], [3, A.black], [4, B.black]]
                """ + CABLES + BOXES);
    }

    @Test
    void aFusePanelBecomesBreakersItsPullOutATwoPoleOne() {
        UpgradePlan plan = Plans.plan(fuses(), "100-20");
        Panel is = plan.after().panels().get("main");
        assertThat(is.breakers().values()).extracting(b -> b.spaces().size()).containsExactlyInAnyOrder(2, 1, 1);
        assertThat(is.breakers().values()).allMatch(b -> b.type() == org.splicebook.record.OvercurrentType.BREAKER);
        assertThat(is.pullOuts()).isEmpty();
        // A 30 A fuse on 14 AWG: the wire decides.
        assertThat(is.breakers().values().stream().filter(b -> b.spaces().size() == 1))
                .allMatch(b -> b.rating() != null && b.rating().base() == 15);
        assertThat(plan.assumed()).anyMatch(s -> s.contains("lengthening is not counted"));
        assertThat(plan.findings().cured()).extracting(f -> f.key()).contains("wire-too-small/A.black");
    }

    private static House withGenerator(String exclusive) {
        return Plans.house("""
                sources:
                  service: {system: split-phase 120/240, rating: 100 A, bond: main}
                  set: {kind: generator, system: split-phase 120/240, rating: 30 A, at: inlet}
                places: {kitchen: {kind: kitchen}, cellar: {kind: utility}}
                panels:
                  main:
                    place: cellar
                    supply: service
                    spaces: 12
                    rating: 100 A
                    main: {poles: 2, rating: 100 A}
                    breakers: {1+3: {rating: 40 A}, 2: {rating: 15 A}, 4: {rating: 15 A}, 6+8: {rating: 30 A}}
                    exclusive: [%s]
                    joints: [[1, R.black], [3, R.red], [n, R.white, A.white, B.white, G.n], [2, A.black], [4, B.black], [6, G.l1], [8, G.l2], [g, G.g]]
                """.formatted(exclusive) + CABLES + """
                  G: {kind: PVC, wires: {l1: black, l2: red, n: white, g: green}, ends: [main, inlet]}
                """ + BOXES + """
                  inlet: {place: cellar, joints: [[G.l1, set.l1], [G.l2, set.l2], [G.n, set.n], [G.g, set.g]]}
                """);
    }

    @Test
    void theBreakerOfASecondSourceGoesBesideTheMainWithItsInterlock() {
        UpgradePlan plan = Plans.plan(withGenerator("[main, 6+8]"), "200-42");
        Panel is = plan.after().panels().get("main");
        assertThat(is.exclusive()).hasSize(1);
        assertThat(is.exclusive().get(0).get(0)).isEqualTo("main");
        String key = is.exclusive().get(0).get(1);
        assertThat(List.of(key.split("\\+"))).containsExactlyInAnyOrder("1", "3");
        assertThat(Plans.landings(is).get(key.split("\\+")[0])).isEqualTo(List.of("G.l1"));
        assertThat(is.breakers()).containsKey(key);
        assertThat(plan.asked()).noneMatch(s -> s.contains("interlock"));
        assertThat(plan.assumed()).anyMatch(s -> s.contains("beside the main"));
        assertThat(plan.findings().added()).isEmpty();
    }

    @Test
    void whatPeopleLockElsewhereStaysThereAndOtherInterlocksAreAskedAbout() {
        UpgradePlan locked = Plans.plan(withGenerator("[main, 6+8]"), "200-42", t -> {}, w -> w.lock("6+8", "2+4"))
                .get();
        assertThat(locked.after().panels().get("main").exclusive()).containsExactly(List.of("main", "2+4"));
        UpgradePlan other = Plans.plan(withGenerator("[2, 4]"), "200-42");
        assertThat(other.asked()).anyMatch(s -> s.contains("Only one of 2 and 4"));
    }

    private static House splitBus() {
        return Plans.house("""
                sources: {service: {system: split-phase 120/240, rating: 100 A, bond: main}}
                places: {kitchen: {kind: kitchen}, cellar: {kind: utility}}
                panels:
                  main:
                    place: cellar
                    supply: service
                    spaces: 12
                    rating: 100 A
                    breakers: {1+3: {rating: 40 A}, 2+4: {rating: 60 A, label: Lighting}, 9: {rating: 15 A}, 10: {rating: 15 A}}
                    buses: {lower: {spaces: 9-12, fed-by: 2+4}}
                    joints: [[1, R.black], [3, R.red], [n, R.white, A.white, B.white], [9, A.black], [10, B.black]]
                """ + CABLES + BOXES);
    }

    @Test
    void aSplitBusPanelGetsOneMainAndLosesTheBreakerThatFedTheBus() {
        UpgradePlan plan = Plans.plan(splitBus(), "100-20");
        Panel is = plan.after().panels().get("main");
        assertThat(is.main()).isNotNull();
        assertThat(is.buses()).isEmpty();
        assertThat(plan.circuits()).noneMatch(c -> c.was().contains("2+4"));
        assertThat(plan.findings().added()).isEmpty();
    }

    @Test
    void ofTwoMetersOnePanelIsPlannedAndTheOtherStays() {
        House house = Plans.house("""
                sources:
                  upper: {system: split-phase 120/240, rating: 60 A, bond: main}
                  lower: {system: split-phase 120/240, rating: 60 A, bond: second}
                places: {kitchen: {kind: kitchen}, cellar: {kind: utility}}
                panels:
                  main:
                    place: cellar
                    supply: upper
                    spaces: 8
                    rating: 60 A
                    main: {poles: 2, rating: 60 A}
                    breakers: {1+3: {rating: 40 A}, 5: {rating: 15 A}}
                    joints: [[1, R.black], [3, R.red], [n, R.white, A.white], [5, A.black]]
                  second:
                    place: cellar
                    supply: lower
                    spaces: 8
                    rating: 60 A
                    main: {poles: 2, rating: 60 A}
                    breakers: {1: {rating: 15 A}}
                    joints: [[1, B.black], [n, B.white]]
                """
                + CABLES.replace("B: {kind: NM, wires: 14/2, ends: [main", "B: {kind: NM, wires: 14/2, ends: [second")
                + BOXES);
        Result<UpgradePlan> unsaid = Plans.plan(house, "100-20", t -> {}, w -> {});
        assertThat(unsaid.problems())
                .singleElement()
                .satisfies(p -> assertThat(p.message()).contains("Which panel"));
        WantedReader reader = new WantedReader(house, "100-20", "main", new org.splicebook.panelplan.TellReader(house));
        UpgradePlan plan = Upgrades.plan(
                        house,
                        org.splicebook.rules.Packs.of(house),
                        reader.read().get(),
                        null,
                        org.splicebook.panelplan.schedule.Scheduler.Progress.NONE)
                .get();
        assertThat(plan.after().panels().get("second")).isEqualTo(house.panels().get("second"));
        assertThat(plan.after().sources().get("lower"))
                .isEqualTo(house.sources().get("lower"));
        assertThat(plan.after().sources().get("upper").rating().said()).isEqualTo("100 A");
        assertThat(Papers.of(plan, Prices.none()).stream()
                        .filter(p -> p.id().equals("power"))
                        .flatMap(p -> p.notes().stream()))
                .anyMatch(n -> n.contains("lower"));
    }

    @Test
    void unknownsAreAskedAndNothingIsInvented() {
        House house = Plans.house("""
                sources: {service: {system: split-phase 120/240, bond: main}}
                places: {kitchen: {kind: kitchen}}
                panels:
                  main:
                    supply: service
                    spaces: 8
                    complete: []
                    breakers: {1: {}, 2: {rating: 20 A}, 4: {rating: 20 A}}
                    joints: [[1, X.w], [n, X.n]]
                cables:
                  X: {kind: NM, wires: {w: unknown, n: unknown}, ends: [main, "?"]}
                """);
        UpgradePlan plan = Plans.plan(house, "100-20");
        assertThat(plan.asked())
                .anyMatch(s -> s.contains("rating of 1 today"))
                .anyMatch(s -> s.contains("What size and material are X.w"))
                .anyMatch(s -> s.contains("What lands on 2"))
                .anyMatch(s -> s.contains("rating of service"));
        Circuit one = plan.circuits().stream()
                .filter(c -> c.was().contains("1"))
                .findFirst()
                .orElseThrow();
        assertThat(one.amperes()).isNull();
        assertThat(one.breaker()).contains("rating to be found");
        assertThat(plan.circuits()).hasSize(3);
        // What is not told is not made: the service keeps its unknown rating.
        assertThat(plan.after().sources()).isEqualTo(house.sources());
    }

    @Test
    void locksHoldAndWrongOnesAreTold() {
        UpgradePlan plan = Plans.plan(splitBus(), "100-20", t -> {}, w -> {
                    w.lock("9", "20");
                    w.keep(1);
                })
                .get();
        assertThat(plan.schedule().of("9").key()).isEqualTo("20");
        assertThat(plan.after().panels().get("main").breakers().values())
                .flatExtracting(Breaker::spaces)
                .doesNotContain("1");
        Result<UpgradePlan> wrong = Plans.plan(splitBus(), "100-20", t -> {}, w -> {
            w.lock("77", "20");
            w.lock("1+3", "1+2");
        });
        assertThat(wrong.problems()).anyMatch(p -> p.message().contains("no circuit 77"));
    }

    @Test
    void whatFeedsBackStandsAtTheFarEndAndIsHeldAgainstTheBus() {
        UpgradePlan plan = Plans.plan(splitBus(), "200-40", t -> {}, w -> w.backfeed("24 A"))
                .get();
        assertThat(plan.schedule().of(Backfeed.NAME).key()).isIn("37+39", "38+40");
        assertThat(plan.circuits().stream()
                        .filter(c -> c.name().equals(Backfeed.NAME))
                        .findFirst()
                        .orElseThrow()
                        .amperes())
                .isEqualTo(30);
        UpgradePlan much = Plans.plan(splitBus(), "200-40", t -> {}, w -> w.backfeed("48 A"))
                .get();
        assertThat(much.separate()).anyMatch(s -> s.contains("too much for this bus: at most 32 A"));
    }

    @Test
    void everythingThatIsWrongIsToldAtOnce() {
        Result<UpgradePlan> wrong = Plans.plan(fuses(), "300-99", t -> t.add("ev 48 A"), w -> {
            w.protect("some");
            w.entry("left");
            w.slack("far");
            w.place("tub", "kitchen");
            w.place("ev", "moon");
            w.backfeed("-3 A");
        });
        assertThat(wrong.problems()).hasSizeGreaterThanOrEqualTo(7);
        assertThat(Prices.read("list", "breaker 20 A; 12.50\nbreaker; much\n; 3\nbreaker 20 A; 13")
                        .problems())
                .extracting(p -> p.where().line())
                .containsExactly(2, 3, 4);
        assertThat(List.of(wrong.problems().get(0).cure())).first().asString().contains("200-40");
    }
}
