package org.splicebook.rewire.place;

import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.splicebook.answer.Answer;
import org.splicebook.answer.Caution;
import org.splicebook.answer.Heading;
import org.splicebook.answer.Leads;
import org.splicebook.answer.Openness;
import org.splicebook.answer.Row;
import org.splicebook.record.Basis;
import org.splicebook.record.Draft;
import org.splicebook.record.House;
import org.splicebook.record.Protection;
import org.splicebook.rewire.Worklist;

/** A placement told: where each device goes, why, what it covers, what cannot be covered. It is a draft: nothing of it is done. */
public final class PlacementAnswer {
    private PlacementAnswer() {}

    /** {@return the placement as a draft of that name; null where nothing is placed} */
    public static @Nullable Draft draft(Placement p, House house, String name, long revision) {
        return p.moves().isEmpty()
                ? null
                : new Draft(
                        name,
                        house.id(),
                        revision == 0 ? null : revision,
                        "For " + p.wanted().said() + ": cost " + p.cost() + ".",
                        p.moves());
    }

    /**
     * {@return the answer}
     *
     * @param revision the revision that the house is; 0 for a file that is not stored
     * @param stored when that was stored
     */
    public static Answer of(Placement p, House house, long revision, Instant stored) {
        Heading heading = new Heading(
                "place",
                "Where do protective devices go for " + p.wanted().said() + "?",
                house.id(),
                house.said(),
                revision,
                stored,
                Map.of(),
                true);
        List<Row> rows = new ArrayList<>();
        List<Answer.Section> sections = new ArrayList<>();
        for (Placement.Placed d : p.placed()) {
            Map<String, Object> columns = new LinkedHashMap<>();
            columns.put("device", d.what());
            columns.put("covers", d.covers().size());
            columns.put("cost", d.cost());
            rows.add(new Row(d.at(), Row.Status.POSSIBLE, Basis.ASSUMED, columns, List.of()));
            sections.add(new Answer.Section("Why " + d.at(), false, why(d)));
        }
        List<String> not = new ArrayList<>();
        p.uncovered()
                .forEach(u ->
                        not.add(u.demand().said() + ", " + asks(u.demand()) + " " + String.join(" Or: ", u.why())));
        sections.add(new Answer.Section("Not covered", false, not));
        sections.add(new Answer.Section(
                "Steps", true, Worklist.of(house, house, p.moves()).steps()));
        sections.add(new Answer.Section("Labels", false, p.labels()));
        sections.add(new Answer.Section("Boxes and panels to open", false, p.sites()));
        sections.add(new Answer.Section("What comes with it", false, p.beside()));
        sections.add(new Answer.Section(
                "To be known first; it may ask for more",
                false,
                p.asked().stream()
                        .map(f -> f.title() + ", " + f.subject() + ": " + f.said())
                        .toList()));
        return new Answer(
                        heading,
                        outcome(p),
                        rows,
                        List.of(),
                        Openness.assumed(rows),
                        List.of(),
                        List.of(),
                        Caution.forWhat(Leads.TO_A_WIRE))
                .withSections(sections)
                .withNotProven(notProven(p));
    }

    private static String outcome(Placement p) {
        if (p.demands().isEmpty()) {
            return "Nothing was found to be without protection that it asks for"
                    + (p.asked().isEmpty() ? "." : ", but " + p.asked().size() + " things have to be known first.");
        }
        int covered = p.demands().size() - p.uncovered().size();
        String all = covered + " of " + p.demands().size() + (p.demands().size() == 1 ? " is" : " are") + " covered by "
                + p.placed().size()
                + (p.placed().size() == 1 ? " device" : " devices") + ", "
                + p.sites().size() + " to open, cost "
                + p.cost() + ".";
        return all
                + (p.isProved()
                        ? " Nothing cheaper among what was looked at covers as much."
                        : " A cheaper choice may have been missed: not all was looked at.")
                + (p.uncovered().isEmpty() ? "" : " For what is not covered, look for a change of the wiring.");
    }

    private static String asks(Demand d) {
        return (d.isSure() ? "which has none. " : "which may have none. ") + d.why();
    }

    private static List<String> why(Placement.Placed d) {
        List<String> lines = new ArrayList<>();
        lines.add("It covers " + said(d.covers()) + ".");
        if (d.only().size() < d.covers().size() && !d.only().isEmpty()) {
            lines.add("No other of them covers " + said(d.only()) + ".");
        }
        d.covers().stream().map(Demand::why).distinct().forEach(w -> lines.add("Asked for by: " + w));
        for (Placement.Instead i : d.instead()) {
            lines.add(
                    i.reasons().isEmpty()
                            ? "Instead, for " + i.cost() + " and not " + d.cost() + ": " + i.what() + "."
                            : "Not, though it would cost " + i.cost() + ": " + i.what() + ". But: "
                                    + String.join(" ", i.reasons()));
        }
        return lines;
    }

    private static String said(List<Demand> all) {
        List<String> parts = new ArrayList<>();
        for (Protection f : Wanted.FUNCTIONS) {
            List<String> points = all.stream()
                    .filter(d -> d.function() == f)
                    .map(Demand::point)
                    .toList();
            if (!points.isEmpty()) {
                parts.add(String.join(", ", points) + " (" + f.word() + ")");
            }
        }
        return String.join("; ", parts);
    }

    private static List<String> notProven(Placement p) {
        List<String> all = new ArrayList<>(List.of(
                "Costs are figures of this program unless you gave your own; a price list may turn the choice.",
                "Whether such a breaker is made for the panel, and such a device fits the box, is not known.",
                "Devices are put where a breaker or a receptacle is; a dead-front unit in another box is not thought of.",
                "The inspector and the local code decide."));
        if (p.placed().stream()
                .anyMatch(d -> !d.what().contains("breaker")
                        && d.covers().stream().anyMatch(c -> c.function() == Protection.ARC_FAULT))) {
            all.add(
                    "An arc-fault receptacle as the first outlet is allowed on conditions of the wiring before it (NEC 210.12).");
        }
        return all;
    }
}
