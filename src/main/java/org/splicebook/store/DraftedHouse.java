package org.splicebook.store;

import org.splicebook.record.Draft;
import org.splicebook.record.House;

/**
 * A house as it would be after a draft.
 *
 * @param draft the moves
 * @param house what they make of the house, named as a draft
 * @param base the revision that they were made on
 */
public record DraftedHouse(Draft draft, House house, Revision base) {}
