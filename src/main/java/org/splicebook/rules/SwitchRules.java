package org.splicebook.rules;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.Cable;
import org.splicebook.record.Complete;
import org.splicebook.record.DeviceKind;
import org.splicebook.record.PlaceKind;
import org.splicebook.wiring.Conductor;
import org.splicebook.wiring.LoadPointWiring;
import org.splicebook.wiring.Sureness;
import org.splicebook.wiring.ThingKind;

/** Switches: a neutral in their box, what a dimmer feeds, what an electronic one returns over. */
final class SwitchRules {
    private SwitchRules() {}

    static void add(Map<String, Rule> all) {
        all.put("no-neutral-at-switch", SwitchRules::noNeutral);
        all.put("dimmer-on-receptacle", SwitchRules::dimmer);
        all.put("switch-returns-over-ground", SwitchRules::overGround);
        all.put("lighting-without-switch", SwitchRules::noSwitch);
    }

    private static void noNeutral(Facts f, Findings out) {
        f.devices(DeviceKind.Family.SWITCH).forEach(d -> {
            PlaceKind kind = f.kindOf(d.box().place());
            boolean asks = kind == null || out.text().has("places", kind.word());
            Set<String> lights = switched(f, d.name(), DeviceKind.Family.LUMINAIRE, false);
            if (!asks || lights.isEmpty()) {
                return;
            }
            boolean neutral = f.cablesAt(d.box().name()).stream()
                    .anyMatch(c -> f.wiresOf(c).stream().anyMatch(w -> f.isShown(w.name(), Conductor.NEUTRAL)));
            boolean may = f.cablesAt(d.box().name()).stream()
                    .anyMatch(c -> c.wires().stream().anyMatch(w -> mayBeNeutral(f, c, w.name())));
            if (neutral) {
                return;
            }
            boolean whole = f.house().isComplete(d.box(), Complete.CABLES) && !may;
            Findings.Draft x = whole
                    ? out.found(d.name(), "No neutral is in its box: a switch that needs one cannot be put here.")
                    : out.asked(d.name(), "Is there a neutral in its box?");
            x.in(d.box().name()).outlets(List.copyOf(lights)).add();
        });
    }

    private static boolean mayBeNeutral(Facts f, Cable c, String wire) {
        var u = f.use(c.name() + "." + wire);
        return u == null || u.uses().isEmpty() || u.uses().stream().anyMatch(x -> x.conductor() == Conductor.NEUTRAL);
    }

    /** The load points of a family, or of any, whose hot passes a switch. */
    private static Set<String> switched(Facts f, String device, DeviceKind.@Nullable Family family, boolean shown) {
        Set<String> all = new TreeSet<>();
        String terminals = device + ".";
        for (LoadPointWiring l : f.points()) {
            Facts.InBox d = f.device(l.device());
            if (d == null
                    || (family != null && d.family() != family)
                    || l.device().equals(device)) {
                continue;
            }
            boolean passes = l.feeds().stream()
                    .filter(x -> !shown || x.sureness() != Sureness.MAY)
                    .anyMatch(x -> x.way().hops().stream()
                            .anyMatch(h -> h.thing().kind() == ThingKind.TERMINAL
                                    && h.thing().name().startsWith(terminals)));
            if (passes) {
                all.add(l.id());
            }
        }
        return all;
    }

    private static void dimmer(Facts f, Findings out) {
        f.devices(DeviceKind.Family.SWITCH)
                .filter(d -> out.text().has("kinds", d.device().kind().name()))
                .forEach(d -> {
                    Set<String> sure = switched(f, d.name(), DeviceKind.Family.RECEPTACLE, true);
                    if (switched(f, d.name(), null, true).isEmpty()) {
                        out.asked(d.name(), "What does this dimmer feed?")
                                .in(d.box().name())
                                .add();
                        return;
                    }
                    Set<String> fed =
                            sure.isEmpty() ? switched(f, d.name(), DeviceKind.Family.RECEPTACLE, false) : sure;
                    if (!fed.isEmpty()) {
                        out.found(
                                        !sure.isEmpty(),
                                        d.name(),
                                        "A dimmer " + (sure.isEmpty() ? "may feed" : "feeds") + " receptacles: "
                                                + String.join(", ", fed) + ".")
                                .in(d.box().name())
                                .outlets(List.copyOf(fed))
                                .add();
                    }
                });
    }

    /** What an electronic switch draws for itself has to return over a neutral. */
    private static void overGround(Facts f, Findings out) {
        for (LoadPointWiring l : f.points()) {
            Facts.InBox d = f.device(l.device());
            boolean ground = !l.returns().isEmpty() && l.returns().stream().allMatch(r -> r.over() == Conductor.GROUND);
            boolean own = d != null
                    && d.family() == DeviceKind.Family.SWITCH
                    && d.device().kind().findTerminal("neutral").isPresent();
            if (d != null && own && f.isOpen(l) && l.returns().stream().allMatch(r -> r.sureness() == Sureness.MAY)) {
                out.asked(d.name(), "What is on its neutral lead: a neutral, or the ground?")
                        .in(d.box().name())
                        .outlets(List.of(l.id()))
                        .add();
            } else if (d != null && d.family() == DeviceKind.Family.SWITCH && ground) {
                out.found(d.name(), "What it draws for itself returns over ground.")
                        .in(d.box().name())
                        .outlets(List.of(l.id()))
                        .add();
            }
        }
    }

    private static void noSwitch(Facts f, Findings out) {
        for (LoadPointWiring l : f.points()) {
            Facts.InBox d = f.device(l.device());
            PlaceKind kind = f.kindOf(l.place());
            if (d == null
                    || d.family() != DeviceKind.Family.LUMINAIRE
                    || kind == null
                    || !out.text().has("places", kind.word())
                    || out.text().has("let-off", d.device().kind().name().toLowerCase(Locale.ROOT))) {
                continue;
            }
            boolean shown = l.feeds().stream().anyMatch(x -> !x.way().throughUnknown());
            boolean passes = l.feeds().stream()
                    .anyMatch(x -> x.way().hops().stream().anyMatch(h -> {
                        Facts.InBox s = h.thing().kind() == ThingKind.TERMINAL
                                ? f.device(h.thing()
                                        .name()
                                        .substring(0, h.thing().name().indexOf('.')))
                                : null;
                        return s != null && s.family() == DeviceKind.Family.SWITCH;
                    }));
            if (shown && !passes && !f.isOpen(l)) {
                out.asked(l.id(), "No wall switch is recorded for this light. Does it have one?")
                        .in(l.box())
                        .outlets(List.of(l.id()))
                        .add();
            }
        }
    }
}
