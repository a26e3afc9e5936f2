package org.splicebook.rewire;

import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.splicebook.problem.Result;
import org.splicebook.record.Basis;
import org.splicebook.record.Box;
import org.splicebook.record.House;
import org.splicebook.record.Joint;
import org.splicebook.record.Move;
import org.splicebook.record.Panel;
import org.splicebook.record.Provenance;

/** A draft that was carried out: its joints were made by somebody, who saw them. */
public final class Entered {
    private Entered() {}

    /**
     * {@return the house after the first so many moves, what they joined recorded as seen}
     *
     * @param day the day of the work, {@code 2026-05-17}
     */
    public static Result<House> of(House before, List<Move> moves, int steps, String day) {
        return Moves.apply(before, moves.subList(0, steps)).map(after -> seen(before, after, day));
    }

    private static House seen(House before, House after, String day) {
        Map<String, Panel> panels = new LinkedHashMap<>();
        after.panels().forEach((name, p) -> {
            Panel was = before.panels().get(name);
            panels.put(name, p.withJoints(seen(was == null ? List.of() : was.joints(), p.joints(), day), p.complete()));
        });
        Map<String, Box> boxes = new LinkedHashMap<>();
        after.boxes().forEach((name, b) -> {
            Box was = before.boxes().get(name);
            boxes.put(name, b.withJoints(seen(was == null ? List.of() : was.joints(), b.joints(), day), b.complete()));
        });
        return after.withParts(panels, after.cables(), boxes);
    }

    private static List<Joint> seen(List<Joint> before, List<Joint> after, String day) {
        Set<Joint> same = new HashSet<>(before);
        return after.stream()
                .map(j -> same.contains(j)
                        ? j
                        : new Joint(j.members(), j.hold(), j.holders(), j.by(), seen(j.about(), day)))
                .toList();
    }

    private static Provenance seen(Provenance about, String day) {
        return new Provenance(Basis.SEEN, day, null, about.permit(), about.note());
    }
}
