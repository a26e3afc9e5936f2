package org.splicebook.ask;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.splicebook.answer.Answer;
import org.splicebook.answer.Reason;
import org.splicebook.answer.Row;
import org.splicebook.problem.ProblemKind;
import org.splicebook.record.Basis;
import org.splicebook.record.House;
import org.splicebook.record.Protection;
import org.splicebook.store.StoredHouse;
import org.splicebook.wiring.LoadPointWiring;
import org.splicebook.wiring.NeutralIsland;
import org.splicebook.wiring.ProtectedBy;
import org.splicebook.wiring.Sureness;
import org.splicebook.wiring.ThingKind;
import org.splicebook.wiring.Way;
import org.splicebook.wiring.Wiring;

/** What differs between two revisions, and what must be tested again? */
final class Differences {
    private static final String ONE_BEFORE = "the one before";
    private static final String NEWEST = "the newest";

    static final ComputedQuestion QUESTION = ComputedQuestion.answer(
                    "differences",
                    "What differs between revision {from} and revision {to}, and what must be tested again?")
            .with("from", "the number of an earlier revision", ONE_BEFORE)
            .with("to", "the number of a later one", NEWEST)
            .columns("change", "before", "now", "test")
            .by(asked -> new Differences(asked).answer());

    /** A house of one revision and what is derived from it. */
    private record Derived(StoredHouse stored, Wiring wiring) {
        long number() {
            return stored.revision().number();
        }
    }

    private final Asked asked;
    private final Derived before;
    private final Derived now;
    private final List<Row> rows = new ArrayList<>();
    /** Rows of things of which only something else is said. */
    private int told;

    /** Boxes, cables, devices, breakers that differ: what passes one of them is to be tested again. */
    private final Set<String> touched = new TreeSet<>();

    /** Load points and protective devices that are to be tested again. */
    record Again(Set<String> points, Set<String> devices) {}

    /** {@return what a later revision asks to be tested again, beside an earlier one} */
    static Again again(Asked asked, StoredHouse before, StoredHouse now) {
        Differences d = new Differences(
                asked,
                new Derived(before, asked.workings().wiring(before)),
                new Derived(now, asked.workings().wiring(now)));
        d.recorded();
        d.derived();
        return new Again(d.again(), d.devices());
    }

    private Differences(Asked asked, Derived before, Derived now) {
        this.asked = asked;
        this.before = before;
        this.now = now;
    }

    private Differences(Asked asked) {
        this.asked = asked;
        this.now = asked.value("to").equals(NEWEST)
                ? new Derived(asked.stored(), asked.wiring())
                : revision("to", asked.value("to"));
        boolean isFirst = now.number() == 1;
        this.before = !asked.value("from").equals(ONE_BEFORE)
                ? revision("from", asked.value("from"))
                : isFirst ? now : revision("from", String.valueOf(now.number() - 1));
    }

    private Derived revision(String parameter, String said) {
        if (!said.matches("[0-9]{1,9}")) {
            throw Asked.wrong(
                    ProblemKind.BAD_VALUE, parameter, "'" + said + "' is no revision.", "Give a whole number from 1.");
        }
        return asked.workings()
                .revision(Long.parseLong(said))
                .map(s -> new Derived(s, asked.workings().wiring(s)))
                .orElseThrow(() -> Asked.wrong(
                        ProblemKind.NOT_FOUND,
                        parameter,
                        "The house " + asked.house().id() + " has no revision " + said + ".",
                        "Its newest is " + asked.stored().revision().number() + "."));
    }

    private Answer answer() {
        recorded();
        int changes = rows.size() - told;
        derived();
        Set<String> again = again();
        List<String> tests = new ArrayList<>();
        if (!again.isEmpty()) {
            tests.add("Test again, dead and live: " + String.join(", ", again) + ".");
        }
        devices()
                .forEach(d ->
                        tests.add("Press the test button of " + d + " with a lamp in each outlet that it protects."));
        String outcome = before.number() == now.number()
                ? "There is only one revision to look at, " + now.number() + "."
                : changes == 0
                        ? "Nothing of the wiring differs"
                                + (told == 0
                                        ? "."
                                        : "; of " + told + (told == 1 ? " thing" : " things")
                                                + " something else is said.")
                        : changes + (changes == 1 ? " thing differs" : " things differ") + " in the record; "
                                + again.size() + " load points must be tested again.";
        return asked.answer(outcome, rows, List.of(), tests);
    }

