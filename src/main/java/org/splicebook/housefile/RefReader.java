package org.splicebook.housefile;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.splicebook.problem.ProblemKind;
import org.splicebook.record.Box;
import org.splicebook.record.Cable;
import org.splicebook.record.CableEnd;
import org.splicebook.record.Device;
import org.splicebook.record.DeviceKind;
import org.splicebook.record.Panel;
import org.splicebook.record.Ref;
import org.splicebook.record.Source;

/** Finds what a member of a joint is: a wire end, a terminal, the metal of the box. */
final class RefReader {
    private final Known known;
    private final Problems problems;
    private final String here;
    private final @Nullable PanelTerminals panel;

    /**
     * Resolves names in one box or panel.
     *
     * @param here its name
     * @param panel the panel, where it is one
     */
    RefReader(Known known, String here, @Nullable Panel panel) {
        this.known = known;
        this.problems = known.problems;
        this.here = here;
        this.panel = panel == null ? null : new PanelTerminals(panel);
    }

    /** {@return what is meant, or null after a problem, or where what is meant is itself broken} */
    @Nullable
    Ref read(Node.Scalar s) {
        String text = s.text();
        if (text.equals("box")) {
            Box box = known.boxes.get(here);
            if (box != null && box.shell() != null && box.shell().material().equals(BoxReader.NONE)) {
                problems.error(
                        ProblemKind.NO_SUCH_TERMINAL,
                        s.at(),
                        here + " is no box, so it has no metal.",
                        "Leave box out.");
                return null;
            }
            return new Ref.BoxMetal();
        }
        if (panel != null && panel.looksLikeOne(text)) {
            return panel.check(text, s.at(), problems) ? new Ref.PanelTerminal(text) : null;
        }
        int dot = text.indexOf('.');
        String name = dot < 0 ? text : text.substring(0, dot);
        String rest = dot < 0 ? "" : text.substring(dot + 1);
        if (known.boxOfDevice.containsKey(name)) {
            return device(s, name, rest);
        }
        if (known.cableNames.contains(name)) {
            return wire(s, name, rest);
        }
        if (known.sourceNames.contains(name)) {
            return source(s, name, rest);
        }
        problems.error(
                ProblemKind.DANGLING_NAME,
                s.at(),
                "There is no cable, device or source " + Said.quoted(name) + ".",
                () -> Nearest.to(name, known.namesBeforeDot())
                        .map(n -> "Did you mean " + n + (dot < 0 ? "" : "." + rest) + "?")
                        .orElse(
                                panel == null
                                        ? "Name a wire (cable.wire), a terminal (device.terminal) or box."
                                        : "Name a wire (cable.wire) or a terminal of the panel: "
                                                + Said.list(panel.names()) + "."));
        return null;
    }

    private @Nullable Ref device(Node.Scalar s, String name, String terminal) {
        String box = known.boxOfDevice.get(name);
        if (!here.equals(box)) {
            problems.error(
                    ProblemKind.DANGLING_NAME,
                    s.at(),
                    "The device " + name + " is not in " + here + "; it is in " + box + ".",
                    "Write this joint there, or name a device of " + here + ".");
            return null;
        }
        Device device = known.devices.get(name);
        if (device == null) {
            return null;
        }
        DeviceKind kind = device.kind();
        String own = Terminals.resolve(kind, terminal);
        if (own == null) {
            Terminals.lacking(name, kind, terminal, s.at(), problems);
            return null;
        }
        if (!Terminals.isPlainEnough(device, terminal, s.at(), problems)) {
            return null;
        }
        if (device.unused().contains(own)) {
            problems.error(
                    ProblemKind.IN_TWO_JOINTS,
                    s.at(),
                    name + "." + own + " is said to be unused.",
                    "Take it out of this joint, or out of unused.");
        }
        DeviceKind.Alias alias = own.equals(terminal) ? null : kind.aliases().get(terminal);
        if (alias != null && alias.whileTab() != null) {
            known.tabsIn.computeIfAbsent(name, n -> new LinkedHashSet<>()).add(alias.whileTab());
        }
        return new Ref.DeviceTerminal(name, own);
    }

