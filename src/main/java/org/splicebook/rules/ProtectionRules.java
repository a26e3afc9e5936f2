package org.splicebook.rules;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.Basis;
import org.splicebook.record.Complete;
import org.splicebook.record.DeviceKind;
import org.splicebook.record.Place;
import org.splicebook.record.PlaceKind;
import org.splicebook.record.Protection;
import org.splicebook.record.Ref;
import org.splicebook.record.TestResult;
import org.splicebook.wiring.LoadPointWiring;
import org.splicebook.wiring.ThingKind;
import org.splicebook.wiring.Way;

/** Ground-fault, arc-fault and tamper-resistant cover, and the devices that give it. */
final class ProtectionRules {
    private static final Set<String> TAMPER = Set.of("tamper", "tr ", " tr", "(tr)");
    private static final Set<String> NO_GROUND = Set.of("no equipment ground");

    private ProtectionRules() {}

    static void add(Map<String, Rule> all) {
        all.put("ground-fault-by-place", ProtectionRules::byPlace);
        all.put("ground-fault-by-equipment", ProtectionRules::byEquipment);
        all.put("ground-fault-outdoor-equipment", ProtectionRules::outdoorEquipment);
        all.put("near-water", ProtectionRules::nearWater);
        all.put("arc-fault-by-room", ProtectionRules::arcFault);
        all.put("tamper-resistant", ProtectionRules::tamperResistant);
        all.put("weather-resistant", ProtectionRules::weatherResistant);
        all.put("line-and-load-reversed", ProtectionRules::reversed);
        all.put("protective-device-without-neutral", ProtectionRules::noNeutral);
        all.put("protective-device-failed-its-test", ProtectionRules::failed);
        all.put("protective-device-out-of-reach", ProtectionRules::outOfReach);
        all.put("ungrounded-replacement", ProtectionRules::replacement);
        all.put("critical-load-behind-ground-fault", ProtectionRules::critical);
    }

    /** Whether a place asks for something. */
    private enum Wanted {
        YES,
        NO,
        ASK
    }

    private static void byPlace(Facts f, Findings out) {
        for (LoadPointWiring l : f.points()) {
            if (!Outlets.isReceptacle(f, l)
                    || (Outlets.isOfTwoLegs(f, l) && !out.text().has("volts-250", "yes"))) {
                continue;
            }
            PlaceKind kind = f.kindOf(l.place());
            Outlets.Has has = Outlets.has(f, l, Protection.GROUND_FAULT);
            if (has == Outlets.Has.YES) {
                continue;
            }
            if (kind == null) {
                out.asked(l.id(), "In what place is it? Some ask for ground-fault protection.")
                        .in(l.box())
                        .outlets(List.of(l.id()))
                        .add();
                continue;
            }
            Place place = Objects.requireNonNull(f.place(l.place()));
            Wanted wanted = wanted(out.text(), place);
            if (wanted == Wanted.NO) {
                continue;
            }
            Findings.Draft d = wanted == Wanted.ASK
                    ? out.asked(l.id(), question(place, l.id()))
                    : out.found(
                            has == Outlets.Has.NO,
                            l.id(),
                            "A receptacle in " + place.said() + " that " + (has == Outlets.Has.NO ? "has" : "may have")
                                    + " no ground-fault protection.");
            tell(d, l).since(since(out.text(), kind)).add();
        }
    }

    private static Wanted wanted(RuleText text, Place place) {
        String kind = place.kind().word();
        if (text.has("places", kind)) {
            return Wanted.YES;
        }
        if (text.has("unfinished", kind)) {
            return place.finished() == null ? Wanted.ASK : place.finished() ? Wanted.NO : Wanted.YES;
        }
        return text.has("ask", kind) ? Wanted.ASK : Wanted.NO;
    }

    private static String question(Place place, String outlet) {
        return switch (place.kind()) {
            case KITCHEN ->
                "Does " + outlet
                        + " serve a counter, or is it within 6 ft of the sink? It has, or may have, no ground-fault protection.";
            case BASEMENT -> "Is " + place.said() + " finished? Unfinished, it asks for ground-fault protection.";
            default ->
                "Is " + outlet + " in a part of " + place.said()
                        + " that is damp, an unfinished basement or a garage? Such a part asks for ground-fault protection.";
        };
    }

