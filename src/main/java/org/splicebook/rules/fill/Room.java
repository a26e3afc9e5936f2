package org.splicebook.rules.fill;

import java.math.BigDecimal;
import org.jspecify.annotations.Nullable;

/**
 * Room in a box, in cubic inches, as a range.
 *
 * @param least at least so much
 * @param most at most so much; null where nothing bounds it
 */
public record Room(double least, @Nullable Double most) {
    /** None. */
    public static final Room NONE = new Room(0, 0.0);

    /** Sums of figures with four decimals differ by less than this from what they should be. */
    private static final double ROUNDING = 1e-6;

    /** {@return just so much} */
    public static Room of(double inches) {
        return new Room(inches, inches);
    }

    /** {@return both together} */
    public Room plus(Room other) {
        return new Room(least + other.least, most == null || other.most == null ? null : most + other.most);
    }

    /** {@return so many times this, at least and at most} */
    public Room times(double fewest, double greatest) {
        return new Room(least * fewest, greatest == 0 ? Double.valueOf(0) : most == null ? null : most * greatest);
    }

    /** {@return the larger of the two} */
    public Room max(Room other) {
        return new Room(
                Math.max(least, other.least), most == null || other.most == null ? null : Math.max(most, other.most));
    }

    /** {@return what holds where it is one of the two and nobody knows which} */
    public Room or(Room other) {
        return new Room(
                Math.min(least, other.least), most == null || other.most == null ? null : Math.max(most, other.most));
    }

    /** {@return the same without an upper bound} */
    public Room unbounded() {
        return new Room(least, null);
    }

    /** {@return whether it is one figure} */
    public boolean isExact() {
        return most != null && most - least < ROUNDING;
    }

    /** {@return whether it surely goes into that} */
    public boolean fits(Room capacity) {
        return most != null && most <= capacity.least + ROUNDING;
    }

    /** {@return whether it surely does not go into that} */
    public boolean exceeds(Room capacity) {
        return capacity.most != null && least > capacity.most + ROUNDING;
    }

    /** {@return in words, for example {@code 18.00} or {@code 14.25 to 18.25} or {@code at least 6.00}} */
    public String said() {
        return isExact()
                ? inches(least)
                : most == null ? "at least " + inches(least) : inches(least) + " to " + inches(most);
    }

    /** {@return a figure with two decimals, more only where it has more} */
    static String inches(double figure) {
        String four = BigDecimal.valueOf(Math.round(figure * 10_000), 4).toPlainString();
        return four.endsWith("00") ? four.substring(0, four.length() - 2) : four.replaceAll("0+$", "");
    }
}
