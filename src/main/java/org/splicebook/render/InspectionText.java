package org.splicebook.render;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.splicebook.answer.Caution;
import org.splicebook.answer.Leads;
import org.splicebook.rules.Checked;
import org.splicebook.rules.Finding;
import org.splicebook.rules.InspectionList;

/** A list of inspection items as text to take along, with a box to tick for each, and as JSON. */
public final class InspectionText {
    private InspectionText() {}

    /** {@return the items, in lines of at most that width} */
    public static String write(Checked checked, InspectionList list, int width) {
        List<String> lines = new ArrayList<>();
        lines.addAll(Lines.wrap(list.title() + ": " + checked.house().said(), width));
        lines.addAll(Lines.wrap("Checked by " + checked.pack().title() + ".", width));
        lines.addAll(Lines.wrap(list.note(), width));
        lines.addAll(Lines.wrap(FindingsText.ADVICE, width));
        if (!list.mark().isEmpty()) {
            lines.addAll(Lines.wrap("The list is given " + list.mark() + ".", width));
        }
        int number = 1;
        for (InspectionList.Item item : list.items()) {
            lines.add("");
            lines.addAll(Lines.hung(
                    "[ ] " + number++ + ". ",
                    item.title() + ": " + item.state().said().toUpperCase(Locale.ROOT),
                    width));
            item.findings().forEach(f -> lines.addAll(Lines.bullet(said(f), width)));
            item.accepted()
                    .forEach(a -> lines.addAll(Lines.bullet(
                            said(a.finding()) + " Accepted: " + a.acceptance().reason(), width)));
            item.look().forEach(l -> lines.addAll(Lines.bullet("look: " + l, width)));
        }
        lines.add("");
        lines.addAll(Lines.wrap(ReplyText.CAUTIONS, width));
        Caution.forWhat(Leads.TO_A_WIRE).forEach(c -> lines.addAll(Lines.bullet(c, width)));
        return String.join("\n", lines) + "\n";
    }

    private static String said(Finding f) {
        return f.certainty().word() + ": " + f.subject() + (f.place() == null ? "" : ", " + f.place()) + ": "
                + f.said();
    }

    /** {@return the items as JSON, findings by their keys} */
    public static ObjectNode json(Checked checked, InspectionList list) {
        ObjectNode o = Json.object()
                .put("house", checked.house().id())
                .put("pack", checked.pack().id())
                .put("title", list.title())
                .put("note", list.note())
                .put("mark", list.mark());
        o.set("items", Json.list(list.items(), item -> {
            ObjectNode one = Json.object()
                    .put("title", item.title())
                    .put("state", item.state().said());
            one.set(
                    "findings",
                    Json.tree(item.findings().stream().map(Finding::key).toList()));
            one.set(
                    "accepted",
                    Json.tree(
                            item.accepted().stream().map(a -> a.finding().key()).toList()));
            one.set("look", Json.tree(item.look()));
            return one;
        }));
        o.set("cautions", Json.tree(Caution.forWhat(Leads.TO_A_WIRE)));
        return o;
    }
}
