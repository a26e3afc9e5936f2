package org.splicebook.render.drawing;

import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import org.splicebook.record.House;
import org.splicebook.wiring.Feed;
import org.splicebook.wiring.LoadPointWiring;
import org.splicebook.wiring.Return;
import org.splicebook.wiring.Sureness;
import org.splicebook.wiring.ThingKind;
import org.splicebook.wiring.Way;
import org.splicebook.wiring.Wiring;

/** Feed left, return right, from the panel down to the load point; boxes that both pass stand across both. */
final class WayDrawing {
    private static final double LANE = 158;
    private static final double GAP = 16;
    private static final double HIGH = 44;

    private final House house;
    private final Sketch s;
    private final List<String> said = new ArrayList<>();

    private WayDrawing(Wiring wiring) {
        this.house = wiring.house();
        this.s = new Sketch(house);
    }

    /** A box on a way, and the wire by which the way comes to it from the load point's side. */
    private record Stop(String box, String wire) {}

    static Drawing of(Wiring wiring, String name) {
        LoadPointWiring found = wiring.loadPoints().stream()
                .filter(l -> l.id().equals(name))
                .findFirst()
                .orElseThrow(() -> Parts.missing(DrawingKind.WAY, name));
        return new WayDrawing(wiring).draw(found);
    }

    private Drawing draw(LoadPointWiring l) {
        String title = "Feed and return of " + l.id();
        double y = Sketch.MARGIN + Sketch.LARGE;
        s.bold(Sketch.MARGIN, y, Sketch.LARGE, title);
        List<Feed> feeds =
                l.feeds().stream().filter(f -> f.sureness() != Sureness.MAY).toList();
        List<Return> returns =
                l.returns().stream().filter(r -> r.sureness() != Sureness.MAY).toList();
        y += Sketch.LINE + 4;
        List<String> heads = new ArrayList<>();
        heads.add(Parts.place(house, l.place()) + ". One shortest way of each is drawn.");
        if (feeds.size() < l.feeds().size() || returns.size() < l.returns().size()) {
            heads.add("What is not listed may feed it or carry its return too: "
                    + (l.feeds().size() - feeds.size()) + " more poles are not excluded.");
        }
        if (feeds.isEmpty()) {
            heads.add("Feed not known.");
        }
        if (returns.isEmpty()) {
            heads.add("No return to a neutral bar is recorded: not known, or none.");
        }
        for (String h : heads) {
            said.add(h);
            for (String line : Sketch.wrap(h, Sketch.SMALL, LANE * 2)) {
                s.text(Sketch.MARGIN, y, Sketch.SMALL, line);
                y += Sketch.LINE;
            }
        }
        int pairs = Math.max(1, Math.max(feeds.size(), returns.size()));
        for (int i = 0; i < pairs; i++) {
            Feed feed = i < feeds.size() ? feeds.get(i) : null;
            Return back = i < returns.size() ? returns.get(i) : null;
            y = lanes(
                    l,
                    feed == null ? "feed not known" : "feed from " + feed.pole(),
                    back == null ? "no return drawn" : "return to " + back.bar(),
                    feed == null ? List.of() : stops(feed.way()),
                    back == null ? List.of() : stops(back.way()),
                    y + GAP);
        }
        return s.done(title, String.join(" ", said));
    }

    /** {@return the boxes of a way, from the panel to the load point} */
    private List<Stop> stops(Way way) {
        List<Stop> stops = new ArrayList<>();
        String wire = "";
        for (Way.Hop hop : way.hops()) {
            if (hop.thing().kind() == ThingKind.WIRE) {
                wire = hop.thing().name();
            } else if (!hop.box().isEmpty()
                    && (stops.isEmpty() || !stops.get(stops.size() - 1).box().equals(hop.box()))) {
                stops.add(new Stop(hop.box(), wire));
            }
        }
        Collections.reverse(stops);
        return stops;
    }

