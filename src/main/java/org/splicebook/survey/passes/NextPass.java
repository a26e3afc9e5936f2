package org.splicebook.survey.passes;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.Comparator;
import java.util.List;
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
    private final double[][] once;
    private final double[][] latched;
    private final double[] always;
    private final double[] all;
    private final List<List<Posterior.Ranked>> pairs = new ArrayList<>();
    private final BitSet everOff;
    private final double outError;
    private final double litError;

    private NextPass(Posterior known, Costs costs, double sure) {
        this.survey = known.survey();
        this.costs = costs;
        this.open = known.undecided(sure);
        this.everOff = known.everOff();
        this.outError = survey.chances().wronglyOut();
        this.litError = survey.chances().wronglyLit();
        int n = survey.throwing().size();
        this.once = new double[open.size()][n];
        this.latched = new double[open.size()][n];
        this.always = new double[open.size()];
        this.all = new double[open.size()];
        for (int i = 0; i < open.size(); i++) {
            List<Posterior.Ranked> two = new ArrayList<>();
            for (int c = 0; c < survey.causes().size(); c++) {
                Cause cause = survey.causes().get(c);
                double share = known.share(open.get(i), c);
                boolean isPair = cause.kind() == Cause.Kind.TWICE || cause.kind() == Cause.Kind.EITHER;
                all[i] += isPair ? 0 : share;
                switch (cause.kind()) {
                    case ONCE -> once[i][cause.a()] += share;
                    case LATCHED -> latched[i][cause.a()] += share;
                    case ALWAYS_OUT -> always[i] += share;
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
            pairs.add(likeliest);
            all[i] += likeliest.stream().mapToDouble(Posterior.Ranked::share).sum();
        }
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

        private double worth() {
            return bits / minutes;
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
        Chosen best = null;
        for (int t = 0; t < survey.throwing().size(); t++) {
            BitSet one = new BitSet();
            one.set(t);
            if (survey.isAllowed(one)) {
                Chosen alone = judge(one);
                best = best == null || alone.worth() > best.worth() ? alone : best;
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
            Chosen climbed = climb(judge(off), free);
            best = best == null || climbed.worth() > best.worth() ? climbed : best;
        }
        return best == null || best.bits() < WORTH ? Optional.empty() : Optional.of(best);
    }

    private boolean feedsOnlyFree(int t) {
        BitSet two = new BitSet();
        two.set(t);
        return survey.unpowered(two).stream()
                .allMatch(i -> survey.throwing().get(i).stay() == Throw.Stay.FREE);
    }

    private Chosen climb(Chosen from, BitSet free) {
        Chosen best = from;
        boolean better = true;
        while (better) {
            better = false;
            for (int t = free.nextSetBit(0); t >= 0; t = free.nextSetBit(t + 1)) {
                BitSet off = best.pass().off();
                off.flip(t);
                Chosen other = judge(off);
                if (other.worth() > best.worth() * (1 + 1e-9)) {
                    best = other;
                    better = true;
                }
            }
        }
        return best;
    }

    private Chosen judge(BitSet off) {
        BitSet dead = survey.unpowered(off);
        List<Integer> walk = new ArrayList<>();
        List<Point> walked = new ArrayList<>();
        double bits = 0;
        for (int i = 0; i < open.size(); i++) {
            double told = information(i, dead);
            if (told > WORTH) {
                bits += told;
                walk.add(open.get(i));
                walked.add(survey.points().get(open.get(i)));
            }
        }
        double minutes = costs.minutes(off.cardinality(), walked) + OUTAGE * off.cardinality();
        return new Chosen(new Pass(off), walk, bits, minutes);
    }

    private double information(int i, BitSet dead) {
        double out = always[i];
        for (int t = dead.nextSetBit(0); t >= 0; t = dead.nextSetBit(t + 1)) {
            out += once[i][t] + latched[i][t];
        }
        for (int t = everOff.nextSetBit(0); t >= 0; t = everOff.nextSetBit(t + 1)) {
            out += dead.get(t) ? 0 : latched[i][t];
        }
        for (Posterior.Ranked pair : pairs.get(i)) {
            out += pair.cause().isOut(dead, dead) ? pair.share() : 0;
        }
        double p = Math.min(1, out / all[i]);
        double read = p * (1 - litError) + (1 - p) * outError;
        return entropy(read) - p * entropy(litError) - (1 - p) * entropy(outError);
    }

    private static double entropy(double p) {
        return p <= 0 || p >= 1 ? 0 : -(p * Math.log(p) + (1 - p) * Math.log(1 - p)) / Math.log(2);
    }
}
