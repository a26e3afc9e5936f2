package org.splicebook.rules;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.Box;
import org.splicebook.record.Cable;
import org.splicebook.record.CableKind;
import org.splicebook.record.Complete;
import org.splicebook.record.DeviceKind;
import org.splicebook.record.Joint;
import org.splicebook.record.Panel;
import org.splicebook.record.Ref;
import org.splicebook.record.SourceKind;
import org.splicebook.record.Wire;
import org.splicebook.wiring.Conductor;
import org.splicebook.wiring.Crossing;
import org.splicebook.wiring.CrossingKind;
import org.splicebook.wiring.LoadPointWiring;
import org.splicebook.wiring.Return;
import org.splicebook.wiring.Sureness;
import org.splicebook.wiring.ThingKind;

/** Grounds: missing, false, leading nowhere, over old armour; bonds where none may be; metal without one. */
final class GroundRules {
    private GroundRules() {}

    static void add(Map<String, Rule> all) {
        all.put("neutral-to-ground", GroundRules::neutralToGround);
        all.put("false-ground", GroundRules::falseGround);
        all.put("subpanel-bonded", GroundRules::bondedSubpanel);
        all.put("no-main-bond", GroundRules::noBond);
        all.put("ground-leads-nowhere", GroundRules::leadsNowhere);
        all.put("no-ground", GroundRules::noGround);
        all.put("ground-over-old-armour", GroundRules::oldArmour);
        all.put("metal-box-without-ground", GroundRules::metalBox);
        all.put("grounds-not-joined", GroundRules::notJoined);
        all.put("frame-on-neutral", GroundRules::frame);
        all.put("feeder-without-ground", GroundRules::feeder);
    }

    private static void neutralToGround(Facts f, Findings out) {
        for (Crossing c : f.wiring().crossings()) {
            boolean panel = f.house().panels().containsKey(String.valueOf(c.box()));
            if (c.kind() == CrossingKind.NEUTRAL_TO_GROUND && !panel && meetingDevice(f, c) == null) {
                out.found(
                                c.sureness() != Sureness.MAY,
                                c.island(),
                                "Neutral and ground meet" + (c.box() == null ? "" : " in " + c.box())
                                        + ", past the one place where they may: metal carries current.")
                        .in(c.box())
                        .outlets(c.loadPoints())
                        .add();
            }
        }
    }

    /** The receptacle whose ground terminal is joined to a neutral in its own box, or null. */
    private static Facts.@Nullable InBox meetingDevice(Facts f, Crossing c) {
        Box b = f.house().boxes().get(String.valueOf(c.box()));
        if (b == null) {
            return null;
        }
        for (Joint j : b.joints()) {
            boolean leadsOn = f.wiresIn(j).stream().anyMatch(w -> f.isShown(w.name(), Conductor.GROUND));
            if (leadsOn) {
                continue; // a ground wire is tied to the neutral: more than this device hangs on it
            }
            boolean neutral = j.members().stream().anyMatch(r -> isRole(f, r, DeviceKind.Role.NEUTRAL));
            for (Ref r : j.members()) {
                if (neutral && isRole(f, r, DeviceKind.Role.GROUND) && r instanceof Ref.DeviceTerminal t) {
                    return f.device(t.device());
                }
            }
        }
        return null;
    }

    private static boolean isRole(Facts f, Ref r, DeviceKind.Role role) {
        if (!(r instanceof Ref.DeviceTerminal t)) {
            return false;
        }
        Facts.InBox d = f.device(t.device());
        return d != null
                && d.device()
                        .kind()
                        .findTerminal(t.terminal())
                        .map(x -> x.role() == role)
                        .orElse(false);
    }

