package org.splicebook.oracle;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.splicebook.oracle.Netlist.Kind;
import org.splicebook.oracle.Netlist.Load;
import org.splicebook.oracle.Netlist.Vertex;
import org.splicebook.wiring.evidence.Evidence;

/** Of half-known houses with true sightings: no breaker that feeds a point is told as excluded there, and no contradiction is told. */
class EvidenceMissesTest {
    private static final long FEW = 200;
    private static final long MANY = 3_000;
    /** Positions of all switches that are tried in each house, by chance. */
    private static final int POSITIONS = 24;

    @Test
    void noMissInSomeHouses() {
        assertThat(misses(0, FEW)).isEmpty();
    }

    @Test
    @Tag("full")
    void noMissInManyHouses() {
        assertThat(misses(FEW, FEW + MANY)).isEmpty();
    }

    private static List<String> misses(long from, long to) {
        return LongStream.range(from, to)
                .parallel()
                .mapToObj(EvidenceMissesTest::misses)
                .flatMap(List::stream)
                .limit(20)
                .toList();
    }

    private static List<String> misses(long seed) {
        HalfKnown h = HalfKnown.of(seed);
        Evidence e = Evidence.of(h.record(), h.sightings());
        String at = "seed " + seed + " " + h.hazard() + ": ";
        List<String> out = new ArrayList<>();
        if (!e.conflicts().isEmpty() || !e.everyConflict()) {
            out.add(at + "true sightings and record said to contradict: " + e.conflicts());
        }
        Netlist net = new Netlist(h.truth());
        Map<String, Set<String>> feeding = feeding(net, new Random(seed));
        for (Evidence.PointEvidence p : e.points()) {
            Set<String> truly = feeding.getOrDefault(p.point(), Set.of());
            p.candidates().stream()
                    .filter(c -> c.standing() == Evidence.Standing.EXCLUDED && truly.contains(c.breaker()))
                    .forEach(c -> out.add(at + c.breaker() + " feeds " + p.point() + ", excluded by " + c.sightings()));
        }
        return out;
    }

    /** The breakers that feed each load point and wire end over wires alone, in some positions of the switches. */
    private static Map<String, Set<String>> feeding(Netlist net, Random random) {
        Map<String, Set<String>> by = new LinkedHashMap<>();
        for (int i = 0; i < POSITIONS; i++) {
            int[] position = new int[net.levers.size()];
            for (int l = 0; l < position.length; l++) {
                position[l] = random.nextInt(net.levers.get(l).positions().size());
            }
            World world = new World(net, position, new BitSet());
            for (Vertex pole : net.vertices) {
                if (pole.kind != Kind.POLE || !net.breakers.containsKey(pole.owner)) {
                    continue;
                }
                BitSet fed = fed(net, world, pole.id);
                for (Load l : net.loads) {
                    if (l.pairs().stream().anyMatch(p -> fed.get(p[0]) || fed.get(p[1]))) {
                        by.computeIfAbsent(l.id(), k -> new TreeSet<>()).add(pole.owner);
                    }
                }
                fed.stream()
                        .mapToObj(net.vertices::get)
                        .filter(v -> v.kind == Kind.WIRE_END)
                        .forEach(v ->
                                by.computeIfAbsent(v.name, k -> new TreeSet<>()).add(pole.owner));
            }
        }
        return by;
    }

    private static BitSet fed(Netlist net, World world, int pole) {
        BitSet seen = new BitSet();
        List<Integer> queue = new ArrayList<>(List.of(pole));
        seen.set(pole);
        for (int i = 0; i < queue.size(); i++) {
            int v = queue.get(i);
            if (i > 0 && World.cuts(net.vertices.get(v))) {
                continue;
            }
            for (int u : net.next[v]) {
                Vertex x = net.vertices.get(u);
                boolean ends =
                        x.kind == Kind.POLE || x.kind == Kind.MAIN_POLE || x.kind == Kind.BUS || x.kind == Kind.SOURCE;
                if (!seen.get(u) && !ends && world.conducts(u)) {
                    seen.set(u);
                    queue.add(u);
                }
            }
        }
        return seen;
    }
}
