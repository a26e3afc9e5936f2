package org.splicebook.web;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.splicebook.housefile.Kinds;
import org.splicebook.record.Box;
import org.splicebook.record.Breaker;
import org.splicebook.record.CableKind;
import org.splicebook.record.House;
import org.splicebook.record.Joint;
import org.splicebook.record.Panel;
import org.splicebook.record.Ref;
import org.splicebook.web.view.Input;

/** The forms by which moves are added to a draft; {@link MoveFields} reads what they say. */
final class MoveForms {
    static final String TO = "to";
    static final String NAME = "name";

    /** One form: what it does, in words, and what has to be said. */
    record OneForm(String what, String words, List<Input> inputs, String button) {
        OneForm {
            inputs = List.copyOf(inputs);
        }
    }

    private static final List<Input.Choice> CABLES = Stream.of(CableKind.values())
            .map(k -> new Input.Choice(k.word(), k.word()))
            .toList();
    private static final List<Input.Choice> CONNECTORS = Stream.of(
                    Joint.By.TWIST_ON, Joint.By.LEVER, Joint.By.PUSH_IN, Joint.By.CRIMP)
            .map(by -> new Input.Choice(by.word(), by.word() + " connector"))
            .toList();

    private MoveForms() {}

    /** {@return what may be done in a box or panel; nothing where there is neither of that name} */
    static List<OneForm> in(House house, String name) {
        List<OneForm> all = new ArrayList<>();
        Panel panel = house.panels().get(name);
        if (panel != null) {
            breakers(panel, all);
            all.add(SupplyForms.panel(panel));
            List<Input.Choice> landed = landed(house, panel);
            wires(Input.Kind.LIST, landed, landings(panel, landed), all);
        }
        Box box = house.boxes().get(name);
        if (box != null) {
            List<Input.Choice> ends = BoxPages.choicesOf(house, box);
            wires(Input.Kind.ONE, ends, ends, all);
            devices(box, all);
        }
        return all;
    }

    private static void wires(Input.Kind kind, List<Input.Choice> ends, List<Input.Choice> to, List<OneForm> all) {
        if (ends.size() < 2) {
            return;
        }
        all.add(new OneForm(
                "move",
                "A wire end or terminal leaves its joint and joins another",
                List.of(Input.chosen(kind, "end", "This", "", "", ends), Input.chosen(kind, TO, "Joins", "", "", to)),
                "Move it"));
        all.add(new OneForm(
                "cap", "A wire end leaves its joint and is capped", List.of(list("end", "Wire", ends)), "Cap it"));
        all.add(new OneForm(
                "splice",
                "These leave their joints and make a splice of their own",
                List.of(
                        Input.chosen(Input.Kind.SOME, "ends", "These", "", "two or more", ends),
                        Input.chosen(Input.Kind.LIST, "by", "By", "twist-on", "", CONNECTORS)),
                "Splice them"));
    }

    private static Input list(String name, String label, List<Input.Choice> choices) {
        return Input.chosen(Input.Kind.LIST, name, label, "", "", choices);
    }

    private static Input typed(String name, String label, String meaning) {
        return Input.typed(Input.Kind.TEXT, name, label, "", meaning, true);
    }

    private static Input optional(String name, String label, String meaning) {
        return Input.typed(Input.Kind.TEXT, name, label, "", meaning, false);
    }

