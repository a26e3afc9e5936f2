package org.splicebook.panelplan.upgrade;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.Breaker;
import org.splicebook.record.OvercurrentType;
import org.splicebook.record.Panel;
import org.splicebook.record.SubBus;
import org.splicebook.wiring.PanelLegs;

/** Which breaker goes where: in the further panel, and the feeder's own in today's. */
final class SubpanelSpaces {
    /**
     * Where the feeder's breaker goes.
     *
     * @param spaces its spaces
     * @param moved key of a breaker that makes room for it; null where none has to
     * @param to where that goes, on the same leg
     */
    record Feeder(
            List<String> spaces,
            @Nullable String moved,
            @Nullable String to) {
        Feeder {
            spaces = List.copyOf(spaces);
        }
    }

    private SubpanelSpaces() {}

    /**
     * {@return the spaces of each circuit in the further panel, by its name, each pole on the leg that was chosen for it}
     *
     * @param legs the leg of each circuit of one pole, by its name
     */
    static Map<String, List<String>> place(SubpanelWanted wanted, List<Circuit> circuits, Map<String, Integer> legs) {
        Set<Integer> free = new TreeSet<>(wanted.rooms());
        Map<String, List<String>> all = new LinkedHashMap<>();
        for (Circuit c : circuits.stream().filter(x -> x.poles().size() == 2).toList()) {
            // Pairs begin in odd rows, so that the first pole is on the first leg, and none is left over alone.
            int top = free.stream()
                    .filter(s -> SubpanelWanted.leg(s) == 0 && free.contains(s + 2))
                    .findFirst()
                    .orElseThrow(() -> new IllegalStateException("no two spaces for " + c.name()));
            free.removeAll(List.of(top, top + 2));
            all.put(c.name(), List.of(String.valueOf(top), String.valueOf(top + 2)));
        }
        for (Circuit c : circuits.stream().filter(x -> x.poles().size() == 1).toList()) {
            int leg = legs.getOrDefault(c.name(), 0);
            int space = free.stream()
                    .filter(s -> !wanted.hasTwoLegs() || SubpanelWanted.leg(s) == leg)
                    .findFirst()
                    .orElseThrow(() -> new IllegalStateException("no space for " + c.name()));
            free.remove(space);
            all.put(c.name(), List.of(String.valueOf(space)));
        }
        return all;
    }

    /**
     * {@return where the feeder's breaker goes once those breakers are gone; null where there is no place for it}
     *
     * @param gone keys of breakers that move
     * @param mayShift keys of breakers that may change their space for it
     */
    static @Nullable Feeder feeder(Panel panel, PanelLegs legs, Set<String> gone, Set<String> mayShift, int poles) {
        if (panel.breakers().values().stream().anyMatch(b -> b.type() != OvercurrentType.BREAKER)) {
            return null;
        }
        Map<Integer, Breaker> taken = new LinkedHashMap<>();
        panel.breakers().values().stream()
                .filter(b -> !gone.contains(b.key()))
                .forEach(b -> b.spaces().forEach(s -> taken.put(number(s), b)));
        Set<Integer> free = new TreeSet<>();
        for (int s = 1; s <= most(panel); s++) {
            if (!taken.containsKey(s)) {
                free.add(s);
            }
        }
        if (poles == 1) {
            return free.isEmpty()
                    ? null
                    : new Feeder(List.of(String.valueOf(free.iterator().next())), null, null);
        }
        List<List<Integer>> pairs = new ArrayList<>();
        for (int s = 1; s + 2 <= most(panel); s++) {
            if (!leg(legs, s).equals(leg(legs, s + 2)) && bus(panel, s).equals(bus(panel, s + 2))) {
                pairs.add(List.of(s, s + 2));
            }
        }
        for (List<Integer> pair : pairs) {
            if (free.containsAll(pair)) {
                return new Feeder(said(pair), null, null);
            }
        }
        for (List<Integer> pair : pairs) {
            for (int here : pair) {
                Breaker b = taken.get(here);
                Set<Integer> others = new TreeSet<>(free);
                boolean half = others.removeAll(pair);
                if (!half || b == null || b.spaces().size() != 1 || !mayShift.contains(b.key())) {
                    continue;
                }
                for (int to : others) {
                    if (leg(legs, to).equals(leg(legs, here)) && bus(panel, to).equals(bus(panel, here))) {
                        return new Feeder(said(pair), b.key(), String.valueOf(to));
                    }
                }
            }
        }
        return null;
    }

    private static List<String> said(List<Integer> spaces) {
        return spaces.stream().map(String::valueOf).toList();
    }

    private static String leg(PanelLegs legs, int space) {
        return legs.of(String.valueOf(space));
    }

    private static String bus(Panel panel, int space) {
        return panel.buses().values().stream()
                .filter(b -> b.spaces().contains(String.valueOf(space)))
                .map(SubBus::name)
                .findFirst()
                .orElse("");
    }

    private static int most(Panel panel) {
        Integer said = panel.spaces();
        return said != null
                ? said
                : panel.breakers().values().stream()
                        .flatMap(b -> b.spaces().stream())
                        .mapToInt(SubpanelSpaces::number)
                        .max()
                        .orElse(0);
    }

    private static int number(String space) {
        String digits = space.replaceAll("[^0-9].*", "");
        return digits.isEmpty() || digits.length() > 3 ? 0 : Integer.parseInt(digits);
    }
}
