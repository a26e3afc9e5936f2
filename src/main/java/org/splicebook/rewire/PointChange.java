package org.splicebook.rewire;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.Protection;
import org.splicebook.wiring.Feed;
import org.splicebook.wiring.LoadPointWiring;
import org.splicebook.wiring.ProtectedBy;
import org.splicebook.wiring.Return;
import org.splicebook.wiring.Sureness;
import org.splicebook.wiring.ThingKind;
import org.splicebook.wiring.Way;
import org.splicebook.wiring.Wiring;

/**
 * What a change does to one load point.
 *
 * @param point the load point
 * @param what what changes of it
 * @param before as it was; empty where it is new
 * @param after as it becomes; empty where it is gone
 * @param isShown whether the record shows it; else only what is possible changes
 */
public record PointChange(String point, What what, String before, String after, boolean isShown) {
    /** What may change of a load point. */
    public enum What {
        FEED,
        RETURN,
        GROUND,
        PROTECTION;

        /** {@return the word} */
        public String word() {
            return name().toLowerCase(Locale.ROOT);
        }
    }

    /** What is known of one side of a load point: what the record shows, and what it leaves possible. */
    private record Known(Set<String> shown, Set<String> possible) {
        String said() {
            if (possible.isEmpty()) {
                return shown.isEmpty() ? "none" : String.join("; ", shown);
            }
            return (shown.isEmpty() ? "not known" : String.join("; ", shown)) + ", " + possible.size()
                    + " more possible";
        }
    }

    /**
     * {@return what differs, load point by load point, in order of the record; where another device with fewer or more of them took a
     * device's place, the halves are compared with the one}
     */
    public static List<PointChange> between(Wiring before, Wiring after) {
        Map<String, LoadPointWiring> was = byId(before);
        Map<String, LoadPointWiring> is = byId(after);
        Set<String> all = new LinkedHashSet<>();
        for (LoadPointWiring l : is.values()) {
            boolean isOfHalves = !was.containsKey(l.id())
                    && was.values().stream().anyMatch(x -> x.device().equals(l.id()));
            if (!isOfHalves) {
                all.add(l.id());
            }
        }
        for (LoadPointWiring l : was.values()) {
            boolean isHalved = !is.containsKey(l.id())
                    && is.values().stream().anyMatch(x -> x.device().equals(l.id()));
            if (!isHalved) {
                all.add(l.id());
            }
        }
        List<PointChange> changes = new ArrayList<>();
        for (String id : all) {
            for (What what : What.values()) {
                Known a = known(same(was, id, is), what);
                Known b = known(same(is, id, was), what);
                if (a == null || b == null || !a.equals(b)) {
                    boolean isShown = a == null || b == null || !a.shown.equals(b.shown);
                    changes.add(
                            new PointChange(id, what, a == null ? "" : a.said(), b == null ? "" : b.said(), isShown));
                }
            }
        }
        return changes;
    }

    /** The load point itself, or the one of its device where that has but one on this side. */
    private static @Nullable LoadPointWiring same(
            Map<String, LoadPointWiring> here, String id, Map<String, LoadPointWiring> there) {
        LoadPointWiring known = there.get(id);
        LoadPointWiring found = here.get(id);
        return found != null || known == null ? found : here.get(known.device());
    }

    private static Map<String, LoadPointWiring> byId(Wiring w) {
        Map<String, LoadPointWiring> all = new LinkedHashMap<>();
        w.loadPoints().forEach(l -> all.put(l.id(), l));
        return all;
    }

    private static @Nullable Known known(@Nullable LoadPointWiring l, What what) {
        if (l == null) {
            return null;
        }
        Set<String> shown = new TreeSet<>();
        Set<String> possible = new TreeSet<>();
        switch (what) {
            case FEED -> {
                for (Feed f : l.feeds()) {
                    boolean may = f.sureness() == Sureness.MAY;
                    (may ? possible : shown).add(f.pole() + (may ? "" : over(f.way())) + when(f.sureness()));
                }
            }
            case RETURN -> returns(l.returns(), shown, possible);
            case GROUND -> returns(l.grounds(), shown, possible);
            case PROTECTION -> protections(l, shown, possible);
        }
        return new Known(shown, possible);
    }

    private static void returns(List<Return> all, Set<String> shown, Set<String> possible) {
        for (Return r : all) {
            boolean may = r.sureness() == Sureness.MAY;
            (may ? possible : shown).add(r.bar() + (may ? "" : over(r.way())) + when(r.sureness()));
        }
    }

    private static void protections(LoadPointWiring l, Set<String> shown, Set<String> possible) {
        Map<Protection, Set<String>> sure = new TreeMap<>();
        for (ProtectedBy p : l.protections()) {
            if (p.sureness() == Sureness.MUST) {
                sure.computeIfAbsent(p.function(), k -> new LinkedHashSet<>()).add(p.by().name());
            } else {
                possible.add(word(p.function()) + " by " + p.by().name());
            }
        }
        sure.forEach((function, by) -> shown.add(word(function) + " by " + String.join(" and ", by)));
    }

    private static String word(Protection p) {
        return p.name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    private static String when(Sureness s) {
        return s == Sureness.SHOWN ? " in some switch positions" : "";
    }

    /** The cables of a way, from the panel on. */
    private static String over(Way way) {
        List<String> cables = new ArrayList<>();
        for (Way.Hop h : way.hops()) {
            if (h.thing().kind() == ThingKind.WIRE) {
                String cable = h.thing().name().substring(0, h.thing().name().indexOf('.'));
                if (cables.isEmpty() || !cables.get(0).equals(cable)) {
                    cables.add(0, cable);
                }
            }
        }
        return cables.isEmpty() ? "" : " over " + String.join(", ", cables);
    }
}
