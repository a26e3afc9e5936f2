package org.splicebook.wiring;

import java.util.AbstractList;
import java.util.Iterator;
import java.util.List;
import java.util.RandomAccess;
import java.util.Spliterator;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;

/**
 * A list that is derived when first asked for, and then kept. Whoever looks at it sees an unmodifiable list like any other; all that one
 * derivation puts off shares one lock, so that several threads may ask.
 */
final class Later<T> extends AbstractList<T> implements RandomAccess {
    private final Object lock;
    private volatile @Nullable List<T> kept;
    private @Nullable Supplier<List<T>> how;

    /**
     * @param lock what is held while it is derived
     * @param how gives the list; asked once, then let go
     */
    Later(Object lock, Supplier<List<T>> how) {
        this.lock = lock;
        this.how = how;
    }

    /** {@return a copy that nobody can change; of what is put off the thing itself} */
    static <T> List<T> copyOf(List<T> list) {
        return list instanceof Later ? list : List.copyOf(list);
    }

    private List<T> all() {
        List<T> known = kept;
        return known == null ? derived() : known;
    }

    private List<T> derived() {
        synchronized (lock) {
            if (kept == null && how != null) {
                kept = List.copyOf(how.get());
                how = null;
            }
            return java.util.Objects.requireNonNull(kept);
        }
    }

    @Override
    public T get(int index) {
        return all().get(index);
    }

    @Override
    public int size() {
        return all().size();
    }

    @Override
    public Iterator<T> iterator() {
        return all().iterator();
    }

    @Override
    public Spliterator<T> spliterator() {
        return all().spliterator();
    }
}
