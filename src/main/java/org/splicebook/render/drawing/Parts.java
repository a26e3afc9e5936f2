package org.splicebook.render.drawing;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.record.Box;
import org.splicebook.record.Breaker;
import org.splicebook.record.Complete;
import org.splicebook.record.Device;
import org.splicebook.record.House;
import org.splicebook.record.Panel;
import org.splicebook.record.Place;
import org.splicebook.record.Quantity;
import org.splicebook.wiring.Feed;
import org.splicebook.wiring.LoadPointWiring;
import org.splicebook.wiring.Sureness;
import org.splicebook.wiring.Wiring;

/** Parts of a house by name, and what drawings say of them. */
final class Parts {
    private Parts() {}

    /** One breaker with its panel. */
    record OfPanel(Panel panel, Breaker breaker) {
        String name() {
            return panel.name() + "." + breaker.key();
        }

        /** {@return whether one of its poles has that name, for example {@code main.2}} */
        boolean hasPole(@Nullable String pole) {
            return pole != null && breaker.spaces().stream().anyMatch(s -> pole.equals(panel.name() + "." + s));
        }

        /** {@return for example {@code main space 2+4, 30 A}} */
        String said() {
            return panel.name() + " space " + breaker.key() + ", " + rating(breaker.rating());
        }
    }

    static @Nullable OfPanel breaker(House house, String name) {
        for (Panel p : house.panels().values()) {
            for (Breaker b : p.breakers().values()) {
                if (name.equals(p.name() + "." + b.key())) {
                    return new OfPanel(p, b);
                }
            }
        }
        return null;
    }

    static ProblemException missing(DrawingKind kind, String subject) {
        return new ProblemException(Problem.error(
                ProblemKind.NOT_FOUND,
                Where.field("of"),
                "'" + subject + "' is nothing in this house that the drawing " + kind.word() + " can show.",
                "Give " + kind.subject() + "."));
    }

    static String rating(@Nullable Quantity rating) {
        return rating == null ? "rating not known" : rating.said();
    }

    /** {@return where a box or panel is, in words} */
    static String place(House house, @Nullable String place) {
        Place p = place == null ? null : house.places().get(place);
        return p == null ? "place not known" : p.said();
    }

    /** {@return where the box or panel of that name is, in words} */
    static String placeOf(House house, String name) {
        Box box = house.boxes().get(name);
        Panel panel = house.panels().get(name);
        return place(house, box != null ? box.place() : panel != null ? panel.place() : null);
    }

    /** {@return whether everything in the box or panel of that name is listed} */
    static boolean isWhole(House house, String name) {
        Box box = house.boxes().get(name);
        Panel panel = house.panels().get(name);
        return box != null
                ? house.isComplete(box, Complete.CABLES) && house.isComplete(box, Complete.JOINTS)
                : panel != null
                        && house.isComplete(panel, Complete.BREAKERS)
                        && house.isComplete(panel, Complete.LANDINGS);
    }

    /** {@return what a device is, for example {@code bench-1: duplex receptacle}} */
    static String said(Device d) {
        String what = d.kind().title();
        return d.name() + ": " + what
                + (d.load() == null ? "" : " for " + d.load().replace('-', ' '));
    }

    /** {@return the load points that a breaker feeds, each with the surest of its feeds from it} */
    static Map<LoadPointWiring, Sureness> fedBy(Wiring wiring, String breaker) {
        Map<LoadPointWiring, Sureness> fed = new LinkedHashMap<>();
        for (LoadPointWiring l : wiring.loadPoints()) {
            for (Feed f : l.feeds()) {
                if (f.breaker().equals(breaker)) {
                    fed.merge(l, f.sureness(), (a, b) -> a.compareTo(b) <= 0 ? a : b);
                }
            }
        }
        return fed;
    }

    /** {@return what a breaker serves, place by place; what it only may serve is said so} */
    static List<String> serves(Wiring wiring, String breaker) {
        Map<String, Set<String>> sure = new LinkedHashMap<>();
        Map<String, Set<String>> may = new LinkedHashMap<>();
        fedBy(wiring, breaker)
                .forEach((l, s) -> (s == Sureness.MAY ? may : sure)
                        .computeIfAbsent(place(wiring.house(), l.place()), k -> new LinkedHashSet<>())
                        .add(l.device()));
        List<String> lines = new ArrayList<>();
        sure.forEach((place, devices) -> lines.add(place + ": " + String.join(", ", devices)));
        int possible = may.values().stream().mapToInt(Set::size).sum();
        if (possible > 0) {
            lines.add("May also serve " + possible + " more: not proved");
        }
        return lines;
    }
}
