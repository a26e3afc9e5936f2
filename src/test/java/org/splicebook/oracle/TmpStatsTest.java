package org.splicebook.oracle;

import java.util.*;
import org.junit.jupiter.api.Test;
import org.splicebook.record.House;
import org.splicebook.wiring.shutoff.*;

class TmpStatsTest {
    @Test
    void stats() {
        Map<String, Integer> verdicts = new TreeMap<>();
        Map<Integer, List<Integer>> extra = new TreeMap<>();
        int caught = 0, tried = 0;
        long tShut = 0, tTruth = 0, tBuild = 0;
        for (long seed = 0; seed < 350; seed++) {
            House whole = RandomHouses.house(seed, Shape.SMALL);
            long t0 = System.nanoTime();
            House partial = Hidden.hide(whole, seed, ShutOffMissesTest.share(seed));
            ShutOffTruth truth = new ShutOffTruth(whole);
            tBuild += System.nanoTime() - t0;
            t0 = System.nanoTime();
            ShutOffs s = ShutOffs.of(partial, List.of());
            ShutOffs w = ShutOffs.of(whole, List.of());
            tShut += System.nanoTime() - t0;
            int n = 0;
            for (String box : partial.boxes().keySet()) {
                if (n++ > 4) break;
                t0 = System.nanoTime();
                ShutOff o = s.of(Target.box(box));
                tShut += System.nanoTime() - t0;
                verdicts.merge(o.verdict().name(), 1, Integer::sum);
                Set<String> th = ShutOffMissesTest.thrown(o);
                int e = th.size()
                        - ShutOffMissesTest.thrown(w.of(Target.box(box))).size();
                extra.computeIfAbsent((int) (seed % 7), k -> new ArrayList<>()).add(e);
                t0 = System.nanoTime();
                truth.stillLive(box, th);
                truth.puttingOff(box);
                truth.meeting(box);
                tTruth += System.nanoTime() - t0;
                if (!th.isEmpty() && o.verdict() != Verdict.NONE_KNOWN && e <= 0) {
                    tried++;
                    Set<String> less = new TreeSet<>(th);
                    less.remove(less.iterator().next());
                    if (!truth.stillLive(box, less).isEmpty()) caught++;
                }
            }
        }
        System.out.println(verdicts + " one throw less caught " + caught + " of " + tried);
        extra.forEach((k, l) -> {
            Collections.sort(l);
            System.out.println(k + " share " + ShutOffMissesTest.share(k) + " median " + l.get(l.size() / 2) + " p25 "
                    + l.get(l.size() / 4) + " p75 " + l.get(l.size() * 3 / 4) + " min " + l.get(0) + " max "
                    + l.get(l.size() - 1));
        });
        System.out.println("build " + tBuild / 1e9 + " shut " + tShut / 1e9 + " truth " + tTruth / 1e9);
    }
}
