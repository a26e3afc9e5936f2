package org.splicebook.web.view;

import java.util.List;

/**
 * A titled list.
 *
 * @param title its title
 * @param lead a sentence before the list; may be empty
 * @param items the list
 */
public record Section(String title, String lead, List<Link> items) {
    public Section {
        items = List.copyOf(items);
    }
}
