package org.splicebook.web;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.splicebook.web.view.Link;

/** Finds the things of a house that have a card. */
final class Finder {
    private final Look look;
    private final Paths paths;

    Finder(Look look, Paths paths) {
        this.look = look;
        this.paths = paths;
    }

    /** {@return every name of the house that has a card, with it} */
    List<Link> all() {
        List<Link> all = new ArrayList<>();
        look.house().places().values().forEach(p -> all.add(new Link(paths.of("places", p.name()), p.said(), "place")));
        look.house().panels().keySet().forEach(p -> all.add(new Link(paths.of("panels", p), p, "panel")));
        look.house()
                .panels()
                .values()
                .forEach(p -> p.breakers()
                        .values()
                        .forEach(b -> all.add(new Link(
                                paths.of("breakers", p.name() + "." + b.key()),
                                p.name() + "." + b.key(),
                                "breaker" + (b.label() == null ? "" : ", directory: " + b.label())))));
        look.house().boxes().keySet().forEach(b -> all.add(new Link(paths.of("boxes", b), b, "box")));
        look.points()
                .values()
                .forEach(l -> all.add(new Link(paths.of("points", l.id()), l.id(), "load point in " + l.box())));
        look.house().cables().keySet().forEach(c -> all.add(new Link(paths.of("cables", c), c, "cable")));
        return all;
    }

    /** {@return what a search finds: every word of it in the name or in what is told beside it, names that begin so first} */
    List<Link> search(String words) {
        List<String> wanted = Arrays.stream(words.toLowerCase(Locale.ROOT).split("\\s+"))
                .filter(w -> !w.isEmpty())
                .toList();
        if (wanted.isEmpty()) {
            return List.of();
        }
        Map<Boolean, List<Link>> found = new LinkedHashMap<>();
        all().stream()
                .filter(l -> wanted.stream()
                        .allMatch(w -> (l.words() + " " + l.note())
                                .toLowerCase(Locale.ROOT)
                                .contains(w)))
                .forEach(l -> found.computeIfAbsent(
                                l.words().toLowerCase(Locale.ROOT).startsWith(wanted.get(0)), k -> new ArrayList<>())
                        .add(l));
        List<Link> all = new ArrayList<>(found.getOrDefault(true, List.of()));
        all.addAll(found.getOrDefault(false, List.of()));
        return all;
    }
}
