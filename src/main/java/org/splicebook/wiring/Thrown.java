package org.splicebook.wiring;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Stream;
import org.splicebook.record.Breaker;
import org.splicebook.record.Panel;

/** The breakers of a panel that one hand moves: those of one handle, tie or pull-out, and of what these are tied to. */
final class Thrown {
    private final Panel panel;
    /** By space: the handles, ties and pull-outs that it is in. */
    private final Map<String, List<List<String>>> groups = new HashMap<>();

    private final Map<String, List<Breaker>> breakers = new HashMap<>();

    Thrown(Panel p) {
        this.panel = p;
        Stream.of(
                        p.breakers().values().stream().map(Breaker::spaces),
                        p.ties().stream(),
                        p.pullOuts().values().stream())
                .flatMap(s -> s)
                .forEach(group -> group.forEach(
                        s -> groups.computeIfAbsent(s, k -> new ArrayList<>(1)).add(group)));
        for (Breaker b : p.breakers().values()) {
            b.spaces()
                    .forEach(s ->
                            breakers.computeIfAbsent(s, k -> new ArrayList<>(1)).add(b));
        }
    }

    /** {@return what is thrown with a breaker, itself among it} */
    Set<Breaker> with(Breaker b) {
        if (b.spaces().size() == 1 && panel.ties().isEmpty() && panel.pullOuts().isEmpty()) {
            return Set.of(b);
        }
        Set<String> spaces = new LinkedHashSet<>(b.spaces());
        ArrayDeque<String> next = new ArrayDeque<>(spaces);
        while (!next.isEmpty()) {
            for (List<String> group : groups.getOrDefault(next.remove(), List.of())) {
                for (String s : group) {
                    if (spaces.add(s)) {
                        next.add(s);
                    }
                }
            }
        }
        Set<Breaker> thrown = new LinkedHashSet<>();
        spaces.forEach(s -> thrown.addAll(breakers.getOrDefault(s, List.of())));
        return thrown;
    }
}