    private static void devices(Box box, List<OneForm> all) {
        List<Input.Choice> devices = box.devices().values().stream()
                .map(d -> new Input.Choice(d.name(), d.name() + ", " + d.kind().title()))
                .toList();
        if (!devices.isEmpty()) {
            all.add(new OneForm(
                    "device",
                    "A device is replaced by one of another kind",
                    List.of(
                            list("device", "Device", devices),
                            list("kind", "By", kinds()),
                            optional(
                                    "terminals",
                                    "What was on which terminal goes where",
                                    "bottom.hot=load.hot, bottom.neutral=load.neutral; empty: what fits by name, a plain receptacle's to line")),
                    "Replace it"));
            List<Input.Choice> terminals = box.joints().stream()
                    .filter(j -> j.members().size() > 1)
                    .flatMap(j -> j.members().stream())
                    .filter(m -> m instanceof Ref.DeviceTerminal)
                    .map(Ref::said)
                    .distinct()
                    .map(t -> new Input.Choice(t, t))
                    .toList();
            if (!terminals.isEmpty()) {
                all.add(new OneForm(
                        "pigtail",
                        "What a terminal's screws hold becomes a splice with a pigtail to it",
                        List.of(list("end", "Terminal", terminals)),
                        "Make a pigtail"));
            }
            all.add(new OneForm(
                    "tab",
                    "A tab of a duplex is broken out, or is in again",
                    List.of(
                            list("device", "Device", devices),
                            list(
                                    "tab",
                                    "Tab",
                                    List.of(
                                            new Input.Choice("hot", "hot side"),
                                            new Input.Choice("neutral", "neutral side"))),
                            list(
                                    "is",
                                    "It is",
                                    List.of(new Input.Choice("out", "broken out"), new Input.Choice("in", "in")))),
                    "So it is"));
            all.add(new OneForm(
                    "swap",
                    "Line and load of a protective device are exchanged",
                    List.of(list("device", "Device", devices)),
                    "Exchange them"));
            all.add(new OneForm(
                    "label",
                    "Words are put on a device's face",
                    List.of(
                            list("device", "Device", devices),
                            typed("says", "Words", "for example: no equipment ground")),
                    "Put them on"));
            all.add(new OneForm(
                    "retire-device",
                    "A device is taken off its wires",
                    List.of(list("device", "Device", devices)),
                    "Take it out"));
        }
        all.add(new OneForm(
                "add-device",
                "A device comes in, on no wires yet",
                List.of(typed(NAME, "Name", "for example " + box.name() + "-2"), list("kind", "Kind", kinds())),
                "Put it in"));
    }

    private static List<Input.Choice> kinds() {
        return Kinds.standard().entrySet().stream()
                .map(k -> new Input.Choice(k.getKey(), k.getValue().title()))
                .toList();
    }

    private static void breakers(Panel panel, List<OneForm> all) {
        List<Input.Choice> some = panel.breakers().values().stream()
                .map(b -> new Input.Choice(b.key(), said(b)))
                .toList();
        List<Input> as = List.of(
                optional("rating", "Rating", "20 A; empty: as the first that goes"),
                Input.chosen(
                        Input.Kind.SOME,
                        "protects",
                        "It protects against",
                        "",
                        "beside overcurrent",
                        List.of(
                                new Input.Choice("ground-fault", "ground faults"),
                                new Input.Choice("arc-fault", "arc faults"))));
        if (!some.isEmpty()) {
            List<Input> replace = new ArrayList<>();
            replace.add(Input.chosen(Input.Kind.SOME, "was", "These go", "", "one, or two for a two-pole", some));
            replace.add(optional("is", "In the spaces", "9+11 for one with two poles; empty: where they were"));
            replace.addAll(as);
            all.add(new OneForm(
                    "breaker", "Another breaker comes in the place of one or two", replace, "Replace them"));
            all.add(new OneForm(
                    "retire-breaker", "A breaker is taken out", List.of(list("was", "Breaker", some)), "Take it out"));
            if (some.size() > 1) {
                for (boolean on : List.of(true, false)) {
                    all.add(new OneForm(
                            on ? "tie" : "untie",
                            on ? "Handles are tied" : "A handle tie is taken off",
                            List.of(Input.chosen(Input.Kind.SOME, "spaces", "Of", "", "", some)),
                            on ? "Tie them" : "Take it off"));
                }
            }
        }
        List<Input> added = new ArrayList<>(List.of(typed("is", "Space", "12, or 12+14 for one with two poles")));
        added.addAll(as);
        all.add(new OneForm("add-breaker", "A breaker comes in", added, "Put it in"));
    }

    private static String said(Breaker b) {
        return b.key()
                + (b.rating() == null ? "" : ", " + b.rating().said())
                + (b.label() == null ? "" : ", " + b.label());
    }

