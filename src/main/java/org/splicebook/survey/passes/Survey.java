package org.splicebook.survey.passes;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;

/**
 * What a survey is about: throws, points, what may take a point out, and how likely each of that is before any reading.
 *
 * @param throwing the throws
 * @param points the points
 * @param chances the chances
 * @param likes for each point how much likelier each throw is than an unmarked one, by what the record says; above zero
 * @param causes the hypotheses, the same for every point
 */
public record Survey(
        List<Throw> throwing, List<Point> points, Chances chances, List<List<Double>> likes, List<Cause> causes) {
    public Survey {
        throwing = List.copyOf(throwing);
        points = List.copyOf(points);
        likes = likes.stream().map(List::copyOf).toList();
        causes = List.copyOf(causes);
    }

    /** A survey with all hypotheses. */
    public Survey(List<Throw> throwing, List<Point> points, Chances chances, List<List<Double>> likes) {
        this(throwing, points, chances, likes, causes(throwing, chances));
    }

    /** {@return the same with other rules for its throws} */
    Survey with(List<Throw> ruled) {
        return new Survey(ruled, points, chances, likes, causes);
    }

    /** {@return a survey of which nothing is known but throws and points} */
    public static Survey plain(List<Throw> throwing, List<Point> points, Chances chances) {
        List<Double> same = throwing.stream().map(t -> 1.0).toList();
        return new Survey(
                throwing, points, chances, points.stream().map(p -> same).toList());
    }

    private static List<Cause> causes(List<Throw> all, Chances chances) {
        List<Cause> causes = new ArrayList<>();
        int n = all.size();
        for (int i = 0; i < n; i++) {
            causes.add(Cause.once(i));
        }
        for (int i = 0; i < n && chances.latched() > 0; i++) {
            causes.add(new Cause(Cause.Kind.LATCHED, i, -1));
        }
        for (int i = 0; i < n; i++) {
            for (int j = i + 1; j < n; j++) {
                if (all.get(i).above() == j || all.get(j).above() == i) {
                    continue;
                }
                if (chances.twice() > 0) {
                    causes.add(new Cause(Cause.Kind.TWICE, i, j));
                }
                if (chances.either() > 0
                        || all.get(i).feederUnknown()
                        || all.get(j).feederUnknown()) {
                    causes.add(new Cause(Cause.Kind.EITHER, i, j));
                }
            }
        }
        causes.add(new Cause(Cause.Kind.NEVER, -1, -1));
        if (chances.alwaysOut() > 0) {
            causes.add(new Cause(Cause.Kind.ALWAYS_OUT, -1, -1));
        }
        return causes;
    }

    /** {@return these throws and all that they feed} */
    public BitSet unpowered(BitSet off) {
        BitSet all = (BitSet) off.clone();
        boolean more = true;
        while (more) {
            more = false;
            for (int i = 0; i < throwing.size(); i++) {
                int above = throwing.get(i).above();
                if (above >= 0 && all.get(above) && !all.get(i)) {
                    all.set(i);
                    more = true;
                }
            }
        }
        return all;
    }

    /** {@return whether a pass keeps to what must stay on and what goes off only by itself} */
    public boolean isAllowed(BitSet off) {
        BitSet all = unpowered(off);
        for (int i = all.nextSetBit(0); i >= 0; i = all.nextSetBit(i + 1)) {
            Throw.Stay stay = throwing.get(i).stay();
            if (stay == Throw.Stay.ON || (stay == Throw.Stay.ALONE && off.cardinality() > 1)) {
                return false;
            }
        }
        return true;
    }

    /** {@return the names of throws} */
    public List<String> names(BitSet off) {
        return off.stream().mapToObj(i -> throwing.get(i).name()).toList();
    }
}
