package org.splicebook.wiring;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.splicebook.record.Basis;
import org.splicebook.record.Breaker;
import org.splicebook.record.Panel;
import org.splicebook.record.Source;
import org.splicebook.record.SourceSystem;
import org.splicebook.record.SubBus;

/** The inside of a panel as vertices: lugs, main, buses, poles, bars. */
final class PanelNet {
    private final Net net;
    private final Panel panel;
    private final String name;
    private final Basis basis;
    private final PanelLegs byLeg;
    private final int legs;

    private PanelNet(Net net, Panel panel) {
        this.net = net;
        this.panel = panel;
        this.name = panel.name();
        this.basis = panel.about().basisOr(net.house.basis());
        this.byLeg = PanelLegs.of(net.house.sources(), panel);
        this.legs = byLeg.count();
    }

    static void add(Net net, Panel panel) {
        PanelNet p = new PanelNet(net, panel);
        p.bars();
        p.lugsAndBuses();
        p.supplies();
        p.poles();
        p.subBuses();
        p.exclusions();
    }

    private int terminal(Net.Kind kind, String terminal) {
        int v = net.addIn(name, kind, name + "." + terminal, basis);
        net.byTerminal.put(name + "." + terminal, v);
        return v;
    }

    private int at(String terminal) {
        return Objects.requireNonNull(net.byTerminal.get(name + "." + terminal));
    }

    private void bars() {
        terminal(Net.Kind.NEUTRAL_BAR, "n");
        int g = terminal(Net.Kind.GROUND_BAR, "g");
        int metal = net.addIn(name, Net.Kind.METAL, name, basis);
        net.metal.put(name, metal);
        net.byTerminal.put(name + ".box", metal);
        net.edge(metal, g);
    }

    private void lugsAndBuses() {
        for (int i = 0; i < legs; i++) {
            int lug = terminal(Net.Kind.LUG, "line-" + (i + 1));
            int bus = net.addIn(name, Net.Kind.BUS, name + "." + PanelLegs.letter(i), basis);
            net.byTerminal.put(name + "/bus/" + PanelLegs.letter(i), bus);
            if (panel.main() == null) {
                net.edge(lug, bus);
            } else {
                int main = net.addIn(name, Net.Kind.MAIN_POLE, name + ".main-" + (i + 1), basis);
                net.byTerminal.put(name + ".main-" + (i + 1), main);
                net.edge(lug, main);
                net.edge(main, bus);
            }
        }
    }

    private void supplies() {
        List<String> sources = new ArrayList<>();
        for (String s : panel.supply()) {
            if (net.house.sources().containsKey(s)) {
                sources.add(s);
            }
        }
        if (panel.supply().isEmpty() || net.assumedFed.contains(name)) {
            String unknown = "?";
            SourceSystem system = legs == 1
                    ? SourceSystem.SINGLE_120
                    : legs == 2 ? SourceSystem.SPLIT_PHASE_120_240 : SourceSystem.WYE_120_208;
            if (!net.byTerminal.containsKey(unknown + ".n")) {
                NetBuilder.addSource(net, unknown, system, "", Basis.ASSUMED);
            }
            sources.add(unknown);
        }
        for (String s : sources) {
            Source source = net.house.sources().get(s);
            if (source != null && source.at() != null) {
                continue;
            }
            List<SourceSystem.Pole> poles = source == null
                    ? (legs == 2 ? SourceSystem.SPLIT_PHASE_120_240 : SourceSystem.WYE_120_208).poles()
                    : source.system().poles();
            for (int i = 0; i < Math.min(legs, poles.size()); i++) {
                Integer pole = net.byTerminal.get(s + "." + poles.get(i).terminal());
                if (pole == null) {
                    pole = Objects.requireNonNull(net.byTerminal.get(s + ".l1"));
                }
                int link = net.addIn(name, Net.Kind.SUPPLY_LINK, s + ".supply", basis);
                net.byTerminal.put(name + "/supply/" + s + "/" + i, link);
                net.edge(pole, link);
                net.edge(link, at("line-" + (i + 1)));
            }
            int neutral = Objects.requireNonNull(net.byTerminal.get(s + ".n"));
            if (panel.neutralFuse() == null) {
                net.edge(neutral, at("n"));
            } else {
                int fuse = net.addIn(name, Net.Kind.NEUTRAL_FUSE, name + ".neutral-fuse", basis);
                net.byTerminal.put(name + ".neutral-fuse", fuse);
                net.edge(neutral, fuse);
                net.edge(fuse, at("n"));
            }
            net.edge(Objects.requireNonNull(net.byTerminal.get(s + ".g")), at("g"));
        }
    }

