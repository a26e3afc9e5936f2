package org.splicebook.web;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.splicebook.housefile.PlainYaml;

/**
 * How a box is usually wired; {@code box-templates.yaml} lists them.
 *
 * @param words what people call it
 * @param kinds what may be the device in it; empty where there is none
 * @param on wires on the screws of the device, by terminal
 * @param splices what is spliced
 */
record BoxTemplate(String words, List<String> kinds, Map<String, List<String>> on, List<List<String>> splices) {
    /** By id, in the order in which they are offered. */
    static final Map<String, BoxTemplate> ALL = all();

    BoxTemplate {
        kinds = List.copyOf(kinds);
        on = new LinkedHashMap<>(on);
        splices = List.copyOf(splices);
    }

    /** A cable of the new box: its name, and whether it has a ground wire. */
    record NewCable(String name, boolean hasGround) {
        private boolean has(String wire) {
            return !wire.equals("bare") || hasGround;
        }
    }

    /**
     * {@return whether a cable is joined in it}
     *
     * @param which {@code in} for the one towards the panel, {@code out} for the one that goes on
     */
    boolean needs(String which) {
        return Stream.concat(on.values().stream(), splices.stream())
                .flatMap(List::stream)
                .anyMatch(w -> w.startsWith(which + "."));
    }

    /**
     * {@return the joints of a box wired so, as moves of a draft}
     *
     * @param box the box's name
     * @param device the device's name
     * @param cables the cables, by {@code in} and {@code out}
     */
    List<Map<String, Object>> joints(String box, String device, Map<String, NewCable> cables) {
        List<Map<String, Object>> moves = new ArrayList<>();
        on.forEach((terminal, wires) -> wires.forEach(w -> {
            String end = named(w, device, cables);
            if (!end.isEmpty()) {
                moves.add(Map.of("move", end, "to", device + "." + terminal, "in", box));
            }
        }));
        for (List<String> splice : splices) {
            List<String> ends = splice.stream()
                    .map(m -> named(m, device, cables))
                    .filter(m -> !m.isEmpty())
                    .toList();
            if (ends.size() > 1) {
                moves.add(Map.of("splice", ends, "in", box));
            }
        }
        return moves;
    }

    private static String named(String member, String device, Map<String, NewCable> cables) {
        int dot = member.indexOf('.');
        String rest = member.substring(dot + 1);
        if (member.startsWith("dev.")) {
            return device + "." + rest;
        }
        NewCable c = cables.get(member.substring(0, dot));
        return c != null && c.has(rest) ? c.name() + "." + rest : "";
    }

    private static Map<String, BoxTemplate> all() {
        Map<String, BoxTemplate> all = new LinkedHashMap<>();
        map(PlainYaml.strings(Resources.text("box-templates.yaml"))).forEach((id, t) -> {
            Map<String, Object> said = map(t);
            Map<String, List<String>> on = new LinkedHashMap<>();
            map(said.getOrDefault("on", Map.of())).forEach((k, v) -> on.put(k, texts(v)));
            List<List<String>> splices = new ArrayList<>();
            if (said.get("splices") instanceof List<?> l) {
                l.forEach(s -> splices.add(texts(s)));
            }
            all.put(
                    id,
                    new BoxTemplate(
                            String.valueOf(said.get("words")),
                            texts(said.getOrDefault("kinds", List.of())),
                            on,
                            splices));
        });
        return all;
    }

    private static Map<String, Object> map(Object o) {
        Map<String, Object> map = new LinkedHashMap<>();
        if (o instanceof Map<?, ?> m) {
            m.forEach((k, v) -> map.put(String.valueOf(k), v));
        }
        return map;
    }

    private static List<String> texts(Object o) {
        return o instanceof List<?> l ? l.stream().map(String::valueOf).toList() : List.of();
    }
}
