package org.splicebook.rules;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.splicebook.record.DeviceKind;
import org.splicebook.record.Place;
import org.splicebook.record.Quantity;
import org.splicebook.wiring.Feed;
import org.splicebook.wiring.LoadPointWiring;
import org.splicebook.wiring.Sureness;

/** Loads: too large for their circuit, of two legs, alarms, volts lost on the way, ages. */
final class LoadRules {
    private LoadRules() {}

    static void add(Map<String, Rule> all) {
        all.put("load-too-large-for-breaker", LoadRules::tooLarge);
        all.put("breaker-too-small-for-range", LoadRules::range);
        all.put("half-live-two-leg-load", LoadRules::halfLive);
        all.put("two-leg-load-without-common-disconnect", LoadRules::untied);
        all.put("alarm-shares-a-circuit", LoadRules::alarm);
        all.put("alarms-by-place", LoadRules::alarms);
        all.put("voltage-drop", LoadRules::drop);
        all.put("age-not-recorded", LoadRules::age);
    }

    /** Continuous loads may take 80 % of a breaker's rating. */
    private static void tooLarge(Facts f, Findings out) {
        Set<String> unknown = new TreeSet<>();
        for (LoadPointWiring l : f.points()) {
            Facts.InBox d = f.device(l.device());
            double volts = Outlets.volts(f, l);
            if (d != null
                    && d.family() == DeviceKind.Family.APPLIANCE
                    && d.device().watts() == null) {
                unknown.add(d.name());
            }
            if (d == null || d.device().watts() == null || volts <= 0) {
                continue;
            }
            double amperes = d.device().watts().base() / volts;
            boolean lasts = Outlets.isOneOf(f, l, out.text().list("continuous"));
            for (String b : Facts.breakersOf(l)) {
                Facts.InPanel breaker = f.breaker(b);
                Double rating = breaker == null ? null : breaker.amperes();
                if (rating != null && amperes * (lasts ? 1.25 : 1) > rating * 1.001) {
                    out.found(
                                    l.id(),
                                    String.format(
                                            Locale.ROOT,
                                            "It takes %.1f A%s; %s is %.0f A.",
                                            amperes,
                                            lasts ? " for hours, to be counted by 1.25" : "",
                                            b,
                                            rating))
                            .in(l.box())
                            .of(b)
                            .outlets(List.of(l.id()))
                            .add();
                }
            }
        }
        if (!unknown.isEmpty()) {
            out.asked("house", "What do the plates of " + CircuitRules.some(List.copyOf(unknown)) + " say of watts?")
                    .add();
        }
    }

    private static void range(Facts f, Findings out) {
        for (LoadPointWiring l : f.points()) {
            if (!Outlets.isOneOf(f, l, out.text().list("loads"))) {
                continue;
            }
            for (String b : Facts.breakersOf(l)) {
                Facts.InPanel breaker = f.breaker(b);
                Double rating = breaker == null ? null : breaker.amperes();
                Facts.InBox d = Objects.requireNonNull(f.device(l.device()));
                if (rating == null || rating >= out.text().number("least")) {
                    continue;
                }
                String said = "A range of 8.75 kW or more asks for "
                        + Math.round(out.text().number("least")) + " A; " + b + " is " + Math.round(rating) + " A.";
                Quantity watts = d.device().watts();
                boolean known = watts != null;
                if (watts != null && watts.base() < out.text().number("watts")) {
                    continue;
                }
                Findings.Draft x = known ? out.found(l.id(), said) : out.asked(l.id(), said + " What is on its plate?");
                x.in(l.box()).of(b).outlets(List.of(l.id())).add();
            }
        }
    }

    /** Its two hot terminals hang on poles of one leg, or one of them on none. */
    private static void halfLive(Facts f, Findings out) {
        for (LoadPointWiring l : f.points()) {
            if (!Outlets.isOfTwoLegs(f, l)) {
                continue;
            }
            Map<String, Set<String>> legs = new TreeMap<>();
            for (Feed x : l.feeds()) {
                if (x.sureness() != Sureness.MAY) {
                    legs.computeIfAbsent(x.terminal(), k -> new TreeSet<>()).addAll(x.sourcePoles());
                }
            }
            Set<String> all = new TreeSet<>();
            legs.values().forEach(all::addAll);
            if (legs.size() > 1 && all.size() == 1) {
                out.found(l.id(), "Both of its hots are of one leg: there are no 240 V between them.")
                        .in(l.box())
                        .outlets(List.of(l.id()))
                        .add();
            } else if (legs.size() == 1
                    && l.returns().stream()
                            .noneMatch(r -> r.sureness() != Sureness.MAY && Outlets.isHot(f, r.terminal()))) {
                out.found(!f.isOpen(l), l.id(), "Only one of its two hots is fed.")
                        .in(l.box())
                        .outlets(List.of(l.id()))
                        .add();
            }
        }
    }

