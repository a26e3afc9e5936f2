package org.splicebook.graph;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import org.neo4j.driver.Record;
import org.neo4j.driver.types.Relationship;

/**
 * What is known of a house as it stands.
 *
 * @param house its row
 * @param ways by load point; filled as they are read
 */
record KnownHouse(Record house, Map<String, List<Relationship>> ways) {
    /** {@return one whose ways are still to be read} */
    static KnownHouse of(Record house) {
        return new KnownHouse(house, new ConcurrentHashMap<>());
    }

    /** {@return those of the points whose ways are not known yet} */
    List<String> without(List<String> points) {
        List<String> missing = new ArrayList<>(points);
        missing.removeIf(ways::containsKey);
        return missing;
    }
}
