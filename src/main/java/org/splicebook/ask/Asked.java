package org.splicebook.ask;

import java.util.List;
import java.util.Map;
import org.splicebook.answer.Answer;
import org.splicebook.answer.Caution;
import org.splicebook.answer.Heading;
import org.splicebook.answer.Leads;
import org.splicebook.answer.Openness;
import org.splicebook.answer.Question;
import org.splicebook.answer.Row;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.record.House;
import org.splicebook.record.Sighting;
import org.splicebook.store.Revision;
import org.splicebook.store.StoredHouse;
import org.splicebook.wiring.Wiring;
import org.splicebook.wiring.shutoff.ShutOff;
import org.splicebook.wiring.shutoff.ShutOffs;
import org.splicebook.wiring.shutoff.Target;

/**
 * A question as it is asked, with all that it may be answered from.
 *
 * @param question the question
 * @param stored the house and the revision it is
 * @param wiring what is derived from it
 * @param sightings what was observed, oldest first
 * @param parameters every parameter, defaults filled in
 * @param workings what else it may be answered from
 */
record Asked(
        Question question,
        StoredHouse stored,
        Wiring wiring,
        List<Sighting> sightings,
        Map<String, String> parameters,
        Workings workings) {
    House house() {
        return stored.house();
    }

    /** {@return the value of a parameter} */
    String value(String parameter) {
        return parameters.getOrDefault(parameter, "");
    }

    Heading heading() {
        return heading(question.said(parameters));
    }

    /** The same, with the question in other words. */
    Heading heading(String words) {
        Revision r = stored.revision();
        return new Heading(question.id(), words, r.house(), r.name(), r.number(), r.stored(), parameters, false);
    }

    /** {@return what must be off before hands come to a target} */
    ShutOff shutOff(Target target) {
        ShutOffs all = workings.shutOffs();
        synchronized (all) {
            return all.of(target);
        }
    }

    /** {@return the answer, with what it assumes, does not prove and how that would be settled} */
    Answer answer(String outcome, List<Row> rows) {
        return answer(outcome, rows, List.of(), List.of());
    }

    /**
     * The same.
     *
     * @param notProven what the facts do not prove beside what the record leaves open
     * @param wouldSettle tests that would settle it, before the general ones
     */
    Answer answer(String outcome, List<Row> rows, List<String> notProven, List<String> wouldSettle) {
        Openness open = new Openness(wiring.openRegions());
        List<Row> ordered = rows.stream()
                .sorted(java.util.Comparator.comparing(Row::status))
                .toList();
        return new Answer(
                heading(),
                outcome,
                ordered,
                List.of(),
                Openness.assumed(ordered),
                joined(notProven, open.notProven(ordered, parameters.values())),
                joined(wouldSettle, open.wouldSettle(ordered, parameters.values())),
                Caution.forWhat(Leads.TO_A_WIRE));
    }

    private static List<String> joined(List<String> a, List<String> b) {
        return java.util.stream.Stream.concat(a.stream(), b.stream()).distinct().toList();
    }

    /** {@return a problem with a parameter, to be thrown} */
    static ProblemException wrong(ProblemKind kind, String parameter, String message, String cure) {
        return new ProblemException(Problem.error(kind, Where.field(parameter), message, cure));
    }
}
