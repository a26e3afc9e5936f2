package org.splicebook.oracle;

import java.util.Map;
import java.util.Random;
import org.splicebook.oracle.Circuits.Place;
import org.splicebook.oracle.HouseBuilder.OpenJoint;
import org.splicebook.record.CableKind;

/** What goes astray between circuits: borrowed neutrals, joined islands, two breakers on one wire, rings, contact with ground. */
final class Oddities {
    /** More positions than this at once and a house takes too long to flood in all of them. */
    private static final int MOST_LEVERS = 5;

    private final HouseBuilder house;
    private final Circuits circuits;
    private final Random random;

    Oddities(HouseBuilder house, Circuits circuits, Random random) {
        this.house = house;
        this.circuits = circuits;
        this.random = random;
    }

    void one() {
        Place a = any();
        Place b = any();
        int levers = circuits.levers.getOrDefault(a.circuit(), 0)
                + (a.circuit() == b.circuit() ? 0 : circuits.levers.getOrDefault(b.circuit(), 0));
        if (a.box().equals(b.box()) || levers > MOST_LEVERS) {
            return;
        }
        circuits.levers.put(a.circuit(), levers);
        circuits.levers.put(b.circuit(), levers);
        switch (random.nextInt(9)) {
            case 0, 1 -> borrowed(a, b);
            case 2 -> join(a.neutral(), a.box(), b.neutral(), b.box());
            case 3 -> join(a.hot(), a.box(), b.hot(), b.box());
            case 4 -> meet(a, b, Map.of("hot", false, "neutral", random.nextBoolean()));
            case 5 -> meet(a, b, Map.of());
            case 6 -> homeAgain(a);
            case 7 -> toGround(a);
            default -> both(a, b);
        }
    }

    private Place any() {
        return circuits.places.get(random.nextInt(circuits.places.size()));
    }

    /** A light with the hot of one place and the neutral of another. */
    private void borrowed(Place a, Place b) {
        String box = house.box();
        String hot = house.cable(CableKind.NM, a.box(), box, "black", "white");
        String neutral = house.cable(CableKind.NM, b.box(), box, "black", "white");
        a.hot().add(hot + ".black");
        b.neutral().add(neutral + ".white");
        String d = house.device(box, "luminaire");
        circuits.attach(house.joint(box, hot + ".black"), d + ".hot");
        circuits.attach(house.joint(box, neutral + ".white"), d + ".neutral");
        circuits.loads++;
    }

    private void join(OpenJoint a, String boxA, OpenJoint b, String boxB) {
        String c = house.cable(CableKind.NM, boxA, boxB, "black", "white");
        a.add(c + ".white");
        b.add(c + ".white");
    }

    /** Both wires joined: fed twice, or a short, and one island. */
    private void both(Place a, Place b) {
        String c = house.cable(CableKind.NM, a.box(), b.box(), "black", "white");
        a.hot().add(c + ".black");
        b.hot().add(c + ".black");
        a.neutral().add(c + ".white");
        b.neutral().add(c + ".white");
    }

    /** One duplex at which two circuits land. */
    private void meet(Place a, Place b, Map<String, Boolean> tabs) {
        String box = house.box();
        String d = house.device(box, "duplex-receptacle", tabs);
        String half = "top";
        for (Place p : new Place[] {a, b}) {
            String c = house.cable(CableKind.NM, p.box(), box, "black", "white");
            p.hot().add(c + ".black");
            p.neutral().add(c + ".white");
            circuits.attach(house.joint(box, c + ".black"), d + "." + half + ".hot");
            circuits.attach(house.joint(box, c + ".white"), d + "." + half + ".neutral");
            half = "bottom";
        }
        circuits.loads += 2;
    }

    /** A second home run to some breaker: a ring, two breakers on one wire, or a short. */
    private void homeAgain(Place a) {
        var panels = house.panels.values().stream().toList();
        var p = panels.get(random.nextInt(panels.size()));
        if (p.breakers.isEmpty()) {
            return;
        }
        var keys = p.breakers.values().stream()
                .filter(b -> p.exclusive.stream().noneMatch(g -> g.contains(b.key())))
                .filter(b -> p.buses.values().stream().noneMatch(s -> b.key().equals(s.fedBy())))
                .filter(b -> b.spaces().size() == 1)
                .toList();
        if (keys.isEmpty()) {
            return;
        }
        String space = keys.get(random.nextInt(keys.size())).spaces().get(0);
        String c = house.cable(CableKind.NM, p.name, a.box(), "black", "white");
        house.joint(p.name, space, c + ".black");
        house.joint(p.name, "n", c + ".white");
        a.hot().add(c + ".black");
        a.neutral().add(c + ".white");
    }

    /** The neutral splice and the ground splice of a box made one. */
    private void toGround(Place a) {
        if (a.neutral() == a.ground()) {
            return;
        }
        a.neutral().members.addAll(a.ground().members);
        a.ground().members.clear();
        if (!a.neutral().members.contains("box")) {
            a.neutral().add("box");
        }
    }
}
