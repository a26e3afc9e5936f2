package org.splicebook.ask;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.splicebook.answer.Answer;
import org.splicebook.answer.Assumption;
import org.splicebook.answer.Caution;
import org.splicebook.answer.Leads;
import org.splicebook.answer.Row;
import org.splicebook.loadflow.LoadCase;
import org.splicebook.loadflow.LoadFlow;
import org.splicebook.loadflow.LoadPoint;
import org.splicebook.survey.Diagnosis;
import org.splicebook.survey.NextTest;
import org.splicebook.survey.Observed;
import org.splicebook.survey.Suspect;
import org.splicebook.survey.Symptom;
import org.splicebook.survey.SymptomReader;
import org.splicebook.survey.Told;
import org.splicebook.survey.UnopenedBoxes;
import org.splicebook.survey.UsualState;

/** What may be wrong, by what somebody saw: suspects ranked, each with what it foretells, and the next test with covers on. */
final class Diagnose {
    static final ComputedQuestion QUESTION = ComputedQuestion.answer("diagnose", "What may be wrong: {symptoms}?")
            .with(
                    "symptoms",
                    "what was seen, semicolons between, for example dead: living-2; live: hall-1; dims: hall-light when living-3;"
                            + " trips: main.9 when living-3; volts at living-2: hn=2 hg=120 ng=118; volts between A and B: 240;"
                            + " last touched: living-east")
            .oneOf("on", "what is switched on meanwhile", "typical", "everything", "nothing")
            .columns("chance", "where", "foretells", "alike")
            .by(asked -> new Diagnose(asked).answer());

    private static final int MOST_ROWS = 12;
    private static final int MOST_ALIKE = 6;
    private static final double TELLING = 0.002;

    private final Asked asked;
    private final LoadFlow flow;
    private final LoadCase state;
    private final Told told;
    private final Diagnosis diagnosis;

    private Diagnose(Asked asked) {
        this.asked = asked;
        this.flow = LoadFlow.of(asked.house());
        this.told = SymptomReader.read(flow.circuit(), asked.value("symptoms")).get();
        LoadCase.Base base = switch (asked.value("on")) {
            case "everything" -> LoadCase.Base.ALL_ON;
            case "nothing" -> LoadCase.Base.NOTHING_ON;
            default -> LoadCase.Base.TYPICAL;
        };
        this.state = UsualState.of(flow, base);
        this.diagnosis = Diagnosis.of(flow, state, told.observed(), told.touched());
    }

    private Answer answer() {
        Set<String> unfed = new TreeSet<>(told.points(Symptom.Level.DEAD));
        unfed.removeIf(diagnosis::isFedWithoutFault);
        List<Row> rows = new ArrayList<>();
        boolean isSound = diagnosis.nothingWrong() && unfed.isEmpty();
        for (Diagnosis.Alike c : diagnosis.classes()) {
            if (!isSound && rows.size() < MOST_ROWS && c.chance() >= TELLING && !c.silent()) {
                rows.add(row(c));
            }
        }
        List<Answer.Section> sections = List.of(
                new Answer.Section("As it was understood", false, told.read()),
                new Answer.Section("Next test, covers on", false, isSound ? List.of() : next()),
                new Answer.Section("Nothing of this explains it", false, isSound ? List.of() : unrelated()),
                new Answer.Section(
                        "By the record no ground leads to these: readings to it tell nothing", false, ungrounded()),
                new Answer.Section("Not shown by the record to be fed at all", false, List.copyOf(unfed)),
                new Answer.Section("Boxes that nobody has looked into whole, likeliest first", false, unopened()),
                new Answer.Section(
                        "Faults that would show just this, which is nothing", false, isSound ? silent() : List.of()));
        return new Answer(
                        asked.heading(),
                        outcome(isSound, unfed),
                        rows,
                        List.of(),
                        List.of(
                                Assumption.NO_BURIED_TAP,
                                "One fault, or two where no single one explains all.",
                                "Every switch stands so that as much as possible is lit, but for what is said with when; "
                                        + asked.value("on") + " loads are on.",
                                "What the record does not list is not there: a fault in wiring that is not recorded is not among these."),
                        List.of(
                                "That any of these is the fault, or that the others are not: chances rank, they exclude nothing.",
                                "That anything is dead. What shows no light may still be live: test every wire before you touch it."),
                        List.of(),
                        Caution.forWhat(Leads.TO_A_WIRE))
                .withSections(sections);
    }

    private String outcome(boolean isSound, Set<String> unfed) {
        if (isSound) {
            return "Nothing that was told needs a fault: without any the record foretells just that. What is told is also what faults"
                    + " show that nobody notices from outside.";
        }
        String first = diagnosis.classes().isEmpty()
                ? "Nothing is known that may be wrong."
                : "Likeliest: " + words(diagnosis.classes().get(0).suspects().get(0)) + " ("
                        + percent(diagnosis.classes().get(0).chance()) + ").";
        if (!unfed.isEmpty()) {
            return "The record does not show how " + String.join(", ", unfed)
                    + " is fed, so that it cannot tell why it is dead. "
                    + (unopened().isEmpty() ? "" : "Look at the boxes below.");
        }
        return (diagnosis.explained()
                        ? ""
                        : "No single fault, and no pair of likely ones, explains all that was told. ")
                + first;
    }

