package org.splicebook.oracle;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.splicebook.wiring.shutoff.ShutOff;
import org.splicebook.wiring.shutoff.Target;
import org.splicebook.wiring.shutoff.Verdict;

/**
 * No shut-off of a half-known house leaves anything live in the box in the house as it is, and no breaker that puts something out in it,
 * or that a walk from it meets, is told as excluded.
 */
public class ShutOffMissesTest {
    private static final long FEW = 300;
    private static final long MANY = 20_000;

    @Test
    void noMissInSomeHouses() {
        assertThat(misses(0, FEW)).isEmpty();
    }

    @Test
    void noMissWhereTheRecordTellsWhatNobodySaw() {
        assertThat(missesOfHearsay(0, FEW)).isEmpty();
    }

    @Test
    @Tag("full")
    void noMissWhereManyRecordsTellWhatNobodySaw() {
        assertThat(missesOfHearsay(FEW, MANY / 10)).isEmpty();
    }

    /** {@return the misses in houses of these seeds of which some is told that nobody saw} */
    static List<String> missesOfHearsay(long from, long to) {
        return LongStream.range(from, to)
                .parallel()
                .mapToObj(seed -> {
                    HalfKnown h = HalfKnown.hearsay(seed);
                    return misses(seed, h, ShutOff.of(h.record(), h.sightings(), Target.box(h.box())));
                })
                .flatMap(List::stream)
                .limit(20)
                .toList();
    }

    /** Or the absence of misses would tell nothing of what tests exclude. */
    @Test
    void inSomeHousesTestsExcludeBreakers() {
        assertThat(LongStream.range(0, MANY)
                        .filter(HalfKnown::isLandingsHidden)
                        .mapToObj(HalfKnown::of)
                        .flatMap(h -> ShutOff.of(h.record(), h.sightings(), Target.box(h.box())).excluded().stream())
                        .filter(e -> !e.tests().isEmpty())
                        .limit(3)
                        .count())
                .isEqualTo(3);
    }

    @Test
    @Tag("full")
    void noMissInManyHouses() {
        assertThat(misses(FEW, FEW + MANY)).isEmpty();
    }

    /** As many as {@code -Dsplicebook.houses} says, from {@code -Dsplicebook.seed} on. */
    @Test
    @Tag("soak")
    void noMissInAMillionHouses() {
        long from = Long.getLong("splicebook.seed", FEW + MANY);
        assertThat(misses(from, from + Long.getLong("splicebook.houses", 1_000_000)))
                .isEmpty();
    }

    /** {@return the misses in the houses of these seeds, at most twenty} */
    public static List<String> misses(long from, long to) {
        return LongStream.range(from, to)
                .parallel()
                .mapToObj(ShutOffMissesTest::misses)
                .flatMap(List::stream)
                .limit(20)
                .toList();
    }

    private static List<String> misses(long seed) {
        HalfKnown h = HalfKnown.of(seed);
        ShutOff s = ShutOff.of(h.record(), h.sightings(), Target.box(h.box()));
        return misses(seed, h, s);
    }

    static List<String> misses(long seed, HalfKnown h, ShutOff s) {
        List<String> out = new ArrayList<>();
        ShutOffTruth truth = new ShutOffTruth(h.truth());
        String at = "seed " + seed + " " + h.box() + " " + h.hazard() + " " + s.verdict() + ": ";
        boolean warned = s.verdict() == Verdict.NONE_KNOWN
                || (h.hazard() == HalfKnown.Hazard.PANEL_NOT_LISTED && s.verdict() == Verdict.UNLESS_UNLISTED);
        Set<String> live = warned ? Set.of() : truth.stillLive(h.box(), thrown(s));
        if (!live.isEmpty()) {
            out.add(at + live + " live with off " + thrown(s));
        }
        Set<String> wrong = new TreeSet<>(truth.puttingOff(h.box()));
        wrong.addAll(truth.meeting(h.box()));
        wrong.retainAll(s.excluded().stream().map(ShutOff.Excluded::breaker).collect(Collectors.toSet()));
        if (!wrong.isEmpty()) {
            out.add(at + wrong + " excluded");
        }
        return out;
    }

    static Set<String> thrown(ShutOff s) {
        return s.toThrow().stream().flatMap(t -> t.breakers().stream()).collect(Collectors.toCollection(TreeSet::new));
    }
}
