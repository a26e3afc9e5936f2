package org.splicebook.ask;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import org.splicebook.answer.Answer;
import org.splicebook.answer.Assumption;
import org.splicebook.answer.Caution;
import org.splicebook.answer.Leads;
import org.splicebook.answer.Row;
import org.splicebook.record.Basis;
import org.splicebook.survey.passes.Costs;
import org.splicebook.survey.passes.NextPass;
import org.splicebook.survey.passes.Pass;
import org.splicebook.survey.passes.Plans;
import org.splicebook.survey.passes.Point;
import org.splicebook.survey.passes.Posterior;
import org.splicebook.survey.passes.RecordedSurvey;
import org.splicebook.survey.passes.Survey;
import org.splicebook.survey.passes.Throw;
import org.splicebook.wiring.shutoff.Care;

/** Which breakers are off in the next pass of a survey, what to do before and after, and where to walk? */
final class SurveyPass {
    static final ComputedQuestion QUESTION = Surveying.with(ComputedQuestion.answer(
                            "survey-pass", "Which breakers are off in the next pass, and where to look?")
                    .oneOf(
                            "method",
                            "how passes are chosen; singly is one breaker at a time, corrected is coded so that one misread is corrected",
                            "adaptive",
                            "singly",
                            "coded",
                            "corrected"))
            .columns("place", "pass", "off")
            .by(asked -> new SurveyPass(asked).answer());

    private static final int CORRECTING = 3;

    private final Asked asked;
    private final RecordedSurvey recorded;
    private final Survey survey;
    private final double sure;

    private SurveyPass(Asked asked) {
        this.asked = asked;
        this.recorded = Surveying.of(asked);
        this.survey = recorded.survey();
        this.sure = Surveying.sure(asked);
    }

    private record Next(Pass pass, List<Integer> walk) {}

    private @Nullable Next next() {
        Posterior known = recorded.known();
        List<Integer> open = known.undecided(sure);
        if (open.isEmpty()) {
            return null;
        }
        List<Integer> all = IntStream.range(0, survey.points().size()).boxed().toList();
        return switch (asked.value("method")) {
            case "singly" -> planned(Plans.oneAtATime(survey), open);
            case "coded" -> planned(Plans.coded(survey, 1), all);
            case "corrected" -> planned(Plans.coded(survey, CORRECTING), all);
            default ->
                NextPass.choose(known, Costs.ON_FOOT, sure, before())
                        .map(c -> new Next(c.pass(), c.walk()))
                        .orElse(null);
        };
    }

    /** What was off in the pass before; nothing before the first. */
    private BitSet before() {
        List<Pass> walked = recorded.passes();
        return walked.isEmpty() ? new BitSet() : walked.get(walked.size() - 1).off();
    }

    /** The first pass of the plan that was not walked yet; where it stands there twice, it is walked twice. */
    private @Nullable Next planned(List<Pass> plan, List<Integer> walk) {
        List<BitSet> walked = new ArrayList<>();
        recorded.passes().forEach(p -> walked.add(p.off()));
        for (Pass p : plan) {
            if (!walked.remove(p.off())) {
                return new Next(p, walk);
            }
        }
        return null;
    }

    private Answer answer() {
        if (!recorded.life().isEmpty()) {
            return told(
                    "No pass: someone's health hangs on " + String.join(", ", recorded.life())
                            + ", and any breaker may feed it.",
                    List.of(),
                    List.of(new Answer.Section(
                            "First",
                            true,
                            List.of(
                                    "Ask whoever depends on it, and have its backup running on its own supply.",
                                    "Then ask again with backed-up=" + String.join(",", recorded.life()) + "."))));
        }
        Next next = next();
        if (next == null) {
            int open = recorded.known().undecided(sure).size();
            return told(
                    open == 0
                            ? "Every load point is known as surely as asked. Ask survey-status for the list."
                            : "No further pass of this kind tells anything about the " + open
                                    + " load points that are left. Ask survey-status for a test of each.",
                    List.of(),
                    List.of());
        }
        String pass = "pass-" + (recorded.passes().size() + 1);
        BitSet thrown = next.pass().off();
        List<String> off = thrown.stream()
                .mapToObj(t -> survey.throwing().get(t).breakers())
                .flatMap(List::stream)
                .toList();
        List<Row> rows = new ArrayList<>();
        Set<String> places = new LinkedHashSet<>();
        List<Point> walked = new ArrayList<>();
        for (int p : next.walk()) {
            Point point = survey.points().get(p);
            walked.add(point);
            String place = Surveying.place(asked.house(), point.place());
            places.add(place);
            Map<String, Object> columns = new LinkedHashMap<>();
            columns.put("place", place);
            columns.put("pass", pass);
            columns.put("off", off);
            rows.add(new Row(point.id(), Row.Status.POSSIBLE, Basis.ASSUMED, columns, List.of()));
        }
        double minutes = Costs.ON_FOOT.minutes(thrown.cardinality(), walked);
        String outcome = String.format(
                Locale.ROOT,
                "%s: %d throws off, %d points in %d places, about %.0f minutes. %d of %d points are known so far.",
                pass,
                thrown.cardinality(),
                walked.size(),
                places.size(),
                minutes,
                survey.points().size() - recorded.known().undecided(sure).size(),
                survey.points().size());
        return told(outcome, rows, sections(thrown, rows));
    }

