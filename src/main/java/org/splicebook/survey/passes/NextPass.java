package org.splicebook.survey.passes;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;

/**
 * Chooses the pass that is expected to tell most for its minutes: mutual information between the readings and the causes (Shannon, in
 * bits), each point by itself, over walking and flips.
 */
public final class NextPass {
    /** A point that tells less than this is not worth the walk. */
    private static final double WORTH = 0.02;

    /** A pair of throws less likely than this does not sway the choice: the chances are then taken as if it were none. */
    private static final double SEEN = 1e-4;

    private static final int MOST_PAIRS = 80;

    private static final int STARTS = 4;

    /** Minutes as good as lost for each throw that is off: the people in the house. */
    private static final double OUTAGE = 0.1;

    private final Survey survey;
    private final Costs costs;
    private final List<Integer> open;
    /** Of each open point: its chance to be out with nothing off, and what each throw without power adds to it. */
    private final double[] base;

    private final double[][] gain;
    private final double[] all;
    private final Pairs[] pairs;
    /** The place of each open point, by number. */
    private final int[] place;

    private final int places;
    private final double outError;
    private final double litError;
    private final double outNoise;
    private final double litNoise;

    /** The pairs of throws that are likely enough at one point to count. */
    private static final class Pairs {
        private final int[] a;
        private final int[] b;
        private final boolean[] isTwice;
        private final double[] share;

        private Pairs(List<Posterior.Ranked> likeliest) {
            int n = likeliest.size();
            a = new int[n];
            b = new int[n];
            isTwice = new boolean[n];
            share = new double[n];
            for (int i = 0; i < n; i++) {
                Cause c = likeliest.get(i).cause();
                a[i] = c.a();
                b[i] = c.b();
                isTwice[i] = c.kind() == Cause.Kind.TWICE;
                share[i] = likeliest.get(i).share();
            }
        }

        private double out(boolean[] dead) {
            double out = 0;
            for (int i = 0; i < a.length; i++) {
                boolean isOut = isTwice[i] ? dead[a[i]] && dead[b[i]] : dead[a[i]] || dead[b[i]];
                out += isOut ? share[i] : 0;
            }
            return out;
        }
    }

    private NextPass(Posterior known, Costs costs, double sure) {
        this.survey = known.survey();
        this.costs = costs;
        this.open = known.undecided(sure);
        this.outError = survey.chances().wronglyOut();
        this.litError = survey.chances().wronglyLit();
        this.outNoise = entropy(outError);
        this.litNoise = entropy(litError);
        int n = survey.throwing().size();
        BitSet everOff = known.everOff();
        this.base = new double[open.size()];
        this.gain = new double[open.size()][n];
        this.all = new double[open.size()];
        this.pairs = new Pairs[open.size()];
        this.place = new int[open.size()];
        Map<String, Integer> numbers = new HashMap<>();
        for (int i = 0; i < open.size(); i++) {
            List<Posterior.Ranked> two = new ArrayList<>();
            for (int c = 0; c < survey.causes().size(); c++) {
                Cause cause = survey.causes().get(c);
                double share = known.share(open.get(i), c);
                boolean isPair = cause.kind() == Cause.Kind.TWICE || cause.kind() == Cause.Kind.EITHER;
                all[i] += isPair ? 0 : share;
                switch (cause.kind()) {
                    case ONCE -> gain[i][cause.a()] += share;
                    case LATCHED -> {
                        if (everOff.get(cause.a())) {
                            base[i] += share;
                        } else {
                            gain[i][cause.a()] += share;
                        }
                    }
                    case ALWAYS_OUT -> base[i] += share;
                    case TWICE, EITHER -> {
                        if (share > SEEN) {
                            two.add(new Posterior.Ranked(cause, share));
                        }
                    }
                    case NEVER -> {}
                }
            }
            List<Posterior.Ranked> likeliest = two.stream()
                    .sorted(Comparator.comparingDouble(r -> -r.share()))
                    .limit(MOST_PAIRS)
                    .toList();
            pairs[i] = new Pairs(likeliest);
            all[i] += likeliest.stream().mapToDouble(Posterior.Ranked::share).sum();
            String at = survey.points().get(open.get(i)).place();
            Integer number = numbers.get(at);
            if (number == null) {
                number = numbers.size();
                numbers.put(at, number);
            }
            place[i] = number;
        }
        places = numbers.size();
    }

    /**
     * A pass that is proposed.
     *
     * @param pass what is off
     * @param walk the points to read, by index; what would tell next to nothing is left out
     * @param bits what it is expected to tell, in bits
     * @param minutes what it takes
     */
    public record Chosen(Pass pass, List<Integer> walk, double bits, double minutes) {
        public Chosen {
            walk = List.copyOf(walk);
        }
    }

