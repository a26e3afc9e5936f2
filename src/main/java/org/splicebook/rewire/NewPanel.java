package org.splicebook.rewire;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.splicebook.problem.ProblemKind;
import org.splicebook.record.Breaker;
import org.splicebook.record.Joint;
import org.splicebook.record.Move;
import org.splicebook.record.Panel;
import org.splicebook.record.Ref;

/** Panels and sources that take the place of others. */
final class NewPanel {
    private NewPanel() {}

    static void hang(Bench b, Move.ReplacePanel m) {
        Panel was = b.panel(m.is().name());
        Panel is = m.is();
        for (String s : is.supply()) {
            if (!b.sources().containsKey(s) && !b.cables().containsKey(s)) {
                List<String> all = new ArrayList<>(b.sources().keySet());
                all.addAll(b.cables().keySet());
                throw Bench.none("source or cable", s, all);
            }
        }
        Set<String> terminals = Landings.names(is);
        Set<String> old = Landings.names(was);
        m.landings().forEach((from, to) -> {
            if (!old.contains(from)) {
                throw Bench.none("terminal of the old " + was.name(), from, old);
            }
            if (!terminals.contains(to)) {
                throw Bench.none("terminal of the new " + is.name(), to, terminals);
            }
        });
        List<Joint> joints = new ArrayList<>();
        for (Joint j : was.joints()) {
            joints.add(moved(j, m.landings(), terminals));
        }
        b.panels().put(is.name(), is.withJoints(joints, is.complete()));
        changed(was, is, m.landings()).forEach(s -> b.forget(is.name() + "." + s));
    }

    private static Joint moved(Joint j, Map<String, String> landings, Set<String> terminals) {
        List<Ref> members = new ArrayList<>();
        for (Ref r : j.members()) {
            members.add(moved(r, landings));
            if (members.get(members.size() - 1) instanceof Ref.PanelTerminal t && !terminals.contains(t.terminal())) {
                String lands = String.join(
                        ", ",
                        j.members().stream()
                                .filter(x -> !x.equals(r))
                                .map(Ref::said)
                                .toList());
                throw Bench.wrong(
                        ProblemKind.CONFLICT,
                        "On " + t.terminal() + " of the old panel lands " + lands + ", and the new one has no such"
                                + " terminal.",
                        "Say in landings where it goes, or cap it first.");
            }
        }
        List<Ref> holders = j.holders().stream().map(r -> moved(r, landings)).toList();
        return new Joint(new ArrayList<>(new LinkedHashSet<>(members)), j.hold(), holders, j.by(), j.about());
    }

    private static Ref moved(Ref r, Map<String, String> landings) {
        return r instanceof Ref.PanelTerminal t
                ? new Ref.PanelTerminal(landings.getOrDefault(t.terminal(), t.terminal()))
                : r;
    }

    /** Breakers and spaces whose name means something else now, or nothing: what was observed of them is no longer of them. */
    private static Set<String> changed(Panel was, Panel is, Map<String, String> landings) {
        Set<String> changed = new LinkedHashSet<>();
        landings.forEach((from, to) -> {
            if (!from.equals(to)) {
                changed.add(from);
                changed.add(to);
            }
        });
        for (Breaker b : was.breakers().values()) {
            Breaker now = is.breakers().get(b.key());
            if (now == null || b.spaces().stream().anyMatch(changed::contains)) {
                changed.add(b.key());
                changed.addAll(b.spaces());
            }
        }
        return changed;
    }

    static void supply(Bench b, Move.ChangeSource m) {
        if (!b.sources().containsKey(m.is().name())) {
            throw Bench.none("source", m.is().name(), b.sources().keySet());
        }
        String bond = m.is().bond();
        if (bond != null) {
            b.panel(bond);
        }
        b.sources().put(m.is().name(), m.is());
    }
}
