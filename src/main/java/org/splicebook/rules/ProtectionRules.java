package org.splicebook.rules;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.DeviceKind;
import org.splicebook.record.Place;
import org.splicebook.record.PlaceKind;
import org.splicebook.record.Protection;
import org.splicebook.wiring.LoadPointWiring;

/** Ground-fault cover by place and equipment; tamper- and weather-resistant receptacles. */
final class ProtectionRules {
    private static final Set<String> TAMPER = Set.of("tamper", "tr ", " tr", "(tr)");

    private ProtectionRules() {}

    static void add(Map<String, Rule> all) {
        all.put("ground-fault-by-place", ProtectionRules::byPlace);
        all.put("ground-fault-by-equipment", ProtectionRules::byEquipment);
        all.put("ground-fault-outdoor-equipment", ProtectionRules::outdoorEquipment);
        all.put("ground-fault-crawl-space-light", ProtectionRules::crawlSpaceLight);
        all.put("ground-fault-vehicle-receptacle", ProtectionRules::vehicleReceptacle);
        all.put("near-water", ProtectionRules::nearWater);
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
            dated(tell(d, l), f, out.text(), place, l).add();
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

    /** From when on such a receptacle was asked to be protected: in some places of its kind, and in this one for sure. */
    private static Findings.Draft dated(Findings.Draft d, Facts f, RuleText text, Place place, LoadPointWiring l) {
        String kind = place.kind().word();
        Integer sure = year(text.list("first-asked"), kind);
        Integer some = year(text.list("perhaps-asked"), kind);
        boolean finished = Boolean.TRUE.equals(place.finished())
                && text.list("finished-from").size() == 1;
        if (sure == null || (place.kind() == PlaceKind.BASEMENT && place.finished() == null)) {
            return d.between(null, null);
        }
        some = some == null ? sure : some;
        if (Outlets.isOfTwoLegs(f, l) || (finished && place.kind() == PlaceKind.BASEMENT)) {
            Integer from = year(text.list(Outlets.isOfTwoLegs(f, l) ? "volts-250-from" : "finished-from"), "");
            some = from == null ? some : Math.max(some, from);
            sure = from == null ? sure : Math.max(sure, from);
        }
        Integer dedicated = Outlets.load(f, l) == null ? null : year(text.list("dedicated-from"), kind);
        return d.between(some, dedicated == null ? sure : Math.max(sure, dedicated));
    }

    /** The year behind a word in a list of words with years, or the year alone. */
    static @Nullable Integer year(List<String> rows, String word) {
        return rows.stream()
                .filter(r -> word.isEmpty() || r.startsWith(word + " "))
                .map(r -> Integer.valueOf(r.substring(r.lastIndexOf(' ') + 1)))
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
                        .since(firstAsked(f, out.text(), l))
                        .add();
            }
        }
    }

    private static @Nullable Integer firstAsked(Facts f, RuleText text, LoadPointWiring l) {
        return text.list("first-asked").stream()
                .filter(r -> Outlets.isOneOf(f, l, List.of(r.split(" ")[0])))
                .map(r -> Integer.valueOf(r.split(" ")[1]))
                .findFirst()
                .orElse(null);
    }

    /** Lights in a crawl space. */
    private static void crawlSpaceLight(Facts f, Findings out) {
        for (LoadPointWiring l : f.points()) {
            Facts.InBox d = f.device(l.device());
            PlaceKind kind = f.kindOf(l.place());
            if (d != null
                    && d.family() == DeviceKind.Family.LUMINAIRE
                    && kind != null
                    && out.text().has("places", kind.word())) {
                unprotected(f, out, l, "A light in a crawl space");
            }
        }
    }

    /** Receptacles from which vehicles are charged. */
    private static void vehicleReceptacle(Facts f, Findings out) {
        for (LoadPointWiring l : f.points()) {
            if (Outlets.isReceptacle(f, l) && Outlets.isOneOf(f, l, out.text().list("loads"))) {
                unprotected(f, out, l, "A receptacle for a vehicle");
            }
        }
    }

    private static void unprotected(Facts f, Findings out, LoadPointWiring l, String what) {
        Outlets.Has has = Outlets.has(f, l, Protection.GROUND_FAULT);
        if (has != Outlets.Has.YES) {
            String said =
                    what + " that " + (has == Outlets.Has.NO ? "has" : "may have") + " no ground-fault protection.";
            tell(out.found(has == Outlets.Has.NO, l.id(), said), l).add();
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
                    || isAbove(f, l, out.text().number("most-amperes"))
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

    private static boolean isAbove(Facts f, LoadPointWiring l, double amperes) {
        return Facts.breakersOf(l).stream().map(f::breaker).anyMatch(b -> {
            Double rating = b == null ? null : b.amperes();
            return rating != null && rating > amperes;
        });
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

    private static void tamperResistant(Facts f, Findings out) {
        List<String> outlets = new ArrayList<>();
        for (Facts.InBox d : f.devices()) {
            if (out.text().has("kinds", d.device().kind().name())
                    && !Outlets.hasTwoSlots(d)
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
