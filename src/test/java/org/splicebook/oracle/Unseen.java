package org.splicebook.oracle;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.splicebook.record.Basis;
import org.splicebook.record.Box;
import org.splicebook.record.Cable;
import org.splicebook.record.Complete;
import org.splicebook.record.House;
import org.splicebook.record.Joint;
import org.splicebook.record.Provenance;
import org.splicebook.record.Ref;

/** A record of what nobody saw: some boxes are told from hearsay, wrongly and as if that were all, and so is how some cables run. */
final class Unseen {
    private static final double SHARE = 0.3;

    private final Random random;

    private Unseen(long seed) {
        this.random = new Random(seed * 31 + 5);
    }

    /** {@return the house as it is told; what is told wrong has a basis below seen} */
    static House of(House truth, long seed) {
        Unseen u = new Unseen(seed);
        Map<String, Box> boxes = new LinkedHashMap<>();
        truth.boxes().forEach((n, b) -> boxes.put(n, u.chance() ? u.told(b) : b));
        Map<String, Cable> cables = new LinkedHashMap<>();
        truth.cables()
                .forEach((n, c) -> cables.put(
                        n,
                        u.chance()
                                ? new Cable(
                                        n,
                                        c.kind(),
                                        c.shorthand(),
                                        c.wires(),
                                        c.ends(),
                                        c.through(),
                                        c.length(),
                                        u.hearsay())
                                : c));
        return truth.withParts(truth.panels(), cables, boxes);
    }

    private boolean chance() {
        return random.nextDouble() < SHARE;
    }

    private Provenance hearsay() {
        Basis basis = List.of(Basis.ASSUMED, Basis.LABELLED, Basis.TESTED).get(random.nextInt(3));
        return new Provenance(basis, null, null, null, null);
    }

    /** The wire ends of two joints are told the wrong way round, or one joint is not told at all. */
    private Box told(Box b) {
        List<Joint> joints = new ArrayList<>(b.joints());
        if (joints.size() > 1 && random.nextBoolean()) {
            Joint x = joints.remove(random.nextInt(joints.size()));
            Joint y = joints.remove(random.nextInt(joints.size()));
            joints.add(with(x, y));
            joints.add(with(y, x));
        } else if (!joints.isEmpty()) {
            joints.remove(random.nextInt(joints.size()));
        }
        return new Box(
                b.name(),
                b.place(),
                b.shell(),
                b.cableEntries(),
                b.hidden(),
                b.devices(),
                joints,
                EnumSet.allOf(Complete.class),
                hearsay());
    }

    /** A joint with the wire ends of another. */
    private static Joint with(Joint own, Joint wires) {
        List<Ref> members = new ArrayList<>();
        own.members().stream().filter(m -> !(m instanceof Ref.WireEnd)).forEach(members::add);
        wires.members().stream().filter(m -> m instanceof Ref.WireEnd).forEach(members::add);
        return members.isEmpty() ? own : new Joint(members, Joint.Hold.SPLICE, List.of(), own.by(), Provenance.NONE);
    }
}
