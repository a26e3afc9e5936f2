package org.splicebook.wiring;

import java.util.concurrent.Callable;
import java.util.stream.LongStream;
import org.splicebook.oracle.Comparison;
import org.splicebook.oracle.RandomHouses;
import org.splicebook.oracle.Shape;

/** What is first noticed of the derivation: by a golden house, else by the oracle in a few random houses; empty for nothing. */
final class FirstDisagreement implements Callable<String> {
    private static final int RANDOM_HOUSES = 30;

    @Override
    public String call() throws Exception {
        try {
            for (String house : GoldenHousesTest.houses()) {
                new GoldenHousesTest().doesWhatWasWorkedOutByHand(house);
            }
            Comparison.equal(LongStream.range(0, RANDOM_HOUSES).mapToObj(s -> RandomHouses.house(s, Shape.SMALL)));
            return "";
        } catch (AssertionError | RuntimeException e) {
            return e.toString();
        }
    }
}
