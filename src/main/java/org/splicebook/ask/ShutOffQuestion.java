package org.splicebook.ask;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.splicebook.answer.Answer;
import org.splicebook.answer.Assumption;
import org.splicebook.answer.Caution;
import org.splicebook.answer.Leads;
import org.splicebook.answer.Openness;
import org.splicebook.answer.Reason;
import org.splicebook.answer.Row;
import org.splicebook.problem.ProblemKind;
import org.splicebook.record.Basis;
import org.splicebook.record.House;
import org.splicebook.wiring.Sureness;
import org.splicebook.wiring.shutoff.ShutOff;
import org.splicebook.wiring.shutoff.Target;
import org.splicebook.wiring.shutoff.Verdict;

/** What must be off before a box, a room, a cable or a spot on a wall is opened. */
final class ShutOffQuestion {
    static final ComputedQuestion QUESTION = ComputedQuestion.answer(
                    "shut-off",
                    "What must be off before {box} (place {place}, cable {cable}, spot {spot}, between {between}) is opened?")
            .with("box", "a box or panel, several with commas, for example stair-head", Targets.NONE)
            .with("place", "every box of a place, for example bath", Targets.NONE)
            .with("cable", "a cable, somewhere along its way", Targets.NONE)
            .with("spot", "a place in whose walls someone drills", Targets.NONE)
            .with("between", "two boxes with a comma, between which someone drills", Targets.NONE)
            .columns("order", "where", "says", "because")
            .by(asked -> new ShutOffQuestion(asked).answer());

    /** The ways of a throw that are told in words; all of them are there as data. */
    private static final int TOLD = 1;

    private static final int NAMED = 6;
    private static final int FEW = 3;

    private final Asked asked;
    private final House house;
    private final ShutOff shutOff;

    private ShutOffQuestion(Asked asked) {
        this.asked = asked;
        this.house = asked.house();
        Target target = Targets.of(asked);
        try {
            this.shutOff = asked.shutOff(target);
        } catch (IllegalArgumentException e) {
            throw Asked.wrong(
                    ProblemKind.NOT_FOUND, "box", e.getMessage() + ".", "Look at the house's boxes and cables.");
        }
    }

    private Answer answer() {
        List<Row> rows = new ArrayList<>();
        int order = 1;
        for (ShutOff.Throw t : shutOff.toThrow()) {
            rows.add(thrown(t, order++));
        }
        shutOff.excluded().forEach(e -> rows.add(excluded(e)));
        List<String> assumed = new ArrayList<>();
        assumed.add(Assumption.NO_BURIED_TAP);
        assumed.add("Every switch may stand either way, every load conducts, and any splice may be parted.");
        return new Answer(
                asked.heading(Targets.words(shutOff.target())),
                outcome(),
                rows,
                new ShutOffSections(house, shutOff).all(),
                assumed,
                notProven(),
                new Openness(asked.wiring().openRegions()).wouldSettle(rows, Set.of()),
                Caution.forWhat(Leads.TO_A_WIRE));
    }

    private String outcome() {
        String it = shutOff.target().said();
        int n = shutOff.toThrow().size();
        String throwing = n == 1 ? "this throw" : "these " + n + " throws";
        String safer = shutOff.clearingEverythingIsSafer() ? " Safer: clear every source, below." : "";
        return switch (shutOff.verdict()) {
            case SHOULD_BE_OFF ->
                n == 0
                        ? "Nothing that is recorded reaches " + it + ". Only your own test tells."
                        : "With " + throwing + " everything in " + it + " should be off. Only your own test tells."
                                + safer;
            case UNLESS_UNLISTED ->
                "With " + throwing + " all that is recorded in " + it
                        + " should be off. Something that nobody listed may still feed it: take it as live." + safer;
            case NONE_KNOWN ->
                "No safe shut-off is known for " + it
                        + ": a source reaches it with nothing recorded between that can be opened. Leave it closed; this is for a qualified person.";
        };
    }

    private List<String> notProven() {
        List<String> all = new ArrayList<>();
        if (!shutOff.openBoxes().isEmpty()) {
            List<String> open = shutOff.openBoxes();
            all.add("What is not known in " + String.join(", ", open.subList(0, Math.min(NAMED, open.size())))
                    + (open.size() > NAMED ? " and " + (open.size() - NAMED) + " more" : "")
                    + " may join a further source to it.");
        }
        if (shutOff.verdict() != Verdict.SHOULD_BE_OFF) {
            all.add("That nothing else feeds it.");
        }
        if (shutOff.target() instanceof Target.Spot) {
            all.add("Where cables run inside walls: none of that is recorded. Take a detector, and drill shallow.");
        }
        all.addAll(expired());
        all.add("That a breaker which is thrown opened. Your test shows it.");
        return all;
    }

