package org.splicebook.wiring;

import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;

/**
 * A load point's terminals in one region, and what they reach in each case: trunk position times lever position. Masks have a bit for
 * each terminal. For every terminal and case the vertices that all its ways pass are kept.
 */
final class Part {
    private static final int[][] NO_LINES = {};

    final int loadPoint;
    /** Its place among the parts of its load point. */
    final int index;

    final Regions.Region region;
    /** Its load terminals in this region. */
    final int[] terminals;
    /** Its ground terminal, if in this region, else -1. */
    final int ground;

    /** The levers whose positions matter to it. */
    int[] levers = new int[0];
    /** How many positions these have; cases = trunk positions times this. */
    int positions = 1;

    /** Whether there were too many positions to try, so that all levers were joined: then what is reached may be, not more. */
    boolean joined;

    int trunkPositions = 1;
    long[] hot = new long[0];
    long[] neutral = new long[0];
    long[] overGround = new long[0];
    long[] grounded = new long[0];
    int[][][] hotBy = new int[0][][];
    int[][][] neutralBy = new int[0][][];
    int[][][] overGroundBy = new int[0][][];
    int[][][] groundBy = new int[0][][];
    /** The roots each terminal reaches, by case. */
    int[][][] hotRoots = new int[0][][];

    int[][][] neutralRoots = new int[0][][];
    int[][][] groundRoots = new int[0][][];
    int[][][] overGroundRoots = new int[0][][];
    /** Terminals that two ways at once lead to, from one root, in some case. */
    long ring;
    /** Whether in some case more than one way leads to a terminal: then several losses at once have to be flooded. */
    boolean tangled;
    /** Sensor vertices that some but not every way of a terminal passes, hot and neutral together. */
    Set<Integer> passedBySome = Set.of();

    /** Sensor vertices that a way passes against the device's direction, from its load to its line side seen from the root. */
    Set<Integer> passedBackwards = Set.of();

    /** Sensor vertices that a way passes in the device's direction. */
    Set<Integer> passedForwards = Set.of();

    Part(int loadPoint, int index, Regions.Region region, int[] terminals, int ground) {
        this.loadPoint = loadPoint;
        this.index = index;
        this.region = region;
        this.terminals = terminals;
        this.ground = ground;
    }

    /** {@return the set with one more in it} */
    static Set<Integer> with(Set<Integer> set, int vertex) {
        Set<Integer> grown = set.isEmpty() ? new TreeSet<>() : set;
        grown.add(vertex);
        return grown;
    }

    void size(int trunk, int[] leverSet, int count) {
        levers = leverSet;
        positions = count;
        trunkPositions = trunk;
        int n = trunk * count;
        hot = new long[n];
        neutral = new long[n];
        overGround = new long[n];
        grounded = new long[n];
        hotBy = new int[n][][];
        neutralBy = new int[n][][];
        overGroundBy = new int[n][][];
        groundBy = new int[n][][];
        hotRoots = new int[n][][];
        neutralRoots = new int[n][][];
        groundRoots = new int[n][][];
        overGroundRoots = new int[n][][];
    }

    /** {@return the kept line from a terminal to a root in one case, or null} */
    int @Nullable [] line(int at, int terminal, int root) {
        int[] found = line(hotBy[at], terminal, root);
        found = found == null ? line(neutralBy[at], terminal, root) : found;
        found = found == null ? line(overGroundBy[at], terminal, root) : found;
        return found == null ? line(groundBy[at], terminal, root) : found;
    }

    private static int @Nullable [] line(int[] @Nullable [] lines, int terminal, int root) {
        for (int[] chain : lines == null ? NO_LINES : lines) {
            if (chain != null && chain[0] == terminal && chain[chain.length - 1] == root) {
                return chain;
            }
        }
        return null;
    }

    /** {@return the masks of load terminals that are hot or reach neutral; for ground those of the ground terminal} */
    long[] of(Conductor conductor) {
        return switch (conductor) {
            case HOT -> hot;
            case NEUTRAL -> neutral;
            case GROUND -> grounded;
        };
    }

    /** Keeps for one position of the trunk what is kept for the one before. */
    void repeat(int trunkPosition) {
        int to = trunkPosition * positions;
        for (long[] masks : java.util.List.of(hot, neutral, overGround, grounded)) {
            System.arraycopy(masks, to - positions, masks, to, positions);
        }
        for (int[][][] kept : java.util.List.of(
                hotBy, neutralBy, overGroundBy, groundBy, hotRoots, neutralRoots, groundRoots, overGroundRoots)) {
            System.arraycopy(kept, to - positions, kept, to, positions);
        }
    }

    int cases() {
        return hot.length;
    }
}
