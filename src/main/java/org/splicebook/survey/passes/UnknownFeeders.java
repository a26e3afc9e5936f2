package org.splicebook.survey.passes;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;

/**
 * What all points of a panel together tell of the throw that feeds it, where the record does not say: a panel has one feeder, so what one
 * point shows of it holds for the others. Bayes' rule with the feeder as a cause that the panel's points have in common; panels are taken
 * one after the other.
 */
final class UnknownFeeders {
    /** The chance that none of these throws feeds the panel, before any reading; of our own judgement. */
    private static final double NONE = 0.2;

    private static final double LEAST = 1e-300;

    private final Survey survey;
    private final double[][] shares;
    /** Of two throws, the cause that a point is out with either; -1 where there is none. */
    private final int[][] either;

    private UnknownFeeders(Survey survey, double[][] shares) {
        this.survey = survey;
        this.shares = shares;
        int n = survey.throwing().size();
        this.either = new int[n][n];
        for (int[] row : either) {
            java.util.Arrays.fill(row, -1);
        }
        for (int c = 0; c < survey.causes().size(); c++) {
            Cause cause = survey.causes().get(c);
            if (cause.kind() == Cause.Kind.EITHER) {
                either[cause.a()][cause.b()] = c;
                either[cause.b()][cause.a()] = c;
            }
        }
    }

    /** Lets the points of each panel with an unknown feeder hear of each other. */
    static void share(Survey survey, double[][] shares) {
        Map<String, List<Integer>> panels = new LinkedHashMap<>();
        for (int t = 0; t < survey.throwing().size(); t++) {
            if (survey.throwing().get(t).feederUnknown()) {
                panels.computeIfAbsent(survey.throwing().get(t).panel(), k -> new ArrayList<>())
                        .add(t);
            }
        }
        if (!panels.isEmpty()) {
            UnknownFeeders f = new UnknownFeeders(survey, shares);
            panels.values().forEach(f::panel);
        }
    }

    private void panel(List<Integer> inIt) {
        String panel = survey.throwing().get(inIt.get(0)).panel();
        List<Integer> feeders = IntStream.range(0, survey.throwing().size())
                .filter(t -> survey.throwing().get(t).poles() > 1
                        && !survey.throwing().get(t).panel().equals(panel))
                .boxed()
                .toList();
        if (feeders.isEmpty()) {
            return;
        }
        double[] log = new double[feeders.size() + 1];
        for (int f = 0; f < log.length; f++) {
            log[f] = Math.log(f < feeders.size() ? (1 - NONE) / feeders.size() : NONE);
        }
        double[][] fits = new double[shares.length][];
        for (int p = 0; p < shares.length; p++) {
            fits[p] = fits(shares[p], inIt, feeders);
            for (int f = 0; f < log.length; f++) {
                log[f] += Math.log(fits[p][f]);
            }
        }
        double top = java.util.Arrays.stream(log).max().orElse(0);
        double[] chance =
                java.util.Arrays.stream(log).map(x -> Math.exp(x - top)).toArray();
        double sum = java.util.Arrays.stream(chance).sum();
        for (int p = 0; p < shares.length; p++) {
            mixed(shares[p], fits[p], chance, sum, inIt, feeders);
        }
    }

    /** How well a point's readings go with each feeder, and last with none of them. */
    private double[] fits(double[] row, List<Integer> inIt, List<Integer> feeders) {
        double[] through = new double[feeders.size() + 1];
        double rest = java.util.Arrays.stream(row).sum();
        for (int c : inIt) {
            for (int f = 0; f < feeders.size(); f++) {
                int cause = either[c][feeders.get(f)];
                through[f] += cause < 0 ? 0 : row[cause] * feeders.size();
                rest -= cause < 0 ? 0 : row[cause];
            }
        }
        for (int c = 0; c < row.length; c++) {
            Cause cause = survey.causes().get(c);
            if (cause.isOneThrow() && inIt.contains(cause.a())) {
                through[feeders.size()] += row[c];
                rest -= row[c];
            }
        }
        for (int f = 0; f < through.length; f++) {
            through[f] = Math.max(LEAST, through[f] + Math.max(0, rest));
        }
        return through;
    }

    private void mixed(
            double[] row, double[] fits, double[] chance, double sum, List<Integer> inIt, List<Integer> feeders) {
        double all = 0;
        for (int f = 0; f < fits.length; f++) {
            all += chance[f] / sum / fits[f];
        }
        boolean[] isDone = new boolean[row.length];
        for (int c : inIt) {
            for (int f = 0; f < feeders.size(); f++) {
                int cause = either[c][feeders.get(f)];
                if (cause >= 0) {
                    row[cause] *= feeders.size() * chance[f] / sum / fits[f];
                    isDone[cause] = true;
                }
            }
        }
        for (int c = 0; c < row.length; c++) {
            Cause cause = survey.causes().get(c);
            if (cause.isOneThrow() && inIt.contains(cause.a())) {
                row[c] *= chance[feeders.size()] / sum / fits[feeders.size()];
            } else if (!isDone[c]) {
                row[c] *= all;
            }
        }
    }
}