    private static void falseGround(Facts f, Findings out) {
        for (Crossing c : f.wiring().crossings()) {
            Facts.InBox d = c.kind() == CrossingKind.NEUTRAL_TO_GROUND ? meetingDevice(f, c) : null;
            if (d != null) {
                out.found(
                                d.name(),
                                "Its ground is tied to its neutral: if that neutral opens, what is plugged in becomes live.")
                        .in(d.box().name())
                        .outlets(f.pointsOf(d.name()).stream()
                                .map(LoadPointWiring::id)
                                .toList())
                        .add();
            }
        }
        // A false ground of the worst sort: the ground terminal is hot.
        for (Facts.InBox d : f.devices()) {
            Ref own = new Ref.DeviceTerminal(d.name(), "ground");
            for (Joint j : d.box().joints()) {
                if (j.members().contains(own)
                        && f.wiresIn(j).stream().anyMatch(w -> f.isShown(w.name(), Conductor.HOT))) {
                    out.found(d.name(), "Its ground terminal is hot: the frame of what is plugged in is live.")
                            .in(d.box().name())
                            .add();
                }
            }
            mayBeFalse(f, out, d);
        }
    }

    /** A ground slot in a box that no ground is shown to enter, and nobody looked at its screw. */
    private static void mayBeFalse(Facts f, Findings out, Facts.InBox d) {
        boolean opened = !d.box().joints().isEmpty() && !f.house().isComplete(d.box(), Complete.JOINTS);
        if (!opened || d.family() != DeviceKind.Family.RECEPTACLE) {
            return;
        }
        boolean slot = d.device().kind().findTerminal("ground").isPresent()
                && !d.device().unused().contains("ground")
                && !DeviceRules.isWired(d, "ground");
        boolean ground = f.cablesAt(d.box().name()).stream()
                .flatMap(c -> c.wires().stream().map(w -> c.name() + "." + w.name()))
                .anyMatch(w -> f.isShown(w, Conductor.GROUND));
        if (slot && !ground) {
            out.asked(
                            d.name(),
                            "No ground is shown to enter its box. What is on its ground screw: nothing, or the neutral?")
                    .in(d.box().name())
                    .add();
        }
    }

    private static boolean holdsMainBond(Facts f, Panel p) {
        return f.house().sources().values().stream().anyMatch(s -> p.name().equals(s.bond()));
    }

    private static void bondedSubpanel(Facts f, Findings out) {
        boolean anyMain = f.house().panels().values().stream().anyMatch(p -> holdsMainBond(f, p));
        for (Panel p : f.house().panels().values()) {
            if (p.bonded() && !holdsMainBond(f, p) && anyMain) {
                out.found(p.name(), "Neutral and ground are bonded in a subpanel: its ground and metal carry current.")
                        .in(p.name())
                        .add();
            } else if (!holdsMainBond(f, p)
                    && anyMain
                    && p.supply().stream().anyMatch(s -> f.house().cables().containsKey(s))
                    && !f.house().isComplete(p, Complete.LANDINGS)) {
                out.asked(p.name(), "Is there a strap or screw in it that joins its neutrals to its metal?")
                        .in(p.name())
                        .add();
            }
        }
    }

    private static void noBond(Facts f, Findings out) {
        f.house().sources().values().stream()
                .filter(s -> s.kind() == SourceKind.SERVICE && s.bond() == null)
                .filter(s -> f.house().panels().values().stream()
                        .noneMatch(p -> p.bonded() && p.supply().contains(s.name())))
                .forEach(s -> out.asked(
                                s.name(),
                                "Where are neutral and ground bonded? Exactly one place at the service has to hold the bond.")
                        .add());
    }

    /** A ground terminal that is wired, and no ground bar behind it. */
    private static void leadsNowhere(Facts f, Findings out) {
        for (Facts.InBox d : f.devices()) {
            if (!DeviceRules.isWired(d, "ground")) {
                continue;
            }
            List<LoadPointWiring> points = f.pointsOf(d.name());
            boolean wire = Facts.joints(d.box(), r -> Facts.isTerminal(r, d.name(), "ground")).stream()
                    .anyMatch(j -> !f.wiresIn(j).isEmpty());
            if (!points.isEmpty() && wire && points.stream().allMatch(l -> Outlets.grounded(f, l) == Outlets.Has.NO)) {
                out.found(d.name(), "A wire is on its ground terminal and leads to no ground.")
                        .in(d.box().name())
                        .outlets(points.stream().map(LoadPointWiring::id).toList())
                        .add();
            } else if (!points.isEmpty()
                    && wire
                    && points.stream().allMatch(l -> Outlets.grounded(f, l) == Outlets.Has.PERHAPS)) {
                out.possible(d.name(), "A wire is on its ground terminal; that it leads to a ground is not recorded.")
                        .in(d.box().name())
                        .outlets(points.stream().map(LoadPointWiring::id).toList())
                        .add();
            }
        }
    }

