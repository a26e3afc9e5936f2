package org.splicebook.survey;

import java.util.Map;
import java.util.Set;
import org.splicebook.loadflow.Load;
import org.splicebook.loadflow.LoadCase;
import org.splicebook.record.Ordered;

/**
 * What was otherwise than usual while something was seen.
 *
 * @param setting the state of the whole house
 * @param on loads that were switched on, by load point
 * @param levers switches in another position
 * @param off breakers that were off, protective devices whose test button was pressed
 */
public record Condition(Setting setting, Map<String, Load> on, Map<String, String> levers, Set<String> off) {
    /** Everything as usual. */
    public static final Condition USUAL = new Condition(Setting.AS_USUAL, Map.of(), Map.of(), Set.of());

    /** The house as usual but for these. */
    public Condition(Map<String, Load> on, Map<String, String> levers, Set<String> off) {
        this(Setting.AS_USUAL, on, levers, off);
    }

    public Condition {
        on = Ordered.map(on);
        levers = Ordered.map(levers);
        off = Ordered.set(off);
    }

    /** {@return what is otherwise beside the setting, in a state of the house} */
    LoadCase in(LoadCase state) {
        LoadCase c = state;
        for (Map.Entry<String, Load> l : on.entrySet()) {
            c = c.load(l.getKey(), l.getValue());
        }
        for (Map.Entry<String, String> l : levers.entrySet()) {
            c = c.lever(l.getKey(), l.getValue());
        }
        for (String unit : off) {
            c = c.open(unit);
        }
        return c;
    }
}
