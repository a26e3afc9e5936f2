package org.splicebook.web;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collector;
import java.util.stream.Collectors;
import org.splicebook.answer.Caution;
import org.splicebook.answer.Leads;
import org.splicebook.record.Protection;
import org.splicebook.render.drawing.DrawingKind;
import org.splicebook.web.view.Card;
import org.splicebook.web.view.Fact;
import org.splicebook.web.view.Link;
import org.splicebook.web.view.Section;
import org.splicebook.wiring.LoadPointWiring;
import org.splicebook.wiring.ProtectedBy;
import org.splicebook.wiring.Return;
import org.splicebook.wiring.Sureness;

/** The card of a load point: its feed, its return, its ground, what protects it. */
final class PointCard {
    private static final int MOST_POSSIBLE = 8;

    private final Cards cards;
    private final Paths paths;

    PointCard(Cards cards, Paths paths) {
        this.cards = cards;
        this.paths = paths;
    }

    Card of(LoadPointWiring l) {
        String id = l.id();
        Map<String, Sureness> feeds = Cards.feeds(l);
        List<Link> fed = new ArrayList<>();
        feeds.forEach((breaker, s) -> {
            if (s != Sureness.MAY) {
                fed.add(paths.breaker(breaker, s == Sureness.MUST ? "" : "in some switch positions"));
            }
        });
        long possible = possible(feeds).size();
        List<Fact> facts = new ArrayList<>();
        facts.add(cards.where(l.place()));
        facts.add(new Fact("Box", List.of(paths.box(l.box()))));
        facts.add(new Fact("Device", List.of(Link.words(l.device()))));
        facts.add(new Fact("Fed by", fed));
        facts.add(new Fact("Not excluded either", some(possible(feeds))));
        facts.add(new Fact("Returns to", bars(l.returns().stream().collect(known()))));
        facts.add(new Fact("Grounded at", bars(l.grounds().stream().collect(known()))));
        facts.add(new Fact("Protected by", protections(l)));
        String question = "what-goes-off";
        List<Link> next = new ArrayList<>();
        next.add(paths.ask("shut-off", "box", l.box(), "What must be off before its box is opened"));
        next.add(paths.ask("evidence", "at", id, "What wiring and tests say of its breaker"));
        next.add(new Link(paths.base() + "/sight?at=" + Paths.part(id), "Record what was observed at it", ""));
        next.add(new Link(
                paths.base() + "/diagnose?told=" + Paths.part("dead: " + id), "It is dead: what may be wrong", ""));
        next.add(paths.ask("way-back", "point", id, "Its way back to the panel, hop by hop"));
        fed.forEach(b -> next.add(paths.ask(question, "thing", b.words(), "What goes off with " + b.words())));
        return new Card(
                "Load point",
                id,
                fedInWords(feeds) + (possible == 0 ? "" : " " + possible + " breakers are not excluded: test."),
                next,
                facts,
                cards.draw(DrawingKind.WAY, id),
                List.of(
                        new Section(
                                "If it is dead, look here first",
                                "What it cannot do without, as recorded. That it is dead proves no wire dead.",
                                cards.needed(l)),
                        cards.findings(f -> f.outlets().contains(id)
                                || f.subject().equals(id)
                                || f.subject().equals(l.device())),
                        cards.seen(new TreeSet<>(List.of(id, l.device())))),
                Caution.forWhat(Leads.TO_A_WIRE));
    }

    private static String fedInWords(Map<String, Sureness> feeds) {
        List<String> shown = feeds.entrySet().stream()
                .filter(e -> e.getValue() != Sureness.MAY)
                .map(Map.Entry::getKey)
                .toList();
        return switch (shown.size()) {
            case 0 -> feeds.isEmpty() ? "Nothing recorded feeds it." : "The record does not show what feeds it.";
            case 1 -> "Fed by " + shown.get(0) + ", as recorded.";
            default -> "Fed by " + String.join(" and ", shown) + ", as recorded: one of them off is not enough.";
        };
    }

    private static List<String> possible(Map<String, Sureness> feeds) {
        return feeds.entrySet().stream()
                .filter(e -> e.getValue() == Sureness.MAY)
                .map(Map.Entry::getKey)
                .toList();
    }

    private List<Link> some(List<String> breakers) {
        List<Link> all = breakers.stream()
                .limit(MOST_POSSIBLE)
                .map(b -> paths.breaker(b, ""))
                .collect(Collectors.toList());
        if (breakers.size() > MOST_POSSIBLE) {
            all.add(Link.words("and " + (breakers.size() - MOST_POSSIBLE) + " more"));
        }
        return all;
    }

    private static Collector<Return, ?, Map<String, Sureness>> known() {
        return Collectors.toMap(Return::bar, Return::sureness, (a, b) -> a.compareTo(b) <= 0 ? a : b, TreeMap::new);
    }

    private static List<Link> bars(Map<String, Sureness> bars) {
        return bars.isEmpty()
                ? List.of(Link.words("none recorded"))
                : bars.entrySet().stream()
                        .map(e -> new Link("", e.getKey(), e.getValue() == Sureness.MAY ? "possible, not shown" : ""))
                        .toList();
    }

    private static List<Link> protections(LoadPointWiring l) {
        Map<Protection, Set<String>> sure = new TreeMap<>();
        for (ProtectedBy p : l.protections()) {
            if (p.sureness() == Sureness.MUST) {
                sure.computeIfAbsent(p.function(), k -> new LinkedHashSet<>()).add(p.by().name());
            }
        }
        List<Link> all = new ArrayList<>();
        for (Protection p : Protection.values()) {
            Set<String> by = sure.getOrDefault(p, Set.of());
            all.add(Link.words(Cards.word(p)
                    + (by.isEmpty() ? ": not shown, counts as none" : " by " + String.join(" and ", by))));
        }
        return all;
    }
}
