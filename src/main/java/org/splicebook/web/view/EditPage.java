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
 */
public record EditPage(
        String title,
        String lead,
        List<String> wrong,
        List<Entry> entries,
        List<Section> sections,
        List<String> cautions) {
    public EditPage {
        wrong = List.copyOf(wrong);
        entries = List.copyOf(entries);
        sections = sections.stream().filter(s -> !s.items().isEmpty()).toList();
        cautions = List.copyOf(cautions);
    }
}
