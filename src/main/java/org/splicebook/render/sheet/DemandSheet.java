package org.splicebook.render.sheet;

import java.util.ArrayList;
import java.util.List;
import org.splicebook.answer.Caution;
import org.splicebook.answer.Leads;
import org.splicebook.panelplan.DemandStudy;
import org.splicebook.panelplan.Metering;
import org.splicebook.panelplan.upgrade.DemandPapers;
import org.splicebook.panelplan.upgrade.Page;
import org.splicebook.record.House;
import org.splicebook.render.DemandText;
import org.splicebook.render.IntervalText;
import org.splicebook.render.drawing.Drawing;
import org.splicebook.render.drawing.Plots;

/** A load calculation to hand in with a permit application: every line of every edition with its article. */
public final class DemandSheet {
    private DemandSheet() {}

    /** {@return the sheet} */
    public static Sheet of(House house, DemandStudy study, String stamp) {
        List<Sheet.Block> blocks = new ArrayList<>();
        picture(
                blocks,
                Plots.demand(
                        house,
                        study.demands().stream()
                                .filter(d -> d.edition() == study.edition())
                                .toList(),
                        study.dwelling().rating()));
        Metering m = study.metering();
        if (m != null && m.record() != null && m.verdict() != null) {
            picture(blocks, Plots.hours(house, m.record()));
            blocks.add(new Sheet.Words(IntervalText.said(m.verdict())));
            m.verdict().reasons().forEach(r -> blocks.add(new Sheet.Words(r)));
        }
        for (Page p : DemandPapers.of(house.said(), study, null)) {
            blocks.add(new Sheet.Title(p.title()));
            if (!p.rows().isEmpty()) {
                blocks.add(new Sheet.Grid(p.columns(), p.rows()));
            }
            p.notes().forEach(n -> blocks.add(new Sheet.Words(n)));
        }
        List<String> cautions = new ArrayList<>(Caution.forWhat(Leads.TO_A_WIRE));
        cautions.add(DemandText.ADVICE);
        return new Sheet(
                "What " + house.said() + " demands of its service",
                house.said(),
                stamp,
                "By the record.",
                blocks,
                cautions);
    }

    private static void picture(List<Sheet.Block> blocks, Drawing d) {
        blocks.add(new Sheet.Title(d.title()));
        blocks.add(new Sheet.Picture(d.svg(), d.width(), d.height()));
    }
}
