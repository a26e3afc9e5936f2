package org.splicebook.rules;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.Cable;
import org.splicebook.record.Protection;
import org.splicebook.record.Wire;
import org.splicebook.wiring.Conductor;
import org.splicebook.wiring.LoadPointWiring;
import org.splicebook.wiring.ProtectedBy;
import org.splicebook.wiring.Sureness;

/** What the packs for 230 V ask for and the US code does not: residual current for every socket-outlet, a scheme of colours. */
final class MetricRules {
    private static final Pattern MILLIAMPERES = Pattern.compile("([0-9]{1,4}) ?mA\\b");

    private MetricRules() {}

    static void add(Map<String, Rule> all) {
        all.put("residual-current-on-sockets", MetricRules::residualCurrent);
        all.put("colours-of-the-scheme", MetricRules::colours);
    }

    /** Socket-outlets up to a rating, each behind a device that trips at no more than so many milliamperes. */
    private static void residualCurrent(Facts f, Findings out) {
        Map<String, Set<String>> untold = new TreeMap<>();
        for (LoadPointWiring l : f.points()) {
            if (!Outlets.isReceptacle(f, l) || amperes(f, l) > out.text().number("amperes")) {
                continue;
            }
            Outlets.Has has = Outlets.has(f, l, Protection.GROUND_FAULT);
            if (has != Outlets.Has.YES) {
                ProtectionRules.tell(
                                out.found(
                                        has == Outlets.Has.NO,
                                        l.id(),
                                        "A socket-outlet that " + (has == Outlets.Has.NO ? "has" : "may have")
                                                + " no residual-current protection."),
                                l)
                        .add();
                continue;
            }
            double least = Double.MAX_VALUE;
            boolean told = false;
            for (ProtectedBy p : l.protections()) {
                if (p.function() == Protection.GROUND_FAULT && p.sureness() == Sureness.MUST) {
                    Double trips = milliamperes(f, p.by().name());
                    told |= trips != null;
                    least = trips == null ? least : Math.min(least, trips);
                }
            }
            if (told && least > out.text().number("milliamperes")) {
                ProtectionRules.tell(
                                out.found(
                                        l.id(),
                                        String.format(
                                                Locale.ROOT,
                                                "It is behind a device of %.0f mA; %.0f mA or less are asked for.",
                                                least,
                                                out.text().number("milliamperes"))),
                                l)
                        .add();
            } else if (!told) {
                l.protections().stream()
                        .filter(p -> p.function() == Protection.GROUND_FAULT && p.sureness() == Sureness.MUST)
                        .forEach(p -> untold.computeIfAbsent(p.by().name(), k -> new TreeSet<>())
                                .add(l.id()));
            }
        }
        untold.forEach((device, outlets) -> out.asked(
                        device, "At how many milliamperes does it trip? Write it on its label, for example 30 mA.")
                .outlets(List.copyOf(outlets))
                .add());
    }

    /** The rating that decides: its own, else that of its breaker; 0 where neither is known, so that it is looked at. */
    private static double amperes(Facts f, LoadPointWiring l) {
        Facts.InBox d = f.device(l.device());
        if (d != null && d.device().rating() != null) {
            return d.device().rating().base();
        }
        double least = Double.MAX_VALUE;
        for (String name : Facts.breakersOf(l)) {
            Facts.InPanel b = f.breaker(name);
            Double rating = b == null ? null : b.amperes();
            least = rating == null ? least : Math.min(least, rating);
        }
        return least == Double.MAX_VALUE ? 0 : least;
    }

    /** What the label of a breaker or device says; null where it says nothing. */
    private static @Nullable Double milliamperes(Facts f, String by) {
        Facts.InPanel b = f.breaker(by);
        Facts.InBox d = f.device(by);
        String label = b != null ? b.breaker().label() : d != null ? d.device().label() : null;
        Matcher m = MILLIAMPERES.matcher(label == null ? "" : label);
        return m.find() ? Double.valueOf(m.group(1)) : null;
    }

    /** A wire whose colour the scheme gives to none of its kind. One in the colour of another kind is found by a rule of its own. */
    private static void colours(Facts f, Findings out) {
        Set<String> colourless = new TreeSet<>();
        for (Cable c : f.house().cables().values()) {
            Set<String> odd = new TreeSet<>();
            for (Wire w : c.wires()) {
                String name = c.name() + "." + w.name();
                String as = kind(f, name);
                if (w.metal() || as == null) {
                    continue;
                }
                if (out.text().has("not-told", w.colour())) {
                    colourless.add(name);
                } else if (!out.text().has(as, w.colour()) && !isOfAnother(out.text(), as, w.colour())) {
                    odd.add(w.colour() + " for "
                            + (as.equals("hot") ? "a line" : as.equals("ground") ? "earth" : "the neutral"));
                }
            }
            if (!odd.isEmpty()) {
                Findings.Draft d = out.found(
                                c.name(),
                                "It has " + String.join(", ", odd)
                                        + ": an older scheme, or another country's, in which a colour may mean something else.")
                        .on(c.about().basisOr(f.house().basis()));
                c.ends().forEach(e -> d.in(e.boxOrNull()));
                d.add();
            }
        }
        if (!colourless.isEmpty()) {
            out.asked("house", "What colour are " + CircuitRules.some(List.copyOf(colourless)) + "?")
                    .add();
        }
    }

    private static @Nullable String kind(Facts f, String wire) {
        return f.isShown(wire, Conductor.HOT)
                ? "hot"
                : f.isShown(wire, Conductor.NEUTRAL) ? "neutral" : f.isShown(wire, Conductor.GROUND) ? "ground" : null;
    }

    /** A line in the neutral's colour or in earth's, a neutral in earth's. */
    private static boolean isOfAnother(RuleText text, String as, String colour) {
        return (as.equals("hot") && text.has("neutral", colour))
                || (!as.equals("ground") && text.has("ground", colour));
    }
}
