package org.splicebook.people;

import java.time.Instant;
import org.jspecify.annotations.Nullable;

/**
 * Something that lets somebody in, just made: the only time that its secret is told.
 *
 * @param id what it is called by
 * @param secret the cookie's value, the token or the code
 * @param expires when it ends; null for never
 */
public record Issued(String id, String secret, @Nullable Instant expires) {}
