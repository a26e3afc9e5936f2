package org.splicebook.property.portfolio;

import java.util.ArrayList;
import java.util.List;

/** A house file as it grows circuit by circuit. Names are counted, so that each is said once. */
final class UnitText {
    private final StringBuilder breakers = new StringBuilder();
    private final StringBuilder landings = new StringBuilder();
    private final StringBuilder cables = new StringBuilder();
    private final StringBuilder boxes = new StringBuilder();
    private final StringBuilder tests = new StringBuilder();
    private final List<String> ties = new ArrayList<>();
    private final List<String> neutrals = new ArrayList<>();
    private final List<String> grounds = new ArrayList<>();
    private int spaces;
    private int cableCount;
    private int testCount;

    /** Adds a breaker in the next space; {@return the space}. */
    String breaker(int amperes, String label, String more) {
        return breaker(String.valueOf(++spaces), amperes, label, more);
    }

    /** Adds a breaker of two poles; {@return its two spaces}. */
    List<String> twoPole(int amperes, String label) {
        List<String> pair = pair();
        breaker(pair.get(0) + "+" + pair.get(1), amperes, label, "");
        return pair;
    }

    /** Adds two breakers on unlike legs; {@return their spaces}. */
    List<String> twoBreakers(int amperes, String label, boolean isTied) {
        List<String> pair = pair();
        pair.forEach(space -> breaker(space, amperes, label, ""));
        if (isTied) {
            ties.add("[" + String.join(", ", pair) + "]");
        }
        return pair;
    }

    /** Two spaces of one column, one below the other, lie on unlike legs; what would stand beside them stays free. */
    private List<String> pair() {
        int first = spaces + (spaces % 2 == 0 ? 1 : 2);
        spaces = first + 3;
        return List.of(String.valueOf(first), String.valueOf(first + 2));
    }

    private String breaker(String spaces, int amperes, String label, String more) {
        breakers.append("      %s: {rating: %d A, label: %s%s}%n".formatted(spaces, amperes, label, more));
        return spaces;
    }

    /** Lands a wire on a breaker. */
    void land(String space, String wire) {
        landings.append("      - [").append(space).append(", ").append(wire).append("]\n");
    }

    /** Lands a cable's white and bare on the bars. */
    void bars(String cable, boolean isNeutral, boolean isGround) {
        if (isNeutral) {
            neutrals.add(cable + ".white");
        }
        if (isGround) {
            grounds.add(cable + ".bare");
        }
    }

    /** Adds a cable; {@return its name}. */
    String cable(String wires, String from, String to, int metres, String more) {
        String name = "C" + ++cableCount;
        cables.append("  %s: {kind: NM, wires: %s, ends: [%s, %s], length: %d m%s}%n"
                .formatted(name, wires, from, to, metres, more));
        return name;
    }

    /** Adds a box with its devices and joints, each as the file says it. */
    void box(String name, String place, List<String> devices, List<String> joints) {
        boxes.append("  ").append(name).append(":\n    place: ").append(place).append('\n');
        if (!devices.isEmpty()) {
            boxes.append("    devices: {").append(String.join(", ", devices)).append("}\n");
        }
        if (!joints.isEmpty()) {
            boxes.append("    joints:\n");
            joints.forEach(j -> boxes.append("      - ").append(j).append('\n'));
        }
    }

    /** Adds that a test button worked. */
    void passed(String device, String date) {
        tests.append("  - {id: t%d, date: %s, what: trip-button, device: %s, result: passed}%n"
                .formatted(++testCount, date, device));
    }

    /** {@return the file} */
    String write(String head, String source, String places, String panelPlace, boolean isComplete) {
        StringBuilder y = new StringBuilder("splicebook: 1\n").append(head);
        y.append("basis: seen\n").append(isComplete ? "complete: [cables, joints, breakers, landings]\n" : "");
        y.append("sources:\n  riser: ").append(source).append("\nplaces:\n").append(places);
        y.append("panels:\n  main:\n    place: ").append(panelPlace).append("\n    supply: riser\n    spaces: ");
        y.append(2 * ((spaces + 3) / 2)).append("\n    breakers:\n").append(breakers);
        if (!ties.isEmpty()) {
            y.append("    ties: [").append(String.join(", ", ties)).append("]\n");
        }
        y.append("    joints:\n").append(landings);
        y.append("      - [n, ").append(String.join(", ", neutrals)).append("]\n");
        if (!grounds.isEmpty()) {
            y.append("      - [g, ").append(String.join(", ", grounds)).append("]\n");
        }
        y.append("cables:\n").append(cables).append("boxes:\n").append(boxes);
        return y.append(tests.length() == 0 ? "" : "tests:\n").append(tests).toString();
    }
}
