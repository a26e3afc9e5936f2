package org.splicebook.web.view;

import java.util.List;

/**
 * A page to write on.
 *
 * @param title its title
 * @param lead a sentence at its top
 * @param wrong what was wrong with what was sent; nothing at first
 * @param entries its forms
 * @param sections what stands below them
 * @param cautions the cautions that apply
 * @param pictures photographs of it
 * @param drawing a drawing of it, as SVG; empty for none
 */
public record EditPage(
        String title,
        String lead,
        Wrong wrong,
        List<Entry> entries,
        List<Section> sections,
        List<String> cautions,
        List<Picture> pictures,
        String drawing) {
    /** A page without photographs. */
    public EditPage(
            String title,
            String lead,
            Wrong wrong,
            List<Entry> entries,
            List<Section> sections,
            List<String> cautions) {
        this(title, lead, wrong, entries, sections, cautions, List.of());
    }

    /** A page without a drawing. */
    public EditPage(
            String title,
            String lead,
            Wrong wrong,
            List<Entry> entries,
            List<Section> sections,
            List<String> cautions,
            List<Picture> pictures) {
        this(title, lead, wrong, entries, sections, cautions, pictures, "");
    }

    public EditPage {
        pictures = List.copyOf(pictures);
        entries = List.copyOf(wrong.placed(entries));
        sections = sections.stream().filter(s -> !s.items().isEmpty()).toList();
        cautions = List.copyOf(cautions);
    }
}
