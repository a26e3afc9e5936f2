package org.splicebook.people;

import java.time.Instant;

/**
 * One thing that was done, or tried and refused.
 *
 * @param at when
 * @param who who did it, as far as it is known
 * @param way how they had come in
 * @param what what was done, in a word or two
 * @param house the house it was done to; empty where none was
 * @param said what more there is to say; never a password, a code or a token
 * @param from the network address it came from; empty where it came from this process
 */
public record AuditEntry(
        Instant at, String who, Visitor.Way way, String what, String house, String said, String from) {}
