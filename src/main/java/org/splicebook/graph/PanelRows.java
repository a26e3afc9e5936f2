package org.splicebook.graph;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.Basis;
import org.splicebook.record.Breaker;
import org.splicebook.record.Complete;
import org.splicebook.record.House;
import org.splicebook.record.Joint;
import org.splicebook.record.MainDisconnect;
import org.splicebook.record.Panel;
import org.splicebook.record.Protection;
import org.splicebook.record.Ref;
import org.splicebook.upkeep.DueTests;
import org.splicebook.upkeep.TestKinds;

/** The panels of a house as rows. */
final class PanelRows {
    private final House house;
    private final RowBuilder rows;

    PanelRows(House house, RowBuilder rows) {
        this.house = house;
        this.rows = rows;
    }

    /** Adds a panel with its main, breakers, poles and bars. */
    void add(int root, Panel p) {
        Basis basis = p.about().basisOr(house.basis());
        int n = rows.node("Panel", p.name());
        rows.set(n, "place", p.place()).set(n, "spaces", p.spaces());
        rows.set(n, "amperes", p.rating()).set(n, "bonded", isBonded(p));
        rows.set(n, "breakersComplete", house.isComplete(p, Complete.BREAKERS));
        rows.set(n, "landingsComplete", house.isComplete(p, Complete.LANDINGS));
        rows.about(n, p.about(), basis);
        rows.tie(n, "OF", root);
        if (p.place() != null) {
            rows.tie(n, "AT", rows.node("Place", p.place()));
        }
        bar(p.name(), "n");
        bar(p.name(), "g");
        if (p.main() != null) {
            main(n, p, p.main(), basis);
        }
        p.breakers().values().forEach(b -> breaker(n, p, b, basis));
        p.ties().forEach(group -> opensWith(p, group, "tie"));
        p.pullOuts().values().forEach(group -> opensWith(p, group, "pull-out"));
    }

    /** Adds what supplies a panel, and its landings, once everything else is there. */
    void supplyAndLandings(Panel p) {
        int n = rows.node("Panel", p.name());
        for (String s : p.supply()) {
            rows.tie(n, "SUPPLIED_BY", rows.node(house.sources().containsKey(s) ? "Source" : "Cable", s));
        }
        Basis basis = p.about().basisOr(house.basis());
        for (Joint j : p.joints()) {
            List<Ref> terminals = j.members().stream()
                    .filter(r -> r instanceof Ref.PanelTerminal)
                    .toList();
            List<Ref> landed = j.members().stream()
                    .filter(r -> !(r instanceof Ref.PanelTerminal))
                    .toList();
            if (terminals.isEmpty() || landed.isEmpty()) {
                splice(n, p, j, basis);
                continue;
            }
            for (Ref r : landed) {
                List<Ref> members = new ArrayList<>(terminals);
                members.add(r);
                Joint landing = new Joint(members, j.hold(), j.holders(), j.by(), j.about());
                int joint = RecordedRows.joint(
                        rows, n, p.name(), List.of(r.said()), landing, j.about().basisOr(basis));
                members.forEach(m -> RecordedRows.touches(house, rows, p.name(), m, joint));
            }
        }
    }

    private void bar(String panel, String bar) {
        own(rows, panel, "Bar", bar, bar.equals("n") ? "neutral" : "ground");
    }

    /** Adds that a panel's terminal touches others in a joint: a pole, a bar, a lug; a breaker's neutral terminal is the panel's. */
    static void touches(House house, RowBuilder rows, String panel, String terminal, int joint) {
        Panel p = house.panels().get(panel);
        if (p != null && breakerOf(p, terminal).isPresent()) {
            rows.tie(rows.node("Pole", panel + "." + terminal), "TOUCHES", joint);
        } else if (terminal.equals("n") || terminal.equals("g")) {
            rows.tie(rows.node("Bar", panel + "." + terminal), "TOUCHES", joint);
        } else if (terminal.startsWith("line-")) {
            rows.tie(own(rows, panel, "Lug", terminal, null), "TOUCHES", joint);
        } else {
            rows.tie(rows.node("Panel", panel), "TOUCHES", joint, "terminal", terminal);
        }
    }