    /** The year from which a kind of place asked for it. */
    private static @Nullable Integer since(RuleText text, PlaceKind kind) {
        return text.list("first-asked").stream()
                .map(s -> s.split(" "))
                .filter(s -> s[0].equals(kind.word()))
                .map(s -> Integer.valueOf(s[1]))
                .findFirst()
                .orElse(null);
    }

    private static Findings.Draft tell(Findings.Draft d, LoadPointWiring l) {
        d.in(l.box()).outlets(List.of(l.id()));
        l.feeds().stream().findFirst().ifPresent(x -> d.of(x.breaker()).way("From " + x.terminal(), x.way()));
        return d;
    }

    private static void byEquipment(Facts f, Findings out) {
        for (LoadPointWiring l : f.points()) {
            Outlets.Has has = Outlets.has(f, l, Protection.GROUND_FAULT);
            if (Outlets.isOneOf(f, l, out.text().list("equipment")) && has != Outlets.Has.YES) {
                tell(
                                out.found(
                                        has == Outlets.Has.NO,
                                        l.id(),
                                        "What hangs on it is listed, and it "
                                                + (has == Outlets.Has.NO ? "has" : "may have")
                                                + " no ground-fault protection."),
                                l)
                        .add();
            }
        }
    }

    private static void outdoorEquipment(Facts f, Findings out) {
        for (LoadPointWiring l : f.points()) {
            Facts.InBox d = f.device(l.device());
            PlaceKind kind = f.kindOf(l.place());
            boolean outdoors = kind != null && out.text().has("places", kind.word());
            if (!outdoors
                    || d == null
                    || Outlets.isReceptacle(f, l)
                    || out.text().has("let-off", d.family().name().toLowerCase(Locale.ROOT))) {
                continue;
            }
            Outlets.Has has = Outlets.has(f, l, Protection.GROUND_FAULT);
            if (has != Outlets.Has.YES) {
                boolean hvac = Outlets.isOneOf(f, l, out.text().list("ask-equipment"));
                Findings.Draft x = hvac
                        ? out.asked(
                                l.id(), "Listed heating or cooling equipment may be let off until a date. Is it, here?")
                        : out.found(
                                has == Outlets.Has.NO,
                                l.id(),
                                "An outdoor outlet that " + (has == Outlets.Has.NO ? "has" : "may have")
                                        + " no ground-fault protection.");
                tell(x, l).add();
            }
        }
    }

    /** How near a receptacle is to water is not in the record. */
    private static void nearWater(Facts f, Findings out) {
        List<String> outlets = new ArrayList<>();
        for (LoadPointWiring l : f.points()) {
            PlaceKind kind = f.kindOf(l.place());
            boolean judged = kind != null && out.text().has("judged-by-place", kind.word());
            if (Outlets.isReceptacle(f, l)
                    && !judged
                    && Outlets.has(f, l, Protection.GROUND_FAULT) != Outlets.Has.YES) {
                outlets.add(l.id());
            }
        }
        if (!outlets.isEmpty()) {
            out.asked("house", "Is any of these within 6 ft of a sink, a bathtub or a shower?")
                    .outlets(outlets)
                    .add();
        }
    }

    /** The circuit is the subject: one outlet or device in a listed room brings all of it in. */
    private static void arcFault(Facts f, Findings out) {
        for (Facts.InPanel b : f.breakers()) {
            Double amperes = b.amperes();
            if (amperes == null || !out.text().has("amperes", String.valueOf(Math.round(amperes)))) {
                continue;
            }
            List<LoadPointWiring> bare = new ArrayList<>();
            boolean perhaps = true;
            Set<String> rooms = new TreeSet<>();
            for (LoadPointWiring l : f.servedBy(b.name())) {
                PlaceKind kind = f.kindOf(l.place());
                if (Outlets.isOfTwoLegs(f, l) || kind == null || !isListed(f, out.text(), l, kind)) {
                    continue;
                }
                rooms.add(Objects.requireNonNull(f.place(l.place())).said());
                Outlets.Has has = Outlets.has(f, l, Protection.ARC_FAULT);
                if (has != Outlets.Has.YES) {
                    bare.add(l);
                    perhaps &= has == Outlets.Has.PERHAPS;
                }
            }
            if (!bare.isEmpty()) {
                Findings.Draft d = out.found(
                                !perhaps,
                                b.name(),
                                "It supplies outlets in " + String.join(", ", rooms) + " that "
                                        + (perhaps ? "may have" : "have") + " no arc-fault protection.")
                        .of(b.name())
                        .in(b.panel().name())
                        .outlets(bare.stream().map(LoadPointWiring::id).toList());
                bare.stream()
                        .flatMap(l -> l.feeds().stream())
                        .findFirst()
                        .ifPresent(x -> d.way("From " + x.terminal(), x.way()));
                d.add();
            }
        }
    }

