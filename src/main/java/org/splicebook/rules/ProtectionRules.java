package org.splicebook.rules;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.DeviceKind;
import org.splicebook.record.Place;
import org.splicebook.record.PlaceKind;
import org.splicebook.record.Protection;
import org.splicebook.wiring.LoadPointWiring;

/** Ground-fault, arc-fault and tamper-resistant cover, and the devices that give it. */
final class ProtectionRules {
    private static final Set<String> TAMPER = Set.of("tamper", "tr ", " tr", "(tr)");

    private ProtectionRules() {}

    static void add(Map<String, Rule> all) {
        all.put("ground-fault-by-place", ProtectionRules::byPlace);
        all.put("ground-fault-by-equipment", ProtectionRules::byEquipment);
        all.put("ground-fault-outdoor-equipment", ProtectionRules::outdoorEquipment);
        all.put("near-water", ProtectionRules::nearWater);
        all.put("arc-fault-by-room", ProtectionRules::arcFault);
        all.put("tamper-resistant", ProtectionRules::tamperResistant);
        all.put("weather-resistant", ProtectionRules::weatherResistant);
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

    static Findings.Draft tell(Findings.Draft d, LoadPointWiring l) {
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
            if (amperes != null && !out.text().has("amperes", String.valueOf(Math.round(amperes)))) {
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
                Findings.Draft d = (amperes == null
                                ? out.asked(
                                        b.name(),
                                        "What is its rating? Of 20 A and less its outlets in "
                                                + String.join(", ", rooms) + " ask for arc-fault protection.")
                                : out.found(
                                        !perhaps,
                                        b.name(),
                                        "It supplies outlets in " + String.join(", ", rooms) + " that "
                                                + (perhaps ? "may have" : "have") + " no arc-fault protection."))
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
}
