package org.splicebook.oracle;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.splicebook.record.House;
import org.splicebook.wiring.shutoff.ShutOff;
import org.splicebook.wiring.shutoff.ShutOffs;
import org.splicebook.wiring.shutoff.Target;
import org.splicebook.wiring.shutoff.Verdict;

/** No shut-off of a half-known house leaves anything live in the box, in the house as it is. */
class ShutOffMissesTest {
    private static final int BOXES = 4;

    @Test
    void nothingInTheBoxIsLiveWithTheThrowsMade() {
        assertThat(misses(0, 400)).isEmpty();
    }

    @Test
    @Tag("full")
    void nothingInTheBoxIsLiveWithTheThrowsMadeInManyHouses() {
        assertThat(misses(400, 20_000)).isEmpty();
    }

    private static List<String> misses(long from, long to) {
        return LongStream.range(from, to)
                .parallel()
                .mapToObj(ShutOffMissesTest::misses)
                .flatMap(List::stream)
                .limit(20)
                .toList();
    }

    static double share(long seed) {
        return 0.02 + 0.3 * (seed % 7) / 7;
    }

    private static List<String> misses(long seed) {
        House whole = RandomHouses.house(seed, seed % 50 == 49 ? Shape.MIDDLE : Shape.SMALL);
        House partial = Hidden.hide(whole, seed, share(seed));
        ShutOffTruth truth = new ShutOffTruth(whole);
        ShutOffs shutOffs = ShutOffs.of(partial, List.of());
        List<String> boxes = new ArrayList<>(partial.boxes().keySet());
        Random random = new Random(seed);
        List<String> out = new ArrayList<>();
        for (int i = 0; i < BOXES && !boxes.isEmpty(); i++) {
            String box = boxes.remove(random.nextInt(boxes.size()));
            ShutOff s = shutOffs.of(Target.box(box));
            String at = whole.id() + " " + box + ": ";
            if (s.verdict() != Verdict.NONE_KNOWN) {
                Set<String> live = truth.stillLive(box, thrown(s));
                if (!live.isEmpty()) {
                    out.add(at + live + " live with off " + thrown(s) + " " + s.verdict());
                }
            }
            Set<String> excluded =
                    s.excluded().stream().map(ShutOff.Excluded::breaker).collect(Collectors.toCollection(TreeSet::new));
            Set<String> wrong = new TreeSet<>(truth.puttingOff(box));
            wrong.addAll(truth.meeting(box));
            wrong.retainAll(excluded);
            if (!wrong.isEmpty()) {
                out.add(at + wrong + " excluded, " + s.verdict());
            }
        }
        return out;
    }

    static Set<String> thrown(ShutOff s) {
        return s.toThrow().stream().flatMap(t -> t.breakers().stream()).collect(Collectors.toCollection(TreeSet::new));
    }
}
