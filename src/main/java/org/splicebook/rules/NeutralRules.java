package org.splicebook.rules;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.Box;
import org.splicebook.record.Complete;
import org.splicebook.record.DeviceKind;
import org.splicebook.record.Joint;
import org.splicebook.record.OvercurrentType;
import org.splicebook.record.Panel;
import org.splicebook.record.Ref;
import org.splicebook.wiring.Conductor;
import org.splicebook.wiring.Crossing;
import org.splicebook.wiring.CrossingKind;
import org.splicebook.wiring.LoadPointWiring;
import org.splicebook.wiring.NeutralIsland;
import org.splicebook.wiring.Return;
import org.splicebook.wiring.Sureness;
import org.splicebook.wiring.ThingKind;

/** Shared, borrowed, joined, switched and lost neutrals. */
final class NeutralRules {
    private NeutralRules() {}

    static void add(Map<String, Rule> all) {
        all.put("borrowed-neutral", (f, out) -> crossings(f, out, CrossingKind.BORROWED));
        all.put("return-in-another-cable", (f, out) -> crossings(f, out, CrossingKind.RETURN_IN_ANOTHER_CABLE));
        all.put("neutrals-joined", (f, out) -> crossings(f, out, CrossingKind.ISLANDS_JOINED));
        all.put("neutral-shared-on-one-leg", (f, out) -> crossings(f, out, CrossingKind.SHARED_ON_ONE_LEG));
        all.put("return-past-a-protective-device", (f, out) -> crossings(f, out, CrossingKind.ACROSS_PROTECTION));
        all.put("multiwire-without-common-disconnect", (f, out) -> multiwire(f, out, false));
        all.put("multiwire-from-two-panels", (f, out) -> multiwire(f, out, true));
        all.put("shared-neutral-held-by-a-device", NeutralRules::heldByADevice);
        all.put("two-circuits-on-one-yoke", NeutralRules::oneYoke);
        all.put("switched-neutral", NeutralRules::switched);
        all.put("fused-neutral", NeutralRules::fused);
        all.put("neutral-over-ground", NeutralRules::overGround);
        all.put("no-return", NeutralRules::noReturn);
    }

    private static void crossings(Facts f, Findings out, CrossingKind kind) {
        for (Crossing c : f.wiring().crossings()) {
            if (c.kind() == kind) {
                draft(f, out, c).add();
            }
        }
        if (kind == CrossingKind.BORROWED || kind == CrossingKind.ISLANDS_JOINED) {
            f.wiring().openRegions().forEach(o -> mayCross(f, out, o.loadPoints(), kind));
        }
    }

    /** What is open between circuits leaves it open whose neutral is whose. Asked once, whatever the crossing would be called. */
    private static void mayCross(Facts f, Findings out, List<String> loadPoints, CrossingKind kind) {
        Set<String> breakers = new TreeSet<>();
        List<String> without = new ArrayList<>();
        for (String id : loadPoints) {
            LoadPointWiring l = f.point(id);
            if (l == null || Facts.breakersOf(l).isEmpty()) {
                continue;
            }
            breakers.addAll(Facts.breakersOf(l));
            if (l.returns().stream().allMatch(r -> r.sureness() == Sureness.MAY)) {
                without.add(id);
            }
        }
        if (breakers.size() < 2 || without.isEmpty() == (kind == CrossingKind.BORROWED)) {
            return;
        }
        String circuits = String.join(", ", breakers);
        Findings.Draft d = kind == CrossingKind.BORROWED
                ? out.asked(
                                without.get(0),
                                "Whose neutral is it that " + CircuitRules.some(without) + " return by? Wires of "
                                        + circuits + " are open to each other.")
                        .outlets(without)
                : out.asked(
                                loadPoints.get(0),
                                "Do neutrals of " + circuits + " meet? Wires of them are open to each other.")
                        .outlets(loadPoints);
        d.of(breakers.iterator().next()).add();
    }

