package org.splicebook.ask;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.splicebook.answer.Answer;
import org.splicebook.answer.Nearest;
import org.splicebook.answer.Row;
import org.splicebook.answer.SightingWords;
import org.splicebook.problem.ProblemKind;
import org.splicebook.record.Basis;
import org.splicebook.record.Sighting;
import org.splicebook.wiring.evidence.Evidence;

/** Which breakers may feed a load point or a wire end, by the wiring and by what was observed, and what speaks against the others? */
final class WhatFeeds {
    private static final String EVERY = "every load point";

    static final ComputedQuestion QUESTION = ComputedQuestion.answer(
                    "evidence", "Which breakers may feed {at}, and what tells so?")
            .with("at", "a load point or a wire end, for example bath-1.top or K9.black@2", EVERY)
            .columns("says", "sightings")
            .by(asked -> new WhatFeeds(asked).answer());

    private static final int NAMED = 6;

    private final Asked asked;
    private final Evidence evidence;
    private final Standing standing;
    private final String at;

    private WhatFeeds(Asked asked) {
        this.asked = asked;
        this.evidence = asked.workings().evidence();
        this.standing = asked.workings().standing();
        this.at = asked.value("at");
    }

    private Answer answer() {
        return at.equals(EVERY) ? every() : one(point());
    }

    private Evidence.PointEvidence point() {
        return evidence.points().stream()
                .filter(p -> p.point().equals(at))
                .findFirst()
                .orElseThrow(() -> Asked.wrong(
                        ProblemKind.NOT_FOUND,
                        "at",
                        "The house " + asked.house().id() + " has no load point and no wire end " + at + ".",
                        Nearest.cure(
                                at,
                                evidence.points().stream()
                                        .map(Evidence.PointEvidence::point)
                                        .toList())));
    }

    private Answer one(Evidence.PointEvidence p) {
        List<Row> rows = p.candidates().stream().map(this::row).toList();
        List<Evidence.Candidate> may = may(p);
        long shown = of(p, Evidence.Standing.SHOWN).size();
        String outcome = may.isEmpty()
                ? "No breaker that is listed may feed " + at + "."
                : shown == 1 && may.size() == 1
                        ? "Only " + may.get(0).breaker() + " feeds " + at + ", as far as is known."
                        : may.size() + " breakers may feed " + at + ", " + shown + " of them as recorded.";
        if (p.unlisted()) {
            outcome += " Something that nobody listed may feed it too.";
        }
        return asked.answer(outcome, rows, notProven(Set.of(at)), may.size() > 1 ? tests(p, may) : List.of());
    }

    private static List<Evidence.Candidate> may(Evidence.PointEvidence p) {
        return p.candidates().stream()
                .filter(c -> c.standing() != Evidence.Standing.EXCLUDED)
                .toList();
    }

    private static List<Evidence.Candidate> of(Evidence.PointEvidence p, Evidence.Standing standing) {
        return p.candidates().stream().filter(c -> c.standing() == standing).toList();
    }

    private Row row(Evidence.Candidate c) {
        Row.Status status = switch (c.standing()) {
            case SHOWN -> Row.Status.SHOWN;
            case POSSIBLE, UNLIKELY -> Row.Status.POSSIBLE;
            case EXCLUDED -> Row.Status.EXCLUDED;
        };
        Map<String, Object> columns = new LinkedHashMap<>();
        columns.put("says", says(c));
        columns.put("sightings", c.sightings());
        List<String> why = asked.sightings().stream()
                .filter(s -> c.sightings().contains(s.id()))
                .map(SightingWords::dated)
                .toList();
        return new Row(c.breaker(), status, basis(c), columns, why);
    }

    private static Basis basis(Evidence.Candidate c) {
        return switch (c.standing()) {
            case SHOWN -> Basis.SEEN;
            case POSSIBLE, UNLIKELY -> Basis.ASSUMED;
            case EXCLUDED -> c.sightings().isEmpty() ? Basis.SEEN : Basis.TESTED;
        };
    }

    private static String says(Evidence.Candidate c) {
        return switch (c.standing()) {
            case SHOWN -> "the wiring that was seen joins them";
            case POSSIBLE -> "nothing excludes it";
            case UNLIKELY ->
                "not excluded, though "
                        + c.doubts().stream().map(WhatFeeds::said).collect(Collectors.joining(", and "));
            case EXCLUDED ->
                c.sightings().isEmpty()
                        ? "excluded: the wiring round it was all seen, and none of it leads there"
                        : "excluded by paired tests that agree, from different passes";
        };
    }