    /** {@return the pass that tells most for its minutes; empty where no allowed pass tells anything} */
    public static Optional<Chosen> choose(Posterior known, Costs costs, double sure) {
        return new NextPass(known, costs, sure).best(true);
    }

    /** {@return the same with one throw off only, for comparison} */
    static Optional<Chosen> chooseOne(Posterior known, Costs costs, double sure) {
        return new NextPass(known, costs, sure).best(false);
    }

    private Optional<Chosen> best(boolean severalAtOnce) {
        BitSet free = new BitSet();
        BitSet best = new BitSet();
        double most = Double.NEGATIVE_INFINITY;
        for (int t = 0; t < survey.throwing().size(); t++) {
            BitSet one = new BitSet();
            one.set(t);
            if (survey.isAllowed(one)) {
                double worth = worth(one);
                if (worth > most) {
                    most = worth;
                    best = one;
                }
                if (survey.throwing().get(t).stay() == Throw.Stay.FREE && feedsOnlyFree(t)) {
                    free.set(t);
                }
            }
        }
        Random random = new Random(survey.points().size());
        for (int start = 0; start < STARTS && severalAtOnce; start++) {
            BitSet off = new BitSet();
            for (int t = free.nextSetBit(0); t >= 0 && start > 0; t = free.nextSetBit(t + 1)) {
                off.set(t, random.nextInt(STARTS) < start);
            }
            double worth = climb(off, free);
            if (worth > most) {
                most = worth;
                best = off;
            }
        }
        Chosen chosen = chosen(best);
        return most == Double.NEGATIVE_INFINITY || chosen.bits() < WORTH ? Optional.empty() : Optional.of(chosen);
    }

    private boolean feedsOnlyFree(int t) {
        BitSet two = new BitSet();
        two.set(t);
        return survey.unpowered(two).stream()
                .allMatch(i -> survey.throwing().get(i).stay() == Throw.Stay.FREE);
    }

    /** Flips throws of a pass for as long as that makes it worth more, and returns what it is then worth. */
    private double climb(BitSet off, BitSet free) {
        double most = worth(off);
        boolean better = true;
        while (better) {
            better = false;
            for (int t = free.nextSetBit(0); t >= 0; t = free.nextSetBit(t + 1)) {
                off.flip(t);
                double worth = worth(off);
                if (worth > most * (1 + 1e-9)) {
                    most = worth;
                    better = true;
                } else {
                    off.flip(t);
                }
            }
        }
        return most;
    }

    private double worth(BitSet off) {
        BitSet unpowered = survey.unpowered(off);
        int[] list = unpowered.stream().toArray();
        boolean[] dead = flags(unpowered);
        boolean[] rooms = new boolean[places];
        int walked = 0;
        int entered = 0;
        double bits = 0;
        for (int i = 0; i < base.length; i++) {
            double told = information(i, dead, list);
            if (told > WORTH) {
                bits += told;
                walked++;
                entered += rooms[place[i]] ? 0 : 1;
                rooms[place[i]] = true;
            }
        }
        return bits / (costs.minutes(off.cardinality(), entered, walked) + OUTAGE * off.cardinality());
    }

    private boolean[] flags(BitSet set) {
        boolean[] flags = new boolean[survey.throwing().size()];
        set.stream().forEach(t -> flags[t] = true);
        return flags;
    }

    private Chosen chosen(BitSet off) {
        BitSet unpowered = survey.unpowered(off);
        int[] list = unpowered.stream().toArray();
        boolean[] dead = flags(unpowered);
        List<Integer> walk = new ArrayList<>();
        List<Point> walked = new ArrayList<>();
        double bits = 0;
        for (int i = 0; i < base.length; i++) {
            double told = information(i, dead, list);
            if (told > WORTH) {
                bits += told;
                walk.add(open.get(i));
                walked.add(survey.points().get(open.get(i)));
            }
        }
        double minutes = costs.minutes(off.cardinality(), walked) + OUTAGE * off.cardinality();
        return new Chosen(new Pass(off), walk, bits, minutes);
    }

    private double information(int i, boolean[] dead, int[] list) {
        double out = base[i] + pairs[i].out(dead);
        double[] adds = gain[i];
        for (int t : list) {
            out += adds[t];
        }
        double p = Math.min(1, out / all[i]);
        double read = p * (1 - litError) + (1 - p) * outError;
        return entropy(read) - p * litNoise - (1 - p) * outNoise;
    }

    private static double entropy(double p) {
        return p <= 0 || p >= 1 ? 0 : -(p * Math.log(p) + (1 - p) * Math.log(1 - p)) / Math.log(2);
    }
}