    private void recorded() {
        House a = before.stored().house();
        House b = now.stored().house();
        compare("source", a.sources(), b.sources());
        compare("device", devices(a), devices(b));
        compare("breaker", breakers(a), breakers(b));
        compare("panel", panels(a), panels(b));
        compare("cable", a.cables(), b.cables());
        compare("box", boxes(a), boxes(b));
        joints(a, b);
    }

    private static Map<String, Object> breakers(House h) {
        return new TreeMap<>(Breakers.all(h));
    }

    /** A panel without its breakers, which are compared one by one. */
    private static Map<String, Object> panels(House h) {
        Map<String, Object> all = new TreeMap<>();
        h.panels()
                .forEach((name, p) -> all.put(
                        name,
                        Arrays.asList(
                                p.supply(),
                                p.ties(),
                                p.pullOuts(),
                                p.exclusive(),
                                p.legs(),
                                p.buses(),
                                p.bonded(),
                                p.rating(),
                                p.main())));
        return all;
    }

    private static Map<String, Object> devices(House h) {
        Map<String, Object> all = new TreeMap<>();
        Devices.all(h).forEach((name, f) -> all.put(name, List.of(f.box().name(), f.device())));
        return all;
    }

    /** A box without its devices and joints, which are compared one by one. */
    private static Map<String, Object> boxes(House h) {
        Map<String, Object> all = new TreeMap<>();
        h.boxes().forEach((name, b) -> all.put(name, Arrays.asList(b.place(), b.shell(), b.hidden())));
        return all;
    }

    /** Tells each wire end and terminal that touches something else than before. */
    private void joints(House a, House b) {
        Map<String, String> was = Company.of(a);
        Map<String, String> is = Company.of(b);
        Set<String> all = new TreeSet<>(was.keySet());
        all.addAll(is.keySet());
        for (String member : all) {
            String then = was.getOrDefault(member, "");
            String now = is.getOrDefault(member, "");
            if (!then.equals(now)) {
                touched.add(Company.name(member));
                row(member, "touches something else", then, now, "what hangs on it");
            }
        }
    }

    private void compare(String what, Map<String, ?> a, Map<String, ?> b) {
        Set<String> names = new LinkedHashSet<>(a.keySet());
        names.addAll(b.keySet());
        for (String name : names) {
            if (Objects.equals(a.get(name), b.get(name))) {
                continue;
            }
            if (a.containsKey(name)
                    && b.containsKey(name)
                    && Unsaid.of(a.get(name)).equals(Unsaid.of(b.get(name)))) {
                row(name, what + " is told otherwise: its label, note, basis or age", "", "", "");
                told++;
                continue;
            }
            touched.add(name);
            String change = !a.containsKey(name)
                    ? what + " is new"
                    : !b.containsKey(name) ? what + " is gone" : what + " is recorded otherwise";
            row(name, change, "", "", "what hangs on it");
        }
    }

    private void derived() {
        Map<String, LoadPointWiring> old = byId(before.wiring());
        Map<String, LoadPointWiring> fresh = byId(now.wiring());
        Set<String> names = new TreeSet<>(old.keySet());
        names.addAll(fresh.keySet());
        for (String name : names) {
            LoadPointWiring a = old.get(name);
            LoadPointWiring b = fresh.get(name);
            differ(name, "fed by", feeds(a), feeds(b));
            differ(name, "protected by", protections(a), protections(b));
            differ(name, "returns on", returns(a), returns(b));
            differ(name, "grounded at", grounds(a), grounds(b));
        }
    }

    private void differ(String point, String what, Set<String> a, Set<String> b) {
        if (!a.equals(b)) {
            row(point, what, String.join(", ", a), String.join(", ", b), "this load point");
        }
    }

    private static Map<String, LoadPointWiring> byId(Wiring w) {
        Map<String, LoadPointWiring> all = new TreeMap<>();
        w.loadPoints().forEach(l -> all.put(l.id(), l));
        return all;
    }