    private void poles() {
        for (Breaker b : panel.breakers().values()) {
            Basis own = b.about().basisOr(basis);
            for (String space : b.spaces()) {
                if (net.byTerminal.containsKey(name + "/pole/" + space)) {
                    continue; // two breakers said in one space: a finding, computed as one
                }
                int pole = net.addIn(name, Net.Kind.POLE, name + "." + space, own);
                int terminal = net.addIn(name, Net.Kind.TERMINAL, name + "." + space, own);
                net.byTerminal.put(name + "/pole/" + space, pole);
                net.poles.put(name + "." + space, pole);
                net.breakerOf.put(pole, name + "." + b.key());
                if (!b.protects().isEmpty()) {
                    net.sensors.set(pole);
                }
                net.byTerminal.put(name + "." + space, terminal);
                net.edge(pole, terminal);
                String subBus = subBusOf(space);
                if (subBus.isEmpty()) {
                    net.edge(pole, Objects.requireNonNull(net.byTerminal.get(name + "/bus/" + byLeg.of(space))));
                }
            }
            if (b.neutralTerminal()
                    && !net.byTerminal.containsKey(name + "." + b.spaces().get(0) + ".neutral")) {
                int link = net.addIn(name, Net.Kind.NEUTRAL_LINK, name + "." + b.key(), own);
                int terminal = terminal(Net.Kind.TERMINAL, b.spaces().get(0) + ".neutral");
                net.byTerminal.put(name + "/neutral/" + b.key(), link);
                if (!b.protects().isEmpty()) {
                    net.sensors.set(link);
                }
                net.edge(link, terminal);
                net.edge(link, at("n"));
            }
        }
    }

    private String subBusOf(String space) {
        for (SubBus s : panel.buses().values()) {
            if (s.spaces().contains(space)) {
                return s.name();
            }
        }
        return "";
    }

    private void subBuses() {
        for (SubBus s : panel.buses().values()) {
            for (int i = 0; i < legs; i++) {
                int bus = net.addIn(name, Net.Kind.BUS, name + "." + s.name() + "." + PanelLegs.letter(i), basis);
                net.byTerminal.put(name + "/bus/" + s.name() + "/" + PanelLegs.letter(i), bus);
                if (s.fedBy() == null) {
                    net.edge(at("line-" + (i + 1)), bus);
                }
            }
            if (s.fedBy() != null) {
                for (String space : s.fedBy().split("\\+")) {
                    Integer terminal = net.byTerminal.get(name + "." + space);
                    Integer bus = net.byTerminal.get(name + "/bus/" + s.name() + "/" + byLeg.of(space));
                    if (terminal != null && bus != null) {
                        net.edge(terminal, bus);
                    }
                }
            }
            for (String space : s.spaces()) {
                Integer pole = net.byTerminal.get(name + "/pole/" + space);
                Integer bus = net.byTerminal.get(name + "/bus/" + s.name() + "/" + byLeg.of(space));
                if (pole != null && bus != null) {
                    net.edge(pole, bus);
                }
            }
        }
    }

    private void exclusions() {
        int count = 0;
        for (List<String> group : panel.exclusive()) {
            int lever = net.addLever(name + ".exclusive-" + ++count, group.size());
            for (int i = 0; i < group.size(); i++) {
                for (int v : members(group.get(i))) {
                    net.onLever(v, lever, 1L << i);
                }
            }
        }
    }

    private List<Integer> members(String member) {
        List<Integer> found = new ArrayList<>();
        for (int i = 0; i < legs; i++) {
            Integer v = net.byTerminal.get(
                    member.equals("main") ? name + ".main-" + (i + 1) : name + "/supply/" + member + "/" + i);
            if (v != null) {
                found.add(v);
            }
        }
        for (String space : member.split("\\+")) {
            Integer v = net.byTerminal.get(name + "/pole/" + space);
            if (v != null) {
                found.add(v);
            }
        }
        return found;
    }
}
