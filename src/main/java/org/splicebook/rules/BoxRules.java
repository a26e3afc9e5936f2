package org.splicebook.rules;

import java.util.Map;
import org.splicebook.record.Box;

/** Boxes: hidden, set too deep. */
final class BoxRules {
    private BoxRules() {}

    static void add(Map<String, Rule> all) {
        all.put("hidden-box", BoxRules::hidden);
        all.put("box-set-back", BoxRules::setBack);
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
}
