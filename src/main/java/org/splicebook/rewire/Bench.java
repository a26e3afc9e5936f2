package org.splicebook.rewire;

import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.splicebook.answer.Nearest;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.record.Box;
import org.splicebook.record.Cable;
import org.splicebook.record.CableEnd;
import org.splicebook.record.Device;
import org.splicebook.record.DeviceKind;
import org.splicebook.record.House;
import org.splicebook.record.Joint;
import org.splicebook.record.Ordered;
import org.splicebook.record.Panel;
import org.splicebook.record.Provenance;
import org.splicebook.record.Ref;
import org.splicebook.record.Source;
import org.splicebook.record.SourceSystem;

/** A house on which moves are being made. Broken moves end in a {@link ProblemException}, the house as it was. */
final class Bench {
    private final Map<String, Panel> panels;
    private final Map<String, Cable> cables;
    private final Map<String, Box> boxes;
    private final Map<String, Source> sources;

    /** Names of things that are gone, or whose terminals mean something else now. */
    private final Set<String> gone = new LinkedHashSet<>();

    private final House house;

    Bench(House house) {
        this.house = house;
        this.panels = new LinkedHashMap<>(house.panels());
        this.cables = new LinkedHashMap<>(house.cables());
        this.boxes = new LinkedHashMap<>(house.boxes());
        this.sources = new LinkedHashMap<>(house.sources());
    }

    Map<String, Panel> panels() {
        return panels;
    }

    Map<String, Cable> cables() {
        return cables;
    }

    Map<String, Box> boxes() {
        return boxes;
    }

    Map<String, Source> sources() {
        return sources;
    }

    void forget(String name) {
        gone.add(name);
    }

    /** {@return the house as it stands now; what was observed of things that are gone is left out} */
    House house() {
        House h = house.withParts(panels, cables, boxes).withSources(sources);
        return gone.isEmpty() ? h : Forgotten.without(h, gone);
    }

    static ProblemException wrong(ProblemKind kind, String message, String cure) {
        return new ProblemException(Problem.error(kind, Where.NOWHERE, message, cure));
    }

    Panel panel(String name) {
        Panel p = panels.get(name);
        if (p == null) {
            throw none("panel", name, panels.keySet());
        }
        return p;
    }

    Cable cable(String name) {
        Cable c = cables.get(name);
        if (c == null) {
            throw none("cable", name, cables.keySet());
        }
        return c;
    }

    Box box(String name) {
        Box b = boxes.get(name);
        if (b == null) {
            throw none("box", name, boxes.keySet());
        }
        return b;
    }

    /** {@return the box that holds a device} */
    Box boxOf(String device) {
        return boxes.values().stream()
                .filter(b -> b.devices().containsKey(device))
                .findFirst()
                .orElseThrow(() -> none(
                        "device",
                        device,
                        boxes.values().stream()
                                .flatMap(b -> b.devices().keySet().stream())
                                .toList()));
    }

    Device device(String name) {
        return Objects.requireNonNull(boxOf(name).devices().get(name));
    }

    static ProblemException none(String what, String name, Collection<String> among) {
        return wrong(ProblemKind.DANGLING_NAME, "There is no " + what + " " + name + ".", Nearest.cure(name, among));
    }

    /** {@return whether a name that may stand before a dot is taken} */
    boolean isTaken(String name) {
        return cables.containsKey(name)
                || panels.containsKey(name)
                || sources.containsKey(name)
                || boxes.values().stream().anyMatch(b -> b.devices().containsKey(name));
    }

    /** Refuses a name that may stand before a dot and is taken. */
    void free(String name) {
        if (isTaken(name)) {
            throw wrong(ProblemKind.DUPLICATE, "The name " + name + " is taken.", "Choose another.");
        }
    }

    List<Joint> joints(String in) {
        return panels.containsKey(in) ? panel(in).joints() : box(in).joints();
    }

    void joints(String in, List<Joint> joints) {
        if (panels.containsKey(in)) {
            panels.put(in, panel(in).withJoints(joints, panel(in).complete()));
        } else {
            boxes.put(in, box(in).withJoints(joints, box(in).complete()));
        }
    }

