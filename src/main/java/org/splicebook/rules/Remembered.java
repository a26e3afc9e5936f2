package org.splicebook.rules;

import org.splicebook.rules.fill.KeptFills;

/** What checks of many like houses find out once: for a judge of changes, each of which leaves most of a house as it is. */
public final class Remembered {
    private final KeptFills fills = new KeptFills();

    KeptFills fills() {
        return fills;
    }
}
