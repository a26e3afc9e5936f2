package org.splicebook.housefile;

/** How large a house file may be. Far above any real house, and small enough that nothing stalls. */
final class Limits {
    /** Bytes of a file, or of all files of a folder together. */
    static final int BYTES = 5_000_000;

    /** Files of a folder. */
    static final int FILES = 200;

    /** Lists and maps inside one another. */
    static final int DEPTH = 50;

    /** Scalars, lists and maps of a file, or of all files of a folder together. */
    static final int NODES = 200_000;

    /** Characters of a scalar. */
    static final int TEXT = 4_096;

    /** Characters of a note. */
    static final int NOTE = 20_000;

    /** Characters of a name. */
    static final int NAME = 64;

    /** Wires of a cable, terminals of a device, boxes that an end may be in. */
    static final int PARTS = 1_000;

    /** Problems that are told one by one. */
    static final int PROBLEMS = 100;

    private Limits() {}
}
