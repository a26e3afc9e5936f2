package org.splicebook.render.sheet;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.splicebook.answer.Caution;
import org.splicebook.answer.Leads;
import org.splicebook.panelplan.upgrade.Page;
import org.splicebook.panelplan.upgrade.UpgradePlan;
import org.splicebook.render.PlanText;
import org.splicebook.render.ReplyText;
import org.splicebook.render.drawing.Drawing;
import org.splicebook.render.drawing.Plots;

/** The paper of a plan for a new panel, to print. */
public final class PlanSheet {
    private static final Set<String> TICKED = Set.of("order", "open");
    private static final Set<String> OF_ITS_OWN =
            Set.of("landings", "parts", "power", "order", "readings", "directory", "checks");

    private PlanSheet() {}

    /** {@return the sheet; the cautions come before any list of work, and each list that is carried around begins on a page of its own} */
    public static Sheet of(UpgradePlan plan, List<Page> pages, String stamp) {
        List<String> cautions = new ArrayList<>(Caution.forWhat(Leads.TO_A_WIRE));
        cautions.add(PlanText.ADVICE);
        List<Sheet.Block> blocks = new ArrayList<>();
        blocks.add(new Sheet.Words(ReplyText.DRAFT));
        for (Page p : pages) {
            if (OF_ITS_OWN.contains(p.id())) {
                blocks.add(new Sheet.NewPage());
            }
            blocks.add(new Sheet.Title(p.title()));
            if (p.id().equals("demand")) {
                picture(blocks, Plots.demand(plan.before(), plan.demands(), (double)
                        plan.wanted().kind().main()));
            } else if (p.id().equals("legs")) {
                picture(blocks, Plots.legs(plan.before(), plan.legsBefore(), plan.legsAfter()));
            }
            if (!p.columns().isEmpty() && !p.rows().isEmpty()) {
                blocks.add(new Sheet.Grid(p.columns(), p.rows(), p.id().equals("landings")));
            }
            if (TICKED.contains(p.id())) {
                blocks.add(new Sheet.Ticks(p.id().equals("order"), p.notes()));
            } else {
                p.notes().forEach(n -> blocks.add(new Sheet.Words(n)));
            }
            if (p.id().equals("open")) {
                blocks.add(new Sheet.Cautions(cautions));
            }
        }
        return new Sheet(PlanText.title(plan), plan.before().said(), stamp, "A draft.", blocks, List.of());
    }

    private static void picture(List<Sheet.Block> blocks, Drawing plot) {
        blocks.add(new Sheet.Picture(plot.svg(), plot.width(), plot.height()));
    }
}
