package org.splicebook.rules;

/** What one rule looks at. */
@FunctionalInterface
interface Rule {
    /** Tells what is found. */
    void check(Facts facts, Findings findings);
}