    private double lanes(LoadPointWiring l, String left, String right, List<Stop> feed, List<Stop> back, double top) {
        double y = top + Sketch.PLAIN;
        double x2 = Sketch.MARGIN + LANE + GAP;
        double ends = Math.max(head(left, Sketch.MARGIN, y), head(right, x2, y));
        y = ends + GAP - Sketch.LINE;
        said.add(left + ": " + names(feed) + ". " + right + ": " + names(back) + ".");
        Set<String> both = new LinkedHashSet<>(feed.stream().map(Stop::box).toList());
        both.retainAll(back.stream().map(Stop::box).toList());
        int i = 0;
        int j = 0;
        boolean apart = false;
        while (i < feed.size() || j < back.size()) {
            Stop f = i < feed.size() ? feed.get(i) : null;
            Stop b = j < back.size() ? back.get(j) : null;
            if (f != null && b != null && f.box().equals(b.box())) {
                box(f.box(), Sketch.MARGIN, y, LANE * 2 + GAP);
                boolean parts = !cable(f.wire()).equals(cable(b.wire()))
                        && !b.wire().isEmpty()
                        && !f.wire().isEmpty();
                below(f.wire(), Sketch.MARGIN, y, false);
                below(b.wire(), x2, y, true);
                if (parts) {
                    said.add("Feed and return are in unlike cables below " + f.box() + ".");
                }
                apart = parts;
                i++;
                j++;
            } else {
                boolean takeLeft = f != null && (!both.contains(f.box()) || b == null);
                boolean takeRight = b != null && (!both.contains(b.box()) || f == null);
                if (!takeLeft && !takeRight) {
                    takeLeft = true;
                    takeRight = true;
                }
                if (takeLeft && f != null) {
                    box(f.box(), Sketch.MARGIN, y, LANE);
                    below(f.wire(), Sketch.MARGIN, y, false);
                    i++;
                } else if (f != null) {
                    s.line(2, "", Sketch.MARGIN + 20, y, Sketch.MARGIN + 20, y + HIGH + 34);
                }
                if (takeRight && b != null) {
                    box(b.box(), x2, y, LANE);
                    below(b.wire(), x2, y, true);
                    j++;
                } else if (b != null) {
                    s.line(2, "7 4", x2 + 20, y, x2 + 20, y + HIGH + 34);
                }
                apart = true;
            }
            y += HIGH + 34;
        }
        s.bold(
                Sketch.MARGIN,
                y + Sketch.PLAIN - 14,
                Sketch.PLAIN,
                l.id() + (apart ? " (its wires come in unlike cables)" : ""));
        return y + GAP;
    }

    private double head(String words, double x, double top) {
        double y = top;
        for (String line : Sketch.wrap(words, Sketch.PLAIN, LANE / 1.1)) {
            s.bold(x, y, Sketch.PLAIN, line);
            y += Sketch.LINE;
        }
        return y;
    }

    private static String cable(String wire) {
        return wire.substring(0, Math.max(0, wire.indexOf('.')));
    }

    private static String names(List<Stop> stops) {
        return stops.isEmpty()
                ? "not known"
                : String.join(", ", stops.stream().map(Stop::box).toList());
    }

    private void box(String name, double x, double y, double w) {
        s.frame(x, y, w, HIGH, 1.4, Parts.isWhole(house, name));
        s.bold(x + 8, y + 18, Sketch.PLAIN, name);
        s.text(x + 8, y + 34, Sketch.SMALL, Parts.placeOf(house, name));
    }

    private void below(String wire, double x, double y, boolean back) {
        if (wire.isEmpty()) {
            return;
        }
        s.line(2, back ? "7 4" : "", x + 20, y + HIGH, x + 20, y + HIGH + 34);
        String colour = house.cables().containsKey(cable(wire))
                ? Objects.requireNonNull(house.cables().get(cable(wire))).wires().stream()
                        .filter(w ->
                                wire.endsWith("." + w.name()) && !w.colour().equals(w.name()))
                        .map(w -> " (" + w.colour() + ")")
                        .findFirst()
                        .orElse("")
                : "";
        s.text(x + 30, y + HIGH + 21, Sketch.SMALL, "over " + wire + colour);
    }
}
