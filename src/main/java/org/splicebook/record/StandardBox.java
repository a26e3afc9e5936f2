package org.splicebook.record;

/**
 * A box of standard size, whose volume follows from its size and needs no mark (NEC Table 314.16(A)).
 *
 * @param name the word of the house file, for example {@code square-4x1-1/2}
 * @param title what people call it
 * @param family what fits on it: a ring of the same family can extend it
 * @param volume its volume; of each gang where it is by the gang
 * @param perGang whether boxes of this size are ganged, each gang adding its volume
 * @param mark how sure the volume is: V checked, M well established
 */
public record StandardBox(String name, String title, String family, Quantity volume, boolean perGang, String mark) {}