    private static Findings.Draft draft(Facts f, Findings out, Crossing c) {
        String subject = c.loadPoints().isEmpty() || c.kind() == CrossingKind.SHARED_ON_ONE_LEG
                ? c.island()
                : c.loadPoints().size() == 1 ? c.loadPoints().get(0) : c.island();
        String at = c.box() == null ? "" : ", at " + c.box();
        String device = c.device() == null ? "" : ", across " + c.device();
        Findings.Draft d = out.found(
                        c.sureness() != Sureness.MAY,
                        subject,
                        "Neutral " + c.island() + " carries returns of " + String.join(", ", c.poles()) + at + device
                                + ".")
                .outlets(c.loadPoints())
                .in(c.box())
                .of(c.poles().isEmpty() ? null : f.breakerOf(c.poles().get(0)));
        for (String id : c.loadPoints().subList(0, Math.min(2, c.loadPoints().size()))) {
            ways(f, d, id);
        }
        return d;
    }

    private static void ways(Facts f, Findings.Draft d, String loadPoint) {
        LoadPointWiring l = f.point(loadPoint);
        if (l != null) {
            l.feeds().stream().findFirst().ifPresent(x -> d.way("From " + x.terminal(), x.way()));
            l.returns().stream().findFirst().ifPresent(x -> d.way("From " + x.terminal(), x.way()));
        }
    }

    private static void multiwire(Facts f, Findings out, boolean twoPanels) {
        for (Crossing c : f.wiring().crossings()) {
            if (c.kind() == CrossingKind.MULTIWIRE_WITHOUT_COMMON_DISCONNECT && isOfTwoPanels(f, c) == twoPanels) {
                draft(f, out, c).add();
            }
        }
        for (NeutralIsland i : twoPanels ? List.<NeutralIsland>of() : f.wiring().islands()) {
            List<String> unfed = i.loadPoints().stream()
                    .filter(id -> {
                        LoadPointWiring l = f.point(id);
                        return l != null && Facts.breakersOf(l).isEmpty();
                    })
                    .toList();
            if (!unfed.isEmpty() && !i.poles().isEmpty()) {
                out.asked(
                                i.id(),
                                "What feeds " + CircuitRules.some(unfed) + "? They share this neutral with "
                                        + String.join(", ", i.poles())
                                        + ": it has to be of the other leg and to open with it.")
                        .of(f.breakerOf(i.poles().get(0)))
                        .outlets(unfed)
                        .add();
            }
        }
    }

    private static boolean isOfTwoPanels(Facts f, Crossing c) {
        Set<String> panels = c.poles().stream()
                .map(p -> f.breaker(String.valueOf(f.breakerOf(p))))
                .filter(b -> b != null)
                .map(b -> b.panel().name())
                .collect(Collectors.toSet());
        return panels.size() > 1;
    }

    /** A neutral that several poles share must not be parted by taking a device out. */
    private static void heldByADevice(Facts f, Findings out) {
        for (NeutralIsland i : f.wiring().islands()) {
            if (i.poles().size() >= 2) {
                Set<String> wires = new HashSet<>(i.wires());
                f.house()
                        .boxes()
                        .values()
                        .forEach(b -> b.joints().stream()
                                .filter(j -> isHeldByADevice(f, j, wires))
                                .forEach(j -> heldByADevice(f, out, i, b, j)));
            }
        }
    }

    private static boolean isHeldByADevice(Facts f, Joint j, Set<String> neutrals) {
        return j.hold() != Joint.Hold.TAIL
                && j.hold() != Joint.Hold.SPLICE
                && j.members().stream().anyMatch(r -> r instanceof Ref.DeviceTerminal)
                && f.wiresIn(j).stream()
                                .filter(w -> neutrals.contains(w.name()))
                                .count()
                        >= 2;
    }