    private @Nullable Ref wire(Node.Scalar s, String name, String rest) {
        Cable cable = known.cables.get(name);
        if (cable == null) {
            return null;
        }
        int sign = rest.indexOf('@');
        String wire = sign < 0 ? rest : rest.substring(0, sign);
        String end = sign < 0 ? "" : rest.substring(sign + 1);
        Set<String> wires = known.wiresOf(cable);
        if (!wires.contains(wire)) {
            problems.error(
                    ProblemKind.DANGLING_NAME,
                    s.at(),
                    "The cable " + name + " has no wire " + Said.quoted(wire) + ".",
                    () -> Nearest.cure(wire, wires, "wires"));
            return null;
        }
        if (sign >= 0 && !end.equals("1") && !end.equals("2")) {
            problems.error(
                    ProblemKind.BAD_NAME,
                    s.at(),
                    s.said() + " names no end of a cable.",
                    "Write " + name + "." + wire + "@1 for its first end, @2 for its second.");
            return null;
        }
        List<Integer> possible = new ArrayList<>();
        for (int i = 0; i < 2; i++) {
            if (PanelReader.mayBeIn(cable.ends().get(i), here)) {
                possible.add(i);
            }
        }
        Integer chosen = choose(s, cable, wire, end, possible);
        if (chosen == null) {
            return null;
        }
        String found = known.endFound.putIfAbsent(name + "@" + chosen, here);
        if (found != null && !found.equals(here)) {
            notHere(
                    s,
                    "That end of the cable " + name + " was joined in " + found + " already, and is named here in "
                            + here + ".",
                    "An end is in one box: set it to that box.");
            return null;
        }
        return new Ref.WireEnd(name, wire, chosen, !chosen.equals(understood(cable, possible)));
    }

    private @Nullable Integer choose(Node.Scalar s, Cable cable, String wire, String end, List<Integer> possible) {
        String name = cable.name();
        if (possible.isEmpty()) {
            notHere(
                    s,
                    "The cable " + name + " does not enter " + here + ".",
                    cable.through().contains(here)
                            ? "It passes through uncut; a cable that is cut here is two cables."
                            : "Set one of its ends to " + here + ", or name a cable that enters it.");
            return null;
        }
        if (end.isEmpty()) {
            Integer one = understood(cable, possible);
            if (one == null) {
                problems.error(
                        ProblemKind.MISSING,
                        s.at(),
                        "Both ends of the cable " + name + " may be in " + here + ", and " + s.said()
                                + " does not say which.",
                        "Write " + name + "." + wire + "@1 for its first end, @2 for its second.");
            }
            return one;
        }
        int said = Integer.parseInt(end) - 1;
        if (!possible.contains(said)) {
            notHere(
                    s,
                    "End " + end + " of the cable " + name + " is not in " + here + ".",
                    "Its other end is: write " + name + "." + wire + ".");
            return null;
        }
        return said;
    }

    /** The end that is meant when none is said: the only one that may be here, or the only one known to be. */
    private static @Nullable Integer understood(Cable cable, List<Integer> possible) {
        if (possible.size() == 1) {
            return possible.get(0);
        }
        List<Integer> known = possible.stream()
                .filter(i -> cable.ends().get(i) instanceof CableEnd.At)
                .toList();
        return known.size() == 1 ? known.get(0) : null;
    }

    private void notHere(Node.Scalar s, String message, String cure) {
        problems.error(ProblemKind.CABLE_NOT_HERE, s.at(), message, cure);
    }

    private @Nullable Ref source(Node.Scalar s, String name, String terminal) {
        Source source = known.sources.get(name);
        if (source == null) {
            return null;
        }
        if (!here.equals(source.at())) {
            problems.error(
                    ProblemKind.DANGLING_NAME,
                    s.at(),
                    "The source " + name + " is not at " + here + ".",
                    "Give it at: " + here + (panel == null ? "." : ", or name it in the panel's supply."));
            return null;
        }
        Set<String> terminals = sourceTerminals(source);
        if (!terminals.contains(terminal)) {
            problems.error(
                    ProblemKind.NO_SUCH_TERMINAL,
                    s.at(),
                    "The source " + name + " has no terminal " + Said.quoted(terminal) + ".",
                    "It has: " + Said.list(terminals) + ".");
            return null;
        }
        return new Ref.SourceTerminal(name, terminal);
    }

    static Set<String> sourceTerminals(Source source) {
        Set<String> terminals = new LinkedHashSet<>();
        source.system().poles().forEach(p -> terminals.add(p.terminal()));
        terminals.add("n");
        terminals.add("g");
        return terminals;
    }
}
