package org.splicebook.wiring.shutoff;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import org.splicebook.wiring.MayNet;
import org.splicebook.wiring.evidence.Bars;
import org.splicebook.wiring.evidence.Exclusions;

/**
 * Recomputes a shut-off with the throws made: as it is, with each wire end lifted in turn, and with all apart. A source that no throw parts
 * from the target is not its matter: the verdict tells of it.
 */
final class Proofs {
    private final MayNet net;
    private final Exclusions tests;
    private final Contents contents;
    private final BitSet thrown;

    Proofs(MayNet net, Exclusions tests, Contents contents, BitSet thrown) {
        this.net = net;
        this.tests = tests;
        this.contents = contents;
        this.thrown = thrown;
    }

    ShutOff.Proof run() {
        List<ShutOff.Proof.Variant> variants = new ArrayList<>();
        variants.add(variant("", new BitSet(), new BitSet()));
        for (int end : contents.lifts) {
            BitSet lifted = new BitSet();
            lifted.set(end);
            variants.add(variant(net.name(end), new BitSet(), lifted));
        }
        if (contents.lifts.isEmpty()) {
            contents.parts.stream().forEach(wire -> {
                BitSet cut = new BitSet();
                cut.set(wire);
                variants.add(variant(net.name(wire), cut, new BitSet()));
            });
        }
        variants.add(variant("*", contents.parts, new BitSet()));
        return new ShutOff.Proof(variants.stream().allMatch(v -> v.by().isEmpty()), variants);
    }

    private ShutOff.Proof.Variant variant(String name, BitSet parted, BitSet lifted) {
        Cut cut = Cut.of(net, tests, contents, parted, lifted, thrown, Bars.held(net, parted, lifted));
        Set<String> by = new TreeSet<>();
        cut.needed.stream().forEach(p -> by.add(net.name(p)));
        return new ShutOff.Proof.Variant(name, List.copyOf(by));
    }
}
