package org.splicebook.rules;

import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.splicebook.record.Box;
import org.splicebook.record.CableKind;
import org.splicebook.record.DeviceKind;
import org.splicebook.rules.fill.BoxFill;

/** Boxes: hidden, set too deep, not there, with more cables than are known. */
final class BoxRules {
    private BoxRules() {}

    static void add(Map<String, Rule> all) {
        all.put("hidden-box", BoxRules::hidden);
        all.put("box-set-back", BoxRules::setBack);
        all.put("cable-not-found-in-box", BoxRules::moreCables);
        all.put("splice-without-box", BoxRules::noBox);
        all.put("box-too-full", BoxRules::tooFull);
    }

    /** By the count of the edition; where the record does not say enough of a box that was opened, it is asked. */
    private static void tooFull(Facts f, Findings out) {
        int edition = (int) out.text().number("count-of");
        for (BoxFill fill : f.remembered().fills().verdicts(f.wiring(), edition)) {
            switch (fill.verdict()) {
                case TOO_FULL ->
                    out.found(fill.box(), fill.said())
                            .in(fill.box())
                            .on(fill.basis())
                            .add();
                case MAY_BE_TOO_FULL, VOLUME_NOT_KNOWN -> {
                    Box b = Objects.requireNonNull(f.house().boxes().get(fill.box()));
                    if (b.shell() != null && !b.joints().isEmpty() && !isOfEquipment(b, fill)) {
                        out.asked(fill.box(), fill.said() + " Not known: " + String.join(" ", fill.notKnown()))
                                .in(fill.box())
                                .on(fill.basis())
                                .add();
                    }
                }
                default -> {}
            }
        }
    }

    /** The wiring space of equipment comes with it: it is no box that is counted, unless someone wrote down its volume. */
    private static boolean isOfEquipment(Box b, BoxFill fill) {
        return fill.capacity() == null
                && b.devices().values().stream()
                        .map(d -> d.kind().family())
                        .anyMatch(f -> f == DeviceKind.Family.DISCONNECT || f == DeviceKind.Family.APPLIANCE);
    }

    private static void hidden(Facts f, Findings out) {
        for (Box b : f.house().boxes().values()) {
            if (b.hidden()) {
                out.found(b.name(), "A box with splices behind a finish: nobody can reach or inspect it.")
                        .in(b.name())
                        .add();
            }
        }
    }

    private static void setBack(Facts f, Findings out) {
        double most = out.text().number("millimetres") / 1000;
        for (Box b : f.house().boxes().values()) {
            if (b.shell() != null
                    && b.shell().depth() != null
                    && b.shell().depth().base() > most) {
                out.found(
                                b.name(),
                                "Its edge lies " + b.shell().depth().said()
                                        + " behind the finished surface: an extension ring closes the gap.")
                        .in(b.name())
                        .add();
            }
        }
    }

    private static void moreCables(Facts f, Findings out) {
        for (Box b : f.house().boxes().values()) {
            long known = f.cablesAt(b.name()).stream()
                    .mapToLong(c -> c.ends().stream()
                                    .filter(e -> b.name().equals(e.boxOrNull()))
                                    .count()
                            + c.through().stream().filter(b.name()::equals).count())
                    .sum();
            if (b.cableEntries() != null && b.cableEntries() > known) {
                out.asked(
                                b.name(),
                                b.cableEntries() + " cables were counted entering and " + known
                                        + " are recorded. Which are the others?")
                        .in(b.name())
                        .add();
            }
        }
    }

    private static void noBox(Facts f, Findings out) {
        for (Box b : f.house().boxes().values()) {
            boolean none = b.shell() != null && b.shell().material().equals("none");
            boolean cable = f.cablesAt(b.name()).stream().anyMatch(c -> c.kind() != CableKind.OPEN_WIRE);
            if (none && cable && !b.joints().isEmpty()) {
                out.found(b.name(), "Wires of a cable are joined in the open air, without a box.")
                        .in(b.name())
                        .add();
            }
        }
        List<String> untold = f.house().boxes().values().stream()
                .filter(b -> b.shell() == null && b.devices().isEmpty())
                .filter(b -> b.joints().stream().anyMatch(j -> j.members().size() > 1))
                .map(Box::name)
                .toList();
        if (!untold.isEmpty()) {
            out.asked("house", "Are the splices at " + CircuitRules.some(untold) + " in a box, with a cover?")
                    .add();
        }
    }
}
