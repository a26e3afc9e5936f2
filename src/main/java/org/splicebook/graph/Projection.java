package org.splicebook.graph;

import java.util.function.Function;
import org.splicebook.record.House;
import org.splicebook.rules.Checked;
import org.splicebook.rules.Checks;
import org.splicebook.rules.Packs;
import org.splicebook.store.DraftedHouse;
import org.splicebook.store.Revision;
import org.splicebook.wiring.Wiring;

/**
 * Turns a record into its graph: a pure function, so that what is stored can be compared with it at any time.
 *
 * @param derivation what the wiring does
 */
record Projection(Function<House, Wiring> derivation) {
    /** The shape of the graph; raised when the rows of an unchanged record change. */
    static final int SHAPE = 7;

    /** The stamp of a graph: another with each version of the derivation, of the shape and of the rules. */
    static final long STAMP = (Wiring.VERSION * 1000L + SHAPE) * (1L << 32) + Checks.stamp();

    /** What the wiring of a record does, and what its check found. */
    record Derived(Wiring wiring, Checked checked) {}

    /** {@return what is derived of a record: the costly half, to be done before anything is locked} */
    Derived derive(House house) {
        Wiring wiring = derivation.apply(house);
        return new Derived(wiring, Checked.of(wiring, Packs.of(house)));
    }

    /**
     * What a draft makes of a house, as a graph.
     *
     * @param key what stands for the house in it: a word that no house can have as its id, another each time, so that two may be there at
     *     once
     */
    record OfDraft(String key, GraphRows rows) {}

    /** {@return the graph of a house as it would be after a draft; it is never to be committed} */
    OfDraft ofDraft(DraftedHouse drafted) {
        String key = "~" + Secret.random();
        GraphRows rows = of(derive(drafted.house().withId(key)), drafted.base());
        rows.nodes().stream()
                .filter(n -> n.label().equals("House"))
                .forEach(n -> n.properties().put("draft", true));
        return new OfDraft(key, rows);
    }

    /** {@return the graph of one revision} */
    GraphRows of(Derived derived, Revision revision) {
        Wiring wiring = derived.wiring();
        House house = wiring.house();
        RowBuilder rows = new RowBuilder(house.id());
        RecordedRows.add(house, revision, STAMP, rows);
        DerivedRows.add(wiring, rows);
        FindingRows.add(derived.checked(), rows);
        return rows.build();
    }
}
