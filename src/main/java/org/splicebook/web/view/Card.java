package org.splicebook.web.view;

import java.util.List;

/**
 * The one answer card of a thing.
 *
 * @param kind what it is, for example {@code Box}
 * @param title its name
 * @param lead the answer, in a sentence or two
 * @param next what to do next, the likeliest first
 * @param facts what is known of it
 * @param drawings drawings of it, as SVG
 * @param sections what hangs on it, findings, sightings
 * @param cautions the cautions that apply
 * @param pictures photographs of it
 */
public record Card(
        String kind,
        String title,
        String lead,
        List<Link> next,
        List<Fact> facts,
        List<String> drawings,
        List<Section> sections,
        List<String> cautions,
        List<Picture> pictures) {
    /** A card without photographs. */
    public Card(
            String kind,
            String title,
            String lead,
            List<Link> next,
            List<Fact> facts,
            List<String> drawings,
            List<Section> sections,
            List<String> cautions) {
        this(kind, title, lead, next, facts, drawings, sections, cautions, List.of());
    }

    public Card {
        pictures = List.copyOf(pictures);
        next = List.copyOf(next);
        facts = facts.stream().filter(f -> !f.values().isEmpty()).toList();
        drawings = List.copyOf(drawings);
        sections = sections.stream()
                .filter(s -> !s.items().isEmpty() || !s.lead().isEmpty())
                .toList();
        cautions = List.copyOf(cautions);
    }
}
