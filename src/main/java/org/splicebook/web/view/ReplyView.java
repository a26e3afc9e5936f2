package org.splicebook.web.view;

import java.util.List;

/**
 * What a question returned.
 *
 * @param words the question in words
 * @param mark what it is marked as; empty where it is of the house as it stands
 * @param outcome what came out; may be empty
 * @param next where to go from it, the likeliest first
 * @param tables its rows
 * @param lists what is to be done or known beside them
 * @param cautions the cautions that apply
 */
public record ReplyView(
        String words,
        String mark,
        String outcome,
        List<Link> next,
        List<Rows> tables,
        List<Lines> lists,
        List<String> cautions) {
    /** Lines under a title; steps where they are in order. */
    public record Lines(String title, boolean isInOrder, List<String> lines) {
        public Lines {
            lines = List.copyOf(lines);
        }
    }

    public ReplyView {
        next = List.copyOf(next);
        tables = tables.stream().filter(t -> !t.rows().isEmpty()).toList();
        lists = lists.stream().filter(l -> !l.lines().isEmpty()).toList();
        cautions = List.copyOf(cautions);
    }
}
