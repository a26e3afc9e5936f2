package org.splicebook.rewire.search;

import java.util.Collection;
import java.util.LinkedHashSet;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.splicebook.answer.Nearest;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.record.DeviceKind;

/** Whether a wish names what is there. */
final class Wishes {
    private Wishes() {}

    /** {@return what is wrong with a wish for a house; null where nothing is} */
    static @Nullable Problem wrong(Wish wish, State before, Map<String, DeviceKind> kinds) {
        Set<String> known = new LinkedHashSet<>();
        if (wish instanceof Wish.Cure) {
            before.findings().forEach(f -> known.add(f.key()));
        } else if (wish instanceof Wish.Put p) {
            before.house()
                    .boxes()
                    .values()
                    .forEach(b -> known.addAll(b.devices().keySet()));
            if (!kinds.containsKey(p.kind())) {
                return unknown(p.kind(), "no kind of device", kinds.keySet());
            }
        } else if (wish instanceof Wish.Onto o) {
            before.house()
                    .panels()
                    .values()
                    .forEach(p -> p.breakers().keySet().forEach(b -> known.add(p.name() + "." + b)));
            if (!before.house().panels().containsKey(o.panel())) {
                return unknown(o.panel(), "no panel", before.house().panels().keySet());
            }
        } else {
            known.addAll(before.points().keySet());
        }
        for (String a : wish.named()) {
            if (!known.contains(a)) {
                return unknown(a, "not in " + before.house().said(), known);
            }
        }
        return null;
    }

    private static Problem unknown(String name, String what, Collection<String> known) {
        return Problem.error(
                ProblemKind.NOT_FOUND, Where.field("wish"), name + " is " + what + ".", Nearest.cure(name, known));
    }
}
