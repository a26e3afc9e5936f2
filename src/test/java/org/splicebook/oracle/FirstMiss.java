package org.splicebook.oracle;

import java.lang.reflect.InvocationTargetException;
import java.lang.reflect.Method;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.stream.LongStream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/**
 * What is first noticed of the shut-off: by a house worked by hand, else as a miss in some half-known houses; empty for nothing. Made by
 * name in a class loader of its own.
 */
public final class FirstMiss implements Callable<String> {
    private static final long HOUSES = Long.getLong("splicebook.houses-for-a-mutant", 1_500);
    private static final List<String> BY_HAND = List.of(
            "org.splicebook.wiring.shutoff.TestedShutOffTest",
            "org.splicebook.wiring.shutoff.SampleHouseShutOffTest",
            "org.splicebook.ask.StandingTest");

    @Override
    public String call() throws Exception {
        for (String test : BY_HAND) {
            String failure = failure(Class.forName(test, true, FirstMiss.class.getClassLoader()));
            if (!failure.isEmpty()) {
                return failure;
            }
        }
        return LongStream.range(0, HOUSES)
                .parallel()
                .mapToObj(seed -> seed % 3 == 0
                        ? ShutOffMissesTest.missesOfHearsay(seed, seed + 1)
                        : ShutOffMissesTest.misses(seed, seed + 1))
                .filter(m -> !m.isEmpty())
                .map(m -> m.get(0))
                .findAny()
                .orElse("");
    }

    /** The first failure of a class's plain tests. */
    private static String failure(Class<?> tests) throws ReflectiveOperationException {
        for (Method m : tests.getDeclaredMethods()) {
            if (m.isAnnotationPresent(BeforeAll.class)) {
                m.setAccessible(true);
                m.invoke(null);
            }
        }
        for (Method m : tests.getDeclaredMethods()) {
            if (m.isAnnotationPresent(Test.class)) {
                var constructor = tests.getDeclaredConstructor();
                constructor.setAccessible(true);
                m.setAccessible(true);
                try {
                    m.invoke(constructor.newInstance());
                } catch (InvocationTargetException e) {
                    return m.getName() + ": " + e.getCause();
                }
            }
        }
        return "";
    }
}
