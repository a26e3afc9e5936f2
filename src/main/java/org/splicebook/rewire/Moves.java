package org.splicebook.rewire;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Predicate;
import java.util.function.UnaryOperator;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.problem.Where;
import org.splicebook.record.Box;
import org.splicebook.record.Cable;
import org.splicebook.record.CableEnd;
import org.splicebook.record.Device;
import org.splicebook.record.House;
import org.splicebook.record.Joint;
import org.splicebook.record.Move;
import org.splicebook.record.Panel;
import org.splicebook.record.Provenance;
import org.splicebook.record.Ref;
import org.splicebook.record.Wire;

/** Makes moves on a house: pure, the house given is not altered. */
public final class Moves {
    private Moves() {}

    /** {@return the house after one move, or what is wrong with the move} */
    public static Result<House> apply(House house, Move move) {
        return apply(house, List.of(move));
    }

    /** {@return the house after all moves, in order; or what is wrong with the first that cannot be made, by its number from 1} */
    public static Result<House> apply(House house, List<Move> moves) {
        Bench bench = new Bench(house);
        for (int i = 0; i < moves.size(); i++) {
            try {
                make(bench, moves.get(i));
            } catch (ProblemException e) {
                String path = "moves[" + (i + 1) + "]";
                int number = i + 1;
                return new Result.Failed<>(e.problems().stream()
                        .map(p -> Problem.error(
                                p.kind(),
                                Where.field(path
                                        + (p.where().path().isEmpty()
                                                ? ""
                                                : "." + p.where().path())),
                                "Move " + number + ": " + p.message(),
                                p.cure()))
                        .toList());
            }
        }
        return Result.ok(bench.house());
    }

    private static void make(Bench b, Move move) {
        if (move instanceof Move.Shift m) {
            shift(b, m);
        } else if (move instanceof Move.Cap m) {
            Ref end = movable(b, m.in(), m.end());
            b.lift(m.in(), end);
            b.join(m.in(), List.of(end), Joint.Hold.UNSAID, null);
        } else if (move instanceof Move.Splice m) {
            splice(b, m);
        } else if (move instanceof Move.Pigtail m) {
            pigtail(b, m);
        } else if (move instanceof Move.SetTab m) {
            tab(b, m);
        } else if (move instanceof Move.ChangeKind m) {
            kind(b, m);
        } else if (move instanceof Move.SwapLineAndLoad m) {
            swap(b, m);
        } else if (move instanceof Move.ChangeBreaker m) {
            Panel p = b.panel(m.panel());
            b.panels().put(p.name(), Landings.change(p, m));
            m.was().forEach(key -> b.forget(p.name() + "." + key));
            m.was().forEach(key -> List.of(key.split("\\+")).forEach(s -> b.forget(p.name() + "." + s)));
        } else if (move instanceof Move.ReplacePanel m) {
            NewPanel.hang(b, m);
        } else if (move instanceof Move.AddPanel m) {
            NewPanel.add(b, m);
        } else if (move instanceof Move.ChangeSource m) {
            NewPanel.supply(b, m);
        } else if (move instanceof Move.AddSource m) {
            NewPanel.add(b, m);
        } else if (move instanceof Move.Tie m) {
            tie(b, m);
        } else if (move instanceof Move.Label m) {
            Device d = b.device(m.device());
            b.put(b.boxOf(d.name()).name(), Parts.withLabel(d, m.words()));
        } else if (move instanceof Move.Remark m) {
            remark(b, m);
        } else {
            comeOrGo(b, move);
        }
    }

    private static void comeOrGo(Bench b, Move move) {
        if (move instanceof Move.AddCable m) {
            NewPanel.add(b, m.cable());
        } else if (move instanceof Move.RetireCable m) {
            Cable c = b.cable(m.cable());
            b.panels().values().stream()
                    .filter(p -> p.supply().contains(c.name()))
                    .findFirst()
                    .ifPresent(p -> {
                        throw Bench.wrong(
                                ProblemKind.CONFLICT,
                                "The cable " + c.name() + " supplies the panel " + p.name() + ".",
                                "Replace the panel by one that another cable supplies first.");
                    });
            everywhere(b, r -> r instanceof Ref.WireEnd w && w.cable().equals(c.name()));
            b.cables().remove(c.name());
            b.forget(c.name());
        } else if (move instanceof Move.AddBox m) {
            if (b.boxes().containsKey(m.box().name())
                    || b.panels().containsKey(m.box().name())) {
                throw Bench.wrong(
                        ProblemKind.DUPLICATE, "There is a " + m.box().name() + " already.", "Choose another name.");
            }
            b.boxes()
                    .put(
                            m.box().name(),
                            m.box()
                                    .withDevices(Map.of())
                                    .withJoints(List.of(), m.box().complete()));
        } else if (move instanceof Move.RetireBox m) {
            retire(b, b.box(m.box()));
        } else if (move instanceof Move.AddDevice m) {
            b.free(m.device().name());
            b.box(m.box());
            b.put(m.box(), m.device());
        } else if (move instanceof Move.RetireDevice m) {
            Box in = b.boxOf(m.device());
            everywhere(b, r -> r instanceof Ref.DeviceTerminal t && t.device().equals(m.device()));
            Map<String, Device> left = new LinkedHashMap<>(in.devices());
            left.remove(m.device());
            b.boxes().put(in.name(), b.box(in.name()).withDevices(left));
            b.forget(m.device());
        }
    }

