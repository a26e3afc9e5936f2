package org.splicebook.survey;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.loadflow.Branch;
import org.splicebook.loadflow.Load;
import org.splicebook.loadflow.LoadCase;
import org.splicebook.loadflow.LoadFlow;
import org.splicebook.loadflow.LoadPoint;
import org.splicebook.loadflow.Solution;

/** The order of outlets that sags show is the one that the house was made with; load flow gives the sags. */
class SagTreeTest {
    private static SagTree.Reading read(String load, String at, double volts) {
        return new SagTree.Reading(load, 10, at, volts, null);
    }

    /** Panel to O1 40 ft, O1 to O2 12, O2 to O3 12, O1 to O4 15, of 12 AWG. */
    @Test
    void theWorkedExampleHasThreeBehindTwoAndFourBehindOne() {
        List<SagTree.Reading> all = new ArrayList<>();
        String[] names = {"O1", "O2", "O3", "O4"};
        double[][] volts = {
            {1.270, 1.270, 1.270, 1.270},
            {1.270, 1.651, 1.651, 1.270},
            {1.270, 1.651, 2.032, 1.270},
            {1.270, 1.270, 1.270, 1.746}
        };
        for (int i = 0; i < 4; i++) {
            for (int j = 0; j < 4; j++) {
                all.add(read(names[i], names[j], volts[i][j]));
            }
        }
        SagTree tree = SagTree.of(all, 0);
        Map<String, String> behind = behind(tree);
        assertThat(behind.get("O1")).isNull();
        assertThat(behind).containsEntry("O2", "O1").containsEntry("O3", "O2").containsEntry("O4", "O1");
        assertThat(tree.circuits()).hasSize(1);
        assertThat(tree.unlikeATree()).isEmpty();
    }

    private static Map<String, String> behind(SagTree tree) {
        Map<String, String> behind = new LinkedHashMap<>();
        tree.outlets().forEach(o -> behind.put(o.name(), o.behind()));
        return behind;
    }

    /** A random tree of outlets on one circuit and a second circuit beside it. */
    private record Made(String yaml, Map<String, String> parent) {}

    private static Made house(Random random, int outlets, boolean isBorrowed) {
        Map<String, String> parent = new LinkedHashMap<>();
        Map<String, StringBuilder> black = new LinkedHashMap<>();
        Map<String, StringBuilder> white = new LinkedHashMap<>();
        StringBuilder cables = new StringBuilder("cables:\n");
        StringBuilder panel = new StringBuilder();
        int cable = 0;
        for (int i = 1; i <= outlets + 2; i++) {
            boolean isOther = i > outlets;
            String box = "b" + i;
            String from = i == 1 || i == outlets + 1
                    ? "main"
                    : isOther ? "b" + (outlets + 1) : "b" + (1 + random.nextInt(i - 1));
            parent.put("o" + i, from.equals("main") ? "" : "o" + from.substring(1));
            cable++;
            int feet = 10 + random.nextInt(40);
            cables.append("  K")
                    .append(cable)
                    .append(": {kind: NM, wires: 12/2+ground, ends: [")
                    .append(from)
                    .append(", ")
                    .append(box)
                    .append("], length: ")
                    .append(feet)
                    .append(" ft}\n");
            black.computeIfAbsent(box, k -> new StringBuilder())
                    .append("K")
                    .append(cable)
                    .append(".black, ");
            white.computeIfAbsent(box, k -> new StringBuilder())
                    .append("K")
                    .append(cable)
                    .append(".white, ");
            if (from.equals("main")) {
                panel.append("      - [")
                        .append(isOther ? 5 : 1)
                        .append(", K")
                        .append(cable)
                        .append(".black]\n");
                panel.append("      - [n, K")
                        .append(cable)
                        .append(".white]\n      - [g, K")
                        .append(cable)
                        .append(".bare]\n");
            } else {
                black.get(from).append("K").append(cable).append(".black, ");
                white.get(from).append("K").append(cable).append(".white, ");
            }
        }
        String last = "b" + outlets;
        if (isBorrowed) { // the last outlet's neutral goes to the other circuit instead
            String wire = "K" + outlets + ".white, ";
            String from = "b" + parent.get("o" + outlets).substring(1);
            String cut = white.get(from).toString().replace(wire, "");
            white.put(from, new StringBuilder(cut));
            white.put(last, new StringBuilder(white.get(last).toString().replace(wire, "")));
            cable++;
            cables.append("  K")
                    .append(cable)
                    .append(": {kind: NM, wires: 12/2+ground, ends: [b")
                    .append(outlets + 1)
                    .append(", ")
                    .append(last)
                    .append("], length: 20 ft}\n");
            white.get(last).append("K").append(cable).append(".white, ");
            white.get("b" + (outlets + 1)).append("K").append(cable).append(".white, ");
        }
        StringBuilder boxes = new StringBuilder("boxes:\n");
        for (String box : black.keySet()) {
            String o = "o" + box.substring(1);
            boxes.append("  ")
                    .append(box)
                    .append(":\n    devices: {")
                    .append(o)
                    .append(": {kind: single-receptacle}}\n    joints:\n");
            boxes.append("      - [").append(black.get(box)).append(o).append(".hot]\n");
            boxes.append("      - [").append(white.get(box)).append(o).append(".neutral]\n");
            String bares = black.get(box).toString().replace("black", "bare");
            boxes.append("      - [").append(bares).append(o).append(".ground]\n");
        }
        String yaml =
                "splicebook: 1\nhouse: quay-cottage\ncomplete: [cables, joints, breakers, landings]\nsources: {service: {system: split-phase 120/240, bond: main}}\n"
                        + "panels:\n  main:\n    supply: service\n    breakers: {1: {rating: 20 A}, 5: {rating: 20 A}}\n    joints:\n"
                        + panel
                        + cables + boxes;
        return new Made(yaml, parent);
    }

