package org.splicebook.upkeep;

/**
 * A kind of test.
 *
 * @param id its word: a test's {@code what}
 * @param title what people call it
 * @param of what it is done to
 * @param months after how many months it is due again; 0 where only something else asks for it
 * @param fromAge whether they count from the age of the device rather than from the last test
 * @param isUsual whether it is told of every house
 * @param how what is to be done
 * @param source where the interval comes from
 */
public record TestKind(
        String id, String title, Of of, int months, boolean fromAge, boolean isUsual, String how, String source) {
    /** What a test is done to. */
    public enum Of {
        /** What guards against ground or arc faults: a device or a breaker. */
        PROTECTIVE,
        ALARM,
        BREAKER,
        PANEL,
        POINT
    }
}