    /** Tests of the target's wires that no longer stand. */
    private List<String> expired() {
        Standing standing = asked.workings().standing();
        Set<String> wires =
                shutOff.tests().stream().map(t -> t.conductor()).collect(Collectors.toCollection(TreeSet::new));
        Map<String, List<String>> byWhy = new LinkedHashMap<>();
        asked.sightings().stream()
                .filter(s -> standing.expired().containsKey(s.id())
                        && s.seen().points().stream().anyMatch(wires::contains))
                .forEach(s -> byWhy.computeIfAbsent(standing.why(s.id()), k -> new ArrayList<>())
                        .add(s.id()));
        List<String> lines = new ArrayList<>();
        byWhy.forEach((why, ids) -> lines.add(
                "What " + few(new TreeSet<>(ids), "sightings") + " showed: " + why + " since. Make them again."));
        return lines;
    }

    private Row thrown(ShutOff.Throw t, int order) {
        List<ShutOff.WireReason> reasons = shutOff.wires().stream()
                .filter(w -> t.breakers().contains(w.breaker())
                        || (t.isMain() && w.breaker().equals(t.panel())))
                .toList();
        Map<String, Object> columns = new LinkedHashMap<>();
        columns.put("order", order);
        columns.put("where", t.place() == null ? "panel " + t.panel() : "panel " + t.panel() + ", " + place(t.place()));
        columns.put(
                "says",
                t.isMain() ? "main" : t.breakers().stream().map(b -> label(b)).collect(Collectors.joining(" + ")));
        columns.put("because", because(t, reasons));
        List<Reason> ways = reasons.stream()
                .filter(r -> !r.way().hops().isEmpty())
                .map(r -> Reason.of(
                        "From " + r.wire() + (r.sureness() == Sureness.MAY ? ", possibly" : ""), r.way(), house))
                .toList();
        List<Reason> told = ways.subList(0, Math.min(TOLD, ways.size()));
        Basis basis = reasons.stream()
                .filter(r -> !r.way().hops().isEmpty())
                .map(r -> r.way().basis())
                .reduce(Basis::weaker)
                .orElse(Basis.ASSUMED);
        Row.Status status = t.sureness() == Sureness.MAY ? Row.Status.POSSIBLE : Row.Status.SHOWN;
        String subject = t.isMain() ? "main of " + t.panel() : String.join(" + ", t.breakers());
        List<String> why = new ArrayList<>(Reason.say(told));
        if (ways.size() > TOLD) {
            why.add("and " + (ways.size() - TOLD) + " more ways.");
        }
        return new Row(subject, status, basis, columns, why, ways);
    }

    private String place(String key) {
        var place = house.places().get(key);
        return place == null ? key : place.said();
    }

    private String label(String breaker) {
        var b = Breakers.all(house).get(breaker);
        return b == null || b.label() == null ? "no label" : b.label();
    }

    private static String because(ShutOff.Throw t, List<ShutOff.WireReason> reasons) {
        List<String> said = new ArrayList<>();
        Set<String> direct = wires(reasons, ShutOff.How.OVER_WIRES);
        Set<String> through = wires(reasons, ShutOff.How.THROUGH_LOAD);
        through.removeAll(direct);
        if (!direct.isEmpty()) {
            said.add("reaches " + few(direct));
        }
        if (!through.isEmpty()) {
            said.add("through a load reaches " + few(through));
        }
        if (!t.partners().isEmpty()) {
            said.add(String.join(", ", t.partners()) + " moves with it");
        }
        return said.isEmpty() ? "is not excluded" : String.join("; ", said);
    }

    private static Set<String> wires(List<ShutOff.WireReason> reasons, ShutOff.How how) {
        return reasons.stream()
                .filter(r -> r.how() == how)
                .map(r -> r.wire().split("@")[0])
                .collect(Collectors.toCollection(TreeSet::new));
    }

    /** Which wires is told wire by wire elsewhere. */
    private static String few(Set<String> names) {
        return few(names, "of its wires");
    }

    private static String few(Set<String> names, String what) {
        return names.size() <= FEW ? String.join(", ", names) : names.size() + " " + what;
    }

    private Row excluded(ShutOff.Excluded e) {
        Map<String, Object> columns = new LinkedHashMap<>();
        columns.put("because", e.tests().isEmpty() ? "complete seen wiring" : "tests " + String.join(", ", e.tests()));
        Basis basis = e.tests().isEmpty() ? Basis.SEEN : Basis.TESTED;
        return new Row(e.breaker(), Row.Status.EXCLUDED, basis, columns, List.of());
    }
}