    private static void heldByADevice(Facts f, Findings out, NeutralIsland i, Box b, Joint j) {
        boolean sure = j.hold() == Joint.Hold.DEVICE;
        out.found(
                        sure,
                        Facts.said(b.name(), j),
                        sure
                                ? "The screws of a device hold a neutral that " + String.join(", ", i.poles())
                                        + " share: taking the device out opens it."
                                : "How this neutral, which " + String.join(", ", i.poles())
                                        + " share, is held is not recorded: perhaps by a device's screws.")
                .in(b.name())
                .of(f.breakerOf(i.poles().get(0)))
                .outlets(i.loadPoints())
                .add();
    }

    private static void oneYoke(Facts f, Findings out) {
        for (Facts.InBox d : f.devices()) {
            Set<String> sure = new TreeSet<>();
            Set<String> may = new TreeSet<>();
            for (LoadPointWiring l : f.pointsOf(d.name())) {
                sure.addAll(Facts.breakersOf(l));
                l.feeds().forEach(x -> may.add(x.breaker()));
            }
            // One load point that several breakers may feed is no yoke with two circuits.
            boolean several = f.pointsOf(d.name()).size() > 1;
            if (several && may.size() > 1 && !openTogether(f, may)) {
                boolean shown = sure.size() > 1 && !openTogether(f, sure);
                Findings.Draft x = out.found(
                                shown,
                                d.name(),
                                "One yoke is " + (shown ? "" : "perhaps ") + "fed by " + String.join(" and ", may)
                                        + ", which do not open together.")
                        .in(d.box().name())
                        .outlets(f.pointsOf(d.name()).stream()
                                .map(LoadPointWiring::id)
                                .toList());
                f.pointsOf(d.name())
                        .forEach(l ->
                                l.feeds().stream().findFirst().ifPresent(w -> x.way("From " + w.terminal(), w.way())));
                x.add();
            }
        }
    }

    /** {@return whether one movement of a hand opens them all} */
    static boolean openTogether(Facts f, Set<String> breakers) {
        if (breakers.size() < 2) {
            return true;
        }
        Facts.InPanel first = f.breaker(breakers.iterator().next());
        if (first == null) {
            return false;
        }
        Panel p = first.panel();
        Set<String> spaces = new TreeSet<>();
        for (String b : breakers) {
            Facts.InPanel x = f.breaker(b);
            if (x == null || !x.panel().name().equals(p.name())) {
                return false;
            }
            spaces.addAll(x.breaker().spaces());
        }
        return p.ties().stream().anyMatch(t -> meetsAll(f, p, t, breakers))
                || p.pullOuts().values().stream().anyMatch(t -> t.containsAll(spaces) || meetsAll(f, p, t, breakers));
    }

    private static boolean meetsAll(Facts f, Panel p, List<String> tied, Set<String> breakers) {
        Set<String> met = tied.stream()
                .map(s -> String.valueOf(f.breakerOf(p.name() + "." + s)))
                .collect(Collectors.toSet());
        return met.containsAll(breakers);
    }

    /** A return that hangs on the lever of a switch that does not open the hot with it. */
    private static void switched(Facts f, Findings out) {
        Set<String> passed = f.devices(DeviceKind.Family.SWITCH)
                .filter(d -> NeutralPasses.may(f, d))
                .map(Facts.InBox::name)
                .collect(Collectors.toSet());
        for (LoadPointWiring l : passed.isEmpty() ? List.<LoadPointWiring>of() : f.points()) {
            l.reliesOn().stream()
                    .filter(r -> r.conductor() == Conductor.NEUTRAL && r.thing().kind() == ThingKind.DEVICE)
                    .filter(r -> passed.contains(r.thing().name()))
                    .filter(r -> l.reliesOn().stream()
                            .noneMatch(h ->
                                    h.conductor() == Conductor.HOT && h.thing().equals(r.thing())))
                    .forEach(r -> {
                        Facts.InBox at = f.device(r.thing().name());
                        Findings.Draft d = out.found(
                                        r.sureness() != Sureness.MAY
                                                || isInEveryWay(l, r.thing().name()),
                                        r.thing().name(),
                                        "The neutral of " + l.id()
                                                + " passes this switch and its hot does not: off, it stays live.")
                                .in(at == null ? null : at.box().name())
                                .outlets(List.of(l.id()));
                        ways(f, d, l.id());
                        d.add();
                    });
        }
        f.devices(DeviceKind.Family.SWITCH)
                .filter(d -> !d.box().joints().isEmpty() && !f.house().isComplete(d.box(), Complete.JOINTS))
                .filter(d -> d.device().kind().terminals().stream()
                        .filter(t -> t.role() == DeviceKind.Role.SWITCH || t.role() == DeviceKind.Role.TRAVELER)
                        .noneMatch(t -> DeviceRules.isWired(d, t.name())))
                .forEach(d -> out.asked(d.name(), "What is on its screws: the hot, or the neutral?")
                        .in(d.box().name())
                        .add());
    }

