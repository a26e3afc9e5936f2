package org.splicebook.oracle;

import static java.util.Map.entry;
import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.splicebook.record.House;
import org.splicebook.wiring.shutoff.ShutOff;
import org.splicebook.wiring.shutoff.Target;

/**
 * How many breakers more a shut-off asks for than it would of the same box in a house that is wholly known: median over random houses, by
 * how much of the house is hidden, whether the box is complete, and whether its wires were each tested. It may never grow unseen.
 */
class ShutOffSizeTest {
    private static final int HOUSES = 120;
    private static final List<Double> HIDDEN = List.of(0.0, 0.05, 0.15, 0.4);

    private static final String COMPLETE_AND_TESTED = "box complete, tested";

    /** The published curve: the median of breakers too many, where five houses or more are of that kind. */
    private static final Map<String, Integer> PUBLISHED = Map.ofEntries(
            entry(" 0 % hidden, box complete, not tested", 0),
            entry(" 0 % hidden, box complete, tested", 0),
            entry(" 5 % hidden, box complete, not tested", 0),
            entry(" 5 % hidden, box complete, tested", 0),
            entry(" 5 % hidden, box not complete, not tested", 1),
            entry(" 5 % hidden, box not complete, tested", 1),
            entry("15 % hidden, box complete, not tested", 2),
            entry("15 % hidden, box complete, tested", 2),
            entry("15 % hidden, box not complete, not tested", 2),
            entry("15 % hidden, box not complete, tested", 2),
            entry("40 % hidden, box complete, not tested", 2),
            entry("40 % hidden, box complete, tested", 2),
            entry("40 % hidden, box not complete, not tested", 3),
            entry("40 % hidden, box not complete, tested", 3),
            entry("box complete, tested", 0));

    @Test
    @Tag("full")
    void shutOffsAskForNoMoreThanPublished() {
        Map<String, Integer> medians = medians();
        if (Boolean.getBoolean("splicebook.print")) {
            medians.forEach((kind, median) -> System.out.println(kind + ": " + median));
        }
        medians.forEach((kind, median) -> {
            assertThat(median).as(kind).isLessThanOrEqualTo(PUBLISHED.getOrDefault(kind, Integer.MAX_VALUE));
        });
        assertThat(medians.get(COMPLETE_AND_TESTED)).isLessThanOrEqualTo(1);
        assertThat(medians.keySet()).containsAll(PUBLISHED.keySet());
    }

    private static Map<String, Integer> medians() {
        Map<String, List<Integer>> extra = Collections.synchronizedMap(new TreeMap<>());
        for (double share : HIDDEN) {
            LongStream.range(0, HOUSES).parallel().forEach(seed -> one(seed, share, extra));
        }
        Map<String, Integer> medians = new TreeMap<>();
        extra.forEach((kind, all) -> {
            Collections.sort(all);
            if (all.size() >= 5) {
                medians.put(kind, all.get(all.size() / 2));
            }
        });
        return medians;
    }

    private static void one(long seed, double share, Map<String, List<Integer>> extra) {
        House truth = RandomHouses.house(seed, Shape.SMALL);
        House record = share == 0 ? truth : Hidden.hide(truth, seed, share);
        List<String> boxes = new ArrayList<>(record.boxes().keySet());
        String box = boxes.get(new Random(seed).nextInt(boxes.size()));
        int needed = size(ShutOff.of(truth, List.of(), Target.box(box)));
        HalfKnown bare = new HalfKnown(truth, record, box, List.of(), HalfKnown.Hazard.NONE);
        for (boolean tested : new boolean[] {false, true}) {
            ShutOff s = ShutOff.of(
                    record,
                    tested
                            ? new TrueSightings(truth, seed)
                                    .everyWireOf(box, record)
                                    .all()
                            : List.of(),
                    Target.box(box));
            String kind = String.format(
                    java.util.Locale.ROOT,
                    "%2.0f %% hidden, box %s, %s",
                    share * 100,
                    share == 0 || bare.isOpenedAndComplete() ? "complete" : "not complete",
                    tested ? "tested" : "not tested");
            synchronized (extra) {
                extra.computeIfAbsent(kind, k -> new ArrayList<>()).add(size(s) - needed);
                if (kind.endsWith(COMPLETE_AND_TESTED)) {
                    extra.computeIfAbsent(COMPLETE_AND_TESTED, k -> new ArrayList<>())
                            .add(size(s) - needed);
                }
            }
        }
    }

    private static int size(ShutOff s) {
        return ShutOffMissesTest.thrown(s).size();
    }
}
