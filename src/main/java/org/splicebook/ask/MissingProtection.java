package org.splicebook.ask;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.splicebook.answer.Answer;
import org.splicebook.answer.Reason;
import org.splicebook.answer.Row;
import org.splicebook.record.Basis;
import org.splicebook.record.Breaker;
import org.splicebook.record.Cable;
import org.splicebook.record.DeviceKind;
import org.splicebook.record.House;
import org.splicebook.record.Joint;
import org.splicebook.record.Protection;
import org.splicebook.record.Ref;
import org.splicebook.record.Wire;
import org.splicebook.wiring.CrossingKind;
import org.splicebook.wiring.Feed;
import org.splicebook.wiring.LoadPointWiring;
import org.splicebook.wiring.Sureness;
import org.splicebook.wiring.ThingKind;

/** Which outlets have no ground-fault, arc-fault protection or no ground, and why? */
final class MissingProtection {
    static final ComputedQuestion QUESTION = ComputedQuestion.answer(
                    "missing-protection", "Which outlets have no {what}, and why (place: {place}, of: {of})?")
            .oneOf("what", "what they lack", "ground-fault", "arc-fault", "ground")
            .with("place", "one place, for example kitchen", HouseNames.ANY)
            .oneOf("of", "which outlets", "receptacles", "all")
            .columns("place", "kind", "because")
            .by(asked -> new MissingProtection(asked).answer());

    private static final String GROUND = "ground";

    private final Asked asked;
    private final House house;
    private final String what;
    private final Map<String, Devices.Found> devices;
    private final Map<String, Breaker> breakers;

    private MissingProtection(Asked asked) {
        this.asked = asked;
        this.house = asked.house();
        this.what = asked.value("what");
        this.devices = Devices.all(house);
        this.breakers = Breakers.all(house);
    }

    private Answer answer() {
        List<Row> rows = new ArrayList<>();
        int looked = 0;
        for (LoadPointWiring l : asked.wiring().loadPoints()) {
            Devices.Found found = devices.get(l.device());
            if (found == null || !isAskedFor(l, found)) {
                continue;
            }
            looked++;
            Row.Status status = what.equals(GROUND) ? ground(l) : protection(l);
            if (status != Row.Status.EXCLUDED) {
                rows.add(row(l, found, status));
            }
        }
        long shown = rows.stream().filter(r -> r.status() == Row.Status.SHOWN).count();
        String outcome =
                "Of " + looked + " load points " + shown + " have no " + said() + ", and " + (rows.size() - shown)
                        + " may have none. Whether they have to is for the local code and the inspector.";
        return asked.answer(outcome, rows);
    }

    private String said() {
        return what.equals(GROUND) ? GROUND : what + " protection";
    }

    private boolean isAskedFor(LoadPointWiring l, Devices.Found found) {
        String place = asked.value("place");
        DeviceKind.Family family = found.device().kind().family();
        boolean isReceptacle = family == DeviceKind.Family.RECEPTACLE || family == DeviceKind.Family.PROTECTIVE;
        return (place.equals(HouseNames.ANY) || place.equals(l.place()))
                && (isReceptacle || asked.value("of").equals("all"));
    }

    private Row.Status ground(LoadPointWiring l) {
        return l.grounds().isEmpty()
                ? Row.Status.SHOWN
                : l.grounds().stream().anyMatch(g -> g.sureness() != Sureness.MAY)
                        ? Row.Status.EXCLUDED
                        : Row.Status.POSSIBLE;
    }

    private Protection function() {
        return Protection.valueOf(what.toUpperCase(Locale.ROOT).replace('-', '_'));
    }

    private Row.Status protection(LoadPointWiring l) {
        List<Sureness> sure = l.protections().stream()
                .filter(p -> p.function() == function())
                .map(p -> p.sureness())
                .toList();
        // What an open region may bring is not told one by one: nothing in it is shown to have no protection.
        boolean isOpen = asked.wiring().openRegions().stream()
                .anyMatch(o -> o.loadPoints().contains(l.id()));
        return sure.contains(Sureness.MUST)
                ? Row.Status.EXCLUDED
                : sure.isEmpty() && !isOpen ? Row.Status.SHOWN : Row.Status.POSSIBLE;
    }

