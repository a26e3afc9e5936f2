package org.splicebook.panelplan.upgrade;

import java.util.List;
import java.util.Set;

/**
 * Circuits that move together or not at all, because they share a neutral, a tie or a yoke.
 *
 * @param circuits the circuits
 * @param va what they take for hours, in volt-amperes
 * @param starts what the largest motor among them takes beside that while it starts, in volt-amperes
 * @param devices what hangs on them, by name
 * @param words what hangs on them, by the words of the record: {@code freezer}
 * @param points how many load points they feed
 * @param whyNot why they may not move; empty where they may
 */
record Movable(
        List<Circuit> circuits,
        double va,
        double starts,
        Set<String> devices,
        Set<String> words,
        int points,
        List<String> whyNot) {
    Movable {
        circuits = List.copyOf(circuits);
        devices = Set.copyOf(devices);
        words = Set.copyOf(words);
        whyNot = List.copyOf(whyNot);
    }

    /** {@return how many spaces they take} */
    int poles() {
        return circuits.stream().mapToInt(c -> c.poles().size()).sum();
    }

    /** {@return how many wires have to be led over} */
    int wires() {
        return circuits.stream()
                .flatMap(c -> c.poles().stream())
                .mapToInt(p -> Math.max(1, p.wires().size()))
                .sum();
    }

    /** {@return whether that names them, one of their breakers, a device or what hangs on it} */
    boolean isOf(String name) {
        return devices.contains(name)
                || words.contains(name)
                || circuits.stream().anyMatch(c -> c.isOf(name));
    }

    /** {@return what people call them} */
    String said() {
        return String.join(" with ", circuits.stream().map(Circuit::name).toList());
    }
}
