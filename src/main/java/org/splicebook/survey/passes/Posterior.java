package org.splicebook.survey.passes;

import java.util.BitSet;
import java.util.Comparator;
import java.util.List;
import java.util.stream.IntStream;

/**
 * How likely each cause is at each point, after readings, by Bayes' rule. No cause ever gets to zero that was not there before: a posterior
 * ranks, it never excludes.
 */
public final class Posterior {
    /** No reading is surer than this, or one slip would shut out the truth for good. */
    private static final double LEAST_ERROR = 1e-6;

    /** What a cause keeps however much speaks against it. */
    private static final double LEAST_SHARE = 1e-200;

    /** How much likelier a throw is that is sure to feed another point of the same place; of our own judgement. */
    private static final double NEAR = 1.6;

    private static final double SURE_OF_ANOTHER = 0.9;
    /** A test of two points that was misread or written down for another: of our own judgement. */
    private static final double WRONG_TIE = 0.03;

    private final Survey survey;
    private final double[][] shares;
    private final BitSet everOff;
    private final List<Ranked> tops;

    private Posterior(Survey survey, double[][] shares, BitSet everOff) {
        this.survey = survey;
        this.shares = shares;
        this.everOff = everOff;
        this.tops = IntStream.range(0, shares.length).mapToObj(this::likeliest).toList();
    }

    /** A cause and its share of 1. */
    public record Ranked(Cause cause, double share) {}

    /**
     * {@return the posterior}
     *
     * @param passes the passes walked, oldest first
     * @param readings what was read in them
     */
    public static Posterior of(Survey survey, List<Pass> passes, List<Reading> readings) {
        return of(survey, passes, readings, List.of());
    }

    /**
     * The same, with what tests without any breaker off show of two points together. Each point hears of the other once, as the readings
     * leave it: chains of such tests tell less than they might, never more.
     */
    public static Posterior of(Survey survey, List<Pass> passes, List<Reading> readings, List<Tie> ties) {
        double[][] prior = new double[survey.points().size()][];
        for (int p = 0; p < prior.length; p++) {
            prior[p] = prior(survey, p);
        }
        Posterior first = tied(learned(survey, passes, readings, prior), ties);
        if (readings.isEmpty() || survey.chances().wronglyOut() <= 0) {
            return first;
        }
        return near(first);
    }

    private static Posterior learned(Survey survey, List<Pass> passes, List<Reading> readings, double[][] prior) {
        int causes = survey.causes().size();
        double[][] shares = java.util.Arrays.stream(prior).map(double[]::clone).toArray(double[][]::new);
        double out = Math.max(LEAST_ERROR, survey.chances().wronglyOut());
        double lit = Math.max(LEAST_ERROR, survey.chances().wronglyLit());
        BitSet ever = new BitSet();
        for (int k = 0; k < passes.size(); k++) {
            BitSet off = survey.unpowered(passes.get(k).off());
            ever.or(off);
            double[] ifOut = new double[causes];
            double[] ifLit = new double[causes];
            for (int c = 0; c < causes; c++) {
                boolean isOut = survey.causes().get(c).isOut(off, ever);
                ifOut[c] = isOut ? 1 - lit : out;
                ifLit[c] = isOut ? lit : 1 - out;
            }
            for (Reading r : readings) {
                if (r.pass() == k) {
                    times(shares[r.point()], r.out() ? ifOut : ifLit);
                }
            }
        }
        for (double[] row : shares) {
            normalize(row);
        }
        UnknownFeeders.share(survey, shares);
        for (double[] row : shares) {
            normalize(row);
        }
        return new Posterior(survey, shares, ever);
    }

