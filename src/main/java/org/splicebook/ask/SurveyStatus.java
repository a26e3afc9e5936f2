package org.splicebook.ask;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.splicebook.answer.Answer;
import org.splicebook.answer.Assumption;
import org.splicebook.answer.Caution;
import org.splicebook.answer.Leads;
import org.splicebook.answer.Row;
import org.splicebook.record.Basis;
import org.splicebook.survey.passes.Cause;
import org.splicebook.survey.passes.Posterior;
import org.splicebook.survey.passes.RecordedSurvey;
import org.splicebook.survey.passes.Survey;
import org.splicebook.survey.passes.Throw;

/** What does the survey make likely of each load point, and what is left? */
final class SurveyStatus {
    static final ComputedQuestion QUESTION = Surveying.with(ComputedQuestion.answer(
                    "survey-status", "What feeds each load point, by the passes walked so far, and what is left?"))
            .columns("place", "likeliest", "share", "else", "test")
            .by(asked -> new SurveyStatus(asked).answer());

    private static final int TOLD = 3;
    private static final double TELLING = 0.01;

    private final Asked asked;
    private final RecordedSurvey recorded;
    private final Survey survey;
    private final Posterior known;
    private final double sure;

    private SurveyStatus(Asked asked) {
        this.asked = asked;
        this.recorded = Surveying.of(asked);
        this.survey = recorded.survey();
        this.known = recorded.known();
        this.sure = Surveying.sure(asked);
    }

    private Answer answer() {
        List<Integer> open = known.undecided(sure);
        List<Row> rows = new ArrayList<>();
        Map<String, List<String>> found = new TreeMap<>();
        for (int p = 0; p < survey.points().size(); p++) {
            List<Posterior.Ranked> ranked = known.ranked(p, TOLD);
            Posterior.Ranked top = ranked.get(0);
            boolean isOpen = top.share() < sure;
            Map<String, Object> columns = new LinkedHashMap<>();
            columns.put(
                    "place",
                    Surveying.place(asked.house(), survey.points().get(p).place()));
            columns.put("likeliest", top.cause().said(survey.throwing()));
            columns.put("share", percent(top.share()));
            columns.put(
                    "else",
                    ranked.stream()
                            .skip(1)
                            .filter(r -> r.share() >= TELLING)
                            .map(r -> r.cause().said(survey.throwing()) + " " + percent(r.share()))
                            .collect(Collectors.joining("; ")));
            columns.put("test", isOpen || top.cause().kind() != Cause.Kind.ONCE ? test(ranked) : "");
            String id = survey.points().get(p).id();
            rows.add(new Row(
                    id,
                    Row.Status.POSSIBLE,
                    recorded.readings().isEmpty() ? Basis.LABELLED : Basis.TESTED,
                    columns,
                    List.of()));
            if (!isOpen && top.cause().isOneThrow()) {
                found.computeIfAbsent(survey.throwing().get(top.cause().a()).name(), k -> new ArrayList<>())
                        .add(id);
            }
        }
        List<String> empty = survey.throwing().stream()
                .filter(t -> !found.containsKey(t.name()))
                .map(Throw::name)
                .toList();
        String outcome = String.format(
                Locale.ROOT,
                "%d passes, %d readings: %d of %d load points are known to %s.",
                recorded.passes().size(),
                recorded.readings().size(),
                survey.points().size() - open.size(),
                survey.points().size(),
                percent(sure));
        List<String> byBreaker = found.entrySet().stream()
                .map(e -> e.getKey() + ": " + String.join(", ", e.getValue()))
                .toList();
        return new Answer(
                        asked.heading(),
                        outcome,
                        rows,
                        List.of(),
                        List.of(Assumption.NO_BURIED_TAP),
                        List.of(
                                Surveying.NOT_DEAD,
                                Surveying.RANKS,
                                "That a breaker on which nothing was found is spare: it may feed what nobody looks at."),
                        open.isEmpty()
                                ? List.of(
                                        "Turn each breaker off once more by itself, and look at what it is said to feed.")
                                : List.of("Ask survey-pass for the next pass."),
                        Caution.forWhat(Leads.TO_A_SWITCH))
                .withSections(List.of(
                        new Answer.Section("By breaker", false, byBreaker),
                        new Answer.Section(
                                "Nothing found on",
                                false,
                                empty.isEmpty() ? List.of() : List.of(String.join(", ", empty))),
                        new Answer.Section("Labels that the survey speaks against", false, recorded.disproved()),
                        Surveying.doubted(recorded),
                        new Answer.Section("Readings that were not counted", false, recorded.leftOut())));
    }

    /** The cheapest test that parts the likeliest two, covers on. */
    private String test(List<Posterior.Ranked> ranked) {
        Cause first = ranked.get(0).cause();
        Cause second = ranked.size() > 1 ? ranked.get(1).cause() : first;
        return switch (first.kind()) {
            case ALWAYS_OUT -> "find its switch or reset so that it is lit, then read it again";
            case NEVER ->
                "look for another panel, a disconnect, a neighbour's supply; never take it as off with the main";
            case TWICE, EITHER ->
                "turn off " + survey.throwing().get(first.a()).name() + " alone, then "
                        + survey.throwing().get(first.b()).name() + " alone, then both, and read it each time";
            case LATCHED -> "reset it, turn " + survey.throwing().get(first.a()).name() + " off and on, and read it";
            case ONCE ->
                second.isOneThrow() && second.a() != first.a()
                        ? "turn off " + survey.throwing().get(first.a()).name() + " alone and read it; else "
                                + survey.throwing().get(second.a()).name()
                        : "turn off " + survey.throwing().get(first.a()).name() + " alone and read it";
        };
    }

    private static String percent(double share) {
        double hundred = share * 100;
        return hundred > 99.5 && hundred < 100
                ? String.format(Locale.ROOT, "%.1f %%", Math.min(hundred, 99.9))
                : String.format(Locale.ROOT, "%.0f %%", hundred);
    }
}