    private static void retire(Bench b, Box box) {
        boolean entered = b.cables().values().stream()
                .anyMatch(c ->
                        c.through().contains(box.name()) || c.ends().stream().anyMatch(e -> mayBeIn(e, box.name())));
        if (!box.devices().isEmpty() || entered) {
            throw Bench.wrong(
                    ProblemKind.CONFLICT,
                    box.name() + " still holds a device or a cable.",
                    "Retire what is in it first.");
        }
        b.boxes().remove(box.name());
        b.forget(box.name());
    }

    private static boolean mayBeIn(CableEnd end, String box) {
        return box.equals(end.boxOrNull())
                || (end instanceof CableEnd.OneOf one && one.boxes().contains(box));
    }

    private static void everywhere(Bench b, Predicate<Ref> which) {
        List<String> all = new ArrayList<>(b.panels().keySet());
        all.addAll(b.boxes().keySet());
        for (String in : all) {
            for (Ref r : b.joints(in).stream()
                    .flatMap(j -> j.members().stream())
                    .filter(which)
                    .toList()) {
                b.lift(in, r);
            }
        }
    }

    private static Ref movable(Bench b, String in, String end) {
        Ref r = b.ref(in, end);
        if (Parts.isFixed(r)) {
            throw Bench.wrong(
                    ProblemKind.BAD_VALUE,
                    end + " stays where it is.",
                    "Name the wire end or terminal that leaves it.");
        }
        return r;
    }

    private static void shift(Bench b, Move.Shift m) {
        Ref end = movable(b, m.in(), m.end());
        Ref to = b.ref(m.in(), m.to());
        if (end.equals(to)) {
            throw Bench.wrong(ProblemKind.BAD_VALUE, m.end() + " is to touch itself.", "Name what it is to touch.");
        }
        b.lift(m.in(), end);
        List<Joint> all = new ArrayList<>();
        boolean joined = false;
        for (Joint j : b.joints(m.in())) {
            boolean here = !joined && !Parts.isFixed(to) && j.members().contains(to);
            if (here) {
                List<Ref> members = new ArrayList<>(j.members());
                members.add(end);
                all.add(new Joint(members, j.hold(), j.holders(), j.by(), j.about()));
                joined = true;
            } else {
                all.add(j);
            }
        }
        b.joints(m.in(), all);
        b.used(end);
        b.used(to);
        if (!joined) {
            b.join(m.in(), List.of(to, end), Joint.Hold.UNSAID, null);
        }
    }

    private static void splice(Bench b, Move.Splice m) {
        List<Ref> ends = new ArrayList<>();
        for (String e : m.ends()) {
            Ref r = movable(b, m.in(), e);
            if (ends.contains(r)) {
                throw Bench.wrong(ProblemKind.DUPLICATE, e + " stands twice.", "Name it once.");
            }
            ends.add(r);
        }
        if (ends.size() < 2) {
            throw new ProblemException(Problem.error(
                    ProblemKind.MISSING,
                    Where.field("splice"),
                    "A splice of fewer than two.",
                    "Name two or more, or cap the one."));
        }
        ends.forEach(r -> b.lift(m.in(), r));
        Joint.By by = m.by() == null ? Joint.By.TWIST_ON : m.by();
        List<Ref> tails =
                ends.stream().filter(r -> r instanceof Ref.DeviceTerminal).toList();
        List<Joint> all = new ArrayList<>(b.joints(m.in()));
        all.add(new Joint(ends, tails.isEmpty() ? Joint.Hold.SPLICE : Joint.Hold.TAIL, tails, by, Provenance.NONE));
        b.joints(m.in(), all);
        ends.forEach(b::used);
    }

    private static void pigtail(Bench b, Move.Pigtail m) {
        Ref terminal = b.ref(m.in(), m.terminal());
        Joint joint = b.joints(m.in()).stream()
                .filter(j -> j.members().contains(terminal) && j.members().size() > 1)
                .findFirst()
                .orElse(null);
        if (!(terminal instanceof Ref.DeviceTerminal) || joint == null) {
            throw Bench.wrong(
                    ProblemKind.BAD_VALUE,
                    "Nothing is on " + m.terminal() + " that a pigtail could go to.",
                    "Name a terminal of a device with wires on it.");
        }
        List<Joint> all = new ArrayList<>(b.joints(m.in()));
        Set<Ref> tails = new LinkedHashSet<>(joint.hold() == Joint.Hold.TAIL ? joint.holders() : List.of());
        tails.add(terminal);
        all.set(
                all.indexOf(joint),
                new Joint(
                        joint.members(),
                        Joint.Hold.TAIL,
                        List.copyOf(tails),
                        joint.by() == null ? Joint.By.TWIST_ON : joint.by(),
                        joint.about()));
        b.joints(m.in(), all);
    }

