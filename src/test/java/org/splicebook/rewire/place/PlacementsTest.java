package org.splicebook.rewire.place;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.housefile.Kinds;
import org.splicebook.oracle.Served;
import org.splicebook.problem.Result;
import org.splicebook.record.House;
import org.splicebook.record.Move;
import org.splicebook.record.Protection;
import org.splicebook.rewire.Moves;
import org.splicebook.rewire.search.Physics;
import org.splicebook.rewire.search.Protecting;
import org.splicebook.rules.Pack;
import org.splicebook.rules.Packs;

/** Placements beside every subset of their candidates tried on the house, beside an independent flood and currents, and by hand. */
class PlacementsTest {
    private static final Pack PACK = Packs.us(2023);
    private static final int MOST_CANDIDATES = Integer.getInteger("place.candidates", 9);

    /** What the best of all subsets comes to. */
    private record Best(int covered, int cost, int tried) {}

    private static Placement place(House house, Wanted wanted) {
        return place(house, wanted, Costs.standard());
    }

    private static Placement place(House house, Wanted wanted, Costs costs) {
        return Placements.of(house, PACK, Kinds.standard(), costs, wanted, (n, of) -> true)
                .get();
    }

    /** The program's own, and such as make breakers cheap. */
    private static Costs costs(int seed) {
        return seed % 2 == 0 ? Costs.standard() : Costs.parse("costs", """
                        breaker: {1 ground-fault: 9, 1 arc-fault: 11, 1 ground-fault arc-fault: 13, 2 ground-fault: 21, 2 arc-fault: 25, 2 ground-fault arc-fault: 30}
                        open: {panel: 5}
                        """).get();
    }

    @Test
    void noSubsetOfTheCandidatesCoversMoreOrAsMuchForLess() {
        assertThat(equalToAllSubsets(0, 24)).as("houses compared").isGreaterThan(8);
    }

    @Test
    @Tag("full")
    void noSubsetOfTheCandidatesCoversMoreOrAsMuchForLessInManyHouses() {
        int first = Integer.getInteger("place.first", 40);
        int houses = Integer.getInteger("place.houses", 120);
        int compared = equalToAllSubsets(first, first + houses);
        System.out.println(compared + " of " + houses + " houses compared with every subset");
        assertThat(compared).isGreaterThan(houses / 5);
    }

    private static int equalToAllSubsets(int from, int to) {
        int compared = 0;
        for (int seed = from; seed < to; seed++) {
            House house = UnprotectedHouses.of(seed);
            Wanted wanted = wanted(seed);
            Best best = best(house, wanted, costs(seed));
            if (best != null) {
                compared++;
                Placement p = place(house, wanted, costs(seed));
                int covered = p.demands().size() - p.uncovered().size();
                assertThat(covered + " covered for " + p.cost() + (p.isProved() ? "" : " not proved"))
                        .as("seed %d, %d subsets: %s", seed, best.tried(), p.placed())
                        .isEqualTo(best.covered() + " covered for " + best.cost());
            }
        }
        return compared;
    }

    private static Wanted wanted(int seed) {
        return new Wanted(
                seed % 3 == 0
                        ? Set.of(Protection.GROUND_FAULT)
                        : seed % 3 == 1 ? Set.of(Protection.ARC_FAULT) : Set.copyOf(Wanted.FUNCTIONS),
                List.of(),
                false);
    }