    /** Early editions asked for receptacle outlets of bedrooms only. */
    private static boolean isListed(Facts f, RuleText text, LoadPointWiring l, PlaceKind kind) {
        return text.has("places", kind.word()) && (!text.has("only", "receptacles") || Outlets.isReceptacle(f, l));
    }

    private static void tamperResistant(Facts f, Findings out) {
        List<String> outlets = new ArrayList<>();
        for (Facts.InBox d : f.devices()) {
            if (out.text().has("kinds", d.device().kind().name())
                    && !Outlets.says(d.device().label(), TAMPER)) {
                outlets.add(d.name());
            }
        }
        if (!outlets.isEmpty()) {
            out.asked(
                            "house",
                            "Whether these receptacles are tamper-resistant is not recorded (the faces say TR). Those with two slots and those out of reach are let off.")
                    .outlets(outlets)
                    .add();
        }
    }

    private static void weatherResistant(Facts f, Findings out) {
        for (Facts.InBox d : f.devices()) {
            PlaceKind kind = f.kindOf(d.box().place());
            boolean receptacle =
                    d.family() == DeviceKind.Family.RECEPTACLE || d.family() == DeviceKind.Family.PROTECTIVE;
            if (receptacle
                    && kind != null
                    && out.text().has("places", kind.word())
                    && d.device().label() == null) {
                out.asked(
                                d.name(),
                                "Is it weather-resistant (WR on its face), under a cover that keeps rain out while something is plugged in?")
                        .in(d.box().name())
                        .outlets(f.pointsOf(d.name()).stream()
                                .map(LoadPointWiring::id)
                                .toList())
                        .add();
            }
        }
    }

    /** Fed on LOAD: what hangs on its LINE is behind the sensor, and its own face is not. */
    private static void reversed(Facts f, Findings out) {
        for (Facts.InBox d : f.devices()) {
            DeviceKind kind = d.device().kind();
            if (kind.guard() == null || kind.findTerminal("load.hot").isEmpty()) {
                continue;
            }
            for (LoadPointWiring l : f.points()) {
                boolean own = l.device().equals(d.name());
                boolean passesBackwards = l.feeds().stream().anyMatch(x -> backwards(x.way(), d.name(), own));
                if (passesBackwards) {
                    Findings.Draft x = out.found(
                                    d.name(),
                                    "It is fed on its LOAD terminals: its own face is not protected"
                                            + (kind.guard().reversed() == DeviceKind.Reversed.LOCKS_OUT
                                                    ? ", and it stays dead."
                                                    : "."))
                            .in(d.box().name())
                            .outlets(f.pointsOf(d.name()).stream()
                                    .map(LoadPointWiring::id)
                                    .toList());
                    l.feeds().stream()
                            .findFirst()
                            .ifPresent(w -> x.of(w.breaker()).way("From " + w.terminal(), w.way()));
                    x.add();
                    break;
                }
            }
        }
    }

    /** From the load point towards the source a way meets LOAD after LINE only where the device is fed from behind. */
    private static boolean backwards(Way way, String device, boolean own) {
        int line = -1;
        int load = -1;
        int i = 0;
        for (var h : way.hops()) {
            if (h.thing().kind() == ThingKind.TERMINAL) {
                line = h.thing().name().equals(device + ".line.hot") && line < 0 ? i : line;
                load = h.thing().name().equals(device + ".load.hot") && load < 0 ? i : load;
            }
            i++;
        }
        // Its own face lies on LOAD: fed there, the way never meets LINE.
        return own ? load >= 0 && line < 0 : line >= 0 && load > line;
    }

