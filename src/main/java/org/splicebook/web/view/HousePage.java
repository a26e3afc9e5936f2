package org.splicebook.web.view;

import java.util.List;

/**
 * What one house begins with.
 *
 * @param facts what it is
 * @param forms what the person is about to do
 * @param sections its places, panels, findings
 */
public record HousePage(List<Fact> facts, List<Form> forms, List<Section> sections) {
    public HousePage {
        facts = List.copyOf(facts);
        forms = List.copyOf(forms);
        sections = sections.stream().filter(s -> !s.items().isEmpty()).toList();
    }
}