    /** Fixed equipment and luminaires without a ground. */
    private static void noGround(Facts f, Findings out) {
        for (LoadPointWiring l : f.points()) {
            Facts.InBox d = f.device(l.device());
            if (d == null || !out.text().has("families", d.family().name().toLowerCase(Locale.ROOT))) {
                continue;
            }
            boolean terminal = d.device().kind().loadPoints().stream().anyMatch(p -> p.ground() != null);
            boolean live = l.feeds().stream().anyMatch(x -> x.sureness() != Sureness.MAY);
            Outlets.Has has = Outlets.grounded(f, l);
            if (terminal && live && has != Outlets.Has.YES && !DeviceRules.isWired(d, "ground")) {
                out.found(
                                has == Outlets.Has.NO,
                                l.id(),
                                "It has " + (has == Outlets.Has.NO ? "" : "perhaps ")
                                        + "no ground: a fault leaves its metal live.")
                        .in(l.box())
                        .outlets(List.of(l.id()))
                        .of(Facts.breakersOf(l).stream().findFirst().orElse(null))
                        .add();
            }
        }
    }

    private static void oldArmour(Facts f, Findings out) {
        Integer built = f.house().built();
        f.house().cables().values().stream()
                .filter(c -> c.kind() == CableKind.AC
                        && c.about().since() == null
                        && (built == null || built < out.text().number("strip-from")))
                .forEach(c -> out.asked(
                                c.name(),
                                "Armoured cable of no recorded age. Does a bonding strip run inside its armour?")
                        .on(c.about().basisOr(f.house().basis()))
                        .add());
        for (LoadPointWiring l : f.points()) {
            for (Return g : l.grounds()) {
                Set<String> old = new TreeSet<>();
                g.way().hops().forEach(h -> {
                    Facts.InCable w = h.thing().kind() == ThingKind.WIRE
                            ? f.wire(h.thing().name())
                            : null;
                    if (w != null && w.wire().metal() && w.cable().kind() == CableKind.BX) {
                        old.add(w.cable().name());
                    }
                });
                if (!old.isEmpty()) {
                    out.found(
                                    g.sureness() != Sureness.MAY,
                                    l.id(),
                                    "Its ground is the armour of " + String.join(", ", old)
                                            + ", which has no bonding strip: a fault may heat it instead of tripping.")
                            .in(l.box())
                            .outlets(List.of(l.id()))
                            .way("From " + g.terminal(), g.way())
                            .add();
                    break;
                }
            }
        }
    }

    private static void metalBox(Facts f, Findings out) {
        for (Box b : f.house().boxes().values()) {
            if (b.shell() == null || !out.text().has("materials", b.shell().material())) {
                continue;
            }
            List<Joint> metal = Facts.joints(b, r -> r instanceof Ref.BoxMetal);
            boolean armour =
                    f.cablesAt(b.name()).stream().anyMatch(c -> c.kind().metal() != null);
            boolean grounded = metal.stream()
                    .anyMatch(j -> f.wiresIn(j).stream().anyMatch(w -> f.isShown(w.name(), Conductor.GROUND)));
            boolean energised = f.cablesAt(b.name()).stream()
                    .anyMatch(c -> f.wiresOf(c).stream().anyMatch(w -> f.isShown(w.name(), Conductor.HOT)));
            if (grounded || armour || !energised) {
                continue;
            }
            if (f.house().isComplete(b, Complete.JOINTS)) {
                out.found(b.name(), "A metal box with live wires in it and no ground on it.")
                        .in(b.name())
                        .add();
            } else {
                out.asked(b.name(), "A metal box with live wires in it. Is a ground on it?")
                        .in(b.name())
                        .add();
            }
        }
    }

