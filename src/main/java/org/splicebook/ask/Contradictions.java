package org.splicebook.ask;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.splicebook.answer.Answer;
import org.splicebook.answer.Row;
import org.splicebook.answer.SightingWords;
import org.splicebook.record.Basis;
import org.splicebook.record.Sighting;
import org.splicebook.wiring.evidence.Conflict;
import org.splicebook.wiring.evidence.Evidence;
import org.splicebook.wiring.evidence.Fact;

/** What was observed and recorded that cannot all be so? */
final class Contradictions {
    static final ComputedQuestion QUESTION = ComputedQuestion.answer(
                    "contradictions", "What was observed and recorded that cannot all be so?")
            .columns("facts", "sightings")
            .by(asked -> new Contradictions(asked).answer());

    private final Asked asked;
    private final Evidence evidence;
    private final Map<String, Sighting> sightings = new TreeMap<>();

    private Contradictions(Asked asked) {
        this.asked = asked;
        this.evidence = asked.workings().evidence();
        asked.sightings().forEach(s -> sightings.put(s.id(), s));
    }

    private Answer answer() {
        List<Row> rows = new ArrayList<>();
        List<String> again = new ArrayList<>();
        for (Conflict c : evidence.conflicts()) {
            Map<String, Object> columns = new LinkedHashMap<>();
            columns.put("facts", c.facts().size());
            columns.put("sightings", c.sightings());
            rows.add(new Row(
                    "contradiction " + (rows.size() + 1),
                    Row.Status.SHOWN,
                    c.sightings().isEmpty() ? Basis.SEEN : Basis.TESTED,
                    columns,
                    c.facts().stream().map(this::said).toList()));
            c.sightings().stream().filter(s -> !again.contains(s)).forEach(again::add);
        }
        int expired = asked.workings().standing().expired().size();
        String outcome = (rows.isEmpty()
                        ? evidence.everyConflict()
                                ? "Nothing that stands contradicts anything."
                                : "No contradiction was met, and the search was not carried to its end."
                        : rows.size() + (rows.size() == 1 ? " set" : " sets")
                                + " of facts cannot all be so. In each, at least one is wrong; its sightings exclude nothing until it is settled.")
                + (expired == 0 ? "" : " " + expired + " sightings no longer stand and were not looked at.");
        return asked.answer(
                outcome,
                rows,
                evidence.everyConflict()
                        ? List.of()
                        : List.of("That there are no others: this was not searched to the end."),
                again.isEmpty()
                        ? List.of()
                        : List.of("Make these again, and look at the wiring that they speak of: "
                                + String.join(", ", again) + "."));
    }

    private String said(Fact f) {
        if (f instanceof Fact.Sighted s) {
            Sighting sighting = sightings.get(s.sighting());
            return sighting == null ? s.sighting() : SightingWords.dated(sighting);
        }
        Fact.Recorded r = (Fact.Recorded) f;
        String of = r.of().isEmpty() ? "nothing" : String.join(", ", r.of());
        return "recorded as seen: " + r.point() + " "
                + switch (r.says()) {
                    case FED_BY -> "is fed by " + of + " in every position of the switches";
                    case FED_BY_NOTHING_BUT -> "can be fed by nothing but " + of;
                    case FED_PAST -> "is fed past " + of;
                    case FED_ONLY_THROUGH -> "is fed through " + of + " alone";
                    case JOINED_TO -> "is joined by wires to " + of;
                };
    }
}