    private static String said(Evidence.Doubt d) {
        return switch (d) {
            case TESTED_OTHERWISE -> "it went out with others off";
            case OTHER_LEG -> "volts to another point tell of the other leg";
            case RATING -> "its rating is above what a wire there may carry";
            case POLES -> "the load there needs two poles and it has one";
        };
    }

    private List<String> tests(Evidence.PointEvidence p, List<Evidence.Candidate> may) {
        Evidence.Candidate first = may.get(0);
        String positions = Evidence.positionsToTest(asked.house(), List.of(p.point())).values().stream()
                .flatMap(List::stream)
                .filter(m -> !m.isEmpty())
                .map(m -> m.entrySet().stream()
                        .map(e -> e.getKey() + " " + e.getValue())
                        .collect(Collectors.joining(" and ")))
                .distinct()
                .limit(NAMED)
                .collect(Collectors.joining("; then with "));
        boolean excludes = asked.wiring().loadPoints().stream().noneMatch(l -> l.id().equals(p.point()));
        return List.of("A lamp or a meter at " + at + ", lit; turn " + first.breaker()
                + " off, then on again: out only meanwhile shows that it hangs on that one."
                + (excludes
                        ? " The same on another walk excludes the others."
                        : " To exclude the others, read its hot wire by name, with a meter, to a neutral or ground that was seen, on two walks.")
                + (positions.isEmpty() ? "" : " Do it with " + positions + "."));
    }

    private Answer every() {
        List<Row> rows = new ArrayList<>();
        Set<String> points = new TreeSet<>();
        int settled = 0;
        for (Evidence.PointEvidence p : evidence.points()) {
            if (asked.wiring().loadPoints().stream().noneMatch(l -> l.id().equals(p.point()))) {
                continue;
            }
            points.add(p.point());
            List<Evidence.Candidate> may = may(p);
            boolean known = may.size() == 1 && !p.unlisted();
            settled += known ? 1 : 0;
            Map<String, Object> columns = new LinkedHashMap<>();
            columns.put("says", words(p, may));
            columns.put(
                    "sightings",
                    p.candidates().stream()
                            .flatMap(c -> c.sightings().stream())
                            .distinct()
                            .sorted()
                            .toList());
            rows.add(new Row(
                    p.point(),
                    known && may.get(0).standing() == Evidence.Standing.SHOWN ? Row.Status.SHOWN : Row.Status.POSSIBLE,
                    may.isEmpty() ? Basis.ASSUMED : basis(may.get(0)),
                    columns,
                    List.of()));
        }
        String outcome =
                "Of " + points.size() + " load points " + settled + " are left with one breaker; the others are open.";
        return asked.answer(outcome, rows, notProven(points), List.of());
    }

    private static String words(Evidence.PointEvidence p, List<Evidence.Candidate> may) {
        List<String> first =
                may.stream().map(Evidence.Candidate::breaker).limit(NAMED).toList();
        return (may.isEmpty() ? "none that is listed" : String.join(", ", first))
                + (may.size() > NAMED ? " and " + (may.size() - NAMED) + " more" : "")
                + (p.unlisted() ? ", or something that nobody listed" : "");
    }

    /** What no longer counts: sightings that expired or that are in a contradiction. */
    private List<String> notProven(Set<String> points) {
        List<String> all = new ArrayList<>();
        for (Sighting s : asked.sightings()) {
            boolean concerns =
                    s.seen().points().stream().anyMatch(x -> points.stream().anyMatch(p -> isOf(x, p)));
            if (concerns && standing.expired().containsKey(s.id())) {
                all.add("What " + SightingWords.dated(s) + " showed: " + standing.why(s.id()) + " since.");
            }
        }
        Set<String> disputed = new TreeSet<>();
        evidence.conflicts().forEach(c -> disputed.addAll(c.sightings()));
        if (!disputed.isEmpty()) {
            all.add("Anything by " + String.join(", ", disputed)
                    + ": they are in contradictions and exclude nothing. Ask contradictions.");
        }
        if (!evidence.everyConflict()) {
            all.add(
                    "That the sightings can all hold: this was not searched to the end, and those in doubt exclude nothing.");
        }
        return all;
    }

    private static boolean isOf(String point, String of) {
        return point.equals(of)
                || point.startsWith(of + ".")
                || of.startsWith(point + ".")
                || of.startsWith(point + "@");
    }
}
