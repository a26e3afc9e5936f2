package org.splicebook.housefile;

import java.util.List;
import org.splicebook.record.Joint;
import org.splicebook.record.Provenance;
import org.splicebook.record.Ref;

/** Writes joints, as short as they were. */
final class JointWriter {
    private JointWriter() {}

    static Node joint(Joint j) {
        if (j.hold() == Joint.Hold.UNSAID && j.by() == null && j.about().equals(Provenance.NONE)) {
            return refs(j.members());
        }
        Tree tree = new Tree().put("join", refs(joined(j)));
        List<String> holders = j.holders().stream().map(Ref::said).toList();
        switch (j.hold()) {
            case DEVICE -> tree.put("at", Tree.oneOrMore(holders));
            case TAIL -> tree.put("tail", Tree.oneOrMore(holders));
            case SPLICE, UNSAID -> {
                boolean splice = j.hold() == Joint.Hold.SPLICE;
                tree.putUnless(JointReader.isSplice(j.members(), j.by()) == splice, "splice", Tree.yesNo(splice));
            }
        }
        return tree.put("by", j.by() == null ? null : j.by().word())
                .about(j.about())
                .node();
    }

    /** The members that must be listed: holders at the end are understood. */
    private static List<Ref> joined(Joint j) {
        int rest = j.members().size() - j.holders().size();
        return rest > 0 && j.members().subList(rest, j.members().size()).equals(j.holders())
                ? j.members().subList(0, rest)
                : j.members();
    }

    private static Node.Items refs(List<Ref> refs) {
        return Tree.list(refs.stream().map(Ref::said).toList());
    }
}
