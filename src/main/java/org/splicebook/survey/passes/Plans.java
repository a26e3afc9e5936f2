package org.splicebook.survey.passes;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.Comparator;
import java.util.List;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;

/**
 * Plans that are made before the first pass: one throw at a time, or coded. In a coded plan each throw has a binary word, and is off in the
 * passes in which its word has a one; a point's readings spell the word of its throw. A throw below another spells the words of both.
 */
public final class Plans {
    private static final int MOST_PASSES = 24;

    private final Survey survey;
    private final int distance;
    private final List<Integer> order;

    private Plans(Survey survey, int distance) {
        this.survey = survey;
        this.distance = distance;
        this.order = IntStream.range(0, survey.throwing().size())
                .filter(t -> stay(t) == Throw.Stay.FREE)
                .boxed()
                .sorted(Comparator.comparingInt(this::choosiness).thenComparingInt(this::depth))
                .toList();
    }

    /** What feeds others takes its word first, then what is fed, which has to hold that word, then the rest, which takes any. */
    private int choosiness(int t) {
        return below(t) > 1 ? 0 : depth(t) > 0 ? 1 : 2;
    }

    /** {@return one pass for each throw that may be off} */
    public static List<Pass> oneAtATime(Survey survey) {
        return IntStream.range(0, survey.throwing().size())
                .mapToObj(Pass::of)
                .filter(p -> survey.isAllowed(p.off()))
                .toList();
    }

    /**
     * {@return as few passes as words are found for; those for throws that go off alone come last}
     *
     * @param distance in how many passes any two throws, and any and none, answer differently at least: 1 tells them apart, 2 notices one
     *     wrong reading, 3 corrects one, 4 corrects one and notices two
     */
    public static List<Pass> coded(Survey survey, int distance) {
        Plans plans = new Plans(survey, distance);
        List<Pass> passes = plans.words();
        for (int t = 0; t < survey.throwing().size(); t++) {
            Pass alone = Pass.of(t);
            if (plans.stay(t) == Throw.Stay.ALONE && survey.isAllowed(alone.off())) {
                for (int i = 0; i < distance; i++) {
                    passes.add(alone);
                }
            }
        }
        return List.copyOf(passes);
    }

    /**
     * {@return passes that part all hypotheses of the survey, points fed twice among them, as far as allowed passes can}
     *
     * <p>Long for many throws: pairs of throws need about twice the passes of single ones and more.
     */
    public static List<Pass> forEveryCause(Survey survey) {
        return Separating.plan(survey);
    }

    private Throw.Stay stay(int t) {
        BitSet one = new BitSet();
        one.set(t);
        return survey.unpowered(one).stream()
                .mapToObj(i -> survey.throwing().get(i).stay())
                .max(Comparator.naturalOrder())
                .orElse(Throw.Stay.FREE);
    }

    private int depth(int t) {
        int above = survey.throwing().get(t).above();
        return above < 0 ? 0 : 1 + depth(above);
    }

    private int below(int t) {
        BitSet one = new BitSet();
        one.set(t);
        return survey.unpowered(one).cardinality();
    }

    private List<Pass> words() {
        for (int k = least(order.size() + 1); k <= MOST_PASSES; k++) {
            int[] words = assigned(k);
            if (words != null) {
                return passes(k, words);
            }
        }
        throw new IllegalStateException("no code of " + MOST_PASSES + " passes for " + order.size() + " throws");
    }

    /** The fewest bits that tell so many things apart. */
    static int least(int things) {
        return things <= 1 ? 0 : 32 - Integer.numberOfLeadingZeros(things - 1);
    }

    /**
     * Gives each throw in order the first word that is far enough from all before (a lexicode; Conway and Sloane 1986: such codes are
     * linear, and those of distance 3 and 4 are the shortened Hamming codes). For distance 1 words with few ones go first, so that few
     * circuits are off at once.
     */
    private int @Nullable [] assigned(int k) {
        int[] tried = distance > 1 && order.stream().noneMatch(t -> below(t) > 1)
                ? IntStream.range(1, 1 << k).toArray()
                : IntStream.range(1, 1 << k)
                        .boxed()
                        .sorted(Comparator.comparingInt((Integer w) -> Integer.bitCount(w))
                                .thenComparing(w -> w))
                        .mapToInt(w -> w)
                        .toArray();
        int[] spelt = new int[survey.throwing().size()];
        List<Integer> taken = new ArrayList<>(List.of(0));
        for (int t : order) {
            int above = survey.throwing().get(t).above();
            int with = above < 0 ? 0 : spelt[above];
            int found = 0;
            for (int i = 0; i < tried.length && found == 0; i++) {
                int word = tried[i];
                if ((word & with) == with && taken.stream().allMatch(w -> Integer.bitCount(w ^ word) >= distance)) {
                    found = word;
                }
            }
            if (found == 0) {
                return null;
            }
            spelt[t] = found;
            taken.add(found);
        }
        return spelt;
    }

    private List<Pass> passes(int k, int[] spelt) {
        List<Pass> passes = new ArrayList<>();
        for (int bit = 0; bit < k; bit++) {
            BitSet off = new BitSet();
            for (int t : order) {
                int above = survey.throwing().get(t).above();
                int own = above < 0 ? spelt[t] : spelt[t] & ~spelt[above];
                off.set(t, (own >> bit & 1) == 1);
            }
            passes.add(new Pass(off));
        }
        return passes;
    }
}
