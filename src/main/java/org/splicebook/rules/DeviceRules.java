package org.splicebook.rules;

import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.Basis;
import org.splicebook.record.Complete;
import org.splicebook.record.DeviceKind;
import org.splicebook.record.PlaceKind;
import org.splicebook.record.Protection;
import org.splicebook.record.Ref;
import org.splicebook.record.TestResult;
import org.splicebook.wiring.LoadPointWiring;
import org.splicebook.wiring.Sureness;
import org.splicebook.wiring.ThingKind;
import org.splicebook.wiring.Way;

/** Protective devices themselves, and receptacles where no ground is. */
final class DeviceRules {
    private static final Set<String> NO_GROUND = Set.of("no equipment ground");

    private DeviceRules() {}

    static void add(Map<String, Rule> all) {
        all.put("line-and-load-reversed", DeviceRules::reversed);
        all.put("hot-and-neutral-reversed", DeviceRules::polarity);
        all.put("protective-device-without-neutral", DeviceRules::noNeutral);
        all.put("protective-device-failed-its-test", DeviceRules::failed);
        all.put("protective-device-out-of-reach", DeviceRules::outOfReach);
        all.put("ungrounded-replacement", DeviceRules::replacement);
        all.put("critical-load-behind-ground-fault", DeviceRules::critical);
    }

    /** The hot on the terminal that is made for the neutral, and the neutral on the one for the hot. */
    private static void polarity(Facts f, Findings out) {
        Set<String> untold = new java.util.TreeSet<>();
        Set<String> told = new java.util.TreeSet<>();
        for (LoadPointWiring l : f.points()) {
            Facts.InBox d = f.device(l.device());
            boolean hot = l.feeds().stream()
                    .anyMatch(x -> x.sureness() != Sureness.MAY && isFor(d, x.terminal(), DeviceKind.Role.NEUTRAL));
            boolean neutral = l.returns().stream()
                    .anyMatch(x -> x.sureness() != Sureness.MAY && isFor(d, x.terminal(), DeviceKind.Role.HOT));
            boolean shown = l.feeds().stream().anyMatch(x -> x.sureness() != Sureness.MAY);
            if (d != null
                    && d.family() == DeviceKind.Family.RECEPTACLE
                    && !shown
                    && !l.feeds().isEmpty()) {
                untold.add(d.name());
            }
            if (d != null && hot && neutral && told.add(d.name())) {
                out.found(
                                d.name(),
                                "Its hot is on the terminal for the neutral: shells, sleeves and switches that should be dead are live.")
                        .in(d.box().name())
                        .outlets(f.pointsOf(d.name()).stream()
                                .map(LoadPointWiring::id)
                                .toList())
                        .add();
            }
        }
        if (!untold.isEmpty()) {
            out.asked(
                            "house",
                            "Which side is hot at " + CircuitRules.some(List.copyOf(untold))
                                    + "? A plug-in tester or a meter tells.")
                    .add();
        }
    }

    private static boolean isFor(Facts.@Nullable InBox d, String terminal, DeviceKind.Role role) {
        return d != null
                && d.device()
                        .kind()
                        .findTerminal(terminal.substring(
                                Math.min(terminal.length(), d.name().length() + 1)))
                        .filter(t -> t.role() == role)
                        .isPresent();
    }

    /** Fed on LOAD: what hangs on its LINE is behind the sensor, and its own face is not. */
    private static void reversed(Facts f, Findings out) {
        for (Facts.InBox d : f.devices()) {
            DeviceKind kind = d.device().kind();
            if (d.family() == DeviceKind.Family.PROTECTIVE
                    && kind.findTerminal("line.hot").isPresent()
                    && !isWired(d, "line.hot")
                    && !isWired(d, "load.hot")) {
                out.asked(
                                d.name(),
                                "Is the feed on its LINE terminals? With its TEST pressed, its own face has to be dead.")
                        .in(d.box().name())
                        .add();
                continue;
            }
            if (kind.guard() == null || kind.findTerminal("load.hot").isEmpty()) {
                continue;
            }
            String onLine = d.name() + ".line.hot";
            String onLoad = d.name() + ".load.hot";
            for (LoadPointWiring l : f.points()) {
                boolean own = l.device().equals(d.name());
                boolean passesBackwards = l.feeds().stream().anyMatch(x -> backwards(x.way(), onLine, onLoad, own));
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
    private static boolean backwards(Way way, String onLine, String onLoad, boolean own) {
        int line = -1;
        int load = -1;
        int i = 0;
        for (var h : way.hops()) {
            if (h.thing().kind() == ThingKind.TERMINAL) {
                line = line < 0 && h.thing().name().equals(onLine) ? i : line;
                load = load < 0 && h.thing().name().equals(onLoad) ? i : load;
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
        Set<String> untested = new java.util.TreeSet<>();
        for (Facts.InBox d : f.devices()) {
            if (d.family() == DeviceKind.Family.PROTECTIVE
                    && f.house().tests().stream().noneMatch(t -> t.device().equals(d.name()))) {
                untested.add(d.name());
            }
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
        if (!untested.isEmpty()) {
            out.asked(
                            "house",
                            "No test of " + CircuitRules.some(List.copyOf(untested))
                                    + " is recorded. Does TEST cut it off, and RESET bring it back?")
                    .add();
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
                    && !Outlets.hasTwoSlots(d);
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
                        .ifPresent(p -> ProtectionRules.tell(
                                        out.found(
                                                p.sureness() != Sureness.MAY,
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