    private static boolean isInEveryWay(LoadPointWiring l, String device) {
        List<Return> shown =
                l.returns().stream().filter(r -> r.sureness() != Sureness.MAY).toList();
        return !shown.isEmpty()
                && shown.stream()
                        .allMatch(r -> r.way().hops().stream()
                                .anyMatch(h -> h.thing().kind() == ThingKind.TERMINAL
                                        && h.thing().name().startsWith(device + ".")));
    }

    private static void fused(Facts f, Findings out) {
        f.house().panels().values().stream()
                .filter(p -> p.neutralFuse() != null)
                .forEach(p -> out.found(p.name(), "A fuse in the neutral: when it blows, all that is off stays live.")
                        .in(p.name())
                        .add());
        f.house().panels().values().stream()
                .filter(p -> p.neutralFuse() == null && !f.house().isComplete(p, Complete.BREAKERS))
                .filter(p -> p.breakers().values().stream().anyMatch(b -> b.type() == OvercurrentType.FUSE))
                .forEach(p -> out.asked(p.name(), "A panel of fuses. Is one of them in the neutral?")
                        .in(p.name())
                        .add());
    }

    private static void overGround(Facts f, Findings out) {
        for (LoadPointWiring l : f.points()) {
            @Nullable Return ground = null;
            boolean neutral = false;
            for (Return r : l.returns()) {
                neutral |= r.over() == Conductor.NEUTRAL;
                ground = r.over() == Conductor.GROUND && r.sureness() != Sureness.MAY ? r : ground;
            }
            if (!neutral && ground != null) {
                out.found(l.id(), "It returns over ground: there is no neutral.")
                        .in(l.box())
                        .outlets(List.of(l.id()))
                        .way("From " + ground.terminal(), ground.way())
                        .add();
            }
        }
    }

    /** A load point with a neutral terminal that is live and returns nowhere: its other side floats. */
    private static void noReturn(Facts f, Findings out) {
        for (LoadPointWiring l : f.points()) {
            boolean live = l.feeds().stream().anyMatch(x -> x.sureness() != Sureness.MAY);
            boolean oneHot = l.feeds().stream()
                            .filter(x -> x.sureness() != Sureness.MAY)
                            .map(x -> x.terminal())
                            .distinct()
                            .count()
                    == 1;
            boolean returns = l.returns().stream().anyMatch(r -> r.sureness() != Sureness.MAY);
            if (live && oneHot && !returns && f.isOpen(l)) {
                out.asked(l.id(), "It is live. Where does its neutral go? No return of it is recorded.")
                        .in(l.box())
                        .outlets(List.of(l.id()))
                        .add();
            } else if (live && oneHot && l.returns().isEmpty()) {
                Findings.Draft d = out.found(l.id(), "It is live and has no return: its neutral leads nowhere.")
                        .in(l.box())
                        .outlets(List.of(l.id()));
                ways(f, d, l.id());
                d.add();
            }
        }
    }
}
