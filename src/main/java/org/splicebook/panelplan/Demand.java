package org.splicebook.panelplan;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * One calculation, carried out.
 *
 * @param method by which method
 * @param reading which reading of it; empty where there is only one
 * @param edition by which edition
 * @param lines every intermediate line, the total last
 * @param va the total by what is known
 * @param amps the total in amperes
 * @param least amperes that it is at least, whatever is still asked; the same as the total where nothing can bring it down
 * @param neutral amperes of the neutral; null where the method gives none
 * @param rating what it is held against; null where that is not known
 * @param asked what is not known and would change it
 * @param applies whether the method may be used here at all, as far as is known
 * @param notes what is unsure or disputed about it
 */
public record Demand(
        Method method,
        String reading,
        int edition,
        List<Line> lines,
        double va,
        double amps,
        double least,
        @Nullable Double neutral,
        @Nullable Double rating,
        List<String> asked,
        boolean applies,
        List<String> notes) {
    /** The ways to calculate. */
    public enum Method {
        STANDARD("standard"),
        OPTIONAL("optional"),
        EXISTING("existing"),
        METERED("metered"),
        UNITS("units");

        private final String word;

        Method(String word) {
            this.word = word;
        }

        /** {@return the word of commands} */
        public String word() {
            return word;
        }
    }

    /** Whether it fits. */
    public enum Verdict {
        FITS("fits"),
        TOO_MUCH("too much"),
        /** Something is still to be asked; it may fit or not. */
        TO_BE_ASKED("to be asked"),
        NO_RATING("no rating known"),
        NOT_FOR_THIS("not to be used here");

        private final String word;

        Verdict(String word) {
            this.word = word;
        }

        /** {@return as said to people} */
        public String word() {
            return word;
        }
    }

    /**
     * One line of a calculation.
     *
     * @param what what is counted, with its arithmetic
     * @param va what it comes to in volt-amperes
     * @param article by which article of the edition
     * @param counts whether it is a part of the total; else it is a step towards the next line
     */
    public record Line(String what, double va, String article, boolean counts) {}

    public Demand {
        lines = List.copyOf(lines);
        asked = List.copyOf(asked);
        notes = List.copyOf(notes);
    }

    /** {@return the amperes by which it is judged: fractions under one half are dropped (220.5(B))} */
    public long wholeAmps() {
        return whole(amps);
    }

    static long whole(double amps) {
        // A hair above the half keeps sums that differ in the last bit on one side.
        return (long) Math.floor(amps + 0.5 + 1e-9);
    }

    /** {@return whether it fits the rating; while anything is asked it is never said to fit, and too much only if it is in any case} */
    public Verdict verdict() {
        if (!applies) {
            return Verdict.NOT_FOR_THIS;
        }
        if (rating == null) {
            return Verdict.NO_RATING;
        }
        if ((double) whole(asked.isEmpty() ? amps : least) > rating) {
            return Verdict.TOO_MUCH;
        }
        return asked.isEmpty() ? Verdict.FITS : Verdict.TO_BE_ASKED;
    }
}
