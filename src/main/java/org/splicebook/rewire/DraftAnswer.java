package org.splicebook.rewire;

import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.splicebook.answer.Answer;
import org.splicebook.answer.Caution;
import org.splicebook.answer.Heading;
import org.splicebook.answer.Leads;
import org.splicebook.answer.Openness;
import org.splicebook.answer.Row;
import org.splicebook.problem.Result;
import org.splicebook.record.Basis;
import org.splicebook.record.Draft;
import org.splicebook.record.House;
import org.splicebook.record.Move;
import org.splicebook.record.Protection;
import org.splicebook.rules.Checked;
import org.splicebook.rules.Comparison;
import org.splicebook.rules.Finding;
import org.splicebook.rules.Pack;
import org.splicebook.wiring.Derivation;
import org.splicebook.wiring.LoadPointWiring;
import org.splicebook.wiring.ProtectedBy;
import org.splicebook.wiring.Sureness;
import org.splicebook.wiring.ThingKind;
import org.splicebook.wiring.Wiring;
import org.splicebook.wiring.shutoff.ShutOff;
import org.splicebook.wiring.shutoff.Target;

/**
 * What a draft changes: for each load point its feed, return, ground and protection; findings cured and new; currents; boxes to open,
 * parts, what must be off for the work, the steps, the tests at the end. Nothing of it is done.
 */
public final class DraftAnswer {
    /** The title of the first section that is of the work; those before it tell what changes. */
    public static final String TO_OPEN = "Boxes and panels to open";

    private final Draft draft;
    private final House before;
    private final Wiring was;
    private final Wiring is;
    private final Pack pack;
    private final Worklist work;
    private final List<PointChange> points;

    private DraftAnswer(Draft draft, House before, House after, Pack pack) {
        this.draft = draft;
        this.before = before;
        this.was = Derivation.derive(before);
        this.is = Derivation.derive(after);
        this.pack = pack;
        this.work = Worklist.of(before, after, draft.moves());
        this.points = PointChange.between(was, is);
    }

    /**
     * {@return what a draft changes, or what is wrong with its first move that cannot be made}
     *
     * @param before the house that it changes
     * @param pack what both are checked by
     * @param revision the revision that the house is; 0 for a file that is not stored
     * @param stored when that was stored
     */
    public static Result<Answer> of(Draft draft, House before, Pack pack, long revision, Instant stored) {
        return Moves.apply(before, draft.moves())
                .map(after -> new DraftAnswer(draft, before, after, pack).answer(revision, stored));
    }

    private Answer answer(long revision, Instant stored) {
        Heading heading = new Heading(
                "draft",
                "What does the draft " + draft.name() + " change?"
                        + (draft.reason() == null ? "" : " " + draft.reason()),
                before.id(),
                before.said(),
                revision,
                stored,
                Map.of("draft", draft.name()),
                true);
        List<Row> rows = points.stream()
                .map(DraftAnswer::row)
                .sorted(java.util.Comparator.comparing(Row::status))
                .toList();
        Openness open = new Openness(is.openRegions());
        Comparison found = Renamed.compare(
                before,
                draft.moves(),
                Checked.of(was, pack).all(),
                Checked.of(is, pack).all());
        return new Answer(
                        heading,
                        outcome(found),
                        rows,
                        List.of(),
                        Openness.assumed(rows),
                        open.notProven(rows, List.of()),
                        List.of(),
                        Caution.forWhat(Leads.TO_A_WIRE))
                .withSections(sections(found));
    }

    private static Row row(PointChange c) {
        Map<String, Object> columns = new LinkedHashMap<>();
        columns.put("change", c.what().word());
        columns.put("before", c.before());
        columns.put("after", c.after());
        return new Row(
                c.point(), c.isShown() ? Row.Status.SHOWN : Row.Status.POSSIBLE, Basis.ASSUMED, columns, List.of());
    }

    private String outcome(Comparison found) {
        long changed = points.stream().map(PointChange::point).distinct().count();
        return changed + (changed == 1 ? " load point changes; " : " load points change; ")
                + found.cured().size()
                + " findings cured, " + found.added().size() + " new, "
                + found.changed().size() + " changed. "
                + (work.sites().size() == 1
                        ? "1 box or panel to open."
                        : work.sites().size() + " boxes and panels to open.");
    }

    private List<Answer.Section> sections(Comparison found) {
        List<Answer.Section> all = new ArrayList<>();
        all.add(new Answer.Section("Findings cured (" + pack.title() + ")", false, said(found.cured())));
        all.add(new Answer.Section("New findings", false, said(found.added())));
        all.add(new Answer.Section(
                "Findings that change",
                false,
                found.changed().stream()
                        .map(c -> said(c.before()) + " Then: "
                                + c.after().certainty().word() + ", "
                                + c.after().said())
                        .toList()));
        all.add(new Answer.Section("Currents", false, currents()));
        all.add(new Answer.Section(TO_OPEN, false, work.sites()));
        all.add(new Answer.Section(
                "To buy",
                false,
                work.parts().entrySet().stream()
                        .map(e -> e.getValue() + " x " + e.getKey())
                        .toList()));
        all.add(new Answer.Section("Off for the work", false, off()));
        all.add(new Answer.Section("Steps", true, work.steps()));
        all.add(new Answer.Section("Tests at the end", true, tests()));
        return all;
    }

