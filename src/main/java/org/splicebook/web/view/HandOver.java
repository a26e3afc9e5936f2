package org.splicebook.web.view;

import java.util.List;

/**
 * What is given to the next person.
 *
 * @param record the form that makes the whole record on paper
 * @param sections what goes with it
 * @param cautions the cautions that apply
 */
public record HandOver(Form record, List<Section> sections, List<String> cautions) {
    public HandOver {
        sections = List.copyOf(sections);
        cautions = List.copyOf(cautions);
    }
}
