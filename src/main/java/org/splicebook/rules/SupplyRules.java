package org.splicebook.rules;

import java.util.List;
import java.util.Map;
import org.splicebook.wiring.Feed;
import org.splicebook.wiring.LoadPointWiring;
import org.splicebook.wiring.Supply;
import org.splicebook.wiring.Sureness;

/** Hots that meet: of two breakers on one leg, or of two legs. */
final class SupplyRules {
    private SupplyRules() {}

    static void add(Map<String, Rule> all) {
        all.put("fed-by-two-breakers", (f, out) -> supply(f, out, Supply.TWICE));
        all.put("two-legs-joined", (f, out) -> supply(f, out, Supply.SHORT));
    }

    private static void supply(Facts f, Findings out, Supply supply) {
        for (LoadPointWiring l : f.points()) {
            if (l.supply() == supply) {
                Findings.Draft d = out.found(
                                l.id(),
                                supply == Supply.TWICE
                                        ? "It is fed by " + String.join(" and ", Facts.breakersOf(l))
                                                + " at once: switching one off leaves it live."
                                        : "Poles of unlike legs meet on one terminal: "
                                                + String.join(", ", Facts.breakersOf(l)) + ".")
                        .in(l.box())
                        .outlets(List.of(l.id()));
                l.feeds().forEach(x -> d.way("From " + x.terminal(), x.way()));
                d.add();
            } else if (l.supply() != Supply.TWICE && l.supply() != Supply.SHORT) {
                mayMeet(out, l, supply == Supply.TWICE);
            }
        }
    }

    /** A pole of another breaker that may reach the terminal beside the one that does, on one leg or on two. */
    private static void mayMeet(Findings out, LoadPointWiring l, boolean oneLeg) {
        for (Feed shown : l.feeds()) {
            for (Feed may : l.feeds()) {
                if (shown.sureness() != Sureness.MAY
                        && may.sureness() == Sureness.MAY
                        && may.terminal().equals(shown.terminal())
                        && !may.breaker().equals(shown.breaker())
                        && may.sourcePoles().equals(shown.sourcePoles()) == oneLeg) {
                    out.possible(
                                    l.id(),
                                    "It is fed by " + shown.breaker() + " and may be fed by " + may.breaker()
                                            + " as well" + (oneLeg ? "." : ", which is of the other leg."))
                            .in(l.box())
                            .of(shown.breaker())
                            .outlets(List.of(l.id()))
                            .way("From " + may.terminal(), may.way())
                            .add();
                    return;
                }
            }
        }
    }
}
