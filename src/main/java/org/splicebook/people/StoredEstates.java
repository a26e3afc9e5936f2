package org.splicebook.people;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.stream.Collectors;
import org.splicebook.store.HouseStore;

/** Which houses belong to a property, by the newest record of it, looked at again every other second. */
public final class StoredEstates implements Estates {
    private static final Duration FRESH = Duration.ofSeconds(2);

    private final HouseStore store;
    private final Clock clock;
    private final Map<String, Houses> known = new ConcurrentHashMap<>();

    private record Houses(Set<String> ids, Instant read) {
        /** What was read after now was read before the clock was set back. */
        boolean isFresh(Instant now) {
            return !read.isAfter(now) && read.plus(FRESH).isAfter(now);
        }
    }

    /** Estates by the properties of a store. */
    public StoredEstates(HouseStore store, Clock clock) {
        this.store = store;
        this.clock = clock;
    }

    @Override
    public boolean hold(String property, String house) {
        Instant now = clock.instant();
        return known.compute(
                        property,
                        (p, before) -> before != null && before.isFresh(now) ? before : new Houses(read(p), now))
                .ids()
                .contains(house);
    }

    private Set<String> read(String property) {
        return store.properties().find(property).stream()
                .flatMap(p -> p.property().parts().values().stream())
                .map(part -> part.house())
                .collect(Collectors.toUnmodifiableSet());
    }
}
