package org.splicebook.panelplan.upgrade;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.function.Consumer;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.panelplan.TellReader;
import org.splicebook.panelplan.Told;
import org.splicebook.problem.Problem;
import org.splicebook.problem.Result;
import org.splicebook.record.House;
import org.splicebook.rules.Packs;

/** What moves to a further panel: whole sets, within what source, legs, spaces and starts bear, the most wanted first. */
class SubpanelsTest {
    private static final House HOUSE = HouseFiles.read(Path.of("sample-house")).get();

    private static Result<SubpanelPlan> plan(House house, Consumer<SubpanelReader> wanted) {
        TellReader loads = new TellReader(house);
        loads.allListed();
        SubpanelReader reader = new SubpanelReader(house, null, loads);
        wanted.accept(reader);
        Result<SubpanelWanted> read = reader.read();
        return read.isOk()
                ? Subpanels.plan(house, Packs.of(house), read.get(), null)
                : new Result.Failed<>(read.problems());
    }

    private static Set<String> moved(SubpanelPlan plan) {
        return plan.moves().stream().flatMap(m -> m.said().stream()).collect(Collectors.toSet());
    }

    @Test
    void whatIsWantedIsBackedUpWithinTheSourceAndPartnersMoveTogether() {
        SubpanelPlan plan = plan(HOUSE, w -> {
                    w.source("7.6 kW");
                    w.surge("12 kW");
                    w.spaces(12);
                    w.want("sump-pump");
                    w.want("refrigerator");
                    w.want("furnace");
                })
                .get();
        assertThat(plan.isProved()).isTrue();
        assertThat(plan.va()).isLessThanOrEqualTo(7600);
        assertThat(plan.starting()).isLessThanOrEqualTo(12_000);
        assertThat(plan.moves().stream().mapToInt(SubpanelPlan.Moved::poles).sum())
                .isLessThanOrEqualTo(12);
        assertThat(moved(plan)).isNotEmpty();
        // 9 and 11 share a neutral, 10 and 20 lend one to each other: whole sets or nothing.
        for (List<String> together : List.of(List.of("10", "20"))) {
            assertThat(together.stream().filter(moved(plan)::contains).count()).isIn(0L, (long) together.size());
        }
        assertThat(plan.separate()).anyMatch(s -> s.contains("move together or not at all"));
        assertThat(SubpanelPapers.of(plan)).extracting(Page::id).contains("moves", "stays", "panel", "checks");
        assertThat(SubpanelPapers.of(plan))
                .allSatisfy(
                        p -> assertThat(p.rows()).allSatisfy(r -> assertThat(r).hasSameSizeAs(p.columns())));
    }

    @Test
    void aSourceOfOneLegTakesNothingOfTwo() {
        SubpanelPlan plan = plan(HOUSE, w -> {
                    w.source("3 kW");
                    w.volts("120");
                })
                .get();
        assertThat(plan.moves()).allMatch(m -> m.poles() == m.said().size());
        assertThat(plan.stays()).anyMatch(s -> s.why().contains("both legs"));
        assertThat(plan.asked()).anyMatch(s -> s.contains("surge"));
    }

    @Test
    void aPanelThatMakesRoomTakesAsFewWiresAsCanBe() {
        SubpanelPlan plan = plan(HOUSE, w -> {
                    w.free(6);
                    w.feeder("60 A");
                    w.spaces(12);
                })
                .get();
        assertThat(plan.moves().stream().mapToInt(SubpanelPlan.Moved::poles).sum())
                .isGreaterThanOrEqualTo(8);
        assertThat(plan.va()).isLessThanOrEqualTo(60 * 240);
        assertThat(plan.copper()).isNotEqualTo("?");
        assertThat(plan(HOUSE, w -> {
                            w.free(20);
                            w.spaces(4);
                        })
                        .problems())
                .singleElement()
                .satisfies(p -> assertThat(p.message()).contains("Not so many spaces"));
    }

