package org.splicebook.rules;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.Acceptance;
import org.splicebook.record.House;
import org.splicebook.wiring.Wiring;

/**
 * What a check of a house found, that which was accepted kept apart. An acceptance holds while the check says the same of the same
 * thing, and as surely; a finding that now says something else is open again.
 *
 * @param house the record
 * @param pack what it was checked by
 * @param open what is found and not accepted, in order
 * @param accepted what is found and was accepted, in order
 * @param returned acceptances that hold no more, since the check now says something else
 * @param settled acceptances of what is found no more
 */
public record Checked(
        House house,
        Pack pack,
        List<Finding> open,
        List<Accepted> accepted,
        List<Acceptance> returned,
        List<Acceptance> settled) {
    /** A finding, and why it may stand. */
    public record Accepted(Finding finding, Acceptance acceptance) {}

    public Checked {
        open = List.copyOf(open);
        accepted = List.copyOf(accepted);
        returned = List.copyOf(returned);
        settled = List.copyOf(settled);
    }

    /** {@return what a check of a house by a pack finds} */
    public static Checked of(House house, Pack pack) {
        return of(house, pack, Checks.of(house, pack));
    }

    /** {@return what a check of a house whose wiring is derived finds} */
    public static Checked of(Wiring wiring, Pack pack) {
        return of(wiring.house(), pack, Checks.of(wiring, pack));
    }

    private static Checked of(House house, Pack pack, List<Finding> all) {
        Map<String, Acceptance> last = new HashMap<>();
        house.accepted().forEach(a -> last.put(a.finding(), a));
        List<Finding> open = new ArrayList<>();
        List<Accepted> accepted = new ArrayList<>();
        List<Acceptance> returned = new ArrayList<>();
        for (Finding f : all) {
            Acceptance a = last.remove(f.key());
            if (a != null && holds(a, f)) {
                accepted.add(new Accepted(f, a));
                continue;
            }
            open.add(f);
            if (a != null) {
                returned.add(a);
            }
        }
        List<Acceptance> settled = house.accepted().stream()
                .filter(a -> a.equals(last.get(a.finding())))
                .toList();
        return new Checked(house, pack, open, accepted, returned, settled);
    }

    /** What was accepted as possible and is shown now is open again. */
    private static boolean holds(Acceptance a, Finding f) {
        return a.said().equals(f.said()) && a.certainty().equals(f.certainty().word());
    }

    /** {@return the finding of that key, open or accepted; null where none is found} */
    public @Nullable Finding find(String key) {
        return all().stream().filter(f -> f.key().equals(key)).findFirst().orElse(null);
    }

    /** {@return all that is found, accepted or not, in order} */
    public List<Finding> all() {
        List<Finding> all = new ArrayList<>(open);
        accepted.forEach(a -> all.add(a.finding()));
        all.sort(Finding.ORDER);
        return all;
    }
}
