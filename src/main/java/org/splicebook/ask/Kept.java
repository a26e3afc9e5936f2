package org.splicebook.ask;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.function.Function;
import org.splicebook.record.House;
import org.splicebook.store.Revision;
import org.splicebook.store.StoredHouse;
import org.splicebook.wiring.Wiring;

/** The wiring of the houses asked about last, by revision: a revision never changes, so what is kept never goes stale. */
final class Kept {
    private final int most;
    private final Function<House, Wiring> derivation;
    private final Map<Key, Wiring> byRevision = new LinkedHashMap<>(16, 0.75f, true);

    private record Key(String house, long number, String digest) {}

    Kept(int most, Function<House, Wiring> derivation) {
        this.most = most;
        this.derivation = derivation;
    }

    /** {@return what is derived from that revision} */
    Wiring wiring(StoredHouse stored) {
        Revision r = stored.revision();
        Key key = new Key(r.house(), r.number(), r.digest());
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
}