    private static void untied(Facts f, Findings out) {
        for (LoadPointWiring l : f.points()) {
            Set<String> breakers = Facts.breakersOf(l);
            Set<String> may = new TreeSet<>();
            l.feeds().forEach(x -> may.add(x.breaker()));
            if (Outlets.isOfTwoLegs(f, l)
                    && breakers.size() == 1
                    && may.size() > 1
                    && !NeutralRules.openTogether(f, may)) {
                out.possible(
                                l.id(),
                                "A load of two legs, perhaps on " + String.join(" and ", may)
                                        + ", which do not open together.")
                        .in(l.box())
                        .outlets(List.of(l.id()))
                        .add();
            }
            if (Outlets.isOfTwoLegs(f, l) && breakers.size() > 1 && !NeutralRules.openTogether(f, breakers)) {
                out.found(
                                l.id(),
                                "A load of two legs on " + String.join(" and ", breakers)
                                        + ", which do not open together: one off leaves it live.")
                        .in(l.box())
                        .outlets(List.of(l.id()))
                        .add();
            }
        }
    }

    private static void alarm(Facts f, Findings out) {
        f.points().stream()
                .filter(l -> isAlarm(f, l) && Facts.breakersOf(l).isEmpty())
                .forEach(l -> out.asked(l.id(), "Which circuit feeds this alarm, and what else is on it?")
                        .in(l.box())
                        .outlets(List.of(l.id()))
                        .add());
        for (Facts.InPanel b : f.breakers()) {
            List<LoadPointWiring> on = f.servedBy(b.name());
            List<String> alarms = on.stream()
                    .filter(l -> isAlarm(f, l))
                    .map(LoadPointWiring::id)
                    .toList();
            boolean light = on.stream().anyMatch(l -> {
                Facts.InBox d = f.device(l.device());
                return d != null && d.family() == DeviceKind.Family.LUMINAIRE;
            });
            if (!alarms.isEmpty() && on.size() > alarms.size() && !light) {
                out.found(
                                b.name(),
                                String.join(", ", alarms)
                                        + " share it with other loads, no light among them that tells when it is off.")
                        .of(b.name())
                        .in(b.panel().name())
                        .outlets(alarms)
                        .add();
            }
        }
    }

    private static boolean isAlarm(Facts f, LoadPointWiring l) {
        Facts.InBox d = f.device(l.device());
        return d != null && d.family() == DeviceKind.Family.ALARM;
    }

    private static void alarms(Facts f, Findings out) {
        Set<String> with = new TreeSet<>();
        f.devices(DeviceKind.Family.ALARM)
                .forEach(d -> with.add(String.valueOf(d.box().place())));
        List<String> without = new ArrayList<>();
        for (Place p : f.house().places().values()) {
            if (out.text().has("places", p.kind().word()) && !with.contains(p.name())) {
                without.add(p.said());
            }
        }
        if (!without.isEmpty()) {
            out.asked("house", "No smoke alarm is recorded in " + CircuitRules.some(without) + ". Is there one?")
                    .add();
        }
    }

    /** At four fifths of the breaker's rating, over the wires of the feed and back: 2 · I · ohms (chapter 9 table 8). */
    private static void drop(Facts f, Findings out) {
        Set<String> unmeasured = new TreeSet<>();
        double most = out.text().number("share");
        for (LoadPointWiring l : f.points()) {
            double volts = Outlets.volts(f, l);
            for (Feed x : l.feeds()) {
                Facts.InPanel b = f.breaker(x.breaker());
                Double rating = b == null ? null : b.amperes();
                if (rating == null || volts <= 0 || x.sureness() == Sureness.MAY) {
                    continue;
                }
                Double ohms = Drop.ohms(f, x.way(), unmeasured);
                double share = ohms == null ? 0 : 2 * 0.8 * rating * ohms / volts;
                if (share > most) {
                    out.found(
                                    l.id(),
                                    String.format(
                                            Locale.ROOT,
                                            "At four fifths of the rating of %s its wires lose %.1f %% of the volts.",
                                            x.breaker(),
                                            share * 100))
                            .in(l.box())
                            .of(x.breaker())
                            .outlets(List.of(l.id()))
                            .way("From " + x.terminal(), x.way())
                            .add();
                    break;
                }
            }
        }
        if (!unmeasured.isEmpty()) {
            out.asked(
                            "house",
                            "How long are " + CircuitRules.some(List.copyOf(unmeasured))
                                    + "? Without it no voltage drop is known.")
                    .add();
        }
    }

    private static void age(Facts f, Findings out) {
        List<String> undated = new ArrayList<>();
        f.house().cables().values().forEach(c -> {
            if (c.about().since() == null && c.about().before() == null) {
                undated.add(c.name());
            }
        });
        if (f.house().built() == null || !undated.isEmpty()) {
            out.asked(
                            "house",
                            (f.house().built() == null ? "When was the house built? " : "")
                                    + (undated.isEmpty() ? "" : "When were " + CircuitRules.some(undated) + " put in?"))
                    .add();
        }
    }
}
