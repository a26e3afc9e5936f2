package org.splicebook.survey.passes;

import java.util.BitSet;
import java.util.List;
import java.util.Optional;
import java.util.Random;

/** Chooses the pass that saves most of what is still to be done for its minutes: hill climbing over sets of throws from several beginnings. */
public final class NextPass {
    private static final int STARTS = 6;
    /** By so much a change has to be better. */
    private static final double MORE = 1 + 1e-9;

    private final Survey survey;
    private final Trial trial;

    private NextPass(Posterior known, Costs costs, double sure, BitSet before) {
        this.survey = known.survey();
        this.trial = new Trial(known, costs, known.undecided(sure), before);
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

    /** {@return the pass that is worth most; empty where no allowed pass tells anything} */
    public static Optional<Chosen> choose(Posterior known, Costs costs, double sure) {
        return choose(known, costs, sure, new BitSet());
    }

    /**
     * The same.
     *
     * @param before what was off in the pass before; what is off again may be left off
     */
    public static Optional<Chosen> choose(Posterior known, Costs costs, double sure, BitSet before) {
        return new NextPass(known, costs, sure, before).best(true);
    }

    /** {@return the same with one throw off only, for comparison} */
    static Optional<Chosen> chooseOne(Posterior known, Costs costs, double sure, BitSet before) {
        return new NextPass(known, costs, sure, before).best(false);
    }

    private Optional<Chosen> best(boolean severalAtOnce) {
        BitSet free = new BitSet();
        BitSet best = new BitSet();
        double most = 0;
        for (int t = 0; t < survey.throwing().size(); t++) {
            BitSet one = new BitSet();
            one.set(t);
            if (survey.isAllowed(one)) {
                trial.set(one);
                double worth = trial.worth();
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
            trial.set(off);
            double worth = climb(free);
            if (worth > most) {
                most = worth;
                best = trial.off();
            }
        }
        trial.set(best);
        if (severalAtOnce && free.intersects(best)) {
            exchange(free);
        }
        Chosen chosen = trial.chosen();
        return chosen.walk().isEmpty() || chosen.bits() < Trial.WORTH ? Optional.empty() : Optional.of(chosen);
    }

    private boolean feedsOnlyFree(int t) {
        BitSet two = new BitSet();
        two.set(t);
        return survey.unpowered(two).stream()
                .allMatch(i -> survey.throwing().get(i).stay() == Throw.Stay.FREE);
    }

    /** Flips throws of the pass under trial for as long as that is worth more, and returns what it is then worth. */
    private double climb(BitSet free) {
        double most = trial.worth();
        int[] all = free.stream().toArray();
        boolean better = true;
        while (better) {
            better = false;
            for (int t : all) {
                trial.flip(t);
                double worth = trial.worth();
                if (worth > most * MORE) {
                    most = worth;
                    better = true;
                } else {
                    trial.flip(t);
                }
            }
        }
        return most;
    }

    /** Turns one throw on against another off, wherever that is worth more, once round. */
    private void exchange(BitSet free) {
        double most = trial.worth();
        int[] all = free.stream().toArray();
        for (int i = 0; i < all.length; i++) {
            for (int j = i + 1; j < all.length; j++) {
                if (trial.isOff(all[i]) != trial.isOff(all[j])) {
                    trial.flip(all[i]);
                    trial.flip(all[j]);
                    double worth = trial.worth();
                    if (worth > most * MORE) {
                        most = worth;
                    } else {
                        trial.flip(all[i]);
                        trial.flip(all[j]);
                    }
                }
            }
        }
    }
}
