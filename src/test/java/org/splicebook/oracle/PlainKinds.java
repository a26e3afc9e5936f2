package org.splicebook.oracle;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.DeviceKind;
import org.splicebook.record.DeviceKind.Family;
import org.splicebook.record.DeviceKind.Guard;
import org.splicebook.record.DeviceKind.Lever;
import org.splicebook.record.DeviceKind.Link;
import org.splicebook.record.DeviceKind.LoadPoint;
import org.splicebook.record.DeviceKind.Pair;
import org.splicebook.record.DeviceKind.Reversed;
import org.splicebook.record.DeviceKind.Role;
import org.splicebook.record.DeviceKind.Tab;
import org.splicebook.record.DeviceKind.Terminal;
import org.splicebook.record.DeviceKind.When;
import org.splicebook.record.Protection;

/** The few device kinds that random houses are made of, with the terminals of the house file's kinds of the same names. */
final class PlainKinds {
    private PlainKinds() {}

    private static final Map<String, DeviceKind> ALL = Map.ofEntries(
            kind("duplex-receptacle", Family.RECEPTACLE)
                    .hot("top.hot", "bottom.hot")
                    .neutral("top.neutral", "bottom.neutral")
                    .grounded()
                    .tab("hot", "top.hot", "bottom.hot")
                    .tab("neutral", "top.neutral", "bottom.neutral")
                    .load("top", "top.hot", "top.neutral")
                    .load("bottom", "bottom.hot", "bottom.neutral")
                    .entry(),
            kind("luminaire", Family.LUMINAIRE).plain().entry(),
            kind("single-receptacle", Family.RECEPTACLE).plain().entry(),
            kind("appliance-120", Family.APPLIANCE).plain().entry(),
            kind("appliance-240", Family.APPLIANCE)
                    .hot("hot-1", "hot-2")
                    .grounded()
                    .load("", "hot-1", "hot-2")
                    .entry(),
            kind("appliance-120-240", Family.APPLIANCE)
                    .hot("hot-1", "hot-2")
                    .neutral("neutral")
                    .grounded()
                    .threePairs()
                    .entry(),
            kind("single-pole-switch", Family.SWITCH)
                    .contact()
                    .lever("line", "load", "up")
                    .entry(),
            kind("illuminated-switch", Family.SWITCH)
                    .contact()
                    .lever("line", "load", "up")
                    .link("line", "load", When.AS_LOAD)
                    .entry(),
            kind("smart-switch", Family.SWITCH)
                    .contact()
                    .neutral("neutral")
                    .lever("line", "load", "up")
                    .load("own", "line", "neutral")
                    .entry(),
            kind("three-way-switch", Family.SWITCH)
                    .role(Role.SWITCH, "common")
                    .role(Role.TRAVELER, "traveler-1", "traveler-2")
                    .role(Role.GROUND, "ground")
                    .lever("common", "traveler-1", "up")
                    .lever("common", "traveler-2", "down")
                    .entry(),
            kind("four-way-switch", Family.SWITCH)
                    .role(Role.TRAVELER, "a-1", "a-2", "b-1", "b-2")
                    .role(Role.GROUND, "ground")
                    .lever("a-1", "b-1", "up")
                    .lever("a-2", "b-2", "up")
                    .lever("a-1", "b-2", "down")
                    .lever("a-2", "b-1", "down")
                    .entry(),
            kind("switch-and-receptacle", Family.SWITCH)
                    .hot("switch.line", "receptacle.hot")
                    .role(Role.SWITCH, "switch.load")
                    .neutral("receptacle.neutral")
                    .role(Role.GROUND, "ground")
                    .tab("hot", "switch.line", "receptacle.hot")
                    .lever("switch.line", "switch.load", "up")
                    .load("receptacle", "receptacle.hot", "receptacle.neutral")
                    .entry(),
            kind("ground-fault-receptacle", Family.PROTECTIVE)
                    .guarded(true, Protection.GROUND_FAULT)
                    .entry(),
            kind("dual-function-receptacle", Family.PROTECTIVE)
                    .guarded(true, Protection.GROUND_FAULT, Protection.ARC_FAULT)
                    .entry(),
            kind("dead-front", Family.PROTECTIVE)
                    .guarded(false, Protection.GROUND_FAULT)
                    .entry(),
            kind("disconnect-2", Family.DISCONNECT)
                    .role(Role.ANY, "line-1", "load-1", "line-2", "load-2")
                    .lever("line-1", "load-1", "up")
                    .lever("line-2", "load-2", "up")
                    .entry(),
            kind("transformer", Family.TRANSFORMER)
                    .hot("hot")
                    .neutral("neutral")
                    .grounded()
                    .role(Role.SECONDARY, "secondary-1", "secondary-2")
                    .load("", "hot", "neutral")
                    .entry());