    /** {@return what is meant by a word in a box or panel, as the house file's joints name it} */
    Ref ref(String in, String word) {
        for (Joint j : joints(in)) {
            for (Ref r : j.members()) {
                if (r.said().equals(word)) {
                    return r;
                }
            }
        }
        if (word.equals("box")) {
            Box here = boxes.get(in);
            Box.Shell shell = here == null ? null : here.shell();
            if (shell != null && shell.material().equals("none")) {
                throw wrong(ProblemKind.NO_SUCH_TERMINAL, in + " is no box, so it has no metal.", "Leave box out.");
            }
            return new Ref.BoxMetal();
        }
        if (panels.containsKey(in) && Landings.names(panel(in)).contains(word)) {
            return new Ref.PanelTerminal(word);
        }
        int dot = word.indexOf('.');
        String name = dot < 0 ? word : word.substring(0, dot);
        String rest = dot < 0 ? "" : word.substring(dot + 1);
        if (cables.containsKey(name)) {
            return wireEnd(in, cable(name), rest);
        }
        Source source = sources.get(name);
        if (source != null && in.equals(source.at())) {
            return new Ref.SourceTerminal(name, terminal(source, rest));
        }
        Box here = boxes.get(in);
        Device d = here == null ? null : here.devices().get(name);
        if (d != null) {
            return new Ref.DeviceTerminal(name, terminal(d, rest));
        }
        throw wrong(
                ProblemKind.DANGLING_NAME,
                in + " holds nothing that is called " + word + ".",
                "Name a wire of a cable that ends there, a terminal of a device in it"
                        + (panels.containsKey(in) ? ", or a terminal of the panel." : ", or box."));
    }

    private Ref wireEnd(String in, Cable c, String rest) {
        String[] parts = rest.split("@", -1);
        List<Integer> here = new ArrayList<>();
        for (int i = 0; i < 2; i++) {
            if (in.equals(c.ends().get(i).boxOrNull())) {
                here.add(i);
            }
        }
        if (c.wires().stream().noneMatch(w -> w.name().equals(parts[0]))) {
            throw none(
                    "wire in " + c.name(),
                    parts[0],
                    c.wires().stream().map(w -> w.name()).toList());
        }
        if (parts.length == 2 && parts[1].matches("[12]")) {
            here.retainAll(List.of(Integer.parseInt(parts[1]) - 1));
        }
        if (here.size() != 1) {
            throw wrong(
                    ProblemKind.CABLE_NOT_HERE,
                    here.isEmpty()
                            ? "The cable " + c.name() + " is not known to end in " + in + "."
                            : "Both ends of the cable " + c.name() + " are in " + in + ".",
                    here.isEmpty()
                            ? "Name a cable that ends there; record the end first where it was only guessed."
                            : "Write " + c.name() + "." + parts[0] + "@1 for its first end, @2 for its second.");
        }
        boolean both = c.ends().stream()
                        .filter(e -> e instanceof CableEnd.At at && at.box().equals(in))
                        .count()
                == 2;
        return new Ref.WireEnd(c.name(), parts[0], here.get(0), both);
    }

    private static String terminal(Source s, String said) {
        List<String> all = new ArrayList<>(
                s.system().poles().stream().map(SourceSystem.Pole::terminal).toList());
        all.addAll(List.of("n", "g"));
        if (!all.contains(said)) {
            throw none("terminal of " + s.name(), said, all);
        }
        return said;
    }

    /** {@return the kind's own name of a terminal} */
    static String terminal(Device d, String said) {
        if (d.kind().findTerminal(said).isPresent()) {
            return said;
        }
        DeviceKind.Alias alias = d.kind().aliases().get(said);
        if (alias != null && (alias.whileTab() == null || Parts.isIn(d, alias.whileTab()))) {
            return alias.terminal();
        }
        throw wrong(
                ProblemKind.NO_SUCH_TERMINAL,
                d.name() + ", a " + d.kind().title() + ", has no terminal " + said + ".",
                "It has: "
                        + String.join(
                                ", ",
                                d.kind().terminals().stream().map(t -> t.name()).toList()) + ".");
    }

    /** Takes a member out of its joint, if it is in one. What only a device's screws held parts. */
    void lift(String in, Ref member) {
        List<Joint> all = new ArrayList<>();
        for (Joint j : joints(in)) {
            if (j.members().contains(member)) {
                all.addAll(Parts.without(j, member));
            } else {
                all.add(j);
            }
        }
        joints(in, all);
    }

    /** Puts members into a joint of their own; they have been lifted before. */
    void join(String in, List<Ref> members, Joint.Hold hold, Joint.@Nullable By by) {
        List<Joint> all = new ArrayList<>(joints(in));
        all.add(new Joint(members, hold, List.of(), by, Provenance.NONE));
        joints(in, all);
        members.forEach(m -> used(m));
    }

    /** A terminal that holds something is no longer said to be unused. */
    void used(Ref r) {
        if (r instanceof Ref.DeviceTerminal t && device(t.device()).unused().contains(t.terminal())) {
            Set<String> unused = new LinkedHashSet<>(device(t.device()).unused());
            unused.remove(t.terminal());
            put(boxOf(t.device()).name(), Parts.withUnused(device(t.device()), unused));
        }
    }

    /** Puts a device into a box, in place of one of its name. */
    void put(String in, Device d) {
        Map<String, Device> devices = new LinkedHashMap<>(box(in).devices());
        devices.put(d.name(), d);
        boxes.put(in, box(in).withDevices(Ordered.map(devices)));
    }
}
