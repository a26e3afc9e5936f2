package org.splicebook.web;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.UnaryOperator;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.splicebook.answer.Answer;
import org.splicebook.answer.Caution;
import org.splicebook.answer.Leads;
import org.splicebook.answer.Listing;
import org.splicebook.answer.Reply;
import org.splicebook.answer.Row;
import org.splicebook.render.ReplyText;
import org.splicebook.render.Table;
import org.splicebook.web.view.Link;
import org.splicebook.web.view.ReplyView;
import org.splicebook.web.view.Rows;

/** A reply as a page shows it: outcome, rows with their reasons, what is to be done, what was assumed, then the cautions. */
final class ReplyPage {
    private ReplyPage() {}

    /** {@return what a page shows of a reply, leading nowhere} */
    static ReplyView of(Reply reply) {
        return of(reply, List.of(), name -> "");
    }

    /**
     * {@return what a page shows of a reply}
     *
     * @param next where to go from it
     * @param address the address of the card of a name; empty where there is none
     */
    static ReplyView of(Reply reply, List<Link> next, UnaryOperator<String> address) {
        String mark = reply.heading().draft() ? ReplyText.DRAFT : "";
        if (reply instanceof Listing l) {
            Rows rows = new Rows(
                    "",
                    l.columns(),
                    l.rows().stream()
                            .map(r -> r.stream().map(Table::cell).toList())
                            .toList(),
                    l.rows().stream()
                            .map(r -> r.isEmpty() ? "" : address.apply(Table.cell(r.get(0))))
                            .toList());
            return new ReplyView(
                    reply.heading().words(),
                    mark,
                    l.rows().isEmpty() ? "Nothing." : "",
                    next,
                    List.of(rows),
                    List.of(),
                    Caution.forWhat(Leads.TO_A_SWITCH));
        }
        Answer a = (Answer) reply;
        List<Rows> tables = new ArrayList<>();
        for (Row.Status status : Row.Status.values()) {
            if (status != Row.Status.EXCLUDED) {
                tables.add(rows(status, a.rows(status), address));
            }
        }
        List<ReplyView.Lines> lists = new ArrayList<>();
        a.sections().forEach(s -> lists.add(new ReplyView.Lines(s.title(), s.isInOrder(), s.lines())));
        lists.add(new ReplyView.Lines(
                ReplyText.title(Row.Status.EXCLUDED), false, excluded(a.rows(Row.Status.EXCLUDED))));
        lists.add(new ReplyView.Lines("Assumed", false, a.assumed()));
        lists.add(new ReplyView.Lines("Not proven by the given facts", false, a.notProven()));
        lists.add(new ReplyView.Lines("What would settle it", false, a.wouldSettle()));
        return new ReplyView(a.heading().words(), mark, a.outcome(), next, tables, lists, a.cautions());
    }

    /** What is excluded, those for one reason in a line. */
    private static List<String> excluded(List<Row> rows) {
        Map<String, List<String>> by = new LinkedHashMap<>();
        for (Row r : rows) {
            String because = Stream.concat(r.columns().values().stream().map(Table::cell), r.why().stream())
                    .filter(s -> !s.isBlank())
                    .distinct()
                    .collect(Collectors.joining(", "));
            by.computeIfAbsent(because, k -> new ArrayList<>()).add(r.subject());
        }
        List<String> lines = new ArrayList<>();
        by.forEach((because, subjects) ->
                lines.add(String.join(", ", subjects) + (because.isEmpty() ? "" : ": " + because)));
        return lines;
    }

    private static Rows rows(Row.Status status, List<Row> rows, UnaryOperator<String> address) {
        Set<String> names = new LinkedHashSet<>();
        rows.forEach(r -> names.addAll(r.columns().keySet()));
        List<String> columns = new ArrayList<>(List.of("what"));
        columns.addAll(names);
        columns.addAll(List.of("basis", "why"));
        return new Rows(
                ReplyText.title(status),
                columns,
                rows.stream().map(r -> cells(r, names)).toList(),
                rows.stream().map(r -> address.apply(r.subject())).toList());
    }

    private static List<String> cells(Row r, Set<String> names) {
        List<String> cells = new ArrayList<>(List.of(r.subject()));
        names.forEach(n -> cells.add(Table.cell(r.columns().getOrDefault(n, ""))));
        cells.add(r.basis().word());
        cells.add(String.join(" → ", r.why()));
        return cells;
    }
}
