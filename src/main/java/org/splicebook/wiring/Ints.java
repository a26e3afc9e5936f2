package org.splicebook.wiring;

import java.util.Arrays;

/** Whole numbers in the order in which they came. */
final class Ints {
    private int[] all;
    private int size;

    Ints() {
        this(16);
    }

    Ints(int room) {
        all = new int[Math.max(1, room)];
    }

    void add(int number) {
        if (size == all.length) {
            all = Arrays.copyOf(all, 2 * size);
        }
        all[size++] = number;
    }

    int get(int index) {
        return all[index];
    }

    int size() {
        return size;
    }

    void clear() {
        size = 0;
    }

    int[] toArray() {
        return Arrays.copyOf(all, size);
    }

    /** {@return the numbers, each once, in order; they are put in order here too} */
    int[] distinct() {
        if (size > 1) {
            Arrays.sort(all, 0, size);
            int kept = 1;
            for (int i = 1; i < size; i++) {
                if (all[i] != all[i - 1]) {
                    all[kept++] = all[i];
                }
            }
            size = kept;
        }
        return size == 0 ? Regions.NONE : toArray();
    }
}
