package org.splicebook.store;

import org.splicebook.record.House;

/** A record and the revision it is. */
public record StoredHouse(House house, Revision revision) {}
