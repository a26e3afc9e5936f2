package org.splicebook.housefile;

import java.util.LinkedHashMap;
import java.util.Map;
import org.splicebook.problem.Where;

/** Where the things of a house are written: by the name that findings give them. */
final class Positions {
    private final Map<String, Where> found = new LinkedHashMap<>();

    private Positions() {}

    /** {@return the places of all named things in a house file that was read without problems} */
    static Map<String, Where> of(Node whole) {
        Positions p = new Positions();
        for (Node.Entry section : entries(whole)) {
            boolean named = switch (section.key().text()) {
                case "sources", "places", "panels", "cables", "boxes" -> true;
                default -> false;
            };
            for (Node.Entry thing : named ? entries(section.value()) : entries(null)) {
                p.note(thing.key().text(), thing.key().at());
                p.inside(section.key().text(), thing);
            }
        }
        return p.found;
    }

    private void inside(String section, Node.Entry thing) {
        for (Node.Entry part : entries(thing.value())) {
            if (section.equals("boxes") && part.key().text().equals("devices")) {
                entries(part.value()).forEach(d -> note(d.key().text(), d.key().at()));
            }
            if (section.equals("panels") && part.key().text().equals("breakers")) {
                entries(part.value())
                        .forEach(b -> note(
                                thing.key().text() + "." + b.key().text(),
                                b.key().at()));
            }
        }
    }

    private void note(String name, Where at) {
        found.putIfAbsent(name, at);
    }

    private static Iterable<Node.Entry> entries(@org.jspecify.annotations.Nullable Node node) {
        return node instanceof Node.Entries map ? map.entries() : java.util.List.of();
    }
}