    private static int own(RowBuilder rows, String panel, String label, String terminal, @Nullable String function) {
        String name = panel + "." + terminal;
        boolean isNew = !rows.has(label, name);
        int n = rows.node(label, name);
        if (isNew) {
            rows.set(n, "panel", panel).set(n, "function", function);
            rows.tie(n, "IN", rows.node("Panel", panel));
        }
        return n;
    }

    private void splice(int panel, Panel p, Joint j, Basis basis) {
        List<String> said = j.members().stream().map(Ref::said).sorted().toList();
        if (said.isEmpty()) {
            return;
        }
        int joint = RecordedRows.joint(rows, panel, p.name(), said, j, j.about().basisOr(basis));
        j.members().forEach(m -> RecordedRows.touches(house, rows, p.name(), m, joint));
    }

    private void main(int panel, Panel p, MainDisconnect m, Basis basis) {
        int n = rows.node("Main", p.name());
        rows.set(n, "panel", p.name()).set(n, "type", m.type());
        rows.set(n, "poles", m.poles()).set(n, "amperes", m.rating());
        rows.set(n, "protects", m.protects().stream().map(Protection::word).toList());
        rows.set(n, "position", m.position());
        rows.about(n, m.about(), m.about().basisOr(basis));
        rows.tie(n, "IN", panel);
        for (int i = 1; i <= m.poles(); i++) {
            int pole = rows.node("Pole", p.name() + ".main-" + i);
            rows.set(pole, "panel", p.name());
            rows.tie(pole, "PART_OF", n);
        }
    }

    private void breaker(int panel, Panel p, Breaker b, Basis basis) {
        String name = p.name() + "." + b.key();
        int n = rows.node("Breaker", name);
        rows.set(n, "panel", p.name()).set(n, "space", b.key());
        rows.set(n, "type", b.type()).set(n, "poles", b.spaces().size());
        rows.set(n, "amperes", b.rating()).set(n, "position", b.position());
        if (!b.protects().isEmpty()) {
            rows.set(n, "passed", DueTests.lastDone(house, TestKinds.TRIP_BUTTON, name));
        }
        rows.set(n, "protects", b.protects().stream().map(Protection::word).toList());
        rows.set(n, "label", b.label()).set(n, "commonTrip", b.commonTrip());
        rows.set(n, "opensNeutral", b.opensNeutral());
        rows.about(n, b.about(), b.about().basisOr(basis));
        rows.tie(n, "IN", panel);
        for (String space : b.spaces()) {
            int pole = rows.node("Pole", p.name() + "." + space);
            rows.set(pole, "panel", p.name()).set(pole, "breaker", name);
            rows.set(pole, "space", space);
            rows.tie(pole, "PART_OF", n);
        }
    }

    private void opensWith(Panel p, List<String> spaces, String why) {
        List<String> keys = spaces.stream()
                .flatMap(s -> breakerOf(p, s).stream())
                .map(Breaker::key)
                .distinct()
                .toList();
        for (String a : keys) {
            for (String b : keys) {
                if (!a.equals(b)) {
                    rows.tie(
                            rows.node("Breaker", p.name() + "." + a),
                            "OPENS_WITH",
                            rows.node("Breaker", p.name() + "." + b),
                            "why",
                            why);
                }
            }
        }
    }

    private boolean isBonded(Panel p) {
        return p.bonded()
                || house.sources().values().stream().anyMatch(s -> p.name().equals(s.bond()));
    }

    private static Optional<Breaker> breakerOf(Panel p, String space) {
        return p.breakers().values().stream()
                .filter(b -> b.spaces().contains(space))
                .findFirst();
    }
}
