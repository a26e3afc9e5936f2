package org.splicebook.oracle;

import java.util.stream.LongStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.splicebook.record.House;

class DerivationEqualsOracleTest {
    @Test
    void everyRelationOfRandomHousesIsAsFlooded() {
        Comparison.equal(houses(0, 150));
    }

    @Test
    @Tag("full")
    void everyRelationOfTwoThousandRandomHousesIsAsFlooded() {
        Comparison.equal(houses(150, 2000));
    }

    private static Stream<House> houses(long from, long to) {
        return LongStream.range(from, to).mapToObj(seed -> RandomHouses.house(seed, Shape.of(seed)));
    }
}
