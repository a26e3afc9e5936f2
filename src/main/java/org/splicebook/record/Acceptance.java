package org.splicebook.record;

import org.jspecify.annotations.Nullable;

/**
 * A finding that someone looked at and lets stand. It holds while the check says the same of the same thing: what changes comes back.
 *
 * @param finding the finding's key: its rule, a slash, what it is about
 * @param certainty how sure the check was then: found, possible, asked
 * @param said what the check said then
 * @param reason why it may stand
 * @param by who decided
 * @param date the day, ISO 8601
 */
public record Acceptance(
        String finding,
        String certainty,
        String said,
        String reason,
        @Nullable String by,
        String date) {}
