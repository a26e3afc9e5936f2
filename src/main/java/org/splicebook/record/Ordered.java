package org.splicebook.record;

import java.util.Collection;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.Map;
import java.util.Set;

/** Unmodifiable copies that keep the order in which things were written. */
public final class Ordered {
    private Ordered() {}

    /** {@return an unmodifiable copy in the same order} */
    public static <K, V> Map<K, V> map(Map<? extends K, ? extends V> m) {
        return Collections.unmodifiableMap(new LinkedHashMap<>(m));
    }

    /** {@return an unmodifiable set in the same order} */
    public static <T> Set<T> set(Collection<? extends T> c) {
        return Collections.unmodifiableSet(new LinkedHashSet<>(c));
    }
}
