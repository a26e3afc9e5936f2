package org.splicebook.web;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import org.splicebook.answer.Answer;
import org.splicebook.answer.Caution;
import org.splicebook.answer.Leads;
import org.splicebook.answer.Row;
import org.splicebook.drafts.DraftDesk;
import org.splicebook.problem.ProblemException;
import org.splicebook.record.House;
import org.splicebook.render.ReplyText;
import org.splicebook.render.Table;
import org.splicebook.render.drawing.DrawingKind;
import org.splicebook.render.drawing.Drawings;
import org.splicebook.rewire.DraftAnswer;
import org.splicebook.rewire.Worklist;
import org.splicebook.rules.Packs;
import org.splicebook.store.DraftState;
import org.splicebook.store.DraftedHouse;
import org.splicebook.store.KeptDraft;
import org.splicebook.store.Revision;
import org.splicebook.web.view.Link;
import org.splicebook.web.view.ReplyView;
import org.splicebook.web.view.Rows;
import org.splicebook.web.view.Section;
import org.splicebook.web.view.WorkPage;
import org.splicebook.wiring.Derivation;
import org.splicebook.wiring.Wiring;

/**
 * A draft laid beside its house.
 *
 * @param drafted the house as it would be
 * @param was the wiring before
 * @param is the wiring after
 * @param answer what changes
 * @param work what it asks of the hands
 * @param since what was recorded otherwise since it was made
 */
record DraftLook(DraftedHouse drafted, Wiring was, Wiring is, Answer answer, Worklist work, List<String> since) {
    static final List<String> CAUTIONS = Caution.forWhat(Leads.TO_A_WIRE);

    /** How many boxes and panels, and how many load points, are drawn on the page itself; the others are linked. */
    private static final int DRAWN = 4;

    private static final int WAYS_DRAWN = 1;

    static DraftLook of(DraftDesk.Comparison c) {
        DraftedHouse drafted = c.drafted();
        House before = c.house().house();
        Revision r = c.house().revision();
        return new DraftLook(
                drafted,
                Derivation.derive(before),
                Derivation.derive(drafted.house()),
                DraftAnswer.of(c.rest(), before, Packs.of(before), r.number(), r.stored())
                        .get(),
                Worklist.of(before, drafted.house(), c.rest().moves()),
                c.since());
    }

    /** {@return the page of the draft, without its forms} */
    WorkPage page(KeptDraft kept, String here) {
        DraftState state = kept.state();
        String lead = status(kept)
                + (state.left().isEmpty() ? "" : " " + answer.outcome())
                + (kept.draft().reason() == null
                        ? ""
                        : " What for: " + kept.draft().reason());
        List<WorkPage.Pair> pairs = new ArrayList<>();
        List<Link> more = new ArrayList<>();
        for (String site : work.sites()) {
            DrawingKind kind = isPanel(site) ? DrawingKind.PANEL : DrawingKind.BOX;
            if (pairs.size() < DRAWN) {
                pairs.add(pair(kind, site));
            } else {
                more.add(drawing(here, kind, site, "box or panel"));
            }
        }
        int ways = 0;
        for (String point : ways()) {
            if (ways++ < WAYS_DRAWN) {
                pairs.add(pair(DrawingKind.WAY, point));
            } else {
                more.add(drawing(here, DrawingKind.WAY, point, "its feed and return"));
            }
        }
        List<ReplyView.Lines> changes = new ArrayList<>();
        List<ReplyView.Lines> lists = new ArrayList<>();
        for (Answer.Section s : answer.sections()) {
            boolean isWork = !lists.isEmpty() || s.title().equals(DraftAnswer.TO_OPEN);
            (isWork ? lists : changes).add(new ReplyView.Lines(s.title(), s.isInOrder(), s.lines()));
        }
        lists.add(new ReplyView.Lines("Since it was made", false, since));
        lists.add(new ReplyView.Lines("Assumed", false, answer.assumed()));
        lists.add(new ReplyView.Lines("Not proven by the given facts", false, answer.notProven()));
        return WorkPage.of("Draft " + kept.name(), ReplyText.DRAFT, lead)
                .withFound(
                        state.left().isEmpty() ? List.of() : tables(),
                        pairs,
                        state.left().isEmpty() ? List.of() : lists,
                        CAUTIONS)
                .withChanges(state.left().isEmpty() ? List.of() : changes)
                .withSections(List.of(
                        new Section("More drawings, before and after", "", more),
                        new Section(
                                "Print, marked as a draft", "", state.left().isEmpty() ? List.of() : sheets(kept))));
    }

    private static List<Link> sheets(KeptDraft kept) {
        String at = Api.BASE + "/houses/" + Paths.part(kept.draft().house()) + "/drafts/" + Paths.part(kept.name())
                + "/sheets/";
        return List.of(
                new Link(at + "directory.pdf", "Panel directories after it", "PDF"),
                new Link(at + "record.pdf", "The whole record after it", "PDF"));
    }

    private String status(KeptDraft kept) {
        DraftState s = kept.state();
        String made = " Compared with revision " + drafted.base().number() + ".";
        return switch (s.status()) {
            case OPEN -> s.draft().moves().isEmpty() ? "No moves yet." : "Open, nothing of it is done." + made;
            case PARTLY_ENTERED ->
                s.done() + " of " + s.draft().moves().size()
                        + " moves are entered as done; what follows is what is left." + made;
            case ENTERED -> "Entered as done, the last of it as revision " + s.base() + ". Test before you rely on it.";
            case WITHDRAWN -> "Withdrawn." + made;
        };
    }

    private boolean isPanel(String site) {
        return drafted.house().panels().containsKey(site)
                || was.house().panels().containsKey(site);
    }

    /** The load points whose feed or return changes. */
    private Set<String> ways() {
        return answer.rows().stream()
                .filter(r -> Set.of("feed", "return")
                        .contains(String.valueOf(r.columns().get("change"))))
                .map(Row::subject)
                .collect(Collectors.toCollection(LinkedHashSet::new));
    }

    private static Link drawing(String here, DrawingKind kind, String of, String note) {
        return new Link(here + "/drawings/" + kind.word() + "?of=" + Paths.part(of), of, note);
    }

    private List<Rows> tables() {
        List<Rows> all = new ArrayList<>();
        for (Row.Status status : List.of(Row.Status.SHOWN, Row.Status.POSSIBLE)) {
            List<List<String>> rows = answer.rows(status).stream()
                    .map(r -> List.of(r.subject(), cell(r, "change"), cell(r, "before"), cell(r, "after")))
                    .toList();
            all.add(new Rows(
                    status == Row.Status.SHOWN
                            ? "Load points that change"
                            : "Load points of which only what is possible changes",
                    List.of("load point", "what", "before", "after"),
                    rows,
                    List.of()));
        }
        return all;
    }

    private static String cell(Row r, String column) {
        String said = Table.cell(r.columns().getOrDefault(column, ""));
        return said.isEmpty() ? "not there" : said;
    }

    /** {@return one thing before and after} */
    WorkPage.Pair pair(DrawingKind kind, String of) {
        String what = kind == DrawingKind.WAY ? "The way of " + of : kind == DrawingKind.PANEL ? "Panel " + of : of;
        return new WorkPage.Pair(what, svg(kind, was, of), svg(kind, is, of));
    }

    /** Not there before, or not there after: then there is nothing to draw. */
    private static String svg(DrawingKind kind, Wiring wiring, String of) {
        try {
            return Drawings.of(kind, wiring, of).svg();
        } catch (ProblemException e) {
            return "";
        }
    }
}