    /** Every subset put into the house and judged as a whole; null where there is nothing to cover or too much to try. */
    private static Best best(House house, Wanted wanted, Costs costs) {
        Protecting protecting = Protecting.of(house, PACK, Kinds.standard());
        List<Demand> demands = Demands.of(protecting, PACK, wanted).get().all();
        List<Candidate> all = Candidates.of(house, protecting, Kinds.standard(), costs, demands);
        if (demands.isEmpty() || all.isEmpty() || all.size() > MOST_CANDIDATES) {
            return null;
        }
        Best best = new Best(0, 0, 1 << all.size());
        for (int set = 1; set < 1 << all.size(); set++) {
            List<Move> moves = new ArrayList<>();
            Set<String> sites = new TreeSet<>();
            int cost = 0;
            for (int i = 0; i < all.size(); i++) {
                if ((set >> i & 1) == 1) {
                    moves.addAll(all.get(i).moves());
                    sites.addAll(all.get(i).sites());
                    cost += all.get(i).price();
                }
            }
            cost += sites.stream()
                    .mapToInt(s -> costs.figures().get(s.equals("main") ? "open panel" : "open box"))
                    .sum();
            Result<House> made = Moves.apply(house, moves);
            if (!made.isOk()) {
                continue;
            }
            Protecting.Verdict v = protecting.whole(made.get(), moves);
            int covered = (int) demands.stream()
                    .filter(d ->
                            v.protections().getOrDefault(d.point(), Set.of()).contains(d.function()))
                    .count();
            boolean isBetter = covered > best.covered() || (covered == best.covered() && cost < best.cost());
            if (v.reasons().isEmpty() && isBetter) {
                best = new Best(covered, cost, best.tried());
            }
        }
        return best;
    }

    @Test
    void whatIsCoveredIsProtectedByAFloodThatTakesEachSensorAwayAndNothingTrips() {
        Set<String> placed = new LinkedHashSet<>();
        for (int seed = 0; seed < 60; seed++) {
            House house = UnprotectedHouses.of(seed);
            Placement p = place(house, wanted(seed), costs(seed));
            House after = Moves.apply(house, p.moves()).get();
            Map<String, Set<String>> protections = Served.protections(after);
            List<Demand> covered = new ArrayList<>(p.demands());
            p.uncovered().forEach(u -> covered.remove(u.demand()));
            for (Demand d : covered) {
                String device = d.point().replaceFirst("\\..*", "");
                assertThat(protections.getOrDefault(d.point(), protections.get(device)))
                        .as("seed %d, %s", seed, d)
                        .contains(d.function().name());
            }
            assertThat(Served.worse(house, after))
                    .as("seed %d: %s", seed, p.placed())
                    .isEmpty();
            Set<String> news = new TreeSet<>(Physics.wrong(after).keySet());
            news.removeAll(Physics.wrong(house).keySet());
            assertThat(news).as("seed %d: %s", seed, p.placed()).isEmpty();
            p.placed().forEach(d -> placed.add(d.what().replaceAll(", (K|in the).*", "")));
        }
        // What the houses were made to bring about was brought about.
        assertThat(placed)
                .contains("ground-fault breaker", "ground-fault receptacle", "arc-fault receptacle")
                .anyMatch(w -> w.contains("breaker, 2 poles"));
    }

    private static House house(String text) {
        return HouseFiles.parse("house", text).get();
    }

    private static final String CHAIN = """
            splicebook: 1
            house: chain
            basis: seen
            complete: [cables, joints, breakers, landings]
            sources: {service: {system: split-phase 120/240, bond: main}}
            places: {one: {kind: %s}, two: {kind: bathroom}, three: {kind: outdoors}}
            panels:
              main: {supply: service, spaces: 8, breakers: {1: {rating: 15 A}}, joints: [[1, K1.black], [n, K1.white], [g, K1.bare]]}
            cables:
              K1: {kind: NM, wires: 14/2+ground, ends: [main, b1]}
              K2: {kind: NM, wires: 14/2+ground, ends: [b1, b2]}
              K3: {kind: NM, wires: 14/2+ground, ends: [b2, b3]}
            boxes:
              b1:
                place: one
                devices: {r1: {kind: duplex-receptacle%s}}
                joints: [[K1.black, r1.top.hot], [K2.black, r1.bottom.hot], [K1.white, r1.top.neutral], [K2.white, r1.bottom.neutral], [K1.bare, K2.bare, r1.ground]]
              b2:
                place: two
                devices: {r2: {kind: duplex-receptacle}}
                joints: [[K2.black, r2.top.hot], [K3.black, r2.bottom.hot], [K2.white, r2.top.neutral], [K3.white, r2.bottom.neutral], [K2.bare, K3.bare, r2.ground]]
              b3:
                place: three
                devices: {r3: {kind: duplex-receptacle}}
                joints: [[K3.black, r3.top.hot], [K3.white, r3.top.neutral], [K3.bare, r3.ground]]
            """;

