package org.splicebook.survey.passes;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * A set of throws under trial as the next pass: what it takes, and what it is expected to tell. One throw more or less costs one addition
 * for each open point, so that many sets are tried.
 */
final class Trial {
    /** A point that tells less than this, in bits, is not worth the walk. */
    static final double WORTH = 0.02;

    /** A pair of throws less likely than this does not sway the choice: the chances are then taken as if it were none. */
    private static final double SEEN = 1e-4;

    private static final int MOST_PAIRS = 80;
    /** Minutes as good as lost for each throw that is off: the people in the house. */
    private static final double OUTAGE = 0.1;
    /** A part of the causes less likely than this does not lengthen the survey. */
    private static final double SELDOM = 0.02;

    /** Misreads rarer than this are as good as none. */
    private static final double EXACT = 1e-3;

    private static final int STEPS = 4096;
    private static final double[] ENTROPY = new double[STEPS + 2];
    private static final double[] LOG = new double[STEPS + 2];

    static {
        for (int i = 0; i <= STEPS; i++) {
            ENTROPY[i] = entropy((double) i / STEPS);
            LOG[i] = Math.log(Math.max(i, 1) / (double) STEPS) / Math.log(2);
        }
    }

    private final Survey survey;
    private final Costs costs;
    private final List<Integer> open;
    private final int[] place;
    private final int places;
    private final int[][] below;
    private final BitSet before;
    /** What each throw without power adds to the chance of each open point to be out, and to the bits that its causes hold then. */
    private final double[][] gain;

    private final double[][] bitsOf;
    private final double[] whole;
    private final double mostWhole;
    private final Pairs[] pairs;
    private final double outError;
    private final double litError;
    private final double outNoise;
    private final double litNoise;
    private final boolean isExact;

    private final BitSet off = new BitSet();
    private final int[] deaths;
    private final double[] out;
    private final double[] outBits;

    /** The pairs that one throw is in, each with its point, its other throw, and its share there. */
    private static final class Pairs {
        private final List<int[]> where = new ArrayList<>();
        private final List<Double> shares = new ArrayList<>();
        private int[] point = new int[0];
        private int[] other = new int[0];
        private boolean[] isTwice = new boolean[0];
        private double[] share = new double[0];
        private double[] bits = new double[0];

        private void add(int atPoint, int withThrow, boolean twice, double much) {
            where.add(new int[] {atPoint, withThrow, twice ? 1 : 0});
            shares.add(much);
        }

        private void close() {
            point = where.stream().mapToInt(w -> w[0]).toArray();
            other = where.stream().mapToInt(w -> w[1]).toArray();
            share = shares.stream().mapToDouble(s -> s).toArray();
            bits = Arrays.stream(share).map(Trial::bits).toArray();
            isTwice = new boolean[share.length];
            for (int i = 0; i < share.length; i++) {
                isTwice[i] = where.get(i)[2] == 1;
            }
        }
    }

    /**
     * @param open the points that may be walked, by index
     * @param before what was off in the pass before, and may be left off
     */
    Trial(Posterior known, Costs costs, List<Integer> open, BitSet before) {
        this.survey = known.survey();
        this.costs = costs;
        this.open = open;
        this.before = before;
        this.outError = survey.chances().wronglyOut();
        this.litError = survey.chances().wronglyLit();
        this.outNoise = entropy(outError);
        this.litNoise = entropy(litError);
        this.isExact = outError + litError < EXACT;
        int n = survey.throwing().size();
        this.below = new int[n][];
        this.gain = new double[n][open.size()];
        this.bitsOf = new double[n][open.size()];
        this.pairs = new Pairs[n];
        for (int t = 0; t < n; t++) {
            BitSet one = new BitSet();
            one.set(t);
            below[t] = survey.unpowered(one).stream().toArray();
            pairs[t] = new Pairs();
        }
        this.deaths = new int[n];
        this.out = new double[open.size()];
        this.outBits = new double[open.size()];
        this.whole = new double[open.size()];
        this.place = new int[open.size()];
        Map<String, Integer> numbers = new HashMap<>();
        for (int i = 0; i < open.size(); i++) {
            String at = survey.points().get(open.get(i)).place();
            Integer number = numbers.get(at);
            if (number == null) {
                number = numbers.size();
                numbers.put(at, number);
            }
            place[i] = number;
            point(known, i);
        }
        places = numbers.size();
        mostWhole = Arrays.stream(whole).max().orElse(0);
        for (Pairs p : pairs) {
            p.close();
        }
    }

