package org.splicebook.record;

import org.jspecify.annotations.Nullable;

/**
 * A test of a device and its outcome.
 *
 * @param id its id, unique in the house
 * @param date the day, ISO 8601
 * @param what what was tested: {@code trip-button}, {@code insulation}, ...
 * @param device the device or breaker
 * @param result {@code passed}, {@code failed}, or a reading
 * @param by who did it
 * @param note free words
 */
public record TestResult(
        String id,
        String date,
        String what,
        String device,
        String result,
        @Nullable String by,
        @Nullable String note) {}
