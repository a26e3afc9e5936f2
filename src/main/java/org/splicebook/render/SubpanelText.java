package org.splicebook.render;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.List;
import org.splicebook.answer.Caution;
import org.splicebook.answer.Leads;
import org.splicebook.panelplan.upgrade.Page;
import org.splicebook.panelplan.upgrade.SubpanelPlan;

/** Which circuits move to a further panel, as text for people and as JSON. */
public final class SubpanelText {
    private SubpanelText() {}

    /** {@return the pages of a choice, in lines of at most that width} */
    public static String write(SubpanelPlan plan, List<Page> pages, int width) {
        List<String> lines = new ArrayList<>(Lines.wrap(title(plan), width));
        for (Page p : pages) {
            lines.add("");
            lines.addAll(Lines.wrap(p.title(), width));
            lines.add("");
            if (!p.columns().isEmpty()) {
                lines.addAll(p.rows().isEmpty() ? List.of("none") : new Table(p.columns(), p.rows()).lines(width));
            }
            p.notes().forEach(n -> lines.addAll(Lines.bullet(n, width)));
        }
        lines.add("");
        lines.add(ReplyText.CAUTIONS);
        Caution.forWhat(Leads.TO_A_WIRE).forEach(c -> lines.addAll(Lines.bullet(c, width)));
        lines.addAll(Lines.bullet(PlanText.ADVICE, width));
        return String.join("\n", lines) + "\n";
    }

    /** {@return what it is, in a line} */
    public static String title(SubpanelPlan plan) {
        return plan.house().said() + ": which circuits of " + plan.wanted().of() + " move to a "
                + (plan.wanted().isBackedUp() ? "backed-up panel." : "further panel, to make room.");
    }

    /** {@return the same for programs; demand in volt-amperes} */
    public static ObjectNode json(SubpanelPlan plan, List<Page> pages) {
        ObjectNode o = Json.object()
                .put("house", plan.house().id())
                .put("panel", plan.wanted().of())
                .put("proved", plan.isProved())
                .put("va", plan.va())
                .put("starting", plan.starting())
                .put("bears", plan.wanted().isBackedUp() ? plan.wanted().source() : null)
                .put("feeder", plan.feeder())
                .put("copper", plan.copper())
                .put("notDrafted", plan.notDrafted());
        o.set("moves", Json.list(plan.moves(), m -> {
            ObjectNode one =
                    Json.object().put("va", m.va()).put("starts", m.starts()).put("poles", m.poles());
            one.set("circuits", Json.tree(m.said()));
            one.set("labels", Json.tree(m.labels()));
            return one;
        }));
        o.set("legs", Json.tree(plan.legs()));
        o.set("stays", Json.list(plan.stays(), s -> {
            ObjectNode one = Json.object().put("va", s.va()).put("why", s.why());
            one.set("circuits", Json.tree(s.said()));
            return one;
        }));
        o.set("asked", Json.tree(plan.asked()));
        o.set("first", Json.tree(plan.separate()));
        o.set("assumed", Json.tree(plan.assumed()));
        o.set("pages", Json.list(pages, PlanJson::page));
        o.set("cautions", Json.tree(Caution.forWhat(Leads.TO_A_WIRE)));
        return o;
    }
}