    private void point(Posterior known, int i) {
        List<Posterior.Ranked> two = new ArrayList<>();
        double all = 0;
        for (int c = 0; c < survey.causes().size(); c++) {
            Cause cause = survey.causes().get(c);
            double share = known.share(open.get(i), c);
            if (cause.kind() != Cause.Kind.TWICE && cause.kind() != Cause.Kind.EITHER) {
                all += share;
            } else if (share > SEEN) {
                two.add(new Posterior.Ranked(cause, share));
            }
        }
        if (two.size() > MOST_PAIRS) {
            two.sort(Comparator.comparingDouble(r -> -r.share()));
            two.subList(MOST_PAIRS, two.size()).clear();
        }
        for (Posterior.Ranked r : two) {
            all += r.share();
        }
        for (int c = 0; c < survey.causes().size(); c++) {
            Cause cause = survey.causes().get(c);
            double share = known.share(open.get(i), c) / all;
            boolean isOut = cause.kind() == Cause.Kind.ALWAYS_OUT
                    || (cause.kind() == Cause.Kind.LATCHED && known.wasOff(cause.a()));
            if (isOut) {
                out[i] += share;
                outBits[i] += bits(share);
                whole[i] += bits(share);
            } else if (cause.isOneThrow()) {
                gain[cause.a()][i] += share;
                bitsOf[cause.a()][i] += bits(share);
                whole[i] += bits(share);
            } else if (cause.kind() == Cause.Kind.NEVER) {
                whole[i] += bits(share);
            }
        }
        for (Posterior.Ranked r : two) {
            Cause cause = r.cause();
            boolean isTwice = cause.kind() == Cause.Kind.TWICE;
            pairs[cause.a()].add(i, cause.b(), isTwice, r.share() / all);
            pairs[cause.b()].add(i, cause.a(), isTwice, r.share() / all);
            whole[i] += bits(r.share() / all);
        }
    }

    /** {@return a share of the entropy of a distribution, in bits} */
    private static double bits(double share) {
        return share <= 0 ? 0 : -share * Math.log(share) / Math.log(2);
    }

    static double entropy(double p) {
        return p <= 0 || p >= 1 ? 0 : bits(p) + bits(1 - p);
    }

    private static double looked(double[] table, double p) {
        double at = p * STEPS;
        int i = (int) at;
        return i < 0 || i >= STEPS ? 0 : table[i] + (at - i) * (table[i + 1] - table[i]);
    }

    BitSet off() {
        return (BitSet) off.clone();
    }

    boolean isOff(int t) {
        return off.get(t);
    }

    /** Turns off just these. */
    void set(BitSet wanted) {
        BitSet change = (BitSet) off.clone();
        change.xor(wanted);
        change.stream().forEach(this::flip);
    }

    /** Turns a throw off, or on again. */
    void flip(int t) {
        off.flip(t);
        boolean isOff = off.get(t);
        for (int x : below[t]) {
            deaths[x] += isOff ? 1 : -1;
            if (deaths[x] == (isOff ? 1 : 0)) {
                power(x, isOff);
            }
        }
    }

    private void power(int t, boolean isDead) {
        double sign = isDead ? 1 : -1;
        double[] g = gain[t];
        double[] b = bitsOf[t];
        for (int i = 0; i < g.length; i++) {
            out[i] += sign * g[i];
            outBits[i] += sign * b[i];
        }
        Pairs p = pairs[t];
        for (int k = 0; k < p.point.length; k++) {
            if (p.isTwice[k] == deaths[p.other[k]] > 0) {
                out[p.point[k]] += sign * p.share[k];
                outBits[p.point[k]] += sign * p.bits[k];
            }
        }
    }

    /** {@return what the point's reading is expected to tell, in bits: mutual information (Shannon)} */
    double told(int i) {
        double p = Math.max(0, Math.min(1, out[i]));
        double read = p * (1 - litError) + (1 - p) * outError;
        return looked(ENTROPY, read) - p * litNoise - (1 - p) * outNoise;
    }

    /**
     * {@return how many minutes of what is still to be done this pass saves for each minute that it takes; 0 where it tells nothing}
     *
     * <p>To be done is a reading for each bit that is left at each point and, where no reading is wrong, as many passes through all rooms as
     * the point has bits that is least known: there every pass halves what is left at best. With misreads the passes are led by the few
     * points that were misread, whatever is chosen now, and bits alone choose better (both were tried in made-up houses).
     */
    double worth() {
        boolean[] rooms = new boolean[places];
        int walked = 0;
        int entered = 0;
        double sum = 0;
        double most = 0;
        for (int i = 0; i < out.length; i++) {
            double told = told(i);
            if (told > WORTH) {
                sum += told;
                walked++;
                entered += rooms[place[i]] ? 0 : 1;
                rooms[place[i]] = true;
                if (isExact) {
                    most = Math.max(most, held(outBits[i], out[i]));
                    most = Math.max(most, held(whole[i] - outBits[i], 1 - out[i]));
                }
            } else {
                most = Math.max(most, whole[i]);
            }
        }
        double here = costs.minutes(flips(), entered, walked) + OUTAGE * off.cardinality();
        double saved = sum * costs.point();
        if (isExact) {
            saved += (mostWhole - most) * costs.minutes(below.length / 4.0, places, 0);
        }
        return sum < WORTH ? 0 : saved / here;
    }

    /** {@return the bits of the causes in a part of them} */
    private static double held(double bits, double part) {
        return part < SELDOM ? 0 : bits / part + looked(LOG, part);
    }

    /** Breakers turned off and on again; one that stays off since the pass before is moved half as often. */
    private double flips() {
        return Costs.flips(before, off);
    }

    NextPass.Chosen chosen() {
        List<Integer> walk = new ArrayList<>();
        List<Point> walked = new ArrayList<>();
        double bits = 0;
        for (int i = 0; i < out.length; i++) {
            double told = told(i);
            if (told > WORTH) {
                bits += told;
                walk.add(open.get(i));
                walked.add(survey.points().get(open.get(i)));
            }
        }
        double minutes = costs.minutes(flips(), walked) + OUTAGE * off.cardinality();
        return new NextPass.Chosen(new Pass(off), walk, bits, minutes);
    }
}
