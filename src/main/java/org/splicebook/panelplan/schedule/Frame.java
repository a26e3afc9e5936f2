package org.splicebook.panelplan.schedule;

import java.util.Set;
import java.util.TreeSet;

/**
 * A panel that is to be filled: odd spaces down the left, even ones down the right, legs in turn row by row.
 *
 * @param spaces how many spaces
 * @param legs how many legs: two, or three on a wye
 * @param tandem spaces that take a tandem, as its label allows
 * @param mostCircuits how many poles its label allows
 * @param kept spaces that are to stay free
 */
public record Frame(int spaces, int legs, Set<Integer> tandem, int mostCircuits, Set<Integer> kept) {
    public Frame {
        tandem = Set.copyOf(tandem);
        kept = Set.copyOf(kept);
        if (spaces < 1 || legs < 1 || legs > 3) {
            throw new IllegalArgumentException("a panel of " + spaces + " spaces on " + legs + " legs");
        }
    }

    /** A panel that takes no tandem, all of whose spaces may be filled. */
    public Frame(int spaces, int legs) {
        this(spaces, legs, Set.of(), spaces, Set.of());
    }

    /** {@return the row of a space, from 1} */
    public static int row(int space) {
        return (space + 1) / 2;
    }

    /** {@return whether a space is in the left column} */
    public static boolean isLeft(int space) {
        return space % 2 == 1;
    }

    /** {@return the leg of a space, from 0} */
    public int leg(int space) {
        return Math.floorMod(row(space) - 1, legs);
    }

    /** {@return the spaces that may be filled, in order} */
    public Set<Integer> usable() {
        Set<Integer> all = new TreeSet<>();
        for (int s = 1; s <= spaces; s++) {
            if (!kept.contains(s)) {
                all.add(s);
            }
        }
        return all;
    }
}