    private Row row(Diagnosis.Alike c) {
        Suspect s = c.suspects().get(0);
        Map<String, Object> columns = new LinkedHashMap<>();
        columns.put("chance", percent(c.chance()));
        columns.put("where", String.join(", ", new TreeSet<>(s.boxes())));
        columns.put("foretells", String.join("; ", diagnosis.foretold(c)));
        columns.put("alike", c.suspects().size() - 1);
        List<String> why = new ArrayList<>();
        why.add("Cannot be told apart from outside, with covers on:");
        c.suspects().stream().limit(MOST_ALIKE).forEach(x -> why.add(x.words()));
        if (c.suspects().size() > MOST_ALIKE) {
            why.add("and " + (c.suspects().size() - MOST_ALIKE) + " more");
        }
        return new Row(
                words(s),
                Row.Status.POSSIBLE,
                asked.house().basis(),
                columns,
                c.suspects().size() > 1 || s.at().size() > 1 ? why : List.of());
    }

    private List<String> ungrounded() {
        Set<String> points = new TreeSet<>();
        for (Observed o : told.observed()) {
            if (o.symptom() instanceof Symptom.Reads r
                    && r.between() != Symptom.Between.HOT_NEUTRAL
                    && !diagnosis.isGroundedWithoutFault(r.point())) {
                points.add(r.point());
            }
        }
        return List.copyOf(points);
    }

    private List<String> unrelated() {
        Diagnosis.Alike others = diagnosis.unrelated();
        return List.of(
                "Chance " + percent(others.chance())
                        + ": something told is mistaken, or comes from what is not on record.",
                others.suspects().size()
                        + " other faults that were tried would show none of what was told; they stand here together, none"
                        + " is ruled out.");
    }

    /** The kind and the first places of a suspect. */
    private static String words(Suspect s) {
        int colon = s.words().indexOf(": ");
        return s.at().size() <= 2 || colon < 0 || s.words().contains("; and ")
                ? s.words()
                : s.words().substring(0, colon) + ": " + String.join(", ", s.at().subList(0, 2)) + " and "
                        + (s.at().size() - 2) + " more in a row";
    }

    private List<String> next() {
        NextTest t = diagnosis.next().orElse(null);
        if (t == null) {
            return List.of("No test from outside tells the likely ones apart. Ask shut-off before any box is opened.");
        }
        List<String> lines = new ArrayList<>();
        String where = t.setting().said().isEmpty() ? "" : ", " + t.setting().said();
        lines.add(
                switch (t.kind()) {
                    case HANDLE -> "By its handle or button at " + t.at() + where + ": has it tripped?";
                    case LAMP -> "With a lamp at " + t.at() + where + ": does it work, and how brightly?";
                    case METER ->
                        "With a meter at " + t.at() + where + ": hot to neutral, hot to ground, neutral to ground.";
                });
        t.outcomes()
                .forEach((outcome, chance) ->
                        lines.add(outcome + ": expected in " + percent(chance) + " of such cases"));
        String when =
                t.setting().typed().isEmpty() ? "" : " when " + t.setting().typed();
        lines.add(
                switch (t.kind()) {
                    case HANDLE -> "Then add tripped: " + t.at() + when + " or holds: " + t.at() + when;
                    case LAMP -> "Then add dead:, dim:, live: or bright: " + t.at() + when;
                    case METER -> "Then add volts at " + t.at() + ": hn=... hg=... ng=..." + when;
                });
        return lines;
    }

    private List<String> unopened() {
        Map<String, String> boxOf = new LinkedHashMap<>();
        for (LoadPoint p : flow.circuit().loadPoints()) {
            boxOf.put(p.name(), p.box());
        }
        List<String> dead =
                told.points(Symptom.Level.DEAD).stream().map(boxOf::get).toList();
        List<String> live =
                told.points(Symptom.Level.LIVE).stream().map(boxOf::get).toList();
        return UnopenedBoxes.of(asked.house(), dead, live).stream()
                .limit(MOST_ALIKE)
                .map(u -> u.box() + ": " + u.dead() + " of what is dead lies in it or beyond it, " + u.live()
                        + " of what is live"
                        + (u.beside() > 0
                                ? "; " + u.beside() + " more that is dead may hang on it by a way round"
                                : ""))
                .toList();
    }

    private List<String> silent() {
        List<Suspect> all = Diagnosis.silent(flow, state);
        Map<String, Integer> counts = new LinkedHashMap<>();
        all.forEach(s -> counts.merge(s.words().substring(0, s.words().indexOf(':')), 1, Integer::sum));
        List<String> lines = new ArrayList<>();
        counts.forEach((kind, n) -> lines.add(kind + ": in " + n + " places"));
        return lines;
    }

    private static String percent(double share) {
        double hundred = share * 100;
        return hundred > 0 && hundred < 1
                ? "under 1 %"
                : String.format(Locale.ROOT, "%.0f %%", hundred > 99 ? Math.min(hundred, 99) : hundred);
    }
}
