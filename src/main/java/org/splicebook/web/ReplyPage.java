package org.splicebook.web;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.splicebook.answer.Answer;
import org.splicebook.answer.Caution;
import org.splicebook.answer.Heading;
import org.splicebook.answer.Leads;
import org.splicebook.answer.Listing;
import org.splicebook.answer.Reply;
import org.splicebook.answer.Row;
import org.splicebook.render.ReplyText;
import org.splicebook.render.Table;

/** A reply as a page: outcome, rows with their reasons, then what was assumed, then the cautions. */
final class ReplyPage {
    private ReplyPage() {}

    static String write(Reply reply) {
        String body = reply instanceof Answer a ? answer(a) : listing((Listing) reply);
        return Html.page(reply.heading().words(), heading(reply.heading()) + body);
    }

    private static String heading(Heading h) {
        String house = h.revision() == 0
                ? ""
                : "<p>" + Html.text(h.houseName()) + ", revision " + h.revision() + ", stored " + Html.text(h.stored())
                        + ".</p>\n";
        return house + (h.draft() ? "<p><strong>" + Html.text(ReplyText.DRAFT) + "</strong></p>\n" : "");
    }

    private static String answer(Answer a) {
        StringBuilder body = new StringBuilder("<p><strong>" + Html.text(a.outcome()) + "</strong></p>\n");
        for (Row.Status status : Row.Status.values()) {
            rows(body, status, a.rows(status));
        }
        a.sections()
                .forEach(s -> body.append(
                        s.isInOrder() ? Html.steps(s.title(), s.lines()) : Html.list(s.title(), s.lines())));
        return body
                + Html.list("Assumed", a.assumed())
                + Html.list("Not proven by the given facts", a.notProven())
                + Html.list("What would settle it", a.wouldSettle())
                + Html.list(ReplyText.CAUTIONS, a.cautions());
    }

    private static void rows(StringBuilder body, Row.Status status, List<Row> rows) {
        if (rows.isEmpty()) {
            return;
        }
        Set<String> names = new LinkedHashSet<>();
        rows.forEach(r -> names.addAll(r.columns().keySet()));
        List<String> columns = new ArrayList<>(List.of("what"));
        columns.addAll(names);
        columns.addAll(List.of("basis", "why"));
        body.append("<h2>").append(Html.text(ReplyText.title(status))).append("</h2>\n");
        body.append(Html.table(columns, rows.stream().map(r -> cells(r, names)).toList()));
    }

    private static List<String> cells(Row r, Set<String> names) {
        List<String> cells = new ArrayList<>(List.of(r.subject()));
        names.forEach(n -> cells.add(Table.cell(r.columns().getOrDefault(n, ""))));
        cells.add(r.basis().word());
        cells.add(String.join(" → ", r.why()));
        return cells;
    }

    private static String listing(Listing l) {
        return Html.table(
                        l.columns(),
                        l.rows().stream()
                                .map(r -> r.stream().map(Table::cell).toList())
                                .toList())
                + Html.list(ReplyText.CAUTIONS, Caution.forWhat(Leads.TO_A_SWITCH));
    }
}
