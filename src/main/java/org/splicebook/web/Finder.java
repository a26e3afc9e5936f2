package org.splicebook.web;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.splicebook.record.House;
import org.splicebook.record.Panel;
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

    /** {@return the address of the card of a name; empty where nothing of that name has one} */
    String address(String name) {
        House house = look.house();
        if (look.points().containsKey(name)) {
            return paths.of("points", name);
        }
        if (house.boxes().containsKey(name)) {
            return paths.of("boxes", name);
        }
        if (house.panels().containsKey(name)) {
            return paths.of("panels", name);
        }
        if (house.cables().containsKey(name)) {
            return paths.of("cables", name);
        }
        int dot = name.indexOf('.');
        Panel panel = dot < 0 ? null : house.panels().get(name.substring(0, dot));
        return panel != null && panel.breakers().containsKey(name.substring(dot + 1))
                ? paths.of("breakers", name)
                : house.places().containsKey(name) ? paths.of("places", name) : "";
    }

    /** {@return where to go once a question was answered: what is done next, then the cards of what it was asked of} */
    List<Link> after(String question, Map<String, String> asked) {
        List<Link> next = new ArrayList<>();
        String box = asked.getOrDefault("box", "");
        if (question.equals("shut-off") && look.house().boxes().containsKey(box)) {
            next.add(paths.sheet("shut-off", box, "Take it along as a sheet with boxes to tick"));
            next.add(new Link(paths.of("boxes", box) + "/edit", "It is open: record what is in it", ""));
            next.add(paths.ask("before-closing", "box", box, "What to test before it is closed"));
        }
        asked.forEach((name, value) -> {
            if (!address(value).isEmpty()) {
                next.add(new Link(address(value), value, name));
            }
        });
        return next;
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
