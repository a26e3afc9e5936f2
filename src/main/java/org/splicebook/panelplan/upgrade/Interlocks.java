package org.splicebook.panelplan.upgrade;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.Panel;

/**
 * The breaker through which a second source feeds in while the main is off: it has one lawful place, beside the main, where the new panel's
 * interlock holds it. What else excludes each other is asked about.
 *
 * @param was today's panel
 * @param wanted what is wanted
 */
record Interlocks(Panel was, Wanted wanted) {
    private static final String MAIN = "main";
    private static final int PAIR = 2;
    private static final int MOST_POLES = 2;

    /** {@return whether an interlock is of the main and one breaker, which the new panel holds} */
    boolean holds(List<String> group, List<Circuit> circuits) {
        boolean isOnly = was.exclusive().stream().filter(g -> g.contains(MAIN)).count() == 1;
        return isOnly
                && wanted.kind().interlock() > 0
                && group.size() == PAIR
                && group.contains(MAIN)
                && fedThrough(group, circuits).isPresent();
    }

    private static Optional<Circuit> fedThrough(List<String> group, List<Circuit> circuits) {
        return circuits.stream()
                .filter(c -> c.was().size() == 1
                        && group.containsAll(c.was())
                        && c.poles().size() <= MOST_POLES)
                .findFirst();
    }

    /** {@return the top space that a circuit has to take for an interlock; null where it may go anywhere} */
    @Nullable
    Set<Integer> place(Circuit c, List<Circuit> circuits) {
        boolean isHeld = was.exclusive().stream()
                .anyMatch(g -> holds(g, circuits)
                        && fedThrough(g, circuits).filter(x -> x.equals(c)).isPresent());
        return isHeld && wanted.locks().keySet().stream().noneMatch(c::isOf)
                ? Set.of(wanted.kind().interlock())
                : null;
    }

    /** Says what was placed, and asks about the rest. */
    void tell(List<Circuit> circuits, Notes notes) {
        for (List<String> group : was.exclusive()) {
            String said = String.join(" and ", group);
            if (holds(group, circuits)) {
                notes.assumed()
                        .add(
                                "Only one of " + said
                                        + " can be on: that breaker stays beside the main, where the new panel's interlock holds it."
                                        + " The interlock is listed for the panel (110.3(B), 702.5), and the breaker is held down by its fastener (408.36(D)).");
            } else {
                notes.asked()
                        .add(
                                "Only one of " + said
                                        + " can be on today: is an interlock made for the new panel, and for which spaces? Lock its breaker there.");
            }
        }
    }
}
