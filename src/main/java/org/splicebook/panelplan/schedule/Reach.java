package org.splicebook.panelplan.schedule;

/**
 * How far a wire that lands in one space today reaches in the new panel. Rows are counted from the top of the old panel.
 *
 * @param entry where cables come in
 * @param slack rows that a wire reaches farther than today
 * @param across rows' worth of wire that it takes to go to the other column
 * @param lower how many rows lower the new panel's first row is than the old one's
 */
public record Reach(Entry entry, int slack, int across, int lower) {
    /** Where cables come into a panel. */
    public enum Entry {
        TOP,
        BOTTOM,
        /** Not known: a wire counts as long enough only where it is so from either end. */
        UNKNOWN
    }

    /** {@return how many rows' worth a wire may be too short; 0 where it reaches} */
    public int missing(int today, int then) {
        int down = Frame.row(then) + lower - Frame.row(today);
        int side = Frame.isLeft(today) == Frame.isLeft(then) ? 0 : across;
        int need = switch (entry) {
            case TOP -> down;
            case BOTTOM -> -down;
            case UNKNOWN -> Math.abs(down);
        };
        return Math.max(0, need + side - slack);
    }

    /** {@return how far a wire moves, in rows, the other column counted as its width} */
    public int moved(int today, int then) {
        return Math.abs(Frame.row(then) + lower - Frame.row(today))
                + (Frame.isLeft(today) == Frame.isLeft(then) ? 0 : across);
    }
}