    private static void tab(Bench b, Move.SetTab m) {
        Device d = b.device(m.device());
        if (d.kind().tabs().stream().noneMatch(t -> t.name().equals(m.tab()))) {
            throw Bench.none(
                    "tab on " + d.name(),
                    m.tab(),
                    d.kind().tabs().stream().map(t -> t.name()).toList());
        }
        Map<String, Boolean> tabs = new LinkedHashMap<>(d.tabs());
        tabs.put(m.tab(), m.isIn());
        b.put(b.boxOf(d.name()).name(), Parts.device(d, d.kind(), tabs, d.unused()));
    }

    private static void kind(Bench b, Move.ChangeKind m) {
        Device d = b.device(m.device());
        Device fresh = Parts.device(d, m.kind(), Map.of(), Set.of());
        renamed(b, d.name(), t -> {
            String to = m.terminals().getOrDefault(t, t);
            return Bench.terminal(fresh, to);
        });
        b.put(b.boxOf(d.name()).name(), fresh);
        b.forget(d.name());
    }

    private static void swap(Bench b, Move.SwapLineAndLoad m) {
        Device d = b.device(m.device());
        if (d.kind().terminals().stream().noneMatch(t -> t.name().startsWith("load."))) {
            throw Bench.wrong(
                    ProblemKind.BAD_VALUE, d.name() + " has no line and load.", "Name a device that has both.");
        }
        UnaryOperator<String> other = t ->
                t.startsWith("line.") ? "load." + t.substring(5) : t.startsWith("load.") ? "line." + t.substring(5) : t;
        renamed(b, d.name(), other);
        Set<String> unused = new LinkedHashSet<>();
        d.unused().forEach(t -> unused.add(other.apply(t)));
        b.put(b.boxOf(d.name()).name(), Parts.withUnused(d, unused));
    }

    private static void renamed(Bench b, String device, UnaryOperator<String> name) {
        String in = b.boxOf(device).name();
        UnaryOperator<Ref> ref =
                r -> r instanceof Ref.DeviceTerminal t && t.device().equals(device)
                        ? new Ref.DeviceTerminal(device, name.apply(t.terminal()))
                        : r;
        List<Joint> all = b.joints(in).stream()
                .map(j -> new Joint(
                        j.members().stream().map(ref).distinct().toList(),
                        j.hold(),
                        j.holders().stream().map(ref).distinct().toList(),
                        j.by(),
                        j.about()))
                .toList();
        Set<Ref> seen = new LinkedHashSet<>();
        for (Joint j : all) {
            for (Ref r : j.members()) {
                if (r instanceof Ref.DeviceTerminal t && !seen.add(r)) {
                    throw Bench.wrong(
                            ProblemKind.IN_TWO_JOINTS,
                            r.said() + " would be in two joints.",
                            "Say which terminal becomes which, or cap one first: " + t.terminal() + ".");
                }
            }
        }
        b.joints(in, all);
    }

    private static void tie(Bench b, Move.Tie m) {
        Panel p = b.panel(m.panel());
        List<List<String>> ties = new ArrayList<>(p.ties());
        for (String s : m.spaces()) {
            if (!Landings.names(p).contains(s)) {
                throw Bench.none("breaker in space", s, Landings.names(p));
            }
        }
        if (m.isOn() ? ties.contains(m.spaces()) : !ties.remove(m.spaces())) {
            throw Bench.wrong(
                    ProblemKind.CONFLICT,
                    m.isOn() ? "These are tied already." : "These are not tied.",
                    "The ties of " + p.name() + ": " + p.ties() + ".");
        }
        if (m.isOn()) {
            ties.add(m.spaces());
        }
        b.panels().put(p.name(), Parts.withTies(p, ties));
    }

    private static void remark(Bench b, Move.Remark m) {
        Cable c = b.cable(m.cable());
        if (c.wires().stream().noneMatch(w -> w.name().equals(m.wire()))) {
            throw Bench.none(
                    "wire in " + c.name(),
                    m.wire(),
                    c.wires().stream().map(Wire::name).toList());
        }
        List<Wire> wires = c.wires().stream()
                .map(w -> w.name().equals(m.wire())
                        ? new Wire(w.name(), m.colour(), w.size(), w.material(), w.metal(), w.ohms(), w.note())
                        : w)
                .toList();
        b.cables()
                .put(
                        c.name(),
                        new Cable(
                                c.name(),
                                c.kind(),
                                null,
                                wires,
                                c.ends(),
                                c.through(),
                                c.loops(),
                                c.length(),
                                c.about()));
    }
}
