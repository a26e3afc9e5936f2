package org.splicebook.survey.passes;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Random;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;

/**
 * Walks a survey in a house whose truth is known, to see how many passes and minutes a way of choosing them takes and how often it is right.
 *
 * @param survey the survey
 * @param truth what is true of each point
 * @param costs what passes take
 * @param sure the share at which a point counts as decided
 * @param seed of the misreads
 */
public record Simulation(Survey survey, List<Cause> truth, Costs costs, double sure, long seed) {
    private static final int MOST_PASSES = 400;

    public Simulation {
        truth = List.copyOf(truth);
    }

    /**
     * What came out.
     *
     * @param passes passes walked
     * @param minutes minutes taken
     * @param right points whose likeliest cause is the true one
     * @param wrong points that count as decided, and wrongly
     * @param points all points
     */
    public record Outcome(int passes, double minutes, int right, int wrong, int points) {
        /** {@return the share of points that are right} */
        public double accuracy() {
            return points == 0 ? 1 : (double) right / points;
        }
    }

    /** Chooses a pass by what is known; null ends the survey. */
    private interface Chooser {
        NextPass.@Nullable Chosen next(Posterior known, int number, BitSet before);
    }

    /** {@return the outcome of a plan made before, all its passes walked through all points} */
    public Outcome planned(List<Pass> plan) {
        List<Integer> all = IntStream.range(0, truth.size()).boxed().toList();
        return run((known, k, before) -> k < plan.size() ? chosen(plan.get(k), all) : null);
    }

    /** {@return the outcome of a plan, walked only where points are undecided, round and round until all are decided} */
    public Outcome repeated(List<Pass> plan) {
        return run((known, k, before) -> {
            List<Integer> open = known.undecided(sure);
            return open.isEmpty() ? null : chosen(plan.get(k % plan.size()), open);
        });
    }

    /** {@return the outcome of choosing each pass by what it is expected to tell} */
    public Outcome adaptive() {
        return run((known, k, before) ->
                NextPass.choose(known, costs, sure, before).orElse(null));
    }

    /** {@return the outcome of choosing each pass so, with one throw off only} */
    public Outcome singly() {
        return run((known, k, before) ->
                NextPass.chooseOne(known, costs, sure, before).orElse(null));
    }

    private static NextPass.Chosen chosen(Pass pass, List<Integer> walk) {
        return new NextPass.Chosen(pass, walk, 0, 0);
    }

    private Outcome run(Chooser chooser) {
        Random random = new Random(seed);
        List<Pass> passes = new ArrayList<>();
        List<Reading> readings = new ArrayList<>();
        BitSet ever = new BitSet();
        double minutes = 0;
        Posterior known = Posterior.of(survey, passes, readings);
        BitSet before = new BitSet();
        NextPass.Chosen next = chooser.next(known, 0, before);
        while (next != null && passes.size() < MOST_PASSES) {
            BitSet off = survey.unpowered(next.pass().off());
            ever.or(off);
            for (int p : next.walk()) {
                boolean isOut = truth.get(p).isOut(off, ever);
                double wrong =
                        isOut ? survey.chances().wronglyLit() : survey.chances().wronglyOut();
                readings.add(new Reading(p, passes.size(), isOut ^ (random.nextDouble() < wrong)));
            }
            minutes += costs.minutes(
                    Costs.flips(before, next.pass().off()),
                    next.walk().stream().map(survey.points()::get).toList());
            passes.add(next.pass());
            known = Posterior.of(survey, passes, readings);
            before = next.pass().off();
            next = chooser.next(known, passes.size(), before);
        }
        minutes += costs.flip() * Costs.flips(before, new BitSet());
        int right = 0;
        int wrong = 0;
        for (int p = 0; p < truth.size(); p++) {
            Posterior.Ranked top = known.top(p);
            boolean isRight = top.cause().feedsAlike(truth.get(p));
            right += isRight ? 1 : 0;
            wrong += !isRight && top.share() >= sure ? 1 : 0;
        }
        return new Outcome(passes.size(), minutes, right, wrong, truth.size());
    }
}
