package org.splicebook.rules.mutation;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import org.splicebook.rules.mutation.Draft.Box;
import org.splicebook.rules.mutation.Draft.Circuit;

/** One way to break a clean house, with what a check must then find, and the part of the house that it can affect. */
final class Break {
    /** Circuits that are no plain row of receptacles. */
    private static final List<String> ODD = List.of("lights", "yard", "range", "heater", "dining");

    /** Breaks a house. */
    interface Act {
        void on(Break b);
    }

    /** A break by name. */
    record Kind(String name, Act act) {}

    /** What must be found: the rule, and what it is about. */
    record Expected(String rule, String subject) {}

    final Draft house;
    final Random random;
    final List<Expected> expected = new ArrayList<>();
    /** Boxes, cables, breakers and devices that the break can affect. */
    final Set<String> touched = new LinkedHashSet<>();

    Break(Draft house, Random random) {
        this.house = house;
        this.random = random;
    }

    Break expect(String rule, String subject) {
        expected.add(new Expected(rule, subject));
        return this;
    }

    /** Says that a circuit is affected: its breaker, boxes, cables and devices. */
    Circuit touch(String circuit) {
        Circuit c = house.circuit(circuit);
        touched.add("main." + c.breaker);
        touched.addAll(c.cables);
        touched.addAll(c.legs.values());
        for (Box b : house.boxes.values()) {
            if (b.circuit.equals(circuit)) {
                touched.add(b.name);
                touched.addAll(b.devices.keySet());
            }
        }
        return c;
    }

    void touchAll() {
        house.circuits.keySet().forEach(this::touch);
        touched.add("main");
        touched.add("house");
    }

    String any(List<String> of) {
        return of.get(random.nextInt(of.size()));
    }

    /** {@return a circuit that is a row of receptacles on a breaker} */
    String row() {
        return any(
                house.circuits.keySet().stream().filter(c -> !ODD.contains(c)).toList());
    }

    String row(int size) {
        return any(house.circuits.keySet().stream()
                .filter(c -> !ODD.contains(c))
                .filter(c -> house.circuit(c).size.equals(String.valueOf(size)))
                .toList());
    }

    /** {@return a row of at least two receptacle boxes} */
    String longRow() {
        return any(house.circuits.keySet().stream()
                .filter(c -> !ODD.contains(c))
                .filter(c -> receptacleBoxes(house.circuit(c)).size() > 1)
                .toList());
    }

    /** {@return the boxes with a receptacle, in order} */
    List<String> receptacleBoxes(Circuit c) {
        return c.boxes.stream()
                .filter(b -> house.box(b).devices.containsKey(b + "-r"))
                .toList();
    }

    /** {@return the device of a receptacle's box} */
    static String receptacle(String box) {
        return box + "-r";
    }

    /** {@return the load points of a duplex receptacle} */
    static List<String> halves(String device) {
        return List.of(device + ".top", device + ".bottom");
    }

    /** {@return a room with a switch and a light, on the circuit of the lights} */
    String litRoom() {
        return any(List.of("living", "hall", "kitchen", "bath"));
    }
}
