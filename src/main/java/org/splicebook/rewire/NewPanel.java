package org.splicebook.rewire;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.splicebook.problem.ProblemKind;
import org.splicebook.record.Breaker;
import org.splicebook.record.Cable;
import org.splicebook.record.Joint;
import org.splicebook.record.Move;
import org.splicebook.record.Panel;
import org.splicebook.record.Ref;
import org.splicebook.record.Source;

/** Panels, feeders and sources that come, or take the place of others. */
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

    /** A further panel and its feeder: neither is there without the other. */
    static void add(Bench b, Move.AddPanel m) {
        Panel is = m.is();
        Cable feeder = m.feeder();
        b.free(is.name());
        if (b.boxes().containsKey(is.name())) {
            throw Bench.wrong(ProblemKind.DUPLICATE, "There is a box " + is.name() + " already.", "Choose another.");
        }
        boolean endsInIt = feeder.ends().stream().anyMatch(e -> is.name().equals(e.boxOrNull()));
        if (!endsInIt || !is.supply().equals(List.of(feeder.name()))) {
            throw Bench.wrong(
                    ProblemKind.CONFLICT,
                    "The feeder " + feeder.name() + " does not feed the panel " + is.name() + ".",
                    "One of its ends is the new panel, and the panel's supply is " + feeder.name() + ".");
        }
        b.panels().put(is.name(), is.withJoints(List.of(), is.complete()));
        add(b, feeder);
    }

    static void add(Bench b, Cable c) {
        b.free(c.name());
        c.ends().forEach(e -> {
            String box = e.boxOrNull();
            if (box != null && !b.panels().containsKey(box)) {
                b.box(box);
            }
        });
        b.cables().put(c.name(), c);
    }

    static void add(Bench b, Move.AddSource m) {
        b.free(m.is().name());
        String at = m.is().at();
        if (at == null) {
            throw Bench.wrong(
                    ProblemKind.MISSING,
                    "It is not said where the terminals of " + m.is().name() + " are.",
                    "Say the box or panel: at: inlet. What supplies a panel without wires is changed with the panel.");
        }
        if (!b.panels().containsKey(at)) {
            b.box(at);
        }
        bond(b, m.is());
        b.sources().put(m.is().name(), m.is());
    }

    private static void bond(Bench b, Source s) {
        String bond = s.bond();
        if (bond != null) {
            b.panel(bond);
        }
    }

    static void supply(Bench b, Move.ChangeSource m) {
        if (!b.sources().containsKey(m.is().name())) {
            throw Bench.none("source", m.is().name(), b.sources().keySet());
        }
        bond(b, m.is());
        b.sources().put(m.is().name(), m.is());
    }
}