    private Row row(LoadPointWiring l, Devices.Found found, Row.Status status) {
        Map<String, Object> columns = new LinkedHashMap<>();
        columns.put("place", l.place() == null ? "" : l.place());
        columns.put("kind", found.device().kind().name());
        columns.put("because", what.equals(GROUND) ? noGround(l, found) : noProtection(l));
        List<Feed> feeds =
                l.feeds().stream().filter(f -> f.sureness() != Sureness.MAY).toList();
        List<Reason> ways = feeds.stream()
                .limit(1)
                .map(f -> Reason.of("From " + f.terminal(), f.way(), house))
                .toList();
        Basis basis =
                feeds.stream().map(f -> f.way().basis()).reduce(Basis::weaker).orElse(Basis.ASSUMED);
        return new Row(l.id(), status, basis, columns, Reason.say(ways), ways);
    }

    private String noProtection(LoadPointWiring l) {
        Set<String> on = new TreeSet<>();
        l.feeds()
                .forEach(f -> f.way().hops().forEach(h -> {
                    String thing = h.thing().kind() == ThingKind.POLE
                            ? Breakers.ofPole(house, h.thing().name())
                            : h.thing().name();
                    if (protects(thing)) {
                        on.add(thing);
                    }
                }));
        if (protects(l.device()) && !on.contains(l.device())) {
            return l.device() + " is wired line for load: its own face is ahead of its sensor";
        }
        List<String> across = asked.wiring().crossings().stream()
                .filter(c -> c.kind() == CrossingKind.ACROSS_PROTECTION
                        && c.loadPoints().contains(l.id()))
                .map(c -> String.valueOf(c.device()))
                .filter(this::protects)
                .toList();
        if (!across.isEmpty()) {
            return String.join(", ", across) + " carries one of its conductors and not the other: it trips under load";
        }
        if (l.feeds().stream().noneMatch(f -> f.sureness() != Sureness.MAY)) {
            return "what feeds it is not known";
        }
        return on.isEmpty()
                ? "no " + what + " device is on its way, from "
                        + String.join(
                                ", ",
                                l.feeds().stream().map(Feed::breaker).distinct().toList())
                : String.join(", ", on) + " is on its way, and does not sense all of its current in every case";
    }

    private boolean protects(String thing) {
        Devices.Found d = devices.get(thing);
        DeviceKind.Guard guard = d == null ? null : d.device().kind().guard();
        Breaker b = breakers.get(thing);
        return (guard != null && guard.functions().contains(function()))
                || (b != null && b.protects().contains(function()));
    }

    private String noGround(LoadPointWiring l, Devices.Found found) {
        String terminal = found.device().kind().loadPoints().stream()
                .map(DeviceKind.LoadPoint::ground)
                .filter(g -> g != null)
                .map(String::valueOf)
                .findFirst()
                .orElse("");
        if (terminal.isEmpty()) {
            return "its kind has no ground terminal";
        }
        for (Joint j : found.box().joints()) {
            if (j.members().contains(new Ref.DeviceTerminal(l.device(), terminal))) {
                return onGround(j, found.box().name());
            }
        }
        List<String> bare = l.feeds().stream()
                .flatMap(f -> f.way().hops().stream())
                .filter(h -> h.thing().kind() == ThingKind.WIRE)
                .map(h -> h.thing().name())
                .limit(1)
                .toList();
        Cable cable = bare.isEmpty()
                ? null
                : house.cables().get(bare.get(0).substring(0, bare.get(0).indexOf('.')));
        if (cable != null && cable.wires().stream().noneMatch(MissingProtection::isGround)) {
            String since = cable.about().since();
            return "nothing is on its ground terminal: " + cable.name() + (since == null ? "" : " of " + since)
                    + " has no ground in it";
        }
        return "nothing is recorded on its ground terminal";
    }

    private static boolean isGround(Wire w) {
        return w.metal() || w.colour().equals("bare") || w.colour().equals("green");
    }

    /** What is joined to the ground terminal leads to no ground: say where it goes. */
    private String onGround(Joint j, String box) {
        List<String> leads = new ArrayList<>();
        for (Ref r : j.members()) {
            if (r instanceof Ref.WireEnd e) {
                Cable c = house.cables().get(e.cable());
                String far = c == null ? null : c.ends().get(1 - e.end()).boxOrNull();
                leads.add(e.said() + " to " + (far == null ? "an end that nobody found" : far));
            } else if (r instanceof Ref.BoxMetal) {
                leads.add("the metal of " + box);
            }
        }
        return leads.isEmpty()
                ? "its ground terminal is joined to nothing that leads on"
                : "its ground goes over " + String.join(" and ", leads) + ", and from there to no ground bar";
    }
}
