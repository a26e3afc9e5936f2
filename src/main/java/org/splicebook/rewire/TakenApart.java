package org.splicebook.rewire;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.record.Box;
import org.splicebook.record.Complete;
import org.splicebook.record.House;
import org.splicebook.record.Joint;
import org.splicebook.record.Ref;

/**
 * A joint on record that turns out not to be so. No move says that: what leaves a joint by a move is somewhere else then, if only under a cap.
 * Here it is no longer recorded what the ends touch, so anything may; and neither is the box wholly listed any more, or nothing would count as
 * excluded on the strength of a joint that is gone.
 */
public final class TakenApart {
    private TakenApart() {}

    /**
     * {@return the house in which nothing is recorded of what these ends touch}
     *
     * @param in the box
     * @param ends wire ends and terminals in it, as joints name them
     */
    public static Result<House> of(House house, String in, List<String> ends) {
        Bench bench = new Bench(house);
        try {
            Set<Ref> gone = new LinkedHashSet<>();
            for (String end : ends) {
                Ref r = bench.ref(in, end);
                if (bench.joints(in).stream().noneMatch(j -> j.members().contains(r))) {
                    throw Bench.wrong(
                            ProblemKind.CONFLICT, end + " is in no joint on record.", "Name one that is joined.");
                }
                gone.add(r);
            }
            Box box = bench.box(in);
            Set<Complete> listed = new LinkedHashSet<>(box.complete() == null ? house.complete() : box.complete());
            listed.remove(Complete.JOINTS);
            Map<String, Box> boxes = new LinkedHashMap<>(house.boxes());
            boxes.put(in, box.withJoints(without(box.joints(), gone), listed));
            return Result.ok(house.withParts(house.panels(), house.cables(), boxes));
        } catch (ProblemException e) {
            return new Result.Failed<>(e.problems());
        }
    }

    /** One that is left alone was not seen capped: nothing is recorded of it either. */
    private static List<Joint> without(List<Joint> joints, Set<Ref> gone) {
        List<Joint> all = new ArrayList<>();
        for (Joint j : joints) {
            List<Ref> left = j.members().stream().filter(m -> !gone.contains(m)).toList();
            if (left.size() == j.members().size()) {
                all.add(j);
            } else if (left.size() > 1) {
                List<Ref> holders = j.holders().stream().filter(left::contains).toList();
                boolean isSame = holders.size() == j.holders().size();
                all.add(new Joint(
                        left, isSame ? j.hold() : Joint.Hold.UNSAID, isSame ? holders : List.of(), j.by(), j.about()));
            }
        }
        return all;
    }
}
