package org.splicebook.rewire.search;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.Box;
import org.splicebook.record.Device;
import org.splicebook.record.DeviceKind;
import org.splicebook.record.Joint;
import org.splicebook.record.Move;
import org.splicebook.record.Ref;

/**
 * Changes at the faces of a box and of what its devices hold: two ends exchanged, grounds and loose ends brought where they belong, a
 * device of another kind, what goes on taken ahead of a protective device, labels.
 */
final class FaceAtoms {
    /** The label that an ungrounded receptacle behind ground-fault protection has to bear: NEC 406.4(D)(2). */
    static final String NO_GROUND = "no equipment ground";

    private final State state;
    private final Map<String, DeviceKind> kinds;

    FaceAtoms(State state, Map<String, DeviceKind> kinds) {
        this.state = state;
        this.kinds = kinds;
    }

    /** {@return changes in one box} */
    List<List<Move>> in(Box box) {
        List<List<Move>> all = new ArrayList<>();
        exchanges(box, all);
        grounds(box, all);
        box.devices().values().forEach(d -> {
            ahead(box, d, all);
            label(d, all);
        });
        return all;
    }

    /** {@return another kind in a device's place, its further terminals on what the box holds} */
    List<List<Move>> put(Wish.Put wish) {
        DeviceKind kind = kinds.get(wish.kind());
        Box box = state.house().boxes().values().stream()
                .filter(b -> b.devices().containsKey(wish.device()))
                .findFirst()
                .orElse(null);
        Device was = box == null ? null : box.devices().get(wish.device());
        List<List<Move>> all = new ArrayList<>();
        if (kind == null || box == null || was == null || was.kind().equals(kind)) {
            return all;
        }
        Move swap = new Move.ChangeKind(was.name(), kind, Map.of());
        all.add(List.of(swap));
        if (kind.findTerminal("neutral").isPresent()
                && was.kind().findTerminal("neutral").isEmpty()) {
            WireAtoms wires = new WireAtoms(state);
            String neutral = was.name() + ".neutral";
            for (Joint j : box.joints()) {
                if (j.members().stream()
                        .noneMatch(r ->
                                r instanceof Ref.DeviceTerminal t && t.device().equals(was.name()))) {
                    all.add(List.of(
                            swap,
                            new Move.Shift(
                                    box.name(), neutral, j.members().get(0).said())));
                }
            }
            wires.routesOfNeutral(box.name(), neutral).forEach(r -> {
                List<Move> moves = new ArrayList<>(List.of(swap));
                moves.addAll(r);
                all.add(moves);
            });
        }
        return all;
    }

    /** A member of one joint goes to another, and one of the other comes in its place. */
    private static void exchanges(Box box, List<List<Move>> all) {
        List<Joint> joints = box.joints();
        for (int i = 0; i < joints.size(); i++) {
            for (int k = i + 1; k < joints.size(); k++) {
                for (Ref a : joints.get(i).members()) {
                    for (Ref b : joints.get(k).members()) {
                        String stayA = other(joints.get(i), a);
                        String stayB = other(joints.get(k), b);
                        if (stayA != null && stayB != null && isLike(a, b)) {
                            all.add(List.of(
                                    new Move.Shift(box.name(), a.said(), stayB),
                                    new Move.Shift(box.name(), b.said(), stayA)));
                        }
                    }
                }
            }
        }
    }

    private static @Nullable String other(Joint j, Ref not) {
        return j.members().stream()
                .filter(r -> !r.equals(not) && !(r instanceof Ref.BoxMetal))
                .map(Ref::said)
                .findFirst()
                .orElse(null);
    }

    /** Two wires of one cable, or two terminals of one device. */
    private static boolean isLike(Ref a, Ref b) {
        if (a instanceof Ref.WireEnd x && b instanceof Ref.WireEnd y) {
            return x.cable().equals(y.cable()) && x.end() == y.end();
        }
        return a instanceof Ref.DeviceTerminal x
                && b instanceof Ref.DeviceTerminal y
                && x.device().equals(y.device());
    }

    /** Ground terminals, the box's metal and bare wires that are elsewhere go to where the other bare wires are. */
    private void grounds(Box box, List<List<Move>> all) {
        Joint main = box.joints().stream()
                .filter(j -> j.members().stream().anyMatch(this::isBare))
                .max((a, b) -> Integer.compare(a.members().size(), b.members().size()))
                .orElse(null);
        if (main == null) {
            return;
        }
        String to = main.members().stream()
                .filter(this::isBare)
                .map(Ref::said)
                .findFirst()
                .orElseThrow();
        List<Move> every = new ArrayList<>();
        for (Ref r : groundsOf(box)) {
            if (!main.members().contains(r)) {
                Move m = new Move.Shift(box.name(), r.said(), to);
                all.add(List.of(m));
                every.add(m);
            }
        }
        if (every.size() > 1) {
            all.add(List.copyOf(every));
        }
    }

    private List<Ref> groundsOf(Box box) {
        List<Ref> all = new ArrayList<>();
        box.joints().forEach(j -> j.members().stream().filter(this::isBare).forEach(all::add));
        for (Device d : box.devices().values()) {
            d.kind().terminals().stream()
                    .filter(t -> t.role() == DeviceKind.Role.GROUND)
                    .forEach(t -> all.add(new Ref.DeviceTerminal(d.name(), t.name())));
        }
        state.house().cables().values().forEach(c -> {
            for (int end = 0; end < 2; end++) {
                int e = end;
                boolean isBoth = box.name().equals(c.ends().get(1 - end).boxOrNull());
                if (box.name().equals(c.ends().get(end).boxOrNull())) {
                    c.wires().stream()
                            .filter(w -> w.colour().equals("bare") || w.colour().equals("green"))
                            .map(w -> new Ref.WireEnd(c.name(), w.name(), e, isBoth))
                            .filter(r -> !all.contains(r))
                            .forEach(all::add);
                }
            }
        });
        return all;
    }

    private boolean isBare(Ref r) {
        if (!(r instanceof Ref.WireEnd w)) {
            return false;
        }
        var c = state.house().cables().get(w.cable());
        return c != null
                && c.wires().stream()
                        .anyMatch(x -> x.name().equals(w.wire())
                                && (x.colour().equals("bare") || x.colour().equals("green")));
    }

    /** What hangs on LOAD goes to LINE, and relies on the device no more. */
    private static void ahead(Box box, Device d, List<List<Move>> all) {
        List<Move> every = new ArrayList<>();
        List<Joint> loads = new ArrayList<>();
        for (String what : List.of("hot", "neutral")) {
            for (Joint j : box.joints()) {
                if (j.members().contains(new Ref.DeviceTerminal(d.name(), "load." + what))) {
                    loads.add(j);
                    j.members().stream()
                            .filter(r -> r instanceof Ref.WireEnd)
                            .forEach(r -> every.add(new Move.Shift(box.name(), r.said(), d.name() + ".line." + what)));
                }
            }
        }
        if (loads.size() > 1) {
            all.add(List.copyOf(every));
        }
    }

    private static void label(Device d, List<List<Move>> all) {
        boolean isReceptacle =
                d.kind().family() == DeviceKind.Family.RECEPTACLE || d.kind().family() == DeviceKind.Family.PROTECTIVE;
        if (isReceptacle && (d.label() == null || !d.label().contains(NO_GROUND))) {
            all.add(List.of(new Move.Label(d.name(), NO_GROUND)));
        }
    }
}
