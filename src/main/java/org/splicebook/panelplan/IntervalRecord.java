package org.splicebook.panelplan;

import java.time.Duration;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.List;
import org.splicebook.record.House;
import org.splicebook.record.SourceKind;

/**
 * A metered record of what a dwelling took, interval by interval, and whether it may stand for its demand (220.87; 120.87 from 2026).
 *
 * @param from when it begins
 * @param to when it ends
 * @param minutes how long each interval is
 * @param count how many intervals there are
 * @param missing how many are missing between the first and the last
 * @param peakVa the greatest average over one interval in volt-amperes, watts being taken for them
 * @param peakAt when that interval began
 * @param mean by hour of the day: the average in volt-amperes; 0 where there is none
 * @param most by hour of the day: the greatest in volt-amperes
 * @param notes what was taken to be so while it was read
 */
public record IntervalRecord(
        LocalDateTime from,
        LocalDateTime to,
        int minutes,
        int count,
        long missing,
        double peakVa,
        LocalDateTime peakAt,
        List<Double> mean,
        List<Double> most,
        List<String> notes) {
    private static final int YEAR = 365;
    private static final int MONTH = 30;

    /** By which rule a record stands for the demand. */
    public enum Rule {
        /** A year of it. */
        YEAR,
        /** Thirty days without a gap, in intervals of a quarter of an hour. */
        THIRTY_DAYS,
        NEITHER
    }

    /**
     * Whether a record may be used.
     *
     * @param rule by which rule
     * @param reasons why not, or what must hold beside it
     */
    public record Verdict(Rule rule, List<String> reasons) {
        public Verdict {
            reasons = List.copyOf(reasons);
        }

        /** {@return whether it may stand for the demand} */
        public boolean isUsable() {
            return rule != Rule.NEITHER;
        }
    }

    public IntervalRecord {
        mean = List.copyOf(mean);
        most = List.copyOf(most);
        notes = List.copyOf(notes);
    }

    /** {@return how many days it covers, in full} */
    public long days() {
        return Duration.between(from, to).toDays();
    }

    /** {@return whether it may stand for the demand of a house} */
    public Verdict judge(House house) {
        List<String> others = house.sources().values().stream()
                .filter(s -> s.kind() == SourceKind.INVERTER
                        || s.kind() == SourceKind.BATTERY
                        || s.kind() == SourceKind.GENERATOR)
                .map(s -> s.name())
                .toList();
        List<String> reasons = new ArrayList<>();
        // Less than one interval in a hundred missing: an outage or two in a year.
        boolean isWhole = missing * 100 <= count;
        if (days() >= YEAR && isWhole) {
            if (minutes > Metering.QUARTER) {
                reasons.add(
                        "Intervals of " + minutes + " minutes hide short peaks: as it stands the figure is too low.");
            }
            if (!others.isEmpty()) {
                reasons.add("The house has " + String.join(", ", others)
                        + ": the meter must have seen what the house took, not what was left of it.");
            }
            return new Verdict(Rule.YEAR, reasons);
        }
        if (days() >= YEAR) {
            reasons.add(missing + " of " + (count + missing) + " intervals are missing: that is no record of a year.");
        } else {
            reasons.add("It covers " + days() + " days; a year has " + YEAR + ".");
        }
        if (days() < MONTH) {
            reasons.add("The other rule asks for " + MONTH + " days.");
        } else if (missing > 0) {
            reasons.add("The rule of " + MONTH + " days asks for a record without a gap; " + missing
                    + " intervals are missing.");
        } else if (minutes > Metering.QUARTER) {
            reasons.add("The rule of " + MONTH + " days asks for averages over " + Metering.QUARTER
                    + " minutes; these are over " + minutes + ".");
        } else if (!others.isEmpty()) {
            reasons.add("The rule of " + MONTH + " days may not be used with other sources or peak shaving: "
                    + String.join(", ", others) + ".");
        } else {
            return new Verdict(
                    Rule.THIRTY_DAYS,
                    List.of(
                            "It covers " + days()
                                    + " days: it must be of the leg that carries most, while the dwelling was lived in,"
                                    + " with the larger of heating and cooling running or added for the season.",
                            "Solar, another source or peak shaving that the record does not show would bar it."));
        }
        return new Verdict(Rule.NEITHER, reasons);
    }
}
