package org.splicebook.oracle;

import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;

class AllSmallNetlistsTest {
    private static final int SAMPLE = 23;

    @Test
    void aSampleOfSmallNetlistsIsDerivedAsFlooded() {
        AtomicInteger n = new AtomicInteger();
        Comparison.equal(AllNetlists.upToJoints(6).sequential().filter(h -> n.getAndIncrement() % SAMPLE == 0));
    }

    @Test
    @Tag("full")
    void everySmallNetlistIsDerivedAsFlooded() {
        Comparison.equal(AllNetlists.upToJoints(6));
    }
}
