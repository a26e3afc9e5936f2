package org.splicebook.web.view;

import java.util.List;

/**
 * A titled list. What would fill a phone is folded; nothing is left out.
 *
 * @param title its title
 * @param lead a sentence before the list; may be empty
 * @param items the list
 * @param groups lists below it, each folded under its title
 */
public record Section(String title, String lead, List<Link> items, List<Section> groups) {
    /** So few are shown whole: folding them would save nothing. */
    private static final int MOST = 14;

    private static final int FIRST = 8;

    public Section {
        items = List.copyOf(items);
        groups = List.copyOf(groups);
    }

    /** A list without lists below it. */
    public Section(String title, String lead, List<Link> items) {
        this(title, lead, items, List.of());
    }

    /** {@return what is shown at once} */
    public List<Link> first() {
        return items.size() > MOST ? items.subList(0, FIRST) : items;
    }

    /** {@return what is folded} */
    public List<Link> rest() {
        return items.subList(first().size(), items.size());
    }
}
