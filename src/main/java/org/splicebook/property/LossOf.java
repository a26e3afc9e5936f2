package org.splicebook.property;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import org.splicebook.answer.Nearest;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.record.House;
import org.splicebook.wiring.Loss;
import org.splicebook.wiring.LossMode;
import org.splicebook.wiring.Thing;
import org.splicebook.wiring.ThingKind;
import org.splicebook.wiring.Wiring;

/** Finds what is lost with a thing that a person names. */
final class LossOf {
    static final String USUAL = "usual";

    /** In the order in which a name that stands for several things is understood. */
    private static final Map<String, List<LossMode>> MODES = modes();

    static final List<String> HOWS = List.copyOf(MODES.keySet());

    private LossOf() {}

    private static Map<String, List<LossMode>> modes() {
        Map<String, List<LossMode>> modes = new LinkedHashMap<>();
        modes.put(
                USUAL,
                List.of(
                        LossMode.OFF_BY_HAND,
                        LossMode.CABLE_CUT,
                        LossMode.SOURCE_LOST,
                        LossMode.GUARD_OPENS,
                        LossMode.DEVICE_OFF,
                        LossMode.SWITCH_FAILS,
                        LossMode.JOINT_LOST,
                        LossMode.WIRE_END_LOST,
                        LossMode.ONE_POLE_OPEN));
        modes.put("off", List.of(LossMode.OFF_BY_HAND, LossMode.DEVICE_OFF));
        modes.put("trip", List.of(LossMode.TRIPS, LossMode.GUARD_OPENS));
        modes.put("open", List.of(LossMode.ONE_POLE_OPEN));
        modes.put("fails", List.of(LossMode.SWITCH_FAILS));
        modes.put("lost", List.of(LossMode.SOURCE_LOST, LossMode.JOINT_LOST, LossMode.WIRE_END_LOST));
        modes.put("cut", List.of(LossMode.CABLE_CUT));
        return modes;
    }

    /**
     * {@return what is lost; without rows where the record shows that nothing is}
     *
     * @throws ProblemException when the record has no such thing, or it cannot be lost in that way
     */
    static Loss of(Wiring wiring, String part, String thing, String how) {
        List<LossMode> modes = MODES.getOrDefault(how, List.of());
        List<Loss> named = wiring.losses().stream()
                .filter(l -> l.thing().name().equals(thing))
                .toList();
        return named.stream()
                .filter(l -> modes.contains(l.mode()))
                .min(Comparator.comparingInt(l -> modes.indexOf(l.mode())))
                .orElseGet(() -> nothing(wiring, part, thing, how, named, modes));
    }

    private static Loss nothing(
            Wiring wiring, String part, String thing, String how, List<Loss> named, List<LossMode> modes) {
        Map<String, ThingKind> known = things(wiring.house());
        if (!named.isEmpty() || (known.containsKey(thing) && !how.equals(USUAL))) {
            List<String> can = new ArrayList<>();
            MODES.forEach((word, m) -> {
                if (named.stream().anyMatch(l -> m.contains(l.mode()))) {
                    can.add(word);
                }
            });
            throw wrong(
                    ProblemKind.BAD_VALUE,
                    "how",
                    "Nothing is known to change in " + part + " with " + thing + " (" + how + ").",
                    can.isEmpty() ? "Leave how out." : "It can go in these ways: " + String.join(", ", can) + ".");
        }
        if (!known.containsKey(thing)) {
            TreeSet<String> all = new TreeSet<>(known.keySet());
            wiring.losses().forEach(l -> all.add(l.thing().name()));
            throw wrong(
                    ProblemKind.NOT_FOUND,
                    "thing",
                    "The record of " + part + " has no " + thing + ".",
                    Nearest.cure(thing, all));
        }
        return new Loss(modes.get(0), new Thing(known.getOrDefault(thing, ThingKind.DEVICE), thing), List.of());
    }

    private static Map<String, ThingKind> things(House h) {
        Map<String, ThingKind> all = new LinkedHashMap<>();
        h.panels().values().forEach(p -> {
            if (p.main() != null) {
                all.put(p.name(), ThingKind.MAIN);
            }
            p.breakers().keySet().forEach(b -> all.put(p.name() + "." + b, ThingKind.BREAKER));
        });
        h.cables().keySet().forEach(c -> all.put(c, ThingKind.CABLE));
        h.sources().keySet().forEach(s -> all.put(s, ThingKind.SOURCE));
        h.boxes().values().forEach(b -> b.devices().keySet().forEach(d -> all.put(d, ThingKind.DEVICE)));
        return all;
    }

    private static ProblemException wrong(ProblemKind kind, String field, String message, String cure) {
        return new ProblemException(Problem.error(kind, Where.field(field), message, cure));
    }
}