    private static List<SagTree.Reading> readings(LoadFlow flow, Random random, double errorVolts) {
        List<SagTree.Reading> all = new ArrayList<>();
        Solution idle = flow.solve(LoadCase.nothingOn()).get();
        for (LoadPoint p : flow.circuit().loadPoints()) {
            Solution s = flow.solve(LoadCase.nothingOn().load(p.name(), Load.ohms(10)))
                    .get();
            double amperes = s.at(p).amperes().get(0).magnitude();
            for (LoadPoint q : flow.circuit().loadPoints()) {
                Branch b = flow.circuit().branches().get(q.pairs().get(0).branch());
                double sag = idle.volts(b.from(), b.to()).magnitude()
                        - s.volts(b.from(), b.to()).magnitude();
                double rise = s.volts(b.to(), q.ground()).magnitude()
                        - idle.volts(b.to(), q.ground()).magnitude();
                all.add(new SagTree.Reading(
                        p.name(),
                        amperes,
                        q.name(),
                        sag + errorVolts * (random.nextDouble() - 0.5),
                        rise + errorVolts * (random.nextDouble() - 0.5)));
            }
        }
        return all;
    }

    /** What an outlet of the other circuit sags by: the source and the panel. */
    private static double source(List<SagTree.Reading> all, Map<String, String> parent, int outlets) {
        String other = "o" + (outlets + 1);
        return all.stream()
                .filter(r -> r.at().equals(other) && r.load().equals("o1"))
                .mapToDouble(r -> r.sag() / r.amperes())
                .findFirst()
                .orElseThrow();
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 20})
    void theOrderIsTheOneThatTheHouseWasMadeWith(long seed) {
        Random random = new Random(seed);
        int outlets = 3 + random.nextInt(6);
        Made made = house(random, outlets, false);
        LoadFlow flow = LoadFlow.of(HouseFiles.parse("quay.yaml", made.yaml).get());
        List<SagTree.Reading> all = readings(flow, random, 0.01);
        SagTree tree = SagTree.of(all, source(all, made.parent, outlets));
        behind(tree)
                .forEach((name, behind) -> assertThat(Objects.requireNonNullElse(behind, ""))
                        .as("seed " + seed + ", " + name)
                        .isEqualTo(made.parent.get(name)));
        assertThat(tree.circuits()).as("seed " + seed).hasSize(2);
        assertThat(tree.parted()).as("seed " + seed).isEmpty();
        assertThat(tree.unlikeATree()).as("seed " + seed).isEmpty();
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10})
    void aBorrowedNeutralShowsWhereFeedAndReturnPart(long seed) {
        Random random = new Random(seed);
        int outlets = 3 + random.nextInt(4);
        Made made = house(random, outlets, true);
        LoadFlow flow = LoadFlow.of(HouseFiles.parse("quay.yaml", made.yaml).get());
        List<SagTree.Reading> all = readings(flow, random, 0.01);
        SagTree tree = SagTree.of(all, source(all, made.parent, outlets));
        String borrower = "o" + outlets;
        assertThat(tree.parted())
                .as("seed " + seed)
                .isNotEmpty()
                .allMatch(p -> p.one().equals(borrower) || p.other().equals(borrower));
    }
}
