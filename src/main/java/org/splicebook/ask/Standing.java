package org.splicebook.ask;

import java.util.List;
import org.splicebook.record.Sighting;

/** The sightings that still stand: nothing on a way between what was read and its source has changed since. */
final class Standing {
    private Standing() {}

    /** {@return those that a shut-off may go by; none until it is known which have expired} */
    static List<Sighting> of(Asked asked) {
        return List.of();
    }
}
