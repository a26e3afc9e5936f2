package org.splicebook.graph;

import java.util.function.Function;
import org.splicebook.record.House;
import org.splicebook.store.Revision;
import org.splicebook.wiring.Wiring;

/**
 * Turns a record into its graph: a pure function, so that what is stored can be compared with it at any time.
 *
 * @param derivation what the wiring does
 */
record Projection(Function<House, Wiring> derivation) {
    /** The shape of the graph; raised when the rows of an unchanged record change. */
    static final int SHAPE = 1;

    /** The stamp of a graph: rises with the derivation and with the shape. */
    static final int STAMP = Wiring.VERSION * 1000 + SHAPE;

    /** {@return what the wiring of a record does: the costly half, to be done before anything is locked} */
    Wiring derive(House house) {
        return derivation.apply(house);
    }

    /** {@return the graph of one revision} */
    GraphRows of(Wiring wiring, Revision revision) {
        House house = wiring.house();
        RowBuilder rows = new RowBuilder(house.id());
        RecordedRows.add(house, revision, STAMP, rows);
        DerivedRows.add(wiring, rows);
        return rows.build();
    }
}