    private static void noNeutral(Facts f, Findings out) {
        for (Facts.InBox d : f.devices()) {
            DeviceKind.Guard guard = d.device().kind().guard();
            if (guard == null
                    || !guard.sensesNeutral()
                    || d.device().kind().findTerminal("line.neutral").isEmpty()) {
                continue;
            }
            boolean hot = !Facts.joints(d.box(), r -> Facts.isTerminal(r, d.name(), "line.hot"))
                    .isEmpty();
            boolean neutral = !Facts.joints(d.box(), r -> Facts.isTerminal(r, d.name(), "line.neutral"))
                    .isEmpty();
            if (hot && !neutral) {
                boolean sure = d.device().unused().contains("line.neutral")
                        || f.house().isComplete(d.box(), Complete.JOINTS);
                if (sure) {
                    out.found(d.name(), "It has no neutral on LINE: without one it cannot open.")
                            .in(d.box().name())
                            .add();
                } else {
                    out.asked(d.name(), "Is there a neutral on its LINE terminal? Without one it cannot open.")
                            .in(d.box().name())
                            .add();
                }
            }
        }
    }

    /** The newest test of each device counts. */
    private static void failed(Facts f, Findings out) {
        for (Facts.InBox d : f.devices()) {
            TestResult last = f.house().tests().stream()
                    .filter(t -> t.device().equals(d.name()))
                    .reduce((a, b) -> b.date().compareTo(a.date()) >= 0 ? b : a)
                    .orElse(null);
            if (last != null && last.result().equals("failed")) {
                out.found(d.name(), "It failed its test (" + last.what() + ") on " + last.date() + ".")
                        .in(d.box().name())
                        .on(Basis.TESTED)
                        .outlets(f.points().stream()
                                .filter(l -> l.protections().stream()
                                        .anyMatch(p -> p.by().name().equals(d.name())))
                                .map(LoadPointWiring::id)
                                .toList())
                        .add();
            }
        }
    }

    private static void outOfReach(Facts f, Findings out) {
        for (Facts.InBox d : f.devices()) {
            PlaceKind kind = f.kindOf(d.box().place());
            boolean far = kind != null && out.text().has("places", kind.word());
            if (d.device().kind().guard() != null && (d.box().hidden() || far)) {
                out.found(d.box().hidden(), d.name(), "Its buttons cannot readily be reached.")
                        .in(d.box().name())
                        .add();
            }
        }
    }

    /** A receptacle with a ground slot where no ground is. */
    private static void replacement(Facts f, Findings out) {
        for (Facts.InBox d : f.devices()) {
            boolean receptacle =
                    d.family() == DeviceKind.Family.RECEPTACLE || d.family() == DeviceKind.Family.PROTECTIVE;
            boolean slot = d.device().kind().findTerminal("ground").isPresent()
                    && !d.device().unused().contains("ground-slot")
                    && !Outlets.says(d.device().label(), Set.of("two-slot", "two slot", "two slots"));
            List<LoadPointWiring> points = f.pointsOf(d.name());
            if (!receptacle || !slot || points.isEmpty()) {
                continue;
            }
            boolean none = points.stream().allMatch(l -> Outlets.grounded(f, l) == Outlets.Has.NO);
            boolean perhaps = points.stream().anyMatch(l -> Outlets.grounded(f, l) == Outlets.Has.PERHAPS);
            if (!none && !perhaps) {
                continue;
            }
            boolean behind =
                    points.stream().allMatch(l -> Outlets.has(f, l, Protection.GROUND_FAULT) == Outlets.Has.YES);
            if (behind && Outlets.says(d.device().label(), NO_GROUND)) {
                continue;
            }
            Findings.Draft x = none && !behind
                    ? out.found(d.name(), "It has a ground slot and no ground, and is not ground-fault protected.")
                    : none
                            ? out.asked(
                                    d.name(),
                                    "It has a ground slot, no ground, and is ground-fault protected. Do its labels say so?")
                            : out.possible(d.name(), "It has a ground slot and perhaps no ground.");
            x.in(d.box().name())
                    .outlets(points.stream().map(LoadPointWiring::id).toList())
                    .add();
        }
    }

    private static void critical(Facts f, Findings out) {
        for (LoadPointWiring l : f.points()) {
            if (Outlets.isOneOf(f, l, out.text().list("loads"))) {
                l.protections().stream()
                        .filter(p -> p.function() == Protection.GROUND_FAULT)
                        .findFirst()
                        .ifPresent(p -> tell(
                                        out.found(
                                                l.id(),
                                                "When " + p.by().name()
                                                        + " trips, this goes off and nobody may notice."),
                                        l)
                                .add());
            }
        }
    }

    /** {@return whether a terminal is wired in its box} */
    static boolean isWired(Facts.InBox d, String terminal) {
        return !Facts.joints(d.box(), (Ref r) -> Facts.isTerminal(r, d.name(), terminal))
                .isEmpty();
    }
}
