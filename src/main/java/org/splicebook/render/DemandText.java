package org.splicebook.render;

import java.util.ArrayList;
import java.util.List;
import org.splicebook.answer.Caution;
import org.splicebook.answer.Leads;
import org.splicebook.panelplan.DemandStudy;
import org.splicebook.panelplan.Metering;
import org.splicebook.panelplan.upgrade.DemandPapers;
import org.splicebook.panelplan.upgrade.Page;

/** What a dwelling demands of its service, as text for people: the table of methods and editions, then each calculation line by line. */
public final class DemandText {
    /** Stands beside every calculation. */
    public static final String ADVICE =
            "A calculation to be checked by whoever signs for it: the local code, the utility and the inspector decide.";

    private final int width;
    private final List<String> lines = new ArrayList<>();

    private DemandText(int width) {
        this.width = width;
    }

    /**
     * {@return a study, in lines of at most that width}
     *
     * @param house what people call the house
     * @param allLines whether to print the lines of every edition; else those of the edition that the study is told by
     */
    public static String write(String house, DemandStudy study, boolean allLines, int width) {
        DemandText text = new DemandText(width);
        Metering m = study.metering();
        if (m != null && m.record() != null) {
            text.lines.addAll(IntervalText.lines(m, width));
            text.lines.add("");
        }
        DemandPapers.of(house, study, allLines ? null : study.edition()).forEach(text::page);
        text.bullets(ReplyText.CAUTIONS, Caution.forWhat(Leads.TO_A_WIRE));
        text.lines.addAll(Lines.bullet(ADVICE, width));
        return String.join("\n", text.lines) + "\n";
    }

    private void page(Page p) {
        if (!lines.isEmpty()) {
            lines.add("");
        }
        lines.addAll(Lines.wrap(p.title(), width));
        if (!p.rows().isEmpty()) {
            lines.addAll(new Table(p.columns(), p.rows()).lines(width));
        }
        p.notes().forEach(n -> lines.addAll(p.id().equals("lines") ? Lines.wrap(n, width) : Lines.bullet(n, width)));
    }

    private void bullets(String title, List<String> all) {
        lines.add("");
        lines.addAll(Lines.wrap(title, width));
        all.forEach(s -> lines.addAll(Lines.bullet(s, width)));
    }
}