    /** All grounds of a box have to be joined. */
    /** A ground by what it is joined to; or one by its colour whose cable is in use here. Ties to the neutral are found elsewhere. */
    private static boolean isGroundHere(Facts f, Box b, Facts.InCable w) {
        if (f.isShown(w.name(), Conductor.NEUTRAL) || f.isShown(w.name(), Conductor.HOT)) {
            return false;
        }
        boolean inUse = b.joints().stream()
                .filter(j -> j.members().size() > 1)
                .flatMap(j -> f.wiresIn(j).stream())
                .anyMatch(x -> x.cable().equals(w.cable()) && !x.name().equals(w.name()));
        return f.isShown(w.name(), Conductor.GROUND)
                || (inUse && List.of("bare", "green").contains(w.wire().colour()));
    }

    private static void notJoined(Facts f, Findings out) {
        for (Box b : f.house().boxes().values()) {
            boolean whole = f.house().isComplete(b, Complete.JOINTS);
            Set<String> groups = new TreeSet<>();
            for (Joint j : b.joints()) {
                boolean ground = f.wiresIn(j).stream().anyMatch(w -> !w.wire().metal() && isGroundHere(f, b, w));
                if (ground) {
                    groups.add(Facts.said(b.name(), j));
                }
            }
            if (groups.size() > 1) {
                out.found(
                                whole,
                                b.name(),
                                "Its grounds are " + (whole ? "" : "perhaps ") + "not joined: "
                                        + String.join(" and ", groups) + " stand apart.")
                        .in(b.name())
                        .add();
            }
        }
    }

    private static void frame(Facts f, Findings out) {
        for (Facts.InBox d : f.devices()) {
            if (!out.text().has("kinds", d.device().kind().name())) {
                continue;
            }
            List<LoadPointWiring> points = f.pointsOf(d.name());
            boolean sub = points.stream()
                    .flatMap(l -> l.returns().stream())
                    .map(r -> r.bar().substring(0, r.bar().indexOf('.')))
                    .map(p -> f.house().panels().get(p))
                    .anyMatch(p -> p != null && !holdsMainBond(f, p));
            out.found(
                            d.name(),
                            sub
                                    ? "The frame of what is plugged in hangs on a neutral of a subpanel."
                                    : "The frame of what is plugged in hangs on the neutral, as existing circuits may.")
                    .in(d.box().name())
                    .outlets(points.stream().map(LoadPointWiring::id).toList())
                    .add();
        }
    }

    private static void feeder(Facts f, Findings out) {
        for (Panel p : f.house().panels().values()) {
            for (String s : p.supply()) {
                Cable c = f.house().cables().get(s);
                if (c == null) {
                    continue;
                }
                boolean ground = c.wires().stream().anyMatch(w -> w.metal() || isGround(f, c, w));
                boolean perhaps = c.wires().stream()
                        .anyMatch(w -> w.colour().equals("unknown") && f.isUnknown(c.name() + "." + w.name()));
                if (!ground && perhaps) {
                    out.asked(c.name(), "Does the feeder of " + p.name() + " bring a ground of its own?")
                            .in(p.name())
                            .add();
                } else if (!ground) {
                    out.found(
                                    c.name(),
                                    "The feeder of " + p.name()
                                            + " brings no ground of its own: what existed may remain, new work needs one.")
                            .in(p.name())
                            .on(c.about().basisOr(f.house().basis()))
                            .add();
                }
            }
        }
    }

    private static boolean isGround(Facts f, Cable c, Wire w) {
        return w.colour().equals("bare")
                || w.colour().equals("green")
                || f.isShown(c.name() + "." + w.name(), Conductor.GROUND);
    }
}
