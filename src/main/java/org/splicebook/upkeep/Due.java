package org.splicebook.upkeep;

import java.time.LocalDate;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.TestResult;

/**
 * A test of one thing and when it is due.
 *
 * @param subject the device, breaker or panel
 * @param place the key of its place; null where that is not recorded
 * @param kind the kind of test
 * @param last the last that is recorded, whatever its outcome; null where none is
 * @param on the day on which it is due; long past where nothing shows that it was ever done
 * @param state why
 */
public record Due(
        String subject,
        @Nullable String place,
        TestKind kind,
        @Nullable TestResult last,
        LocalDate on,
        State state) {
    /** Why a test is due. */
    public enum State {
        /** It failed the last time. */
        FAILED("failed the last time"),
        /** Nothing shows that it was ever done. */
        NEVER("never, as far as recorded"),
        /** Its time has come. */
        OVERDUE("overdue"),
        /** Its time comes within the days that are looked ahead. */
        SOON("due soon"),
        /** Later than that. */
        LATER("later");

        private final String words;

        State(String words) {
            this.words = words;
        }

        /** {@return it in words} */
        public String words() {
            return words;
        }
    }

    /** {@return whether it has to be done within the days that are looked ahead} */
    public boolean isWanted() {
        return state != State.LATER;
    }
}
