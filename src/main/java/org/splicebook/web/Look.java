package org.splicebook.web;

import java.util.LinkedHashMap;
import java.util.Map;
import org.splicebook.record.House;
import org.splicebook.rules.Checked;
import org.splicebook.rules.Packs;
import org.splicebook.store.StoredHouse;
import org.splicebook.wiring.Derivation;
import org.splicebook.wiring.LoadPointWiring;
import org.splicebook.wiring.WireUse;
import org.splicebook.wiring.Wiring;

/**
 * A revision of a house and what follows from it.
 *
 * @param stored the record
 * @param wiring what is derived
 * @param checked what a check by the edition that it names finds
 * @param points the load points by name
 * @param uses what wires are, by name
 */
record Look(
        StoredHouse stored,
        Wiring wiring,
        Checked checked,
        Map<String, LoadPointWiring> points,
        Map<String, WireUse> uses) {
    static Look of(StoredHouse stored) {
        Wiring wiring = Derivation.derive(stored.house());
        Map<String, LoadPointWiring> points = new LinkedHashMap<>();
        wiring.loadPoints().forEach(l -> points.put(l.id(), l));
        Map<String, WireUse> uses = new LinkedHashMap<>();
        wiring.wires().forEach(w -> uses.put(w.wire(), w));
        return new Look(stored, wiring, Checked.of(wiring, Packs.of(stored.house())), points, uses);
    }

    House house() {
        return stored.house();
    }
}
