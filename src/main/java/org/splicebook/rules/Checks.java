package org.splicebook.rules;

import java.util.ArrayList;
import java.util.List;
import org.splicebook.record.House;
import org.splicebook.wiring.Derivation;
import org.splicebook.wiring.Wiring;

/** Checks a house by the rules of a pack. */
public final class Checks {
    private Checks() {}

    /** {@return what is found in a house, what is shown and worst first} */
    public static List<Finding> of(House house, Pack pack) {
        return of(Derivation.derive(house), pack);
    }

    /** {@return what is found in a house whose wiring is derived, what is shown and worst first} */
    public static List<Finding> of(Wiring wiring, Pack pack) {
        Facts facts = Facts.of(wiring);
        List<Finding> all = new ArrayList<>();
        pack.rules().forEach((id, text) -> {
            Findings found = new Findings(facts, text, pack.edition());
            Rules.of(id).check(facts, found);
            all.addAll(found.all());
        });
        all.sort(Finding.ORDER);
        return all;
    }
}
