package org.splicebook.ask;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import org.splicebook.record.House;
import org.splicebook.record.Sighting;
import org.splicebook.store.Revision;
import org.splicebook.store.StoredHouse;
import org.splicebook.wiring.Wiring;
import org.splicebook.wiring.shutoff.ShutOffs;

/** The wiring of the houses asked about last, by revision: a revision never changes, so what is kept never goes stale. */
final class Kept {
    private final int most;
    private final Function<House, Wiring> derivation;
    private final Map<Key, Wiring> byRevision = new LinkedHashMap<>(16, 0.75f, true);

    private final Map<Seen, ShutOffs> bySightings = new LinkedHashMap<>(16, 0.75f, true);

    private record Key(String house, long number, String digest) {}

    /** A revision and the sightings that stand with it. */
    private record Seen(Key key, List<Sighting> standing) {}

    Kept(int most, Function<House, Wiring> derivation) {
        this.most = most;
        this.derivation = derivation;
    }

    /** {@return what is derived from that revision} */
    Wiring wiring(StoredHouse stored) {
        Key key = key(stored);
        synchronized (byRevision) {
            Wiring known = byRevision.get(key);
            if (known != null) {
                return known;
            }
        }
        Wiring derived = derivation.apply(stored.house());
        synchronized (byRevision) {
            byRevision.put(key, derived);
            if (byRevision.size() > most) {
                byRevision.remove(byRevision.keySet().iterator().next());
            }
        }
        return derived;
    }

    /** {@return what must be off in that revision, target by target; one thread at a time may ask it} */
    ShutOffs shutOffs(StoredHouse stored, List<Sighting> standing) {
        Seen seen = new Seen(key(stored), standing);
        synchronized (bySightings) {
            ShutOffs known = bySightings.get(seen);
            if (known == null) {
                known = ShutOffs.of(stored.house(), standing);
                bySightings.put(seen, known);
                if (bySightings.size() > most) {
                    bySightings.remove(bySightings.keySet().iterator().next());
                }
            }
            return known;
        }
    }

    private static Key key(StoredHouse stored) {
        Revision r = stored.revision();
        return new Key(r.house(), r.number(), r.digest());
    }
}
