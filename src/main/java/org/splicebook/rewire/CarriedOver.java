package org.splicebook.rewire;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import org.splicebook.record.House;
import org.splicebook.record.Move;

/** A draft that is to be carried over to a house that has moved on. */
public final class CarriedOver {
    private CarriedOver() {}

    /** {@return the boxes, panels and cables that the moves touch and that are recorded otherwise in the later house} */
    public static List<String> conflicts(House base, House later, List<Move> moves) {
        Set<String> sites = new LinkedHashSet<>();
        Set<String> cables = new LinkedHashSet<>();
        for (Move m : moves) {
            sites.addAll(Worklist.sites(base, later, m));
            if (m instanceof Move.RetireCable r) {
                cables.add(r.cable());
            } else if (m instanceof Move.Remark r) {
                cables.add(r.cable());
            } else if (m instanceof Move.AddCable a) {
                cables.add(a.cable().name());
            }
        }
        List<String> conflicts = new ArrayList<>();
        for (Move m : moves) {
            if (m instanceof Move.ChangeSource s
                    && !Objects.equals(
                            base.sources().get(s.is().name()), later.sources().get(s.is().name()))) {
                conflicts.add(s.is().name());
            }
        }
        for (String s : sites) {
            if (!Objects.equals(base.boxes().get(s), later.boxes().get(s))
                    || !Objects.equals(base.panels().get(s), later.panels().get(s))) {
                conflicts.add(s);
            }
        }
        for (String c : cables) {
            if (!Objects.equals(base.cables().get(c), later.cables().get(c))) {
                conflicts.add(c);
            }
        }
        return conflicts;
    }
}
