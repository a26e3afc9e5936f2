package org.splicebook.graph;

import com.github.benmanes.caffeine.cache.Cache;
import com.github.benmanes.caffeine.cache.Caffeine;
import java.util.function.Supplier;
import java.util.function.ToIntFunction;
import java.util.function.UnaryOperator;
import org.jspecify.annotations.Nullable;

/** One sort of thing that is remembered by house, or by what is asked of one, until something is written. */
final class Remembered<T> {
    private static final int MOST_HOUSES = 32;

    private final Recall recall;
    private final UnaryOperator<String> houseOf;
    private final Cache<String, Entry<T>> byHouse;

    private record Entry<T>(T value, long mark) {}

    Remembered(Recall recall) {
        this(recall, UnaryOperator.identity(), MOST_HOUSES, value -> 1);
    }

    /**
     * Remembers up to a weight.
     *
     * @param recall whether something may have been written
     * @param houseOf by what is asked, the house whose changes end it, or {@link Recall#ANYTHING}
     * @param most the most that all values may weigh together
     * @param weight what one weighs
     */
    Remembered(Recall recall, UnaryOperator<String> houseOf, long most, ToIntFunction<T> weight) {
        this.recall = recall;
        this.houseOf = houseOf;
        this.byHouse = Caffeine.newBuilder()
                .maximumWeight(most)
                .weigher((String house, Entry<T> entry) -> weight.applyAsInt(entry.value()))
                .build();
    }

    /** {@return what is remembered of a house, read where nothing is, or where something may have been written since} */
    T of(String house, Supplier<T> reading) {
        long mark = recall.mark(houseOf.apply(house));
        T known = find(house);
        if (known != null) {
            return known;
        }
        T read = reading.get();
        keep(house, read, mark);
        return read;
    }

    /** {@return what is remembered of a house, or null where nothing is, or where something may have been written since} */
    @Nullable
    T find(String house) {
        Entry<T> known = byHouse.getIfPresent(house);
        return known != null && recall.isUnchanged(houseOf.apply(house), known.mark()) ? known.value() : null;
    }

    /** Remembers what was read of a house after that mark. */
    void keep(String house, T read, long mark) {
        if (recall.isUnchanged(houseOf.apply(house), mark)) {
            byHouse.put(house, new Entry<>(read, mark));
        }
    }
}