    private List<String> currents() {
        List<CurrentChange> changes = new ArrayList<>(CurrentChange.between(before, is.house()));
        // Where a panel is replaced every circuit has another pole, and none carries more for it.
        if (draft.moves().stream().noneMatch(m -> m instanceof Move.ReplacePanel || m instanceof Move.AddPanel)) {
            changes.addAll(CurrentChange.ofPoles(before, is.house()));
        }
        return changes.stream()
                .map(c -> "With " + c.loads() + " loads: " + c.said())
                .toList();
    }

    private static List<String> said(List<Finding> findings) {
        return findings.stream().map(DraftAnswer::said).toList();
    }

    private static String said(Finding f) {
        return f.severity().word() + ", " + f.certainty().word() + ": " + f.title() + ", " + f.subject() + ". "
                + f.said();
    }

    /** What must be thrown before the boxes that are there now are opened, by the wiring alone: tests take none off here. */
    private List<String> off() {
        List<String> there = work.sites().stream()
                .filter(s -> before.boxes().containsKey(s) || before.panels().containsKey(s))
                .toList();
        if (there.isEmpty()) {
            return List.of();
        }
        ShutOff off = ShutOff.of(before, List.of(), new Target.Boxes(there));
        List<String> lines = new ArrayList<>();
        lines.add(
                switch (off.verdict()) {
                    case SHOULD_BE_OFF -> "With these thrown everything there should be off; only tests tell.";
                    case UNLESS_UNLISTED ->
                        "All that is recorded there should be off with these thrown; something not listed may still feed it.";
                    case NONE_KNOWN -> "No safe shut-off is known for all of it: ask for each box by itself.";
                });
        for (ShutOff.Throw t : off.clearingEverythingIsSafer() ? off.everything() : off.toThrow()) {
            String what = t.isMain() ? "the main of " + t.panel() : String.join(" and ", t.breakers());
            lines.add(what + (t.sureness() == Sureness.MAY ? ", which is not excluded." : "."));
        }
        lines.add(
                "The command shut-off " + String.join(" ", there) + " gives the order, all tests and what stays live.");
        return lines;
    }

    /** The protective devices and breakers that the draft brings in. */
    private List<String> protective() {
        List<String> all = new ArrayList<>();
        for (Move move : draft.moves()) {
            if (move instanceof Move.AddDevice m && m.device().kind().guard() != null) {
                all.add(m.device().name());
            } else if (move instanceof Move.ChangeKind m && m.kind().guard() != null) {
                all.add(m.device());
            } else if (move instanceof Move.AddPanel m) {
                m.is().breakers().values().stream()
                        .filter(b -> !b.protects().isEmpty())
                        .forEach(b -> all.add(m.is().name() + "." + b.key()));
            } else if (move instanceof Move.ReplacePanel m) {
                m.is().breakers().values().stream()
                        .filter(b -> !b.protects().isEmpty())
                        .forEach(b -> all.add(m.is().name() + "." + b.key()));
            } else if (move instanceof Move.ChangeBreaker m
                    && m.is() != null
                    && !m.is().protects().isEmpty()) {
                all.add(m.panel() + "." + m.is().key());
            }
        }
        return all;
    }

    private List<String> tests() {
        List<String> lines = new ArrayList<>();
        lines.add(
                "Before power comes back: with the breakers still off, no joint left open that carried on, every cap tight.");
        Map<String, Set<String>> fed = new TreeMap<>();
        Set<String> returns = new LinkedHashSet<>();
        Set<String> grounds = new LinkedHashSet<>();
        Map<String, Set<String>> guarded = new TreeMap<>();
        protective().forEach(d -> guarded.put(d, new LinkedHashSet<>()));
        Map<String, LoadPointWiring> now =
                is.loadPoints().stream().collect(Collectors.toMap(LoadPointWiring::id, l -> l));
        for (PointChange c : points) {
            LoadPointWiring l = now.get(c.point());
            if (l == null) {
                continue;
            }
            switch (c.what()) {
                case FEED, PROTECTION ->
                    l.feeds().stream()
                            .filter(f -> f.sureness() != Sureness.MAY)
                            .forEach(f -> fed.computeIfAbsent(f.breaker(), k -> new LinkedHashSet<>())
                                    .add(l.id()));
                case RETURN -> returns.add(l.id());
                case GROUND -> grounds.add(l.id());
            }
            l.protections().stream()
                    .filter(p -> p.sureness() == Sureness.MUST && p.function() != Protection.OVERCURRENT)
                    .map(ProtectedBy::by)
                    .filter(t -> t.kind() == ThingKind.DEVICE || t.kind() == ThingKind.BREAKER)
                    .forEach(t -> guarded.computeIfAbsent(t.name(), k -> new LinkedHashSet<>())
                            .add(l.id()));
        }
        fed.forEach((breaker, points) -> lines.add("With " + breaker + " on, each is live and dark again with it off: "
                + String.join(", ", points) + "."));
        if (!returns.isEmpty()) {
            lines.add("With a load on each, the wires to it together show no residual on a clamp: "
                    + String.join(", ", returns) + ".");
        }
        if (!grounds.isEmpty()) {
            lines.add("Ground, at each: " + String.join(", ", grounds) + ".");
        }
        guarded.forEach((device, points) -> lines.add("Press the test button of " + device + ": "
                + (points.isEmpty()
                        ? "it opens, and what hangs on its load side goes dark."
                        : "these go dark, and come back: " + String.join(", ", points) + ".")));
        before.boxes().values().stream()
                .flatMap(b -> b.devices().keySet().stream())
                .filter(d -> is.house().boxes().values().stream()
                        .noneMatch(b -> b.devices().containsKey(d)))
                .forEach(d -> lines.add("Where " + d + " was: test every wire that is left, capped ones too."));
        return lines;
    }
}
