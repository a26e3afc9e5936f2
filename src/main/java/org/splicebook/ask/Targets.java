package org.splicebook.ask;

import java.util.ArrayList;
import java.util.List;
import org.splicebook.problem.ProblemKind;
import org.splicebook.wiring.shutoff.Target;

/** What somebody is about to open, cut or drill into, from a question's parameters. */
final class Targets {
    /** Stands for a parameter that is not given. */
    static final String NONE = "none";

    private static final List<String> FORMS = List.of("box", "place", "cable", "spot", "between");

    private Targets() {}

    /** {@return the target; exactly one of the parameters says it} */
    static Target of(Asked asked) {
        List<String> given = new ArrayList<>(FORMS);
        given.removeIf(f -> asked.value(f).equals(NONE));
        if (given.size() != 1) {
            throw Asked.wrong(
                    given.isEmpty() ? ProblemKind.MISSING : ProblemKind.BAD_VALUE,
                    given.isEmpty() ? "box" : given.get(1),
                    given.isEmpty()
                            ? "Nothing is named."
                            : "Several targets are named: " + String.join(", ", given) + ".",
                    "Give one of box (several with commas), place, cable, spot (a place someone drills in), between (two boxes).");
        }
        String value = asked.value(given.get(0));
        return switch (given.get(0)) {
            case "box" -> new Target.Boxes(HouseNames.several(value));
            case "place" -> new Target.Room(value);
            case "cable" -> new Target.Cable(value);
            case "spot" -> new Target.Spot(value, List.of());
            default -> new Target.Spot(null, HouseNames.several(value));
        };
    }

    /** {@return the question in words} */
    static String words(Target target) {
        if (target instanceof Target.Cable c) {
            return "What must be off before cable " + c.name() + " is cut or opened?";
        }
        if (target instanceof Target.Room r) {
            return "What must be off before boxes in " + r.place() + " are opened?";
        }
        String act = target instanceof Target.Spot ? " is drilled into?" : " is opened?";
        return "What must be off before " + target.said() + act;
    }
}
