package org.splicebook.loadflow;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.Deque;
import java.util.List;

/** The connections over which neutrals come home: what hangs together with a neutral bar without a load, a pole or a bond between. */
final class NeutralSide {
    private NeutralSide() {}

    /** {@return its connections, splices and landings, and the neutrals of the services, as branches} */
    static List<Integer> connections(Solution s) {
        List<Branch> branches = s.circuit().branches();
        List<List<Integer>> at = new ArrayList<>();
        s.circuit().nodes().forEach(n -> at.add(new ArrayList<>(2)));
        for (int i = 0; i < branches.size(); i++) {
            Branch b = branches.get(i);
            if (s.isClosed(i) && !Trace.isPole(b) && conducts(b)) {
                at.get(b.from()).add(i);
                at.get(b.to()).add(i);
            }
        }
        BitSet seen = new BitSet();
        BitSet through = new BitSet();
        Deque<Integer> open = new ArrayDeque<>();
        for (String panel : s.circuit().house().panels().keySet()) {
            Integer bar = s.circuit().findNode(panel + ".n");
            if (bar != null) {
                seen.set(bar);
                open.add(bar);
            }
        }
        while (!open.isEmpty()) {
            int v = open.remove();
            for (int i : at.get(v)) {
                Branch b = branches.get(i);
                int other = b.from() == v ? b.to() : b.from();
                if (isGroundBar(s, other)) {
                    continue;
                }
                through.set(i);
                if (!seen.get(other)) {
                    seen.set(other);
                    open.add(other);
                }
            }
        }
        return through.stream()
                .filter(i -> branches.get(i).kind() == Branch.Kind.ARM
                        || branches.get(i).kind() == Branch.Kind.DROP)
                .boxed()
                .toList();
    }

    private static boolean conducts(Branch b) {
        return switch (b.kind()) {
            case WIRE, ARM, LINK, CONTACT, DROP -> true;
            case BOND, WINDING, EARTH, LOAD, FAULT -> false;
        };
    }

    private static boolean isGroundBar(Solution s, int node) {
        return s.circuit().isBar(node) && s.circuit().nodes().get(node).endsWith(".g");
    }
}
