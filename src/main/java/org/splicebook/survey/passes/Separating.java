package org.splicebook.survey.passes;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Random;

/**
 * A plan for all hypotheses, points fed twice among them: passes are added that part the most pairs of causes that still answer alike, with
 * several beginnings, the shortest plan wins. Near the fewest passes, not always the fewest.
 */
final class Separating {
    private static final int BEGINNINGS = 60;

    private final Survey survey;
    private final List<Cause> causes;
    private final List<Integer> free = new ArrayList<>();
    private final Random random = new Random(7);

    private Separating(Survey survey) {
        this.survey = survey;
        this.causes = survey.causes();
        for (int t = 0; t < survey.throwing().size(); t++) {
            BitSet one = new BitSet();
            one.set(t);
            if (survey.isAllowed(one)) {
                free.add(t);
            }
        }
    }

    /** {@return the passes; what no allowed pass can part stays unparted} */
    static List<Pass> plan(Survey survey) {
        Separating s = new Separating(survey);
        List<Pass> best = s.once(false);
        for (int i = 1; i < BEGINNINGS; i++) {
            List<Pass> other = s.once(true);
            best = other.size() < best.size() ? other : best;
        }
        return best;
    }

    private List<Pass> once(boolean shuffled) {
        List<Pass> plan = new ArrayList<>();
        int[] group = new int[causes.size()];
        while (true) {
            long alike = alike(group);
            BitSet off = climb(group, shuffled);
            int[] parted = part(group, off);
            if (alike(parted) == alike) {
                return plan;
            }
            plan.add(new Pass(off));
            group = parted;
        }
    }

    private BitSet climb(int[] group, boolean shuffled) {
        BitSet best = new BitSet();
        for (int t : free) {
            BitSet one = new BitSet();
            one.set(t);
            best = alike(part(group, one)) < alike(part(group, best)) ? one : best;
        }
        if (shuffled) {
            BitSet some = new BitSet();
            free.forEach(t -> some.set(t, random.nextBoolean()));
            best = survey.isAllowed(some) ? some : best;
        }
        boolean better = true;
        while (better) {
            better = false;
            for (int t : free) {
                BitSet other = (BitSet) best.clone();
                other.flip(t);
                if (survey.isAllowed(other) && alike(part(group, other)) < alike(part(group, best))) {
                    best = other;
                    better = true;
                }
            }
        }
        return best;
    }

    private int[] part(int[] group, BitSet off) {
        BitSet dead = survey.unpowered(off);
        int[] parted = new int[group.length];
        java.util.Map<Integer, Integer> names = new java.util.HashMap<>();
        for (int c = 0; c < group.length; c++) {
            int key = group[c] * 2 + (causes.get(c).isOut(dead, dead) ? 1 : 0);
            Integer name = names.get(key);
            if (name == null) {
                name = names.size();
                names.put(key, name);
            }
            parted[c] = name;
        }
        return parted;
    }

    /** The pairs that answer alike. */
    private static long alike(int[] group) {
        int[] count = new int[group.length + 1];
        for (int g : group) {
            count[g]++;
        }
        long pairs = 0;
        for (int n : count) {
            pairs += (long) n * (n - 1) / 2;
        }
        return pairs;
    }
}
