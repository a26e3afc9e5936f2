package org.splicebook.oracle;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.splicebook.record.CableKind;
import org.splicebook.record.House;
import org.splicebook.record.OvercurrentType;
import org.splicebook.record.Provenance;
import org.splicebook.record.Source;
import org.splicebook.record.SourceKind;
import org.splicebook.record.SourceSystem;

/**
 * Every way to join the wires of one cable from a panel (two breakers and the neutral bar) with the terminals of a few devices in one
 * box: all partitions of wire ends and terminals into joints.
 */
public final class AllNetlists {
    private AllNetlists() {}

    private static final List<List<String>> DEVICES = List.of(
            List.of("luminaire"),
            List.of("luminaire", "single-pole-switch"),
            List.of("luminaire", "luminaire"),
            List.of("appliance-240", "single-pole-switch"),
            List.of("luminaire", "luminaire", "single-pole-switch"),
            List.of("ground-fault-receptacle", "luminaire"));

    private static final List<List<String>> TERMINALS = List.of(
            List.of("d1.hot", "d1.neutral"),
            List.of("d1.hot", "d1.neutral", "d2.line", "d2.load"),
            List.of("d1.hot", "d1.neutral", "d2.hot", "d2.neutral"),
            List.of("d1.hot-1", "d1.hot-2", "d2.line", "d2.load"),
            List.of("d1.hot", "d1.neutral", "d2.hot", "d2.neutral", "d3.line", "d3.load"),
            List.of("d1.line.hot", "d1.line.neutral", "d1.load.hot", "d1.load.neutral", "d2.hot", "d2.neutral"));

    /** {@return every such house of at most that many joints, the three landings counted; breakers on one leg and on two} */
    public static Stream<House> upToJoints(int joints) {
        return IntStream.range(0, DEVICES.size())
                .boxed()
                .flatMap(i -> Stream.of("2", "3").flatMap(second -> {
                    List<String> members = new ArrayList<>(List.of("K1.black", "K1.red", "K1.white"));
                    members.addAll(TERMINALS.get(i));
                    List<int[]> all = new ArrayList<>();
                    partitions(new int[members.size()], 0, 0, joints - 3, all);
                    return all.stream().map(p -> house(DEVICES.get(i), members, p, second));
                }));
    }

    /** Restricted growth: the first member is in joint 0, each next in a joint begun before or the next new one. */
    private static void partitions(int[] joint, int at, int begun, int most, List<int[]> out) {
        if (at == joint.length) {
            int[] size = new int[begun];
            for (int j : joint) {
                size[j]++;
            }
            if (IntStream.of(size).filter(s -> s > 1).count() <= most) {
                out.add(joint.clone());
            }
            return;
        }
        for (int j = 0; j <= begun; j++) {
            joint[at] = j;
            partitions(joint, at + 1, Math.max(begun, j + 1), most, out);
        }
    }

    private static House house(List<String> devices, List<String> members, int[] partition, String second) {
        HouseBuilder h = new HouseBuilder();
        h.sources.put(
                "service",
                new Source(
                        "service",
                        SourceKind.SERVICE,
                        SourceSystem.SPLIT_PHASE_120_240,
                        null,
                        "main",
                        null,
                        null,
                        Provenance.NONE));
        HouseBuilder.OpenPanel main = h.panel("main");
        main.supply.add("service");
        for (String space : List.of("1", second)) {
            main.breakers.put(space, HouseBuilder.breaker(List.of(space), OvercurrentType.BREAKER, Set.of(), false));
        }
        String box = h.box();
        h.cable(CableKind.NM, "main", box, "black", "red", "white");
        h.joint("main", "1", "K1.black");
        h.joint("main", second, "K1.red");
        h.joint("main", "n", "K1.white");
        devices.forEach(d -> h.device(box, d));
        List<List<String>> blocks = new ArrayList<>();
        for (int i = 0; i < partition.length; i++) {
            if (partition[i] == blocks.size()) {
                blocks.add(new ArrayList<>());
            }
            blocks.get(partition[i]).add(members.get(i));
        }
        for (List<String> b : blocks) {
            if (b.size() > 1) {
                h.joint(box, b.toArray(String[]::new)).hold = org.splicebook.record.Joint.Hold.UNSAID;
            }
        }
        return h.build("small-"
                + String.join(
                        "", IntStream.of(partition).mapToObj(Integer::toString).toList()) + "-" + second + "-"
                + devices.size());
    }
}
