package org.splicebook.rewire.search;

import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.splicebook.record.House;
import org.splicebook.rules.Checks;
import org.splicebook.rules.Finding;
import org.splicebook.rules.Pack;
import org.splicebook.rules.Remembered;
import org.splicebook.wiring.Derivation;
import org.splicebook.wiring.LeverTables;
import org.splicebook.wiring.LoadPointWiring;
import org.splicebook.wiring.Wiring;

/**
 * A house, what is derived from it, and what is found in it.
 *
 * @param house the record
 * @param wiring what is derived, without losses
 * @param points its load points by id
 * @param tables what each load point does in each position of the levers
 * @param findings what its check finds, accepted or not
 */
record State(
        House house,
        Wiring wiring,
        Map<String, LoadPointWiring> points,
        Map<String, LeverTables.Table> tables,
        List<Finding> findings) {
    static State of(House house, Pack pack) {
        return of(house, pack, new Remembered());
    }

    /** {@return the same, with what the checks of other states found out} */
    static State of(House house, Pack pack, Remembered remembered) {
        return unchecked(house).checked(pack, remembered);
    }

    /** {@return a house that is derived and not checked} */
    static State unchecked(House house) {
        Derivation.Judged judged = Derivation.judged(house);
        Wiring wiring = judged.wiring();
        Map<String, LoadPointWiring> points = new TreeMap<>();
        wiring.loadPoints().forEach(l -> points.put(l.id(), l));
        Map<String, LeverTables.Table> tables = new TreeMap<>();
        judged.tables().forEach(t -> tables.put(t.loadPoint(), t));
        return new State(house, wiring, points, tables, List.of());
    }

    /** {@return the same, checked by a pack} */
    State checked(Pack pack, Remembered remembered) {
        return new State(house, wiring, points, tables, Checks.of(wiring, pack, remembered));
    }
}
