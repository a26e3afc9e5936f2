package org.splicebook.rewire.search;

import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.splicebook.answer.Answer;
import org.splicebook.answer.Caution;
import org.splicebook.answer.Heading;
import org.splicebook.answer.Leads;
import org.splicebook.answer.Openness;
import org.splicebook.answer.Row;
import org.splicebook.record.Basis;
import org.splicebook.record.Draft;
import org.splicebook.record.House;

/** What a search found, told. Each proposal is a draft: nothing of it is done. */
public final class SearchAnswer {
    private SearchAnswer() {}

    /** {@return the proposals as drafts, {@code proposal-1} the least costly} */
    public static List<Draft> drafts(Found found, House house, Wish wish, long revision) {
        List<Draft> all = new ArrayList<>();
        for (Proposal p : found.proposals()) {
            all.add(new Draft(
                    "proposal-" + (all.size() + 1),
                    house.id(),
                    revision == 0 ? null : revision,
                    "To " + wish.said() + ": " + p.cost().said() + ".",
                    p.moves()));
        }
        return all;
    }

    /**
     * {@return the answer}
     *
     * @param revision the revision that the house is; 0 for a file that is not stored
     * @param stored when that was stored
     */
    public static Answer of(Found found, House house, Wish wish, long revision, Instant stored) {
        Heading heading = new Heading(
                "propose",
                "Which change would " + wish.said() + "?",
                house.id(),
                house.said(),
                revision,
                stored,
                Map.of(),
                true);
        List<Row> rows = new ArrayList<>();
        List<Answer.Section> sections = new ArrayList<>();
        for (Proposal p : found.proposals()) {
            String name = "proposal-" + (rows.size() + 1);
            Map<String, Object> columns = new LinkedHashMap<>();
            columns.put("takes", p.cost().said());
            rows.add(new Row(name, Row.Status.POSSIBLE, Basis.ASSUMED, columns, List.of()));
            sections.add(new Answer.Section(name, true, p.steps()));
            List<String> beside = new ArrayList<>(NewCable.said(house, p.moves()));
            beside.addAll(p.beside());
            sections.add(new Answer.Section("What comes with " + name, false, beside));
        }
        for (Rejected r : found.rejected()) {
            List<String> lines = new ArrayList<>(r.steps());
            r.reasons().forEach(x -> lines.add("But: " + x));
            sections.add(new Answer.Section("May not be done (" + r.cost().said() + ")", false, lines));
        }
        Openness open = new Openness(List.of());
        return new Answer(
                        heading,
                        outcome(found),
                        rows,
                        List.of(),
                        Openness.assumed(rows),
                        open.notProven(rows, List.of()),
                        List.of(),
                        Caution.forWhat(Leads.TO_A_WIRE))
                .withSections(sections)
                .withNotProven(List.of(
                        "Loads are the typical ones, everything on, and heaters; others may trip what these do not.",
                        "How long a new cable has to be, and whether a wall lets it through, is not known.",
                        "The inspector and the local code decide whether a change may be made."));
    }

    private static String outcome(Found found) {
        String far = found.looked() + " changes were judged"
                + (found.exhausted() ? "." : ", not all that there are: a cheaper one may have been missed.");
        if (found.proposals().isEmpty()) {
            return "No change was found that passes, neither with the wires that are there nor with a new cable. "
                    + far;
        }
        if (found.proposals().get(0).cost().cables() > 0) {
            return "Not with the wires that are there" + (found.exhausted() ? "" : ", as far as was looked")
                    + ": the least found takes "
                    + found.proposals().get(0).cost().said() + ". " + far;
        }
        return found.proposals().size() + " found. " + far;
    }
}
