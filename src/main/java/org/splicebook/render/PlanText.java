package org.splicebook.render;

import java.util.ArrayList;
import java.util.List;
import org.splicebook.answer.Caution;
import org.splicebook.answer.Leads;
import org.splicebook.panelplan.upgrade.Page;
import org.splicebook.panelplan.upgrade.UpgradePlan;

/** A plan for a new panel as text for people. */
public final class PlanText {
    /** Stands beside every plan. */
    public static final String ADVICE =
            "A plan to be checked by the licensed person who does the work; the local code, the utility and the inspector decide.";

    private PlanText() {}

    /** {@return the pages of a plan, in lines of at most that width} */
    public static String write(UpgradePlan plan, List<Page> pages, int width) {
        List<String> lines = new ArrayList<>();
        lines.addAll(Lines.wrap(title(plan), width));
        lines.add(ReplyText.DRAFT);
        for (Page p : pages) {
            lines.add("");
            lines.addAll(Lines.wrap(p.title(), width));
            lines.add("");
            if (!p.columns().isEmpty()) {
                lines.addAll(p.rows().isEmpty() ? List.of("none") : new Table(p.columns(), p.rows()).lines(width));
            }
            for (String note : p.notes()) {
                lines.addAll(Lines.bullet(note, width));
            }
        }
        lines.add("");
        lines.add(ReplyText.CAUTIONS);
        Caution.forWhat(Leads.TO_A_WIRE).forEach(c -> lines.addAll(Lines.bullet(c, width)));
        lines.addAll(Lines.bullet(ADVICE, width));
        return String.join("\n", lines) + "\n";
    }

    /** {@return what the plan is, in a line} */
    public static String title(UpgradePlan plan) {
        return plan.before().said() + ": a panel of " + plan.wanted().kind().title() + " in the place of "
                + plan.was().name() + ".";
    }
}
