package org.splicebook.survey.passes;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What one hand moves at once.
 *
 * @param name its name: the breakers joined by a plus sign between spaces
 * @param breakers the breakers that move together, as a house file names them
 * @param above the throw that feeds its panel, by index; -1 where none of these does, or it is not known
 * @param feederUnknown whether some throw of another panel may feed its panel and the record does not say which
 * @param poles how many poles it opens
 * @param leg the leg that it feeds from; null where it has several, or it is not known
 * @param stay whether a pass may turn it off
 * @param why why it has to stay on or be off alone; null where it does not
 */
public record Throw(
        String name,
        List<String> breakers,
        int above,
        boolean feederUnknown,
        int poles,
        @Nullable String leg,
        Stay stay,
        @Nullable String why) {
    /** Whether a pass may turn it off. */
    public enum Stay {
        /** With any others. */
        FREE,
        /** Only by itself, and briefly. */
        ALONE,
        /** Never. */
        ON
    }

    public Throw {
        breakers = List.copyOf(breakers);
    }

    /** {@return a throw of one breaker that nothing speaks against} */
    public static Throw free(String name) {
        return new Throw(name, List.of(name), -1, false, 1, null, Stay.FREE, null);
    }

    /** {@return the panel that it is in} */
    String panel() {
        String first = breakers.get(0);
        return first.substring(0, Math.max(0, first.indexOf('.')));
    }

    /** {@return the same, fed by another} */
    public Throw under(int feeder) {
        return new Throw(name, breakers, feeder, false, poles, leg, stay, why);
    }

    /** {@return the same on a leg} */
    public Throw on(@Nullable String whichLeg) {
        return new Throw(name, breakers, above, feederUnknown, poles, whichLeg, stay, why);
    }

    /** {@return the same under another rule} */
    public Throw staying(Stay how, @Nullable String because) {
        return new Throw(name, breakers, above, feederUnknown, poles, leg, how, because);
    }
}