    /** Both feed one lamp: on unlike legs that would be a short. */
    @Test
    void hotsThatMeetStayWhereTheyAre() {
        House house = Plans.house("""
                sources: {service: {system: split-phase 120/240, rating: 100 A, bond: main}}
                panels:
                  main:
                    supply: service
                    spaces: 12
                    rating: 100 A
                    breakers: {1: {rating: 15 A}, 5: {rating: 15 A}, 2: {rating: 15 A}, 4: {rating: 15 A}, 6: {rating: 15 A}}
                    joints: [[1, A.black], [5, B.black], [2, C.black], [4, D.black], [n, A.white, B.white, C.white, D.white]]
                cables:
                  A: {kind: NM, wires: 14/2, ends: [main, one]}
                  B: {kind: NM, wires: 14/2, ends: [main, one]}
                  C: {kind: NM, wires: 14/2, ends: [main, two]}
                  D: {kind: NM, wires: 14/2, ends: [main, two]}
                boxes:
                  one: {devices: {lamp: {kind: luminaire}}, joints: [[A.black, B.black, lamp.hot], [A.white, B.white, lamp.neutral]]}
                  two:
                    devices: {c: {kind: single-receptacle}, d: {kind: single-receptacle}}
                    joints: [[C.black, c.hot], [C.white, c.neutral], [D.black, d.hot], [D.white, d.neutral]]
                """);
        SubpanelPlan plan = plan(house, w -> {
                    w.source("7 kW");
                    w.spaces(12);
                })
                .get();
        assertThat(moved(plan)).contains("2", "4").doesNotContain("1", "5");
        assertThat(plan.stays())
                .filteredOn(s -> s.said().contains("1") || s.said().contains("5"))
                .isNotEmpty()
                .allMatch(s -> s.why().contains("Hots of main.1 and main.5 meet at lamp"));
    }

    @Test
    void everythingThatIsWrongIsToldAtOnce() {
        Result<SubpanelPlan> wrong = plan(HOUSE, w -> {
            w.source("much");
            w.volts("12");
            w.spaces(99);
            w.want("ufo");
            w.never("77");
        });
        assertThat(wrong.problems()).extracting(Problem::message).hasSizeGreaterThanOrEqualTo(5);
        assertThat(plan(HOUSE, w -> {}).problems())
                .singleElement()
                .satisfies(p -> assertThat(p.message()).contains("what the panel is for"));
    }

    static java.util.stream.LongStream seeds() {
        return java.util.stream.LongStream.range(0, 60);
    }

    /** Random sets of circuits against every choice of them, tried one by one. */
    @ParameterizedTest
    @MethodSource("seeds")
    void theChoiceIsThatOfExhaustiveSearch(long seed) {
        Random r = new Random(seed);
        List<Movable> sets = new ArrayList<>();
        int n = 2 + r.nextInt(6);
        for (int i = 0; i < n; i++) {
            List<Circuit> its = new ArrayList<>();
            double va = 0;
            for (int k = r.nextInt(4) == 0 ? 2 : 1; k > 0; k--) {
                List<Circuit.Pole> poles = new ArrayList<>();
                for (int p = r.nextInt(3) == 0 ? 2 : 1; p > 0; p--) {
                    double each = 100 + r.nextInt(2000);
                    va += each;
                    poles.add(new Circuit.Pole(i + "." + k + "." + p, 0, List.of("w"), each));
                }
                String name = "c" + i + "-" + k;
                its.add(new Circuit(name, List.of(name), poles, 20.0, Set.of(), List.of(), name, false, List.of()));
            }
            sets.add(new Movable(
                    its,
                    va,
                    r.nextInt(3) == 0 ? r.nextInt(4000) : 0,
                    Set.of("d" + i),
                    r.nextInt(3) == 0 ? Set.of("freezer") : Set.of(),
                    r.nextInt(6),
                    r.nextInt(8) == 0 ? List.of("no") : List.of()));
        }
        boolean backed = r.nextInt(3) > 0;
        boolean two = !backed || r.nextBoolean();
        SubpanelWanted wanted = new SubpanelWanted(
                "main",
                2 + r.nextInt(10),
                backed ? Double.valueOf(1000 + r.nextInt(6000)) : null,
                backed && r.nextBoolean() ? Double.valueOf(7000 + r.nextInt(4000)) : null,
                two,
                20 + r.nextInt(40),
                backed ? 0 : 1 + r.nextInt(3),
                backed ? List.of("d" + r.nextInt(n), "d" + r.nextInt(n)) : List.of(),
                Set.of(),
                null,
                Told.nothing());
        SubpanelChoice.Chosen chosen = new SubpanelChoice(wanted, sets).choose();
        long @Nullable [] best = null;
        for (int mask = 0; mask < 1 << n; mask++) {
            List<Movable> some = new ArrayList<>();
            for (int i = 0; i < n; i++) {
                if ((mask >> i & 1) == 1) {
                    some.add(sets.get(i));
                }
            }
            if (isLawful(wanted, some)) {
                long[] value = value(wanted, some);
                best = best == null || Arrays.compare(value, best) < 0 ? value : best;
            }
        }
        assertThat(chosen == null).as("seed %d", seed).isEqualTo(best == null);
        if (chosen != null) {
            List<Movable> took = List.copyOf(chosen.sets());
            assertThat(isLawful(wanted, took)).as("seed %d", seed).isTrue();
            assertThat(value(wanted, took)).as("seed %d", seed).isEqualTo(best);
            assertThat(chosen.isProved()).as("seed %d", seed).isTrue();
            if (two) {
                assertThat(legs(took, chosen.legs()))
                        .as("seed %d", seed)
                        .allMatch(leg -> leg <= wanted.legBears() + 1e-6);
            }
        }
    }

