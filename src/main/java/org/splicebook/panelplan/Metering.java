package org.splicebook.panelplan;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.House;

/**
 * The demand that a meter showed (220.87; 120.87 from 2026), and what has to be put to it before it may stand for a dwelling's.
 *
 * @param peak the greatest demand that was recorded, in volt-amperes
 * @param raised the factor by which it is raised because its intervals hide short peaks; 1 for not at all
 * @param season what did not run while it was recorded and would have in another season: the larger of heating and cooling, in
 *     volt-amperes
 * @param record the readings that it was taken from; null where the figure alone was told
 * @param verdict whether they may stand for the demand; null as before
 * @param asked what has to be told before it may be said to fit
 */
public record Metering(
        double peak,
        double raised,
        double season,
        @Nullable IntervalRecord record,
        IntervalRecord.@Nullable Verdict verdict,
        List<String> asked) {
    /** The longest intervals of which the greatest average counts as it stands, in minutes. */
    static final int QUARTER = 15;

    public Metering {
        asked = List.copyOf(asked);
    }

    /** {@return a figure that was told, for which whoever tells it answers} */
    public static Metering of(double peak) {
        return new Metering(peak, 1, 0, null, null, List.of());
    }

    /**
     * {@return what a record of readings gives}
     *
     * @param raised by how much longer intervals are raised; null where nothing was said
     * @param season what did not run in 30 days; 0 where the larger of heating and cooling ran; null where nothing was said
     */
    public static Metering of(IntervalRecord record, House house, @Nullable Double raised, @Nullable Double season) {
        IntervalRecord.Verdict verdict = record.judge(house);
        List<String> asked = new ArrayList<>();
        boolean isLong = record.minutes() > QUARTER;
        if (verdict.isUsable() && isLong && raised == null) {
            asked.add("The readings are averages over " + record.minutes() + " minutes, which hide the peaks of "
                    + QUARTER + " minutes that the article counts by. Ask the utility for its greatest demand and say"
                    + " peak, or say raise with a factor that the inspector accepts: a rule of thumb, not the code's.");
        }
        boolean isShort = verdict.rule() == IntervalRecord.Rule.THIRTY_DAYS;
        if (isShort && season == null) {
            asked.add(
                    "Did the larger of heating and cooling run in those " + record.days()
                            + " days, and was the dwelling lived in? Say season ran, or season with what has to be added for it.");
        }
        return new Metering(
                record.peakVa(),
                isLong && raised != null ? raised : 1,
                isShort && season != null ? season : 0,
                record,
                verdict,
                asked);
    }

    /** {@return whether it may stand for the demand} */
    public boolean isUsable() {
        return verdict == null || verdict.isUsable();
    }

    /** {@return the demand that it stands for, in volt-amperes} */
    double va() {
        return peak * raised + season;
    }
}
