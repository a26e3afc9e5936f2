package org.splicebook.rewire.search;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.splicebook.loadflow.LoadCase;
import org.splicebook.loadflow.Strain;
import org.splicebook.record.DeviceKind;
import org.splicebook.record.House;
import org.splicebook.record.Move;

/** What opens, and what carries too much, in several load cases and positions of the levers. */
final class Currents {
    /** Beyond so many positions each lever is tried by itself. */
    private static final int POSITIONS = 64;

    private static final List<LoadCase.Base> BASES =
            List.of(LoadCase.Base.TYPICAL, LoadCase.Base.ALL_ON, LoadCase.Base.HEATERS);

    private static final List<Map<String, String>> NOTHING_SAID = List.of(Map.of());

    private final Set<String> before;

    Currents(House house) {
        before = troubles(house);
    }

    /** {@return what opens or carries too much after a change and did not before, in words} */
    List<String> added(House after, List<Move> moves) {
        Map<String, String> old = new HashMap<>();
        for (Move m : moves) {
            if (m instanceof Move.ChangeBreaker c && c.is() != null) {
                c.was().forEach(w -> old.put(c.panel() + "." + w, c.panel() + "." + c.is().key()));
            }
        }
        Set<String> was = before.stream()
                .map(t -> old.entrySet().stream()
                        .filter(e -> t.startsWith(e.getKey() + " "))
                        .map(e -> e.getValue() + t.substring(e.getKey().length()))
                        .findFirst()
                        .orElse(t))
                .collect(Collectors.toSet());
        Set<String> now = troubles(after);
        now.removeAll(was);
        return List.copyOf(now);
    }

    private static Set<String> troubles(House house) {
        Strain strain = Strain.of(house, BASES);
        Set<String> all = new TreeSet<>();
        for (Map<String, String> at : positions(house)) {
            strain.at(at).forEach(t -> add(t, all));
        }
        return all;
    }

    private static void add(Strain.Told told, Set<String> all) {
        String with = " (" + told.base().name().toLowerCase(Locale.ROOT).replace('_', '-') + " loads).";
        if (!told.settled()) {
            all.add("The currents could not be computed" + with);
        }
        told.opening().forEach(u -> all.add(u + " may trip" + with));
        told.over().forEach(w -> all.add(w + " carries more than it may" + with));
    }

    private static List<Map<String, String>> positions(House house) {
        Map<String, List<String>> levers = new java.util.TreeMap<>();
        house.boxes().values().stream()
                .flatMap(b -> b.devices().values().stream())
                .forEach(d -> {
                    List<DeviceKind.Lever> its = d.kind().levers();
                    its.forEach(l -> levers.put(its.size() == 1 ? d.name() : d.name() + "." + l.name(), l.positions()));
                });
        long many = 1;
        for (List<String> p : levers.values()) {
            many = Math.min(POSITIONS + 1L, many * p.size());
        }
        List<Map<String, String>> all = new ArrayList<>(NOTHING_SAID);
        for (Map.Entry<String, List<String>> e : levers.entrySet()) {
            List<Map<String, String>> more = new ArrayList<>(many > POSITIONS ? all : List.of());
            for (Map<String, String> at : many > POSITIONS ? NOTHING_SAID : List.copyOf(all)) {
                for (String p : e.getValue()) {
                    Map<String, String> with = new HashMap<>(at);
                    with.put(e.getKey(), p);
                    more.add(with);
                }
            }
            all = more;
        }
        return all;
    }
}
