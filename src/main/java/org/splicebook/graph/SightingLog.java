package org.splicebook.graph;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.neo4j.driver.TransactionContext;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.record.Sighting;
import org.splicebook.store.SightingText;

/** The sightings that were appended: never changed, never taken away. Works within a transaction of its caller. */
final class SightingLog {
    private SightingLog() {}

    /** {@return the appended sightings of a house in the order in which they came} */
    static List<Sighting> all(TransactionContext tx, String house) {
        return tx.run(
                        "MATCH (:Ledger {house: $house})-[:SAW]->(s:Sighting) RETURN s.text AS text ORDER BY s.order",
                        Map.of("house", house))
                .list(r -> SightingText.read(r.get("text").asString()));
    }

    /**
     * Appends those that are new.
     *
     * @param recorded the sightings of the house's record, which are known too
     * @return how many were new
     * @throws Refusal when one is known with other content
     */
    static int append(TransactionContext tx, String house, List<Sighting> recorded, List<Sighting> sightings) {
        List<Sighting> appended = all(tx, house);
        Map<String, String> known = new HashMap<>();
        recorded.forEach(s -> known.put(s.id(), SightingText.write(s)));
        appended.forEach(s -> known.put(s.id(), SightingText.write(s)));
        List<Map<String, Object>> rows = new ArrayList<>();
        for (Sighting s : sightings) {
            String text = SightingText.write(s);
            String before = known.putIfAbsent(s.id(), text);
            if (before == null) {
                rows.add(Map.of(
                        "key",
                        house + "/" + s.id(),
                        "house",
                        house,
                        "id",
                        s.id(),
                        "date",
                        s.date(),
                        "digest",
                        Packed.digest(text),
                        "text",
                        text,
                        "order",
                        appended.size() + rows.size()));
            } else if (!before.equals(text)) {
                throw new Refusal(conflict(s.id()));
            }
        }
        tx.run(
                        "MATCH (l:Ledger {house: $house}) UNWIND $rows AS row CREATE (l)-[:SAW]->(s:Sighting) SET s = row",
                        Map.of("house", house, "rows", rows))
                .consume();
        return rows.size();
    }

    /** Refuses a record whose sightings contradict appended ones of the same id. */
    static void check(TransactionContext tx, String house, List<Sighting> recorded) {
        if (recorded.isEmpty()) {
            return;
        }
        Map<String, String> known = new HashMap<>();
        all(tx, house).forEach(s -> known.put(s.id(), SightingText.write(s)));
        for (Sighting s : recorded) {
            String before = known.get(s.id());
            if (before != null && !before.equals(SightingText.write(s))) {
                throw new Refusal(conflict(s.id()));
            }
        }
    }

    /** {@return both together, each id once, oldest first; of one day in the order in which they were told} */
    static List<Sighting> together(List<Sighting> recorded, List<Sighting> appended) {
        Map<String, Sighting> byId = new LinkedHashMap<>();
        recorded.forEach(s -> byId.putIfAbsent(s.id(), s));
        appended.forEach(s -> byId.putIfAbsent(s.id(), s));
        List<Sighting> all = new ArrayList<>(byId.values());
        all.sort((a, b) -> a.date().compareTo(b.date()));
        return all;
    }

    private static Problem conflict(String id) {
        return Problem.error(
                ProblemKind.CONFLICT,
                Where.field("sightings." + id),
                "A sighting " + id + " is known already, with other content.",
                "What was seen stays as it was told: give the new one an id of its own.");
    }
}
