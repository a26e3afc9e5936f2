package org.splicebook.ask;

import java.util.List;
import org.splicebook.record.Sighting;

/**
 * The eight patterns of a three-lamp plug-in tester and all that each can mean. Such a tester cannot see a ground joined to the neutral,
 * ground and neutral swapped, a poor ground, or reversed wires where there is no ground; loads plugged in elsewhere change its lamps.
 */
enum LampPattern {
    ALL_DARK(
            false,
            false,
            false,
            "nothing on its hot",
            List.of(
                    "open hot",
                    "breaker off",
                    "a protective device tripped",
                    "a switch off",
                    "hot and neutral both open")),
    NEUTRAL_GROUND(
            false,
            false,
            true,
            "its neutral is live",
            List.of("open hot, the neutral live through another load or circuit")),
    HOT_GROUND(false, true, false, "its neutral is open", List.of("open neutral, with no load plugged in behind it")),
    HOT_GROUND_NEUTRAL_GROUND(
            false,
            true,
            true,
            "hot and neutral slot at one voltage",
            List.of(
                    "nearly always an open neutral with a load on, behind it or in the other half",
                    "hot and ground swapped, only where it stands alone")),
    HOT_NEUTRAL(
            true,
            false,
            false,
            "no ground",
            List.of(
                    "open ground",
                    "open ground and reversed wires, which it cannot tell apart",
                    "an old two-wire run")),
    HOT_NEUTRAL_NEUTRAL_GROUND(
            true,
            false,
            true,
            "hot and neutral reversed",
            List.of("hot and neutral reversed", "open ground that a load feeds: it changes when a load is plugged in")),
    HOT_NEUTRAL_HOT_GROUND(
            true,
            true,
            false,
            "the usual one",
            List.of(
                    "in order",
                    "a ground joined to the neutral behind it",
                    "the same with hot and neutral reversed: its metal is live",
                    "a ground of high resistance",
                    "neutral and ground swapped",
                    "fed by another circuit than was thought")),
    ALL_LIT(true, true, true, "the neutral slot is on another leg", List.of("two legs on one outlet: 240 or 208 V"));

    private final boolean hotNeutral;
    private final boolean hotGround;
    private final boolean neutralGround;
    private final String shows;
    private final List<String> canMean;

    LampPattern(boolean hotNeutral, boolean hotGround, boolean neutralGround, String shows, List<String> canMean) {
        this.hotNeutral = hotNeutral;
        this.hotGround = hotGround;
        this.neutralGround = neutralGround;
        this.shows = shows;
        this.canMean = canMean;
    }

    /** {@return the pattern of a sighting} */
    static LampPattern of(Sighting.Lamps lamps) {
        for (LampPattern p : values()) {
            if (p.hotNeutral == lamps.hotNeutral()
                    && p.hotGround == lamps.hotGround()
                    && p.neutralGround == lamps.neutralGround()) {
                return p;
            }
        }
        throw new IllegalStateException("no such pattern");
    }

    /** {@return what the lamps seem to show, and all that it can be} */
    String said() {
        return shows + ". It can be: " + String.join("; ", canMean) + ".";
    }
}
