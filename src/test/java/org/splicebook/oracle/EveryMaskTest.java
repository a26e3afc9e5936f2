package org.splicebook.oracle;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.splicebook.record.Box;
import org.splicebook.record.Complete;
import org.splicebook.record.House;
import org.splicebook.record.Joint;
import org.splicebook.record.Panel;
import org.splicebook.wiring.shutoff.ShutOff;
import org.splicebook.wiring.shutoff.Target;

/** No shut-off leaves anything live in the box of a small netlist, whichever of its joints and landings are on record. */
class EveryMaskTest {
    private static final int JOINTS = 6;
    /** Every so many netlists of all 46,000, each with every mask; all of them in the soak. */
    private static final int FEW = 701;

    private static final int SOME = 11;

    @Test
    void noMissInAFewNetlists() {
        assertThat(misses(FEW)).isEmpty();
    }

    @Test
    @Tag("full")
    void noMissInManyNetlists() {
        assertThat(misses(SOME)).isEmpty();
    }

    @Test
    @Tag("soak")
    void noMissInAnyNetlist() {
        assertThat(misses(1)).isEmpty();
    }

    private static List<String> misses(int every) {
        List<House> all = AllNetlists.upToJoints(JOINTS).toList();
        return IntStream.range(0, all.size())
                .filter(i -> i % every == 0)
                .parallel()
                .mapToObj(all::get)
                .flatMap(h -> missesOf(h).stream())
                .limit(20)
                .collect(Collectors.toList());
    }

    private static List<String> missesOf(House truth) {
        String box = truth.boxes().keySet().iterator().next();
        int joints = truth.boxes().get(box).joints().size()
                + truth.panels().values().stream()
                        .mapToInt(p -> p.joints().size())
                        .sum();
        List<String> found = new ArrayList<>();
        for (int mask = 0; mask < 1 << joints; mask++) {
            HalfKnown h = new HalfKnown(truth, masked(truth, mask), box, List.of(), HalfKnown.Hazard.NONE);
            ShutOff s = ShutOff.of(h.record(), h.sightings(), Target.box(box));
            for (String miss : ShutOffMissesTest.misses(0, h, s)) {
                found.add(truth.id() + " mask " + Integer.toBinaryString(mask) + " " + miss);
            }
        }
        return found;
    }

    /** The record with only those joints, box by box and then the panels', whose bit is set. */
    private static House masked(House truth, int mask) {
        int[] bit = {0};
        Map<String, Box> boxes = new LinkedHashMap<>();
        truth.boxes().forEach((n, b) -> {
            List<Joint> kept = kept(b.joints(), mask, bit);
            Set<Complete> complete = EnumSet.allOf(Complete.class);
            if (kept.size() < b.joints().size()) {
                complete.remove(Complete.JOINTS);
            }
            boxes.put(n, b.withJoints(kept, complete));
        });
        Map<String, Panel> panels = new LinkedHashMap<>();
        truth.panels().forEach((n, p) -> {
            List<Joint> kept = kept(p.joints(), mask, bit);
            Set<Complete> complete = EnumSet.allOf(Complete.class);
            if (kept.size() < p.joints().size()) {
                complete.remove(Complete.LANDINGS);
            }
            panels.put(n, p.withJoints(kept, complete));
        });
        return truth.withParts(panels, truth.cables(), boxes);
    }

    private static List<Joint> kept(List<Joint> joints, int mask, int[] bit) {
        return joints.stream().filter(j -> (mask >> bit[0]++ & 1) != 0).toList();
    }
}
