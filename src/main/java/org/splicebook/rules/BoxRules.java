package org.splicebook.rules;

import java.util.Map;
import org.splicebook.record.Box;
import org.splicebook.record.CableKind;

/** Boxes: hidden, set too deep, not there, with more cables than are known. */
final class BoxRules {
    private BoxRules() {}

    static void add(Map<String, Rule> all) {
        all.put("hidden-box", BoxRules::hidden);
        all.put("box-set-back", BoxRules::setBack);
        all.put("cable-not-found-in-box", BoxRules::moreCables);
        all.put("splice-without-box", BoxRules::noBox);
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
    }
}
