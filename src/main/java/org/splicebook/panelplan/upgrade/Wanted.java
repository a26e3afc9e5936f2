package org.splicebook.panelplan.upgrade;

import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.splicebook.panelplan.Told;
import org.splicebook.panelplan.schedule.Reach;
import org.splicebook.record.Quantity;

/**
 * What people want of a new panel.
 *
 * @param panel today's panel that is replaced
 * @param kind what takes its place
 * @param told what is said beside the record for the demand; its loads are new circuits
 * @param places the place of a new load, by its name
 * @param lengths the length of a new load's cable, by its name
 * @param protect what protection is given
 * @param locks the space that a circuit has to take ({@code 5+7}), by a key of its breaker today or by a new load's name
 * @param kept spaces that stay free
 * @param entry where cables come in
 * @param slackInches how much farther than today wires reach, in inches
 * @param lowerInches how much lower the new panel's first row is than the old one's, in inches
 * @param backfeed continuous current of solar or a battery that feeds back, in amperes; null where there is none
 * @param seconds how long to search at most
 * @param year the year of the work, which new cables bear; null where it is not told
 */
public record Wanted(
        String panel,
        PanelKind kind,
        Told told,
        Map<String, String> places,
        Map<String, Quantity> lengths,
        Protect protect,
        Map<String, String> locks,
        Set<Integer> kept,
        Reach.Entry entry,
        double slackInches,
        double lowerInches,
        @Nullable Double backfeed,
        double seconds,
        @Nullable Integer year) {
    /** How much protection is given. */
    public enum Protect {
        /** What has it today, what is new, and circuits that are lengthened beyond what counts as untouched. */
        NEEDED,
        /** Every circuit gets what today's edition asks of new work, where its neutral is its own. */
        ALL
    }

    /** How long is searched where nothing is said, in seconds. */
    public static final double SECONDS = 4.5;

    public Wanted {
        places = Map.copyOf(places);
        lengths = Map.copyOf(lengths);
        locks = Map.copyOf(locks);
        kept = Set.copyOf(kept);
    }

    /** Nothing wanted but the panel. */
    public static Wanted of(String panel, PanelKind kind, Told told) {
        return new Wanted(
                panel,
                kind,
                told,
                Map.of(),
                Map.of(),
                Protect.NEEDED,
                Map.of(),
                Set.of(),
                Reach.Entry.UNKNOWN,
                0,
                0,
                null,
                SECONDS,
                null);
    }

    /** {@return how far wires reach} */
    Reach reach() {
        double row = UpgradeData.number("row-inches");
        return new Reach(entry, (int) Math.floor(slackInches / row), (int) UpgradeData.number("across-rows"), (int)
                Math.round(lowerInches / row));
    }
}