    /** The wire ends that have landed in a panel. */
    private static List<Input.Choice> landed(House house, Panel panel) {
        Set<String> ends = new LinkedHashSet<>();
        house.cables().values().forEach(c -> {
            for (int i = 0; i < 2; i++) {
                if (panel.name().equals(c.ends().get(i).boxOrNull())) {
                    int end = i;
                    c.wires().forEach(w -> ends.add(new Ref.WireEnd(c.name(), w.name(), end, false).said()));
                }
            }
        });
        return ends.stream()
                .map(e -> new Input.Choice(
                        e,
                        e
                                + panel.joints().stream()
                                        .filter(j -> j.members().stream()
                                                .anyMatch(m -> m.said().equals(e)))
                                        .findFirst()
                                        .map(j -> with(j, e))
                                        .orElse("")))
                .toList();
    }

    private static String with(Joint j, String end) {
        return j.members().stream()
                .map(Ref::said)
                .filter(m -> !m.equals(end))
                .limit(1)
                .collect(Collectors.joining(", ", ", on ", ""));
    }

    /** Where a wire may land in a panel: bars, breakers, other wires. */
    private static List<Input.Choice> landings(Panel panel, List<Input.Choice> ends) {
        List<Input.Choice> all = new ArrayList<>(
                List.of(new Input.Choice("n", "the neutral bar"), new Input.Choice("g", "the ground bar")));
        panel.breakers().values().forEach(b -> {
            b.spaces()
                    .forEach(s ->
                            all.add(new Input.Choice(s, "breaker " + s + (b.label() == null ? "" : ", " + b.label()))));
            if (b.neutralTerminal()) {
                String neutral = b.spaces().get(0) + ".neutral";
                all.add(new Input.Choice(neutral, "neutral terminal of " + b.key()));
            }
        });
        all.addAll(ends);
        return all;
    }

    /** {@return what comes and goes in the whole house} */
    static List<OneForm> ofHouse(House house) {
        List<OneForm> all = new ArrayList<>();
        List<Input.Choice> others = BoxPages.others(house);
        all.add(new OneForm(
                "add-cable",
                "A cable comes in",
                List.of(
                        typed(NAME, "Name", "a new one"),
                        Input.chosen(Input.Kind.LIST, "kind", "Kind", CableKind.NM.word(), "", CABLES),
                        list("wires", "Wires", BoxPages.choices(BoxPages.WIRES)),
                        list("from", "From", others),
                        list(TO, "To", others),
                        optional("length", "Length", "30 ft, 9 m")),
                "Pull it in"));
        if (!house.cables().isEmpty()) {
            List<Input.Choice> cables =
                    BoxPages.choices(List.copyOf(house.cables().keySet()));
            all.add(new OneForm(
                    "retire-cable",
                    "A cable is taken out, or capped at every end",
                    List.of(list("cable", "Cable", cables)),
                    "Take it out"));
            all.add(new OneForm(
                    "remark",
                    "A wire is marked with another colour at both ends",
                    List.of(
                            list("cable", "Cable", cables),
                            typed("wire", "Wire", "white"),
                            typed("colour", "Colour", "black")),
                    "Mark it"));
        }
        List<Input.Choice> places = new ArrayList<>(List.of(new Input.Choice("", "not said")));
        house.places().values().forEach(p -> places.add(new Input.Choice(p.name(), p.said())));
        all.add(new OneForm(
                "add-box",
                "A box comes in",
                List.of(
                        typed(NAME, "Name", "a new one"),
                        Input.chosen(Input.Kind.LIST, "place", "Where", "", "", places)),
                "Set it"));
        List<Input.Choice> boxes = BoxPages.choices(List.copyOf(house.boxes().keySet()));
        if (!boxes.isEmpty()) {
            all.add(new OneForm(
                    "retire-box", "An empty box is taken out", List.of(list("box", "Box", boxes)), "Take it out"));
        }
        all.addAll(SupplyForms.source(house));
        return all;
    }
}
