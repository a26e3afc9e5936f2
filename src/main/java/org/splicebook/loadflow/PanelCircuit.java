package org.splicebook.loadflow;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.Breaker;
import org.splicebook.record.MainDisconnect;
import org.splicebook.record.Panel;
import org.splicebook.record.Quantity;
import org.splicebook.record.Source;
import org.splicebook.record.SourceSystem;
import org.splicebook.record.SubBus;
import org.splicebook.wiring.PanelLegs;

/** The inside of a panel: lugs, main, buses, poles, bars, bonds. */
final class PanelCircuit {
    private final CircuitBuilder b;
    private final Panel panel;
    private final String name;
    private final PanelLegs byLeg;
    private final int legs;
    private final double link = Tables.number("contact", "link");

    private PanelCircuit(CircuitBuilder b, Panel panel) {
        this.b = b;
        this.panel = panel;
        this.name = panel.name();
        this.byLeg = PanelLegs.of(b.house.sources(), panel);
        this.legs = byLeg.count();
    }

    static void add(CircuitBuilder b, Panel panel, SourceCircuit sources, boolean assumedFed) {
        PanelCircuit p = new PanelCircuit(b, panel);
        p.bars();
        p.lugsAndBuses();
        p.supplies(sources, assumedFed);
        Map<String, List<Integer>> poles = p.poles();
        p.subBuses();
        p.bond();
        p.exclusions(poles);
    }

    private int node(String terminal) {
        return b.node(name + "." + terminal);
    }

    private int link(String said, int from, int to) {
        return b.branch(said, Branch.Kind.LINK, from, to, null, link);
    }

    private void bars() {
        b.bar(name + ".n");
        link(name + ".box", b.bar(name + ".g"), node("box"));
    }

    private void lugsAndBuses() {
        MainDisconnect main = panel.main();
        List<Integer> through = new ArrayList<>();
        for (int i = 0; i < legs; i++) {
            int lug = b.bar(name + ".line-" + (i + 1));
            int bus = b.bar(name + "." + PanelLegs.letter(i));
            if (main == null) {
                link(name + ".line-" + (i + 1), lug, bus);
            } else {
                Gate gate = new Gate(name + ".main", name + ".main-" + (i + 1), Set.of());
                through.add(b.branch(
                        name + ".main-" + (i + 1), Branch.Kind.CONTACT, lug, bus, gate, poleOhms(main.rating())));
            }
        }
        if (main != null) {
            if (main.position() != Breaker.Position.ON) {
                b.openAsFound.add(name + ".main");
            }
            if (!main.protects().isEmpty()) {
                b.sensors.add(new Sensor(name + ".main", main.protects(), through));
            }
        }
    }

    static double poleOhms(@Nullable Quantity rating) {
        double amperes = rating == null ? Tables.number("breaker", "unrated-amperes") : rating.base();
        return Tables.number("breaker", "watts-at-rating") / (amperes * amperes);
    }

    private void supplies(SourceCircuit sources, boolean assumedFed) {
        List<String> from = new ArrayList<>();
        for (String s : panel.supply()) {
            Source source = b.source(s);
            if (source != null && source.at() == null) {
                from.add(s);
            }
        }
        if (panel.supply().isEmpty() || assumedFed) {
            sources.addUnknown(
                    panel,
                    legs == 1
                            ? SourceSystem.SINGLE_120
                            : legs == 2 ? SourceSystem.SPLIT_PHASE_120_240 : SourceSystem.WYE_120_208);
            from.add("?");
        }
        for (String s : from) {
            supply(s);
        }
    }

    private void supply(String s) {
        CircuitSource source =
                b.sources.stream().filter(x -> x.name().equals(s)).findFirst().orElseThrow();
        List<SourceSystem.Pole> poles = source.system().poles();
        for (int i = 0; i < Math.min(legs, poles.size()); i++) {
            String said = name + "/" + s + "/" + (i + 1);
            Gate gate = panel.exclusive().stream().anyMatch(g -> g.contains(s))
                    ? new Gate(name + "/" + s, null, Set.of())
                    : null;
            b.branch(
                    said,
                    Branch.Kind.LINK,
                    b.at(s + "." + poles.get(i).terminal()),
                    node("line-" + (i + 1)),
                    gate,
                    CircuitBuilder.arm());
        }
        Quantity fuse = panel.neutralFuse();
        b.branch(
                name + "/" + s + "/n",
                fuse == null ? Branch.Kind.LINK : Branch.Kind.CONTACT,
                b.at(s + ".n"),
                node("n"),
                fuse == null ? null : new Gate(name + ".neutral-fuse", null, Set.of()),
                fuse == null ? CircuitBuilder.arm() : poleOhms(fuse));
        b.branch(name + "/" + s + "/g", Branch.Kind.LINK, b.at(s + ".g"), node("g"), null, CircuitBuilder.arm());
    }

