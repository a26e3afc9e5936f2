package org.splicebook.web.view;

import java.util.List;

/**
 * A page to write on.
 *
 * @param title its title
 * @param lead a sentence at its top
 * @param wrong what was wrong with what was sent, the first first; empty at first
 * @param entries its forms
 * @param sections what stands below them
 * @param cautions the cautions that apply
 * @param pictures photographs of it
 */
public record EditPage(
        String title,
        String lead,
        List<String> wrong,
        List<Entry> entries,
        List<Section> sections,
        List<String> cautions,
        List<Picture> pictures) {
    /** A page without photographs. */
    public EditPage(
            String title,
            String lead,
            List<String> wrong,
            List<Entry> entries,
            List<Section> sections,
            List<String> cautions) {
        this(title, lead, wrong, entries, sections, cautions, List.of());
    }

    public EditPage {
        pictures = List.copyOf(pictures);
        wrong = List.copyOf(wrong);
        entries = List.copyOf(entries);
        sections = sections.stream().filter(s -> !s.items().isEmpty()).toList();
        cautions = List.copyOf(cautions);
    }
}
