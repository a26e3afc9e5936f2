package org.splicebook.graph;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.function.Supplier;

/** One sort of thing that is remembered by house until something is written. */
final class Remembered<T> {
    private static final int MOST_HOUSES = 32;

    private final Recall recall;
    private final Map<String, Entry<T>> byHouse = new LinkedHashMap<>(16, 0.75f, true);

    private record Entry<T>(T value, long mark) {}

    Remembered(Recall recall) {
        this.recall = recall;
    }

    /** {@return what is remembered of a house, read where nothing is, or where something may have been written since} */
    T of(String house, Supplier<T> reading) {
        long mark = recall.mark();
        synchronized (byHouse) {
            Entry<T> known = byHouse.get(house);
            if (known != null && recall.isUnchanged(known.mark())) {
                return known.value();
            }
        }
        T read = reading.get();
        synchronized (byHouse) {
            byHouse.put(house, new Entry<>(read, mark));
            if (byHouse.size() > MOST_HOUSES) {
                byHouse.remove(byHouse.keySet().iterator().next());
            }
        }
        return read;
    }
}
