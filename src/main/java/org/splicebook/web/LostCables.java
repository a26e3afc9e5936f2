package org.splicebook.web;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.splicebook.problem.ProblemKind;
import org.splicebook.record.Cable;
import org.splicebook.record.CableEnd;
import org.splicebook.record.House;

/** Cables on record with an end that nobody had found, and how such an end is found in a box. */
final class LostCables {
    private LostCables() {}

    /** {@return the cables that may end in a box of that name: one end is not known, or is said to be in one of several boxes} */
    static List<Cable> of(House house, String box) {
        return house.cables().values().stream()
                .filter(c -> c.ends().stream().anyMatch(e -> mayBeIn(e, box)))
                .toList();
    }

    private static boolean mayBeIn(CableEnd end, String box) {
        return end instanceof CableEnd.Unknown
                || (end instanceof CableEnd.OneOf some && some.boxes().contains(box));
    }

    /**
     * {@return the house with the lost end of a cable in a box}
     *
     * @throws org.splicebook.problem.ProblemException if there is no such cable, or both its ends are elsewhere
     */
    static House found(House house, String name, String box) {
        Cable c = house.cables().get(name);
        if (c == null) {
            throw Failures.failure(
                    ProblemKind.NOT_FOUND, "There is no cable " + name + " on record.", "Add it as a new one.");
        }
        List<CableEnd> ends = new ArrayList<>(c.ends());
        int lost = ends.indexOf(
                ends.stream().filter(e -> mayBeIn(e, box)).findFirst().orElse(null));
        if (lost < 0) {
            throw Failures.failure(
                    ProblemKind.CONFLICT,
                    "The cable " + name + " is on record with both its ends, none of them here.",
                    "Give this one another name; or correct the record as text, if the record is wrong.");
        }
        ends.set(lost, new CableEnd.At(box));
        Map<String, Cable> cables = new LinkedHashMap<>(house.cables());
        cables.put(
                name,
                new Cable(
                        name, c.kind(), c.shorthand(), c.wires(), ends, c.through(), c.loops(), c.length(), c.about()));
        return house.withParts(house.panels(), cables, house.boxes());
    }
}
