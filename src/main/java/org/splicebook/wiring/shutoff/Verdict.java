package org.splicebook.wiring.shutoff;

/** What can be said of a shut-off. None of these says that anything is off: only tests do. */
public enum Verdict {
    /** With these thrown everything in the target should be off: nothing else can reach it, as far as the record was seen and complete. */
    SHOULD_BE_OFF,
    /** All that is recorded should be off; something that nobody listed may still feed it. */
    UNLESS_UNLISTED,
    /** A source reaches it with nothing recorded between that can be opened: no safe shut-off is known. */
    NONE_KNOWN
}
