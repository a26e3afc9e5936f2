package org.splicebook.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.splicebook.store.HouseStore;
import org.splicebook.store.Revision;

/**
 * Houses in which each of many clients has a place of its own, whose note it changes: always from the whole record as it read it, so that
 * a write which lost another's would put that one's mark back.
 */
final class Marked {
    private static final Pattern MARK = Pattern.compile("mark-([0-9]+)-([0-9]+)");

    private Marked() {}

    /**
     * A write that the server said is stored.
     *
     * @param client who wrote
     * @param house the house
     * @param base the revision that it was made from
     * @param made the revision that was told
     * @param mark the mark of this client that it put in the place of its last
     */
    record Write(int client, String house, long base, long made, int mark) {}

    /**
     * A sighting that the server said is stored.
     *
     * @param house the house
     * @param id the sighting's
     */
    record Seen(String house, String id) {}

    /** {@return a workshop with a bench and a bath, with a place for each client} */
    static String workshop(String id, int clients) {
        return places("""
                splicebook: 1
                house: %s
                basis: seen
                complete: [cables, joints, breakers, landings]
                sources: {service: {system: split-phase 120/240, bond: main}}
                places:
                  workshop: {name: Workshop, kind: workshop}
                  bath: {name: Bath, kind: bathroom}
                panels:
                  main:
                    place: workshop
                    supply: service
                    spaces: 12
                    main: {poles: 2, rating: 100 A}
                    breakers: {1: {rating: 20 A}, 3: {rating: 20 A}, 6: {rating: 15 A, protects: [arc-fault]}}
                    ties: [[1, 3]]
                    joints: [[1, K1.black], [3, K1.red], [n, K1.white], [g, K1.bare], [6, K2.black], [6.neutral, K2.white]]
                cables:
                  K1: {kind: NM, wires: 12/3+ground, ends: [main, bench]}
                  K2: {kind: NM, wires: 14/2, ends: [main, vanity]}
                boxes:
                  bench:
                    place: workshop
                    devices: {bench-1: {kind: duplex-receptacle, tabs: {hot: out, neutral: in}}}
                    joints:
                      - [K1.black, bench-1.top.hot]
                      - [K1.red, bench-1.bottom.hot]
                      - {join: [K1.white], tail: bench-1.neutral, by: lever}
                      - {join: [K1.bare, box], tail: bench-1.ground}
                  vanity:
                    place: bath
                    devices: {bath-gf: {kind: ground-fault-receptacle}}
                    joints: [[K2.black, bath-gf.line.hot], [K2.white, bath-gf.line.neutral]]
                """.formatted(id), clients);
    }

    /** {@return the record with a place more for each client from 1, whose note is its mark 0} */
    static String places(String record, int clients) {
        String places = IntStream.rangeClosed(1, clients)
                .mapToObj(c -> "  client-%d: {name: Client %d, kind: basement, note: mark-%d-0}%n".formatted(c, c, c))
                .collect(Collectors.joining());
        return record.replaceFirst("(?m)^places:\n", "places:\n" + places);
    }

    /** {@return the record with a client's mark in the place of its last} */
    static String with(String text, int client, int mark) {
        return text.replaceFirst("mark-" + client + "-[0-9]+", "mark-" + client + "-" + mark);
    }

    /**
     * Holds the revisions to what was acknowledged: each made of the one before by one client's mark and nothing else, each acknowledged
     * write at the revision that was told, and what was seen in the house once.
     *
     * @param unanswered how many writes were sent and never answered, which may or may not be stored
     */
    static void check(HouseStore store, List<Write> writes, List<Seen> seen, int unanswered) {
        Map<String, List<Write>> byHouse = writes.stream().collect(Collectors.groupingBy(Write::house));
        int unclaimed = 0;
        for (Map.Entry<String, List<Write>> of : byHouse.entrySet()) {
            Map<Long, String> steps = steps(store, of.getKey());
            List<Write> told = of.getValue();
            assertThat(told)
                    .extracting(Write::made)
                    .as("%s: two writes of one revision", of.getKey())
                    .doesNotHaveDuplicates();
            for (Write w : told) {
                assertThat(w.made()).as("%s", w).isEqualTo(w.base() + 1);
                assertThat(steps).as("%s", w).containsEntry(w.made(), w.client() + "-" + w.mark());
            }
            unclaimed += steps.size() - told.size();
        }
        assertThat(unclaimed).as("revisions that nobody was told of").isBetween(0, unanswered);
        Map<String, List<String>> ids = seen.stream()
                .collect(Collectors.groupingBy(Seen::house, Collectors.mapping(Seen::id, Collectors.toList())));
        ids.forEach((house, told) -> assertThat(store.sightings(house))
                .extracting(s -> s.id())
                .doesNotHaveDuplicates()
                .containsAll(told));
    }

    /** {@return by revision from the second, whose mark it put in: client and number} */
    private static Map<Long, String> steps(HouseStore store, String house) {
        HouseRecordText text = new HouseRecordText();
        List<Revision> all = store.revisions(house);
        assertThat(all).extracting(Revision::number).containsExactlyElementsOf(numbers(all.size()));
        Map<Long, String> steps = new TreeMap<>();
        Map<String, Integer> before = Map.of();
        String rest = "";
        for (Revision r : all) {
            String record = text.write(
                    store.findRevision(house, r.number()).orElseThrow().house());
            Map<String, Integer> now = marks(record);
            String others = MARK.matcher(record).replaceAll("mark");
            if (r.number() > 1) {
                assertThat(others)
                        .as("%s, revision %d: what is no mark", house, r.number())
                        .isEqualTo(rest);
                List<String> changed = new ArrayList<>();
                for (Map.Entry<String, Integer> mark : now.entrySet()) {
                    int was = before.getOrDefault(mark.getKey(), 0);
                    if (was != mark.getValue()) {
                        changed.add(mark.getKey() + "-" + mark.getValue());
                        assertThat(mark.getValue())
                                .as("%s, revision %d: mark of client %s", house, r.number(), mark.getKey())
                                .isGreaterThan(was);
                    }
                }
                assertThat(changed)
                        .as("%s, revision %d: marks that it changed", house, r.number())
                        .hasSize(1);
                steps.put(r.number(), changed.get(0));
            }
            before = now;
            rest = others;
        }
        return steps;
    }

    private static List<Long> numbers(int most) {
        return IntStream.rangeClosed(1, most).mapToObj(i -> (long) i).toList();
    }

    private static Map<String, Integer> marks(String record) {
        Map<String, Integer> marks = new HashMap<>();
        Matcher m = MARK.matcher(record);
        while (m.find()) {
            marks.put(m.group(1), Integer.parseInt(m.group(2)));
        }
        return marks;
    }
}
