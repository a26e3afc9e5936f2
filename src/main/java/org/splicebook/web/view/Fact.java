package org.splicebook.web.view;

import java.util.List;

/** Something that is known of a thing, under a name. */
public record Fact(String name, List<Link> values) {
    public Fact {
        values = List.copyOf(values);
    }
}
