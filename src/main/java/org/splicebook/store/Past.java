package org.splicebook.store;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.House;
import org.splicebook.record.Sighting;

/**
 * A house with its whole past.
 *
 * @param steps its revisions, oldest first
 * @param appended the sightings that were appended and are not in its newest record
 */
public record Past(List<Step> steps, List<Sighting> appended) {
    /**
     * One revision.
     *
     * @param revision when, who, why
     * @param house the record; null where the revision took the house away
     */
    public record Step(Revision revision, @Nullable House house) {}

    public Past {
        steps = List.copyOf(steps);
        appended = List.copyOf(appended);
        if (steps.isEmpty()) {
            throw new IllegalArgumentException("a past has a revision");
        }
    }

    /** {@return the id of the house} */
    public String house() {
        return newest().revision().house();
    }

    /** {@return its newest revision} */
    public Step newest() {
        return steps.get(steps.size() - 1);
    }
}