    private Map<String, List<Integer>> poles() {
        Map<String, List<Integer>> all = new LinkedHashMap<>();
        for (Breaker br : panel.breakers().values()) {
            String key = name + "." + br.key();
            List<Integer> through = new ArrayList<>();
            for (String space : br.spaces()) {
                String said = name + "." + space;
                if (b.branchByName.containsKey(said)) {
                    continue; // two breakers said in one space: a finding, computed as one
                }
                through.add(b.branch(
                        said,
                        Branch.Kind.CONTACT,
                        b.bar(name + "." + busOf(space)),
                        b.node(said),
                        new Gate(key, said, Set.of()),
                        poleOhms(br.rating())));
            }
            all.put(br.key(), List.copyOf(through));
            neutral(br, key, through);
            if (br.position() != Breaker.Position.ON) {
                b.openAsFound.add(key);
            }
            if (!br.protects().isEmpty()) {
                b.sensors.add(new Sensor(key, br.protects(), through));
            }
        }
        return all;
    }

    private void neutral(Breaker br, String key, List<Integer> through) {
        String said = name + "." + br.spaces().get(0) + ".neutral";
        if (br.neutralTerminal() && !b.branchByName.containsKey(said)) {
            boolean opens = Boolean.TRUE.equals(br.opensNeutral());
            through.add(b.branch(
                    said,
                    opens ? Branch.Kind.CONTACT : Branch.Kind.LINK,
                    node("n"),
                    b.node(said),
                    opens ? new Gate(key, null, Set.of()) : null,
                    Tables.number("contact", "protective")));
        }
    }

    /** The bus of a space: of its sub-bus, if it is on one, else of the panel. */
    private String busOf(String space) {
        for (SubBus s : panel.buses().values()) {
            if (s.spaces().contains(space)) {
                return s.name() + "." + byLeg.of(space);
            }
        }
        return byLeg.of(space);
    }

    private void subBuses() {
        for (SubBus s : panel.buses().values()) {
            if (s.fedBy() == null) {
                for (int i = 0; i < legs; i++) {
                    String bus = s.name() + "." + PanelLegs.letter(i);
                    link(name + "." + bus, node("line-" + (i + 1)), b.bar(name + "." + bus));
                }
                continue;
            }
            for (String space : s.fedBy().split("\\+")) {
                Integer terminal = b.nodeByName.get(name + "." + space);
                if (terminal != null) {
                    String bus = s.name() + "." + byLeg.of(space);
                    link(name + "." + bus, terminal, b.bar(name + "." + bus));
                }
            }
        }
    }

    private void bond() {
        boolean main = b.house.sources().values().stream().anyMatch(s -> name.equals(s.bond()));
        if (main || panel.bonded()) {
            b.branch(name + ".bond", Branch.Kind.BOND, node("n"), node("g"), null, Tables.number("contact", "bar"));
        }
        Quantity electrode = panel.electrode();
        b.branch(
                name + ".electrode",
                Branch.Kind.EARTH,
                node("g"),
                b.at(Circuit.EARTH),
                new Gate(name + ".electrode", null, Set.of()),
                electrode == null ? Tables.number("silent", "electrode-ohms") : electrode.base());
        if (electrode == null) {
            b.openAsFound.add(name + ".electrode");
            b.assume(name, "no grounding electrode recorded, earth left out");
        }
    }

    /** Of a group of which one may be closed, the first that was found closed is; the others are open. */
    private void exclusions(Map<String, List<Integer>> poles) {
        for (List<String> group : panel.exclusive()) {
            boolean taken = false;
            for (String member : group) {
                String gate = b.source(member) != null ? name + "/" + member : name + "." + member;
                boolean exists = member.equals("main") || poles.containsKey(member) || b.source(member) != null;
                if (exists && !b.openAsFound.contains(gate)) {
                    if (taken) {
                        b.openAsFound.add(gate);
                        b.assume(
                                gate, "taken as open, since only one of " + Objects.toString(group) + " may be closed");
                    }
                    taken = true;
                }
            }
        }
    }
}
