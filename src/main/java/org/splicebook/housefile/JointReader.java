package org.splicebook.housefile;

import java.util.ArrayList;
import java.util.Collection;
import java.util.EnumSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.record.Joint;
import org.splicebook.record.Panel;
import org.splicebook.record.Provenance;
import org.splicebook.record.Ref;

/** Reads the joints of one box or panel. */
final class JointReader {
    private static final Set<Joint.By> SPLICES =
            EnumSet.of(Joint.By.TWIST_ON, Joint.By.LEVER, Joint.By.CRIMP, Joint.By.SOLDER);

    private final Known known;
    private final Problems problems;
    private final RefReader refs;

    JointReader(Known known, String here, @Nullable Panel panel) {
        this.known = known;
        this.problems = known.problems;
        this.refs = new RefReader(known, here, panel);
    }

    List<Joint> read(List<Node> nodes) {
        List<Joint> joints = new ArrayList<>();
        for (Node n : nodes) {
            if (n instanceof Node.Scalar) {
                problems.error(
                        ProblemKind.BAD_VALUE,
                        n.at(),
                        "Here stands " + n.said() + ".",
                        "A joint is a list, [K1.black, lamp.hot], or a map, {join: [K1.white, K2.white], by: lever}.");
                continue;
            }
            Joint j = n instanceof Node.Items ? plain(n) : held(n);
            if (!j.members().isEmpty()) {
                joints.add(j);
            }
        }
        return joints;
    }

    private Joint plain(Node n) {
        return new Joint(
                List.copyOf(members(n.at(), Values.scalars(n, problems))),
                Joint.Hold.UNSAID,
                List.of(),
                null,
                Provenance.NONE);
    }

    private Joint held(Node n) {
        Fields f = Fields.of(n, Shapes.keys("joint-map"), problems);
        f.need("join", "Name what touches: join: [K1.white, K2.white].");
        Set<Ref> members = f.has("join") ? members(f.at("join"), f.scalars("join")) : new LinkedHashSet<>();
        List<Ref> holders = new ArrayList<>();
        if (f.has("at") && f.has("tail")) {
            problems.error(
                    ProblemKind.BAD_VALUE,
                    f.at("at"),
                    "A joint with both at and tail.",
                    "Keep at where the device's own screws hold it, tail where it is spliced and a pigtail goes to the device.");
        }
        String key = f.has("at") ? "at" : "tail";
        for (Node.Scalar s : f.oneOrMore(key)) {
            Ref r = refs.read(s);
            if (r instanceof Ref.WireEnd) {
                problems.error(
                        ProblemKind.BAD_VALUE,
                        s.at(),
                        s.said() + " is a wire, not a terminal.",
                        "Name a terminal after " + key + ".");
            } else if (r != null && (members.contains(r) || isFree(r, s.at()))) {
                holders.add(r);
                members.add(r);
            }
        }
        Joint.By by = f.word("by", Words.BY);
        Joint.Hold hold = f.has("at")
                ? Joint.Hold.DEVICE
                : f.has("tail")
                        ? Joint.Hold.TAIL
                        : f.yesNo("splice", isSplice(members, by)) ? Joint.Hold.SPLICE : Joint.Hold.UNSAID;
        return new Joint(List.copyOf(members), hold, holders, by, f.about());
    }

    /** {@return whether what is said of a joint, no holder named, means a splice of its own} */
    static boolean isSplice(Collection<Ref> members, Joint.@Nullable By by) {
        return by != null && (SPLICES.contains(by) || members.stream().allMatch(m -> m instanceof Ref.WireEnd));
    }

    private Set<Ref> members(Where at, List<Node.Scalar> scalars) {
        Set<Ref> members = new LinkedHashSet<>();
        for (Node.Scalar s : scalars) {
            Ref r = refs.read(s);
            if (r != null && members.contains(r)) {
                problems.error(
                        ProblemKind.DUPLICATE, s.at(), s.said() + " stands twice in this joint.", "Name it once.");
            } else if (r != null && isFree(r, s.at())) {
                members.add(r);
            }
        }
        if (scalars.isEmpty()) {
            problems.error(ProblemKind.MISSING, at, "A joint with nothing in it.", "Name a wire end or a terminal.");
        }
        return members;
    }

    /** A wire end is in one joint, and so is a terminal of a device; bars, lugs and metal may hold many. */
    private boolean isFree(Ref r, Where at) {
        if (!(r instanceof Ref.WireEnd) && !(r instanceof Ref.DeviceTerminal)) {
            return true;
        }
        Where before = known.joined.putIfAbsent(r, at);
        if (before == null) {
            return true;
        }
        problems.error(
                ProblemKind.IN_TWO_JOINTS,
                at,
                r.said() + " is in two joints.",
                "It stands in line " + before.line() + ", column " + before.column()
                        + " already. What touches it belongs in one joint.");
        return false;
    }
}