    private static final Wanted GROUND_FAULT = new Wanted(Set.of(Protection.GROUND_FAULT), List.of(), false);

    /** A bedroom needs none, so the first that does takes the others behind it: cheaper than a breaker, and no more than is asked for. */
    @Test
    void theFirstOutletThatAsksTakesTheOthersBehindIt() {
        Placement p = place(house(CHAIN.formatted("bedroom", "")), GROUND_FAULT);
        assertThat(p.placed()).singleElement().satisfies(d -> {
            assertThat(d.at()).isEqualTo("r2");
            assertThat(d.covers())
                    .extracting(Demand::point)
                    .containsExactlyInAnyOrder("r2.bottom", "r2.top", "r3.bottom", "r3.top");
            assertThat(d.instead()).extracting(Placement.Instead::what).anyMatch(w -> w.contains("breaker"));
        });
        assertThat(p.uncovered()).isEmpty();
    }

    /** One that is there and lets what goes on by on its line side needs no part at all. */
    @Test
    void aProtectiveReceptacleThatIsThereTakesWhatGoesOnBehindIt() {
        House there = house(CHAIN.formatted("bathroom", "")
                .replace("r1: {kind: duplex-receptacle}", "r1: {kind: ground-fault-receptacle}")
                .replace(
                        "[K1.black, r1.top.hot], [K2.black, r1.bottom.hot]",
                        "{join: [K1.black, K2.black], tail: r1.line.hot}")
                .replace(
                        "[K1.white, r1.top.neutral], [K2.white, r1.bottom.neutral]",
                        "{join: [K1.white, K2.white], tail: r1.line.neutral}"));
        Placement p = place(there, GROUND_FAULT);
        assertThat(p.placed())
                .singleElement()
                .satisfies(d -> assertThat(d.what()).isEqualTo("as it is, K2 taken behind it"));
        assertThat(p.cost()).isEqualTo(17);
        assertThat(p.uncovered()).isEmpty();
    }

    @Test
    void costsOfOnesOwnTurnTheChoice() {
        Costs cheap = Costs.parse("costs", "breaker: {1 ground-fault: 5}\nopen: {panel: 0}\n")
                .get();
        Placement p = Placements.of(
                        house(CHAIN.formatted("bedroom", "")),
                        PACK,
                        Kinds.standard(),
                        cheap,
                        GROUND_FAULT,
                        (n, of) -> true)
                .get();
        assertThat(p.placed()).extracting(Placement.Placed::at).containsExactly("main.1");
        assertThat(p.cost()).isEqualTo(6);
    }

    @Test
    void costsThatAreNoneAreToldWithTheirLine() {
        Result<Costs> wrong = Costs.parse("costs", "breaker: {1 groundfault: 5}\nopen: {box: dear}\n");
        assertThat(wrong.problems()).extracting(x -> x.said()).anyMatch(s -> s.startsWith("costs:1:"));
        assertThat(wrong.problems()).extracting(x -> x.said()).anyMatch(s -> s.startsWith("costs:2:"));
    }

    /** Two circuits with one neutral on unlike breakers far apart in the panel: one pole each would trip; two poles as one see all of it. */
    @Test
    void circuitsThatShareANeutralAreCoveredByOneBreakerOfTwoPoles() {
        String two = """
                splicebook: 1
                house: two
                basis: seen
                complete: [cables, joints, breakers, landings]
                sources: {service: {system: split-phase 120/240, bond: main}}
                places: {one: {kind: bedroom}}
                panels:
                  main: {supply: service, spaces: 8, breakers: {1: {rating: 15 A}, 4: {rating: 15 A}}, joints: [[1, K1.black], [4, K1.red], [n, K1.white], [g, K1.bare]]}
                cables:
                  K1: {kind: NM, wires: 14/3+ground, ends: [main, b1]}
                  K2: {kind: NM, wires: 14/2+ground, ends: [b1, b2]}
                boxes:
                  b1:
                    place: one
                    devices: {light: {kind: luminaire}}
                    joints: [[K1.black, light.hot], [K1.red, K2.black], [K1.white, K2.white, light.neutral], [K1.bare, K2.bare]]
                  b2:
                    place: one
                    devices: {lamp: {kind: luminaire}}
                    joints: [[K2.black, lamp.hot], [K2.white, lamp.neutral]]
                """;
        Placement p = place(house(two), Wanted.byCheck());
        assertThat(p.placed()).singleElement().satisfies(d -> {
            assertThat(d.at()).isIn("main.1+3", "main.2+4");
            assertThat(d.what()).contains("arc-fault breaker, 2 poles, in the place of 1 and 4");
            assertThat(d.covers()).hasSize(2);
            assertThat(d.instead()).allSatisfy(i -> assertThat(i.what()).contains("2 poles"));
        });
        Placement one = place(house(two.replace("4: {rating: 15 A}", "4: {rating: 20 A}")), Wanted.byCheck());
        assertThat(one.placed()).isEmpty();
        assertThat(one.uncovered())
                .hasSize(2)
                .allSatisfy(u ->
                        assertThat(u.why()).anyMatch(w -> w.contains("Return that goes past a protective device")));
    }

