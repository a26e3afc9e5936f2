package org.splicebook.web.view;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * A page of work in the making: what it would change, drawn before and after, and forms to go on with it.
 *
 * @param title its title
 * @param mark what it is marked as; empty where it is of the house as it stands
 * @param lead the answer, in a sentence or two
 * @param wrong what was wrong with what was sent; nothing at first
 * @param progress how far it is; null where it is done
 * @param refresh after how many seconds it is shown anew; 0 for never
 * @param next what to do next
 * @param tables its rows
 * @param changes what else changes, in lines
 * @param pairs drawings of one thing, before and after
 * @param lists what is to be done or known beside them
 * @param entries its forms
 * @param sections what stands below them
 * @param cautions the cautions that apply
 * @param drawings plots and drawings of one thing alone, as SVG
 */
public record WorkPage(
        String title,
        String mark,
        String lead,
        Wrong wrong,
        @Nullable Progress progress,
        int refresh,
        List<Link> next,
        List<Rows> tables,
        List<ReplyView.Lines> changes,
        List<Pair> pairs,
        List<ReplyView.Lines> lists,
        List<Entry> entries,
        List<Section> sections,
        List<String> cautions,
        List<String> drawings) {
    /** One thing before and after, as SVG; empty where it is not there. */
    public record Pair(String title, String before, String after) {}

    /** So much of so much. */
    public record Progress(int done, int of) {}

    public WorkPage {
        next = List.copyOf(next);
        tables = tables.stream()
                .filter(t -> !t.rows().isEmpty() || !t.notes().isEmpty())
                .toList();
        changes = changes.stream().filter(l -> !l.lines().isEmpty()).toList();
        pairs = List.copyOf(pairs);
        lists = lists.stream().filter(l -> !l.lines().isEmpty()).toList();
        entries = List.copyOf(wrong.placed(entries));
        sections = sections.stream().filter(s -> !s.items().isEmpty()).toList();
        cautions = List.copyOf(cautions);
        drawings = List.copyOf(drawings);
    }

    /** {@return an empty page with that title and lead} */
    public static WorkPage of(String title, String mark, String lead) {
        List<Entry> none = List.of();
        return new WorkPage(
                title,
                mark,
                lead,
                Wrong.NONE,
                null,
                0,
                List.of(),
                List.of(),
                List.of(),
                List.of(),
                List.of(),
                none,
                List.of(),
                List.of(),
                List.of());
    }

    /** {@return the same, with forms} */
    public WorkPage withEntries(List<Entry> its) {
        return new WorkPage(
                title, mark, lead, wrong, progress, refresh, next, tables, changes, pairs, lists, its, sections,
                cautions, drawings);
    }

    /** {@return the same, with what was wrong} */
    public WorkPage withWrong(Wrong its) {
        return new WorkPage(
                title, mark, lead, its, progress, refresh, next, tables, changes, pairs, lists, entries, sections,
                cautions, drawings);
    }

    /** {@return the same, shown anew after so many seconds} */
    public WorkPage withRefresh(int seconds) {
        return new WorkPage(
                title, mark, lead, wrong, progress, seconds, next, tables, changes, pairs, lists, entries, sections,
                cautions, drawings);
    }

    /** {@return the same, with how far it is} */
    public WorkPage withProgress(int done, int of) {
        Progress its = new Progress(done, of);
        return new WorkPage(
                title, mark, lead, wrong, its, refresh, next, tables, changes, pairs, lists, entries, sections,
                cautions, drawings);
    }

    /** {@return the same, with what to do next} */
    public WorkPage withNext(List<Link> its) {
        return new WorkPage(
                title, mark, lead, wrong, progress, refresh, its, tables, changes, pairs, lists, entries, sections,
                cautions, drawings);
    }

    /** {@return the same, with what was found} */
    public WorkPage withFound(
            List<Rows> itsTables, List<Pair> itsPairs, List<ReplyView.Lines> itsLists, List<String> itsCautions) {
        return new WorkPage(
                title,
                mark,
                lead,
                wrong,
                progress,
                refresh,
                next,
                itsTables,
                changes,
                itsPairs,
                itsLists,
                entries,
                sections,
                itsCautions,
                drawings);
    }

    /** {@return the same, with what else changes} */
    public WorkPage withChanges(List<ReplyView.Lines> its) {
        return new WorkPage(
                title, mark, lead, wrong, progress, refresh, next, tables, its, pairs, lists, entries, sections,
                cautions, drawings);
    }

    /** {@return the same, with what stands below} */
    public WorkPage withSections(List<Section> its) {
        return new WorkPage(
                title, mark, lead, wrong, progress, refresh, next, tables, changes, pairs, lists, entries, its,
                cautions, drawings);
    }

    /** {@return the same, with drawings} */
    public WorkPage withDrawings(List<String> its) {
        return new WorkPage(
                title, mark, lead, wrong, progress, refresh, next, tables, changes, pairs, lists, entries, sections,
                cautions, its);
    }
}