    private static Posterior tied(Posterior alone, List<Tie> ties) {
        if (ties.isEmpty()) {
            return alone;
        }
        double[][] shares =
                java.util.Arrays.stream(alone.shares).map(double[]::clone).toArray(double[][]::new);
        for (Tie t : ties) {
            times(shares[t.a()], heard(alone, t.b(), t.kind()));
            times(shares[t.b()], heard(alone, t.a(), t.kind()));
        }
        for (double[] row : shares) {
            normalize(row);
        }
        return new Posterior(alone.survey, shares, alone.everOff);
    }

    /** How well each cause goes with what is known of the other point of a tie. */
    private static double[] heard(Posterior alone, int other, Tie.Kind kind) {
        List<Cause> causes = alone.survey.causes();
        List<Throw> throwing = alone.survey.throwing();
        double[] onThrow = new double[throwing.size()];
        double sum = 0;
        for (int c = 0; c < causes.size(); c++) {
            if (causes.get(c).isOneThrow()) {
                onThrow[causes.get(c).a()] += alone.shares[other][c];
                sum += alone.shares[other][c];
            }
        }
        double even = sum / throwing.size();
        double[] fits = new double[causes.size()];
        for (int c = 0; c < fits.length; c++) {
            Cause cause = causes.get(c);
            double fit = kind == Tie.Kind.SAME_BREAKER ? even : 0.5;
            if (cause.isOneThrow() && kind == Tie.Kind.SAME_BREAKER) {
                fit = onThrow[cause.a()];
            } else if (cause.isOneThrow()) {
                fit = onLegOf(throwing, onThrow, cause.a(), kind == Tie.Kind.SAME_LEG);
            }
            fits[c] = (1 - WRONG_TIE) * fit + WRONG_TIE * (kind == Tie.Kind.SAME_BREAKER ? even : 0.5);
        }
        return fits;
    }

    /** The share of throws on the leg of one, or on another; a leg that is not known counts half. */
    private static double onLegOf(List<Throw> throwing, double[] onThrow, int one, boolean isSame) {
        String leg = throwing.get(one).leg();
        double sum = 0;
        double there = 0;
        for (int t = 0; t < onThrow.length; t++) {
            String its = throwing.get(t).leg();
            sum += onThrow[t];
            there += leg == null || its == null ? onThrow[t] / 2 : leg.equals(its) == isSame ? onThrow[t] : 0;
        }
        return sum > 0 ? there / sum : 0.5;
    }

    private static void times(double[] row, double[] by) {
        double top = 0;
        for (int c = 0; c < row.length; c++) {
            row[c] *= by[c];
            top = Math.max(top, row[c]);
        }
        for (int c = 0; c < row.length; c++) {
            row[c] = Math.max(row[c] / top, LEAST_SHARE);
        }
    }

    private static void normalize(double[] row) {
        double sum = java.util.Arrays.stream(row).sum();
        for (int c = 0; c < row.length; c++) {
            row[c] = Math.max(row[c] / sum, LEAST_SHARE);
        }
    }

    /** The chances of a point before any reading. */
    private static double[] prior(Survey survey, int point) {
        List<Double> likes = survey.likes().get(point);
        Chances ch = survey.chances();
        double all = likes.stream().mapToDouble(d -> d).sum();
        double[] once = likes.stream().mapToDouble(d -> d / all).toArray();
        double pairs = Math.max(1, once.length * (once.length - 1) / 2.0);
        double[] prior = new double[survey.causes().size()];
        for (int c = 0; c < prior.length; c++) {
            Cause cause = survey.causes().get(c);
            prior[c] = switch (cause.kind()) {
                case ONCE -> ch.once() * once[cause.a()];
                case LATCHED -> ch.latched() * once[cause.a()];
                case TWICE -> ch.twice() / pairs;
                case EITHER -> ch.either() / pairs + through(survey, cause, once);
                case NEVER -> ch.never();
                case ALWAYS_OUT -> ch.alwaysOut();
            };
            prior[c] = Math.max(prior[c], 1e-9);
        }
        return prior;
    }