    private List<Answer.Section> sections(BitSet thrown, List<Row> rows) {
        List<Answer.Section> sections = new ArrayList<>();
        Set<Care> cares = new java.util.TreeSet<>();
        List<String> before = new ArrayList<>();
        List<String> after = new ArrayList<>();
        before.add("Tell everyone in the house what will be off, and for how long.");
        before.add(
                "Switch on every lamp; put a lamp or a tester, not a clock or a charger, where nothing else would show.");
        for (int p = 0; p < survey.points().size(); p++) {
            Care care = Care.of(recorded.devices().get(p));
            if (care != null && mayGoOff(p, thrown) && cares.add(care)) {
                before.add(survey.points().get(p).id() + " may go off. " + care.tell());
                after.add(survey.points().get(p).id() + " and the like: " + care.restore());
            }
        }
        after.add(
                0,
                "Turn the breakers on again, one by one. If you walk on at once, send what was read and look at the next pass first: what it"
                        + " has off too may stay off, but for what goes off alone.");
        after.add(
                1,
                "What is still out: press the reset of protective receptacles; what stays out for another reason is read as not tried.");
        after.add("Set clocks and timers.");
        List<String> off = new ArrayList<>();
        BitSet stillOff = before();
        thrown.stream().forEach(t -> off.add(thrown(survey.throwing().get(t), stillOff.get(t))));
        stillOff.andNot(thrown);
        List<String> on =
                stillOff.stream().mapToObj(t -> survey.throwing().get(t).name()).toList();
        Map<String, List<String>> byPlace = new LinkedHashMap<>();
        rows.forEach(r -> byPlace.computeIfAbsent(Objects.toString(r.columns().get("place")), k -> new ArrayList<>())
                .add(r.subject()));
        List<String> walk = new ArrayList<>();
        byPlace.forEach((place, points) -> walk.add(place + ": "
                + String.join("   ", points.stream().map(p -> p + " [ ]").toList())));
        sections.add(new Answer.Section("Before", true, before));
        sections.add(new Answer.Section("Turn on again, if it is still off since the pass before", false, on));
        sections.add(new Answer.Section("Turn off", false, off));
        sections.add(new Answer.Section("Walk: tick what is out, cross out what was not tried", false, walk));
        sections.add(new Answer.Section("After", true, after));
        List<String> staying = survey.throwing().stream()
                .filter(t -> t.stay() != Throw.Stay.FREE)
                .map(t -> t.name()
                        + (t.stay() == Throw.Stay.ON ? " stays on: " : " goes off only by itself, briefly: ")
                        + t.why())
                .toList();
        sections.add(new Answer.Section("Kept apart", false, staying));
        sections.add(Surveying.doubted(recorded));
        return sections;
    }

    private static String thrown(Throw t, boolean wasOff) {
        return t.name()
                + (t.stay() == Throw.Stay.ALONE ? ", alone and as briefly as the walk allows" : "")
                + (wasOff ? " (it was off in the pass before too)" : "");
    }

    /** Whether the point's chances are more than slight with these off. */
    private boolean mayGoOff(int point, BitSet thrown) {
        BitSet dead = survey.unpowered(thrown);
        return recorded.known().ranked(point, survey.causes().size()).stream()
                        .filter(r -> r.cause().isOut(dead, dead))
                        .mapToDouble(Posterior.Ranked::share)
                        .sum()
                > 1e-3;
    }

    private Answer told(String outcome, List<Row> rows, List<Answer.Section> sections) {
        return new Answer(
                        asked.heading(),
                        outcome,
                        rows,
                        List.of(),
                        List.of(
                                Assumption.NO_BURIED_TAP,
                                "That lamps are switched on, and that each reading may be wrong."),
                        List.of(Surveying.NOT_DEAD, Surveying.RANKS),
                        List.of(),
                        Caution.forWhat(Leads.TO_A_SWITCH))
                .withSections(sections);
    }
}