    @Test
    void whatOnlyMayBeFedIsNotSaidToBeCovered() {
        String open = CHAIN.formatted("bedroom", "")
                .replace("[K1.black, r1.top.hot], [K2.black, r1.bottom.hot], ", "")
                .replace("complete: [cables, joints, breakers, landings]", "complete: [cables, breakers, landings]");
        Placement p = place(house(open), new Wanted(GROUND_FAULT.functions(), List.of("r3.top"), false));
        assertThat(p.demands())
                .singleElement()
                .satisfies(d -> assertThat(d.isSure()).isFalse());
        assertThat(p.placed()).allSatisfy(d -> assertThat(d.at()).isIn("r2", "r3"));
        assertThat(p.uncovered().size() + p.placed().size()).isEqualTo(1);
    }

    @Test
    void nothingThatIsNamedAndNotThereIsPassedOver() {
        House house = house(CHAIN.formatted("bedroom", ""));
        Result<Placement> wrong = Placements.of(
                house,
                PACK,
                Kinds.standard(),
                Costs.standard(),
                new Wanted(GROUND_FAULT.functions(), List.of("r9.top"), false),
                (n, of) -> true);
        assertThat(wrong.problems())
                .singleElement()
                .satisfies(x -> assertThat(x.said()).contains("r9.top", "Nearest"));
        assertThat(Wanted.parse(List.of("sparks"), List.of(), false).isOk()).isFalse();
    }

    @Test
    void whoEndsItIsToldThatNotAllWasLookedAt() {
        Placement p = Placements.of(
                        house(CHAIN.formatted("bathroom", "")),
                        PACK,
                        Kinds.standard(),
                        Costs.standard(),
                        GROUND_FAULT,
                        (n, of) -> false)
                .get();
        assertThat(p.isProved()).isFalse();
        assertThat(p.placed()).isEmpty();
        assertThat(p.uncovered()).hasSameSizeAs(p.demands());
    }

    @Test
    void aFaceWithoutAGroundIsToBeLabelled() {
        House bare = house(CHAIN.formatted("bedroom", "")
                .replace("+ground", "")
                .replaceAll(", \\[K[^\\[]*r[123]\\.ground\\]", "")
                .replace(", [g, K1.bare]", ""));
        Placement p = place(bare, GROUND_FAULT);
        assertThat(p.labels()).hasSize(2).allSatisfy(l -> assertThat(l).contains("no ground"));
    }

    /** What is put in has a slot for a ground that is not there, and has to say so on its face. */
    @Test
    void aSlotForAGroundThatIsNotThereComesWithItsLabel() {
        House old = house(CHAIN.formatted("bedroom", "")
                .replace("+ground", "")
                .replaceAll(", \\[K[^\\[]*r[123]\\.ground\\]", "")
                .replace(", [g, K1.bare]", ""));
        Placement p = place(old, new Wanted(GROUND_FAULT.functions(), List.of("r1.top"), false));
        assertThat(p.uncovered()).isEmpty();
        assertThat(p.placed()).singleElement().satisfies(d -> assertThat(d.at()).isEqualTo("r1"));
        assertThat(p.moves()).contains(new Move.Label("r1", "no equipment ground"));
    }
}
