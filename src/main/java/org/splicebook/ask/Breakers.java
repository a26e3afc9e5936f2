package org.splicebook.ask;

import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.Map;
import java.util.Set;
import org.splicebook.record.Breaker;
import org.splicebook.record.House;
import org.splicebook.record.Panel;

/** Breakers by name, and which open together. */
final class Breakers {
    private Breakers() {}

    /** {@return every breaker and fuse by its name, for example {@code main.2+4}} */
    static Map<String, Breaker> all(House house) {
        Map<String, Breaker> all = new LinkedHashMap<>();
        house.panels().values().forEach(p -> p.breakers().values().forEach(b -> all.put(p.name() + "." + b.key(), b)));
        return all;
    }

    /** {@return a breaker and what is opened with it by hand: those tied to it and in its pull-out} */
    static Set<String> openedWith(House house, String breaker) {
        Set<String> together = new LinkedHashSet<>(Set.of(breaker));
        Panel panel = house.panels().get(breaker.substring(0, breaker.indexOf('.')));
        if (panel == null) {
            return together;
        }
        String key = breaker.substring(breaker.indexOf('.') + 1);
        Breaker own = panel.breakers().get(key);
        if (own == null) {
            return together;
        }
        panel.ties().stream()
                .filter(t -> own.spaces().stream().anyMatch(t::contains))
                .forEach(t -> add(panel, t, together));
        panel.pullOuts().values().stream()
                .filter(t -> own.spaces().stream().anyMatch(t::contains))
                .forEach(t -> add(panel, t, together));
        return together;
    }

    private static void add(Panel panel, Iterable<String> spaces, Set<String> together) {
        for (String space : spaces) {
            panel.breakers().values().stream()
                    .filter(b -> b.spaces().contains(space))
                    .forEach(b -> together.add(panel.name() + "." + b.key()));
        }
    }

    /** {@return the breaker of a pole, for example {@code main.5+7} of {@code main.7}; the pole itself where it has none} */
    static String ofPole(House house, String pole) {
        Panel panel = house.panels().get(pole.substring(0, Math.max(0, pole.indexOf('.'))));
        String space = pole.substring(pole.indexOf('.') + 1);
        return panel == null
                ? pole
                : panel.breakers().values().stream()
                        .filter(b -> b.spaces().contains(space))
                        .findFirst()
                        .map(b -> panel.name() + "." + b.key())
                        .orElse(pole);
    }

    /** {@return a breaker and what its label says, for example {@code main.9 (Dining room)}} */
    static String said(House house, String breaker) {
        Breaker b = all(house).get(breaker);
        return b == null ? breaker : breaker + (b.label() == null ? " (no label)" : " (" + b.label() + ")");
    }
}
