package org.splicebook.graph;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import org.neo4j.driver.Record;
import org.neo4j.driver.types.Relationship;

/**
 * What is remembered of houses from one question to the next: how each stands, and the ways of its load points. Only where this process is
 * the one that writes; whatever it writes ends all that is remembered.
 */
final class Recall {
    private static final int MOST_HOUSES = 32;
    private static final long UNSURE = -1;

    private final boolean isOnlyWriter;
    private long begun;
    private long ended;
    private final Map<String, Known> byHouse = new LinkedHashMap<>(16, 0.75f, true);

    /**
     * What is known of a house as it stands.
     *
     * @param house its row
     * @param ways by load point
     */
    record Known(Record house, Map<String, List<Relationship>> ways) {
        /** {@return one whose ways are still to be read} */
        static Known of(Record house) {
            return new Known(house, new ConcurrentHashMap<>());
        }

        /** {@return those of the points whose ways are not known yet} */
        List<String> without(List<String> points) {
            List<String> missing = new ArrayList<>(points);
            missing.removeIf(ways::containsKey);
            return missing;
        }
    }

    Recall(boolean isOnlyWriter) {
        this.isOnlyWriter = isOnlyWriter;
    }

    /** Writes; nothing is remembered over it. */
    <T> T writing(Supplier<T> work) {
        synchronized (this) {
            begun++;
            byHouse.clear();
        }
        try {
            return work.get();
        } finally {
            synchronized (this) {
                ended++;
                byHouse.clear();
            }
        }
    }

    /** {@return a mark of this moment, to be shown to the other methods} */
    synchronized long mark() {
        return isOnlyWriter && begun == ended ? begun : UNSURE;
    }

    /** {@return whether surely nothing was written since that mark} */
    synchronized boolean isUnchanged(long mark) {
        return mark != UNSURE && begun == mark;
    }

    /** {@return what is known of a house, if anything} */
    synchronized @Nullable Known of(String house) {
        return byHouse.get(house);
    }

    /** Remembers a house, if nothing was written since that mark. */
    synchronized void keep(String house, Known known, long mark) {
        if (isUnchanged(mark)) {
            byHouse.put(house, known);
            if (byHouse.size() > MOST_HOUSES) {
                byHouse.remove(byHouse.keySet().iterator().next());
            }
        }
    }
}
