package org.splicebook.oracle;

import org.splicebook.record.House;
import org.splicebook.record.Joint;
import org.splicebook.record.Panel;
import org.splicebook.record.Ref;
import org.splicebook.record.Source;
import org.splicebook.record.SubBus;

/** Which leg and bus a space is on: the usual row rule, unless the panel says otherwise. */
final class Legs {
    private Legs() {}

    /** {@return how many legs a panel has: those of its sources and of its lugs that have a wire} */
    static int count(House h, Panel p) {
        int n = 0;
        for (String s : p.supply()) {
            Source source = h.sources().get(s);
            if (source != null) {
                n = Math.max(n, source.system().poles().size());
            }
        }
        for (Joint j : p.joints()) {
            for (Ref m : j.members()) {
                if (m instanceof Ref.PanelTerminal t && t.terminal().startsWith("line-")) {
                    n = Math.max(n, Integer.parseInt(t.terminal().substring(5)));
                }
            }
        }
        return n == 0 ? 2 : n;
    }

    static String leg(House h, Panel p, String space) {
        String said = p.legs().get(space);
        if (said != null) {
            return said;
        }
        int row = (Integer.parseInt(space.replaceAll("[a-z]", "")) + 1) / 2;
        return String.valueOf((char) ('a' + (row - 1) % count(h, p)));
    }

    static String bus(House h, Panel p, String space) {
        for (SubBus s : p.buses().values()) {
            if (s.spaces().contains(space)) {
                return s.name() + "." + leg(h, p, space);
            }
        }
        return leg(h, p, space);
    }
}
