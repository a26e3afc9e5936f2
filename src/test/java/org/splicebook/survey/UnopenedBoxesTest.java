package org.splicebook.survey;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.splicebook.loadflow.LoadFlow;
import org.splicebook.loadflow.LoadPoint;
import org.splicebook.oracle.RandomHouses;
import org.splicebook.oracle.Shape;
import org.splicebook.record.Box;
import org.splicebook.record.Complete;
import org.splicebook.record.House;

/** Houses of which some boxes were never opened, and something opens in one of those. */
class UnopenedBoxesTest {
    private static final double CLOSED = 0.5;

    /** {@return the house as on record, the joints in these boxes unknown} */
    private static House without(House house, Set<String> closed) {
        Map<String, Box> boxes = new LinkedHashMap<>();
        house.boxes()
                .forEach((name, b) -> boxes.put(
                        name,
                        !closed.contains(name)
                                ? b
                                : new Box(
                                        name,
                                        b.place(),
                                        b.shell(),
                                        b.cableEntries(),
                                        b.hidden(),
                                        b.devices(),
                                        List.of(),
                                        EnumSet.of(Complete.CABLES),
                                        b.about())));
        return house.withParts(house.panels(), house.cables(), boxes);
    }

    @Test
    void theBoxInWhichAJointOpenedIsAmongTheFirst() {
        int tried = 0;
        int first = 0;
        int three = 0;
        StringBuilder low = new StringBuilder();
        for (long seed = 0; seed < 300; seed++) {
            Random random = new Random(seed * 7 + 1);
            House truth = RandomHouses.house(seed, Shape.SMALL);
            LoadFlow flow = LoadFlow.of(truth);
            Workbench bench = new Workbench(flow, RandomFaults.STATE);
            Seen sound = bench.seen(Condition.USUAL, Suspect.NONE);
            List<Suspect> open = bench.suspects().stream()
                    .filter(s -> s.words().startsWith("open") && s.boxes().size() == 1)
                    .filter(s -> truth.boxes().keySet().containsAll(s.boxes()))
                    .toList();
            if (open.isEmpty()) {
                continue;
            }
            Suspect fault = open.get(random.nextInt(open.size()));
            Seen now = bench.seen(Condition.USUAL, fault);
            List<String> dead = new ArrayList<>();
            List<String> live = new ArrayList<>();
            for (LoadPoint p : flow.circuit().loadPoints()) {
                if (sound.at(p.name()).level() == Symptom.Level.LIVE) {
                    (now.at(p.name()).level() == Symptom.Level.DEAD ? dead : live).add(p.box());
                }
            }
            if (dead.isEmpty()) {
                continue;
            }
            Set<String> closed = new java.util.TreeSet<>(fault.boxes());
            truth.boxes().keySet().stream()
                    .filter(b -> random.nextDouble() < CLOSED)
                    .forEach(closed::add);
            List<String> told = UnopenedBoxes.of(without(truth, closed), dead, live).stream()
                    .map(UnopenedBoxes::box)
                    .toList();
            String right = fault.boxes().iterator().next();
            tried++;
            first += told.indexOf(right) == 0 ? 1 : 0;
            boolean isHigh = told.contains(right) && told.indexOf(right) < 3;
            three += isHigh ? 1 : 0;
            if (!isHigh) {
                low.append(' ').append(seed).append(':').append(told.indexOf(right));
            }
            assertThat(told).as("seed %d: %s is never left out", seed, right).contains(right);
        }
        System.out.println(
                "of " + tried + " boxes, " + first + " stand first, " + three + " among the first three; not:" + low);
        assertThat(first * 100).isGreaterThanOrEqualTo(tried * 80);
        assertThat(three * 100).isGreaterThanOrEqualTo(tried * 95);
    }
}