    private static long up(double va) {
        return (long) Math.ceil(va - 1e-6);
    }

    private static boolean isLawful(SubpanelWanted w, List<Movable> some) {
        double va = some.stream().mapToLong(m -> up(m.va())).sum();
        double starts = some.stream().mapToLong(m -> up(m.starts())).max().orElse(0);
        int poles = some.stream().mapToInt(Movable::poles).sum();
        boolean fits = va <= Math.floor(w.bears())
                && poles <= rooms(w, 0) + rooms(w, 1)
                && some.stream().allMatch(m -> m.whyNot().isEmpty())
                && (w.isBackedUp() || poles >= w.free() + 2)
                && (w.surge() == null || starts == 0 || va + starts <= w.surge());
        return fits && (w.isBackedUp() && !w.twoLegs() || canBalance(w, some));
    }

    /** Spaces on a leg, by rows, without those beside the main that the source's breaker takes. */
    private static long rooms(SubpanelWanted w, int leg) {
        List<Integer> source = !w.isBackedUp() ? List.of() : w.twoLegs() ? List.of(1, 3) : List.of(1);
        return java.util.stream.IntStream.rangeClosed(1, w.spaces())
                .filter(s -> !source.contains(s) && ((s + 1) / 2 % 2 == 1 ? 0 : 1) == leg)
                .count();
    }

    /** Every way to put the circuits of one pole on legs. */
    private static boolean canBalance(SubpanelWanted w, List<Movable> some) {
        List<Circuit> single = some.stream()
                .flatMap(m -> m.circuits().stream())
                .filter(c -> c.poles().size() == 1)
                .toList();
        for (int mask = 0; mask < 1 << single.size(); mask++) {
            Map<String, Integer> legs = new java.util.HashMap<>();
            for (int i = 0; i < single.size(); i++) {
                legs.put(single.get(i).name(), mask >> i & 1);
            }
            long first = some.stream()
                    .flatMap(m -> m.circuits().stream())
                    .filter(c -> c.poles().size() == 2 || legs.getOrDefault(c.name(), 1) == 0)
                    .count();
            long poles = some.stream().mapToInt(Movable::poles).sum();
            boolean hasRoom = first <= rooms(w, 0) && poles - first <= rooms(w, 1);
            if (hasRoom && legs(some, legs).stream().allMatch(l -> l <= Math.floor(w.legBears()))) {
                return true;
            }
        }
        return false;
    }

    private static List<Double> legs(List<Movable> some, Map<String, Integer> on) {
        double[] legs = new double[2];
        for (Movable m : some) {
            for (Circuit c : m.circuits()) {
                for (int i = 0; i < c.poles().size(); i++) {
                    int leg = c.poles().size() > 1 ? i : on.getOrDefault(c.name(), 0);
                    legs[leg] += up(c.poles().get(i).va());
                }
            }
        }
        return List.of(legs[0], legs[1]);
    }

    private static long[] value(SubpanelWanted w, List<Movable> some) {
        List<Long> value = new ArrayList<>();
        if (w.isBackedUp()) {
            w.want()
                    .forEach(
                            x -> value.add(-some.stream().filter(m -> m.isOf(x)).count()));
            value.add(-some.stream().filter(m -> m.words().contains("freezer")).count());
            value.add(-some.stream().mapToLong(Movable::points).sum());
        } else {
            value.add(some.stream().mapToLong(Movable::wires).sum());
        }
        value.add(some.stream().mapToLong(m -> up(m.va())).sum());
        return value.stream().mapToLong(x -> x).toArray();
    }
}