    private static Set<String> feeds(@Nullable LoadPointWiring l) {
        return l == null ? Set.of() : set(l.feeds().stream().map(f -> said(f.breaker(), f.sureness())));
    }

    private static Set<String> protections(@Nullable LoadPointWiring l) {
        return l == null
                ? Set.of()
                : set(l.protections().stream().map((ProtectedBy p) -> said(p.by().name(), p.sureness())));
    }

    private static Set<String> returns(@Nullable LoadPointWiring l) {
        return l == null ? Set.of() : set(l.returns().stream().map(r -> said(landing(r.way(), r.bar()), r.sureness())));
    }

    private static Set<String> grounds(@Nullable LoadPointWiring l) {
        return l == null ? Set.of() : set(l.grounds().stream().map(g -> said(g.bar(), g.sureness())));
    }

    /** The last wire before the bar: two returns on one bar may go over unlike home runs. */
    private static String landing(Way way, String bar) {
        String last = bar;
        for (Way.Hop h : way.hops()) {
            if (h.thing().name().equals(bar)) {
                break;
            }
            if (h.thing().kind() == ThingKind.WIRE) {
                last = h.thing().name();
            }
        }
        return last;
    }

    private static String said(String name, Sureness sureness) {
        return sureness == Sureness.MAY ? name + " (possibly)" : name;
    }

    private static Set<String> set(Stream<String> names) {
        return names.collect(Collectors.toCollection(TreeSet::new));
    }

    /** What passes a thing that differs, then or now, what differs itself, and what shares a neutral with any of these. */
    private Set<String> again() {
        Set<String> again = new TreeSet<>();
        Set<String> points = byId(now.wiring()).keySet();
        rows.stream()
                .filter(r -> !"".equals(r.columns().get("test")))
                .map(Row::subject)
                .filter(points::contains)
                .forEach(again::add);
        for (Wiring w : List.of(before.wiring(), now.wiring())) {
            for (LoadPointWiring l : w.loadPoints()) {
                if (touched.contains(l.device()) || touched.contains(l.box()) || passes(l)) {
                    again.add(l.id());
                }
            }
        }
        for (NeutralIsland i : now.wiring().islands()) {
            if (i.poles().size() > 1 && i.loadPoints().stream().anyMatch(again::contains)) {
                again.addAll(i.loadPoints());
            }
        }
        again.retainAll(points);
        return again;
    }

    private boolean passes(LoadPointWiring l) {
        return Stream.of(
                        l.feeds().stream().map(f -> f.way()),
                        l.returns().stream().map(r -> r.way()),
                        l.grounds().stream().map(r -> r.way()))
                .flatMap(s -> s)
                .flatMap(w -> w.hops().stream())
                .anyMatch(h -> touched.contains(h.box())
                        || touched.contains(h.thing().name().split("[.@:]")[0])
                        || touched.contains(h.thing().name())
                        || touched.contains(
                                Breakers.ofPole(now.stored().house(), h.thing().name())));
    }

    /** Protective devices of load points that are to be tested again. */
    private Set<String> devices() {
        Set<String> again = again();
        Set<String> guards = new TreeSet<>();
        for (LoadPointWiring l : now.wiring().loadPoints()) {
            if (again.contains(l.id())) {
                l.protections().stream()
                        .filter(p -> p.function() != Protection.OVERCURRENT)
                        .forEach(p -> guards.add(p.by().name()));
            }
        }
        return guards;
    }

    private void row(String subject, String change, String was, String is, String test) {
        Map<String, Object> columns = new LinkedHashMap<>();
        columns.put("change", change);
        columns.put("before", was);
        columns.put("now", is);
        columns.put("test", test);
        List<Reason> ways = now.wiring().loadPoints().stream()
                .filter(l -> l.id().equals(subject))
                .flatMap(l -> l.feeds().stream())
                .limit(1)
                .map(f ->
                        Reason.of("From " + f.terminal(), f.way(), now.stored().house()))
                .toList();
        rows.add(new Row(subject, Row.Status.SHOWN, Basis.SEEN, columns, Reason.say(ways), ways));
    }
}