    /** Fed by one throw through a panel that the other may feed. */
    private static double through(Survey survey, Cause c, double[] once) {
        double share = 0;
        for (int[] way : new int[][] {{c.a(), c.b()}, {c.b(), c.a()}}) {
            Throw child = survey.throwing().get(way[0]);
            Throw feeder = survey.throwing().get(way[1]);
            if (child.feederUnknown() && feeder.poles() > 1 && !child.panel().equals(feeder.panel())) {
                long feeders = survey.throwing().stream()
                        .filter(t -> t.poles() > 1 && !t.panel().equals(child.panel()))
                        .count();
                share += once[way[0]] / feeders;
            }
        }
        return share;
    }

    /** What is sure of one point makes it likelier for others in the same place. */
    private static Posterior near(Posterior first) {
        Survey survey = first.survey;
        double[][] nearer = new double[first.shares.length][];
        for (int p = 0; p < nearer.length; p++) {
            nearer[p] = first.shares[p].clone();
            String place = survey.points().get(p).place();
            BitSet there = new BitSet();
            for (int q = 0; q < nearer.length; q++) {
                Ranked top = first.tops.get(q);
                if (q != p
                        && top.share() > SURE_OF_ANOTHER
                        && top.cause().a() >= 0
                        && survey.points().get(q).place().equals(place)) {
                    there.set(top.cause().a());
                }
            }
            for (int c = 0; c < nearer[p].length; c++) {
                Cause cause = survey.causes().get(c);
                if (cause.isOneThrow() && there.get(cause.a())) {
                    nearer[p][c] *= NEAR;
                }
            }
            normalize(nearer[p]);
        }
        return new Posterior(survey, nearer, first.everOff);
    }

    /** {@return the survey} */
    public Survey survey() {
        return survey;
    }

    /** {@return the throws that were without power in some pass} */
    public BitSet everOff() {
        return (BitSet) everOff.clone();
    }

    boolean wasOff(int thrown) {
        return everOff.get(thrown);
    }

    double share(int point, int cause) {
        return shares[point][cause];
    }

    /** {@return the likeliest cause; what a latch adds to its breaker is counted with it} */
    public Ranked top(int point) {
        return tops.get(point);
    }

    private Ranked likeliest(int point) {
        double[] joined = joined(point);
        int best = 0;
        for (int c = 1; c < joined.length; c++) {
            best = joined[c] > joined[best] ? c : best;
        }
        return ranked(point, best, joined);
    }

    /** {@return the likeliest causes, likeliest first; what a latch adds to its breaker is counted with it} */
    public List<Ranked> ranked(int point, int most) {
        double[] joined = joined(point);
        return IntStream.range(0, joined.length)
                .filter(c -> joined[c] > 0)
                .boxed()
                .sorted(Comparator.comparingDouble((Integer c) -> -joined[c]))
                .limit(most)
                .map(c -> ranked(point, c, joined))
                .toList();
    }

    /** The shares, those of latches added to the throw's own. Single feeds stand first among the causes, by throw. */
    private double[] joined(int point) {
        double[] joined = shares[point].clone();
        for (int c = 0; c < joined.length; c++) {
            Cause cause = survey.causes().get(c);
            if (cause.kind() == Cause.Kind.LATCHED) {
                joined[cause.a()] += joined[c];
                joined[c] = 0;
            }
        }
        return joined;
    }

    private Ranked ranked(int point, int c, double[] joined) {
        Cause cause = survey.causes().get(c);
        boolean isLatched = cause.kind() == Cause.Kind.ONCE && joined[c] > 2 * shares[point][c];
        return new Ranked(isLatched ? new Cause(Cause.Kind.LATCHED, cause.a(), -1) : cause, Math.min(1, joined[c]));
    }

    /** {@return the points of which no cause is so sure yet, by index} */
    public List<Integer> undecided(double sure) {
        return IntStream.range(0, shares.length)
                .filter(p -> top(p).share() < sure)
                .boxed()
                .toList();
    }
}
