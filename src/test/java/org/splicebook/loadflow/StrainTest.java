package org.splicebook.loadflow;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.oracle.RandomHouses;
import org.splicebook.oracle.Shape;
import org.splicebook.record.Cable;
import org.splicebook.record.House;
import org.splicebook.record.Wire;
import org.splicebook.rules.mutation.FaultyHouses;

/** What many positions and load cases of a house do is what solving each by itself gives. */
class StrainTest {
    private static final List<LoadCase.Base> BASES =
            List.of(LoadCase.Base.TYPICAL, LoadCase.Base.ALL_ON, LoadCase.Base.HEATERS);

    @Test
    void tellsOfEachPositionWhatItTellsAlone() {
        int told = 0;
        for (int seed = 1; seed <= 12; seed++) {
            told += tells(RandomHouses.house(seed, Shape.SMALL), seed);
            told += tells(FaultyHouses.of(seed).house(), seed);
        }
        assertThat(told).as("trips and overloads to tell of").isPositive();
        tells(HouseFiles.read(Path.of("sample-house")).get(), 1);
    }

    private static int tells(House house, long seed) {
        Strain strain = Strain.of(house, BASES);
        LoadFlow flow = LoadFlow.of(house);
        Random random = new Random(seed);
        int told = 0;
        for (int i = 0; i < 8; i++) {
            Map<String, String> positions = i == 0 ? Map.of() : positions(flow.circuit(), random);
            for (Strain.Told t : strain.at(positions)) {
                Solution alone = flow.solve(state(t.base(), positions)).get();
                assertThat(t.settled()).isEqualTo(alone.settled());
                if (alone.settled()) {
                    assertThat(t.opening())
                            .isEqualTo(Trips.in(alone).stream().map(Drive::unit).toList());
                    assertThat(t.over()).isEqualTo(over(house, alone));
                }
                told += t.opening().size() + t.over().size();
            }
        }
        return told;
    }

    private static List<String> over(House house, Solution s) {
        List<String> all = new ArrayList<>();
        for (Cable c : house.cables().values()) {
            for (Wire w : c.wires()) {
                double limit = w.metal() ? 0 : Conductor.limit(w);
                String name = c.name() + "." + w.name();
                if (limit > 0 && s.amperes(name).magnitude() > limit) {
                    all.add(name);
                }
            }
        }
        return all;
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12})
    void foldedCircuitCarriesTheSameCurrents(long seed) {
        Circuit circuit = Circuit.of(RandomHouses.house(seed, Shape.SMALL));
        LoadFlow flow = LoadFlow.of(circuit.house());
        Random random = new Random(seed);
        LoadCase lit = LoadCase.of(LoadCase.Base.ALL_ON);
        for (LoadPoint p : circuit.loadPoints()) {
            lit = lit.load(p.name(), load(random));
        }
        List<Loads.On> on = Loads.in(circuit, lit);
        Folded.Across bent =
                Folded.Across.of(on.stream().filter(l -> !l.load().isLinear()).toList());
        int[] contacts = IntStream.range(0, circuit.branches().size())
                .filter(i -> isMoved(circuit.branches().get(i)))
                .toArray();
        Admittances y = new Admittances(circuit, LoadCase.nothingOn());
        IntStream.of(contacts).forEach(c -> y.admit(c, Complex.ZERO));
        IntStream changing =
                IntStream.concat(IntStream.of(contacts), on.stream().mapToInt(Loads.On::branch));
        Folded folded = Folded.of(circuit, changing, y);
        int solved = 0;
        for (int i = 0; i < 6; i++) {
            LoadCase state = lit;
            for (Map.Entry<String, String> e : positions(circuit, random).entrySet()) {
                state = state.lever(e.getKey(), e.getValue());
            }
            Admittances now = new Admittances(circuit, state);
            folded.begin();
            IntStream.of(contacts).forEach(c -> folded.add(c, now.re[c], now.im[c]));
            folded.add(Folded.Across.of(on));
            if (folded.solve(bent, 1e-10)) {
                solved++;
                Solution right = flow.solve(state).get();
                for (int b = 0; b < now.re.length; b++) {
                    if (circuit.branches().get(b).kind() != Branch.Kind.LOAD) {
                        assertThat(folded.amperes(b, now.re[b], now.im[b]).magnitude())
                                .as(circuit.branches().get(b).name())
                                .isCloseTo(right.amperes(b).magnitude(), within(1e-5));
                    }
                }
            }
        }
        assertThat(solved).isPositive();
    }

    private static Load load(Random random) {
        return switch (random.nextInt(4)) {
            case 0 -> Load.OFF;
            case 1 -> Load.watts(random.nextInt(1500));
            case 2 -> Load.power(1 + random.nextInt(1500), 0.6 + 0.4 * random.nextDouble());
            default -> Load.amperes(1 + 5 * random.nextDouble(), 0.9);
        };
    }

    private static boolean isMoved(Branch b) {
        return b.gate() != null && b.gate().isLever();
    }

    private static Map<String, String> positions(Circuit circuit, Random random) {
        Map<String, String> all = new HashMap<>();
        circuit.levers().forEach((lever, its) -> {
            if (random.nextInt(4) > 0) {
                all.put(lever, its.get(random.nextInt(its.size())));
            }
        });
        return all;
    }

    private static LoadCase state(LoadCase.Base base, Map<String, String> positions) {
        LoadCase state = LoadCase.of(base);
        for (Map.Entry<String, String> e : positions.entrySet()) {
            state = state.lever(e.getKey(), e.getValue());
        }
        return state;
    }
}
