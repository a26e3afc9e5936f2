package org.splicebook.oracle;

import java.util.concurrent.Callable;
import java.util.stream.LongStream;

/** The first miss of a shut-off in some half-known houses; empty for none. Made by name in a class loader of its own. */
public final class FirstMiss implements Callable<String> {
    private static final long HOUSES = Long.getLong("splicebook.houses-for-a-mutant", 1_500);

    @Override
    public String call() {
        try {
            return LongStream.range(0, HOUSES)
                    .parallel()
                    .mapToObj(seed -> seed % 3 == 0
                            ? ShutOffMissesTest.missesOfHearsay(seed, seed + 1)
                            : ShutOffMissesTest.misses(seed, seed + 1))
                    .filter(m -> !m.isEmpty())
                    .map(m -> m.get(0))
                    .findAny()
                    .orElse("");
        } catch (RuntimeException e) {
            return e.toString();
        }
    }
}
