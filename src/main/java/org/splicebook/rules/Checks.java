package org.splicebook.rules;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.splicebook.record.House;
import org.splicebook.wiring.Derivation;
import org.splicebook.wiring.Wiring;

/** Checks a house by the rules of a pack. */
public final class Checks {
    /** Raised when the rules' code would find something else in an unchanged record. */
    private static final int VERSION = 1;

    /** Rules that look at houses or rooms at large, not only at what hangs together. */
    private static final Set<String> WIDE = Set.of(
            "small-appliance-circuits",
            "alarms-by-place",
            "age-not-recorded",
            "directory-lines-alike",
            "too-many-throws",
            "emergency-disconnect",
            "surge-protection",
            "near-water");

    private static final int STAMP = 31 * Packs.digest() + VERSION;

    private Checks() {}

    /** {@return a number that differs when the packs or the rules do: findings kept under another are out of date} */
    public static long stamp() {
        return STAMP & 0xffffffffL;
    }

    /** {@return the pack without the rules that look further than at what hangs together by wires, boxes and breakers} */
    public static Pack withoutWide(Pack pack) {
        Map<String, RuleText> rules = new HashMap<>(pack.rules());
        rules.keySet().removeAll(WIDE);
        return new Pack(pack.id(), pack.title(), pack.edition(), rules, pack.changes());
    }

    /** {@return what is found in a house, what is shown and worst first} */
    public static List<Finding> of(House house, Pack pack) {
        return of(Derivation.derive(house), pack);
    }

    /** {@return what is found in a house whose wiring is derived, what is shown and worst first} */
    public static List<Finding> of(Wiring wiring, Pack pack) {
        return of(wiring, pack, new Remembered());
    }

    /** {@return the same, with what other houses' checks found out, and for them} */
    public static List<Finding> of(Wiring wiring, Pack pack, Remembered remembered) {
        Facts facts = Facts.of(wiring, remembered);
        List<Finding> all = new ArrayList<>();
        pack.rules().forEach((id, text) -> {
            Findings found = new Findings(facts, text);
            Rules.of(id).check(facts, found);
            all.addAll(found.all());
        });
        all.sort(Finding.ORDER);
        return all;
    }
}
