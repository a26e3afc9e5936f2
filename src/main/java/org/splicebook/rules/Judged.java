package org.splicebook.rules;

import java.util.ArrayList;
import java.util.List;

/**
 * The three judgements of an existing house, kept apart.
 *
 * @param hazard whether it is a hazard whatever the edition
 * @param whenBuilt whether it was allowed when the house was built
 * @param newWork whether it would not be allowed in new work, or when this is replaced
 */
public record Judged(boolean hazard, WhenBuilt whenBuilt, boolean newWork) {
    /** Whether something was allowed when the house was built. */
    public enum WhenBuilt {
        /** It was not. */
        NOT_ALLOWED,
        /** It was: the rule is younger than the house. Work done later is judged by its own date. */
        ALLOWED,
        /** The year of the house, or of the rule, is not known. */
        UNKNOWN,
        /** No code speaks of it. */
        NOT_JUDGED
    }

    /** {@return the judgements in words} */
    public List<String> said() {
        List<String> all = new ArrayList<>();
        if (hazard) {
            all.add("a hazard whatever the edition");
        }
        switch (whenBuilt) {
            case NOT_ALLOWED -> all.add("not allowed when the house was built");
            case ALLOWED -> all.add("allowed when the house was built, if not altered since");
            case UNKNOWN -> all.add("whether it was allowed when built is not known");
            case NOT_JUDGED -> {}
        }
        if (newWork) {
            all.add("would not be allowed in new work or when this is replaced");
        }
        return all;
    }
}
