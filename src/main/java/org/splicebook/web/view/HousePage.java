package org.splicebook.web.view;

import java.util.List;

/**
 * What one house begins with.
 *
 * @param begun what to record next, where hardly anything is recorded yet; else nothing
 * @param facts what it is
 * @param forms what the person is about to do
 * @param writing where the record is added to or given away
 * @param sections its places, panels, findings
 */
public record HousePage(
        List<Section> begun, List<Fact> facts, List<Form> forms, List<Link> writing, List<Section> sections) {
    /** A page on which nothing is written. */
    public HousePage(List<Fact> facts, List<Form> forms, List<Section> sections) {
        this(List.of(), facts, forms, List.of(), sections);
    }

    public HousePage {
        begun = List.copyOf(begun);
        facts = List.copyOf(facts);
        writing = List.copyOf(writing);
        forms = List.copyOf(forms);
        sections = sections.stream().filter(s -> !s.items().isEmpty()).toList();
    }
}
