package org.splicebook.oracle;

/**
 * How big and how odd a random house is.
 *
 * @param breakers at most so many breakers and fuses (6 to 42)
 * @param loadPoints about so many load points
 * @param oddities how many faults and crossings between circuits are tried
 */
public record Shape(int breakers, int loadPoints, int oddities) {
    /** A small house. */
    public static final Shape SMALL = new Shape(8, 20, 3);
    /** An ordinary house. */
    public static final Shape MIDDLE = new Shape(20, 70, 6);
    /** A big one. */
    public static final Shape LARGE = new Shape(42, 300, 12);

    /** {@return the shape that a seed takes: mostly small, one in ten middling, one in two hundred large} */
    public static Shape of(long seed) {
        return seed % 200 == 199 ? LARGE : seed % 10 == 4 ? MIDDLE : SMALL;
    }
}
