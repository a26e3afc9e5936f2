package org.splicebook.graph;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.function.Supplier;
import org.splicebook.record.House;

/** The records read last, by their digest: a record never changes, and reading one takes longer than fetching it. */
final class ReadRecords {
    private static final int KEPT = 64;

    private final Map<String, House> byDigest = new LinkedHashMap<>(16, 0.75f, true);

    /** {@return the record of that digest, read where it is not kept} */
    House get(String digest, Supplier<House> reading) {
        synchronized (byDigest) {
            House known = byDigest.get(digest);
            if (known != null) {
                return known;
            }
        }
        House read = reading.get();
        synchronized (byDigest) {
            byDigest.put(digest, read);
            if (byDigest.size() > KEPT) {
                byDigest.remove(byDigest.keySet().iterator().next());
            }
        }
        return read;
    }
}