    static DeviceKind of(String name) {
        DeviceKind k = ALL.get(name);
        if (k == null) {
            throw new IllegalArgumentException("no kind " + name);
        }
        return k;
    }

    private static Maker kind(String name, Family family) {
        return new Maker(name, family);
    }

    private static final class Maker {
        private final String name;
        private final Family family;
        private final List<Terminal> terminals = new ArrayList<>();
        private final List<Tab> tabs = new ArrayList<>();
        private final List<Link> links = new ArrayList<>();
        private final List<LoadPoint> loads = new ArrayList<>();
        private @Nullable Guard guard;
        private boolean hasLever;

        Maker(String name, Family family) {
            this.name = name;
            this.family = family;
        }

        Maker role(Role role, String... names) {
            for (String n : names) {
                terminals.add(new Terminal(n, role));
            }
            return this;
        }

        Maker hot(String... names) {
            return role(Role.HOT, names);
        }

        Maker neutral(String... names) {
            return role(Role.NEUTRAL, names);
        }

        /** With a metal yoke on the ground terminal. */
        Maker grounded() {
            return role(Role.GROUND, "ground").role(Role.METAL, "yoke").link("ground", "yoke", When.ALWAYS);
        }

        Maker plain() {
            return hot("hot").neutral("neutral").grounded().load("", "hot", "neutral");
        }

        Maker contact() {
            return role(Role.SWITCH, "line", "load").role(Role.GROUND, "ground");
        }

        Maker tab(String tab, String a, String b) {
            tabs.add(new Tab(tab, a, b, true));
            return this;
        }

        Maker link(String a, String b, When when) {
            links.add(new Link(a, b, when, null, Set.of()));
            return this;
        }

        Maker lever(String a, String b, String position) {
            hasLever = true;
            links.add(new Link(a, b, When.LEVER, "lever", Set.of(position)));
            return this;
        }

        Maker load(String load, String a, String b) {
            boolean ground = terminals.stream().anyMatch(t -> t.name().equals("ground"));
            loads.add(new LoadPoint(
                    load,
                    List.of(new Pair(a, b, a.equals("hot-1") ? 240 : 120)),
                    ground && !load.equals("own") ? "ground" : null));
            return this;
        }

        Maker threePairs() {
            loads.add(new LoadPoint(
                    "",
                    List.of(
                            new Pair("hot-1", "hot-2", 240),
                            new Pair("hot-1", "neutral", 120),
                            new Pair("hot-2", "neutral", 120)),
                    "ground"));
            return this;
        }

        Maker guarded(boolean face, Protection... functions) {
            hot("line.hot", "load.hot").neutral("line.neutral", "load.neutral");
            if (face) {
                grounded().load("", "load.hot", "load.neutral");
            } else {
                role(Role.GROUND, "ground");
            }
            link("line.hot", "load.hot", When.GUARDED).link("line.neutral", "load.neutral", When.GUARDED);
            guard = new Guard(
                    Set.of(functions), Set.of("line.hot", "line.neutral"), true, Reversed.FACE_UNPROTECTED, true);
            return this;
        }

        Map.Entry<String, DeviceKind> entry() {
            List<Lever> levers = hasLever ? List.of(new Lever("lever", List.of("up", "down"))) : List.of();
            return Map.entry(
                    name,
                    new DeviceKind(
                            name, name, family, terminals, Map.of(), tabs, levers, links, loads, guard, 2, Map.of(),
                            null));
        }
    }
}
