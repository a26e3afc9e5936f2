package org.splicebook.graph;

import java.util.Collection;
import java.util.HashMap;
import java.util.Map;
import java.util.function.Supplier;

/**
 * Whether a house, or anything, may have been changed since some moment; known only where this process is the one that writes. What a
 * transaction writes can be seen by others from the moment at which its commit begins, and first in parts: the database lets its indexes
 * follow. So what was read is of one revision only where no commit was on its way from before it until after it.
 */
final class Recall {
    /** In the place of a house: all houses and properties. */
    static final String ANYTHING = "*";

    private static final long UNSURE = -1;

    private final boolean isOnlyWriter;
    private final Map<String, Commits> commits = new HashMap<>();
    private long forgotten;

    /** How many have begun and ended. */
    private static final class Commits {
        private long begun;
        private long ended;
    }

    Recall(boolean isOnlyWriter) {
        this.isOnlyWriter = isOnlyWriter;
    }

    /** {@return whether every change is known here} */
    boolean canTell() {
        return isOnlyWriter;
    }

    /**
     * Commits; nothing that was read of those houses before or meanwhile counts as unchanged afterwards.
     *
     * @param changed the houses, or else what else is changed: a name that no house has
     */
    <T> T committing(Collection<String> changed, Supplier<T> commit) {
        if (changed.isEmpty()) {
            return commit.get();
        }
        synchronized (this) {
            changed.forEach(c -> of(c).begun++);
            of(ANYTHING).begun++;
        }
        try {
            return commit.get();
        } finally {
            synchronized (this) {
                changed.forEach(c -> of(c).ended++);
                of(ANYTHING).ended++;
            }
        }
    }

    private Commits of(String house) {
        return commits.computeIfAbsent(house, h -> new Commits());
    }

    /** Counts everything as changed: the database may have been changed past this program. */
    synchronized void forget() {
        forgotten++;
    }

    /** {@return a mark of this moment for a house, to be shown to the other methods} */
    synchronized long mark(String house) {
        Commits of = of(house);
        return isOnlyWriter && of.begun == of.ended ? of.begun + forgotten : UNSURE;
    }

    /** {@return whether surely nothing of the house was changed since that mark} */
    synchronized boolean isUnchanged(String house, long mark) {
        return mark != UNSURE && of(house).begun + forgotten == mark;
    }
}
