package org.splicebook.oracle;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.jspecify.annotations.Nullable;
import org.splicebook.oracle.HouseBuilder.OpenJoint;
import org.splicebook.record.CableKind;
import org.splicebook.record.Joint;

/** Grows branch circuits box by box: each method wires one arrangement at a spot. */
final class Circuits {
    /** Where a circuit arrives in a box, not yet joined to anything. */
    record Spot(
            String box,
            String hot,
            String neutral,
            @Nullable String ground,
            int circuit) {}

    /** A box of a circuit with its joints, for joining circuits later. */
    record Place(String box, OpenJoint hot, OpenJoint neutral, OpenJoint ground, int circuit) {}

    final HouseBuilder house;
    final Random random;
    final List<Place> places = new ArrayList<>();
    /** Levers so far by circuit. */
    final Map<Integer, Integer> levers = new java.util.HashMap<>();

    int loads;
    private static final int MOST_LEVERS = 4;

    Circuits(HouseBuilder house, Random random) {
        this.house = house;
        this.random = random;
    }

    boolean chance(double p) {
        return random.nextDouble() < p;
    }

    /** Grows from a spot over about so many boxes. */
    void grow(Spot start, int boxes) {
        List<Spot> open = new ArrayList<>(List.of(start));
        int left = boxes;
        while (!open.isEmpty()) {
            Spot s = open.remove(random.nextInt(open.size()));
            left--;
            open.addAll(step(s, left > open.size()));
        }
    }

    private boolean mayUseLevers(int circuit, int n) {
        if (levers.getOrDefault(circuit, 0) + n > MOST_LEVERS) {
            return false;
        }
        levers.merge(circuit, n, Integer::sum);
        return true;
    }

    private List<Spot> step(Spot s, boolean more) {
        OpenJoint hot = house.joint(s.box, s.hot);
        OpenJoint neutral = house.joint(s.box, s.neutral);
        OpenJoint ground = house.joint(s.box, s.ground);
        if (s.ground != null && chance(0.5)) {
            ground.add("box");
        }
        Place at = new Place(s.box, hot, neutral, ground, s.circuit);
        List<Spot> next = new ArrayList<>();
        int way = random.nextInt(16);
        if (way == 0 && mayUseLevers(s.circuit, 2)) {
            threeWay(at, 0);
        } else if (way == 1 && mayUseLevers(s.circuit, 3)) {
            threeWay(at, 1);
        } else if (way == 2 && mayUseLevers(s.circuit, 2)) {
            carter(at);
        } else if (way == 3 && mayUseLevers(s.circuit, 1)) {
            halfSwitched(at);
        } else if (way == 4 && mayUseLevers(s.circuit, 1)) {
            switchLoop(at);
        } else if (way <= 6 && mayUseLevers(s.circuit, 1)) {
            switchedLight(at, chance(0.3) ? "smart-switch" : chance(0.3) ? "illuminated-switch" : "single-pole-switch");
        } else if (way == 7 && mayUseLevers(s.circuit, 1)) {
            onOneYoke(at);
        } else if (way == 8) {
            next.addAll(protective(at, more));
        } else if (way == 9) {
            next.addAll(throughDevice(at, more));
        } else if (way == 10 && mayUseLevers(s.circuit, 2)) {
            deadEndThreeWay(at);
        } else {
            plain(
                    at,
                    way == 11
                            ? "luminaire"
                            : way == 12 ? "single-receptacle" : way == 13 ? "transformer" : "duplex-receptacle");
        }
        places.add(at);
        if (more) {
            next.add(extend(at));
            if (chance(0.2)) {
                next.add(extend(at));
            }
        }
        return next;
    }

    /** A cable on to a new box; open wiring, if the circuit has no ground and chance wills. */
    Spot extend(Place at) {
        String to = house.box();
        if (!at.ground.members.isEmpty() || chance(0.8)) {
            boolean ground = !at.ground.members.isEmpty();
            String c = ground
                    ? house.cable(CableKind.NM, at.box, to, "black", "white", "bare")
                    : house.cable(CableKind.NM, at.box, to, "black", "white");
            at.hot.add(c + ".black");
            at.neutral.add(c + ".white");
            if (ground) {
                at.ground.add(c + ".bare");
            }
            return new Spot(to, c + ".black", c + ".white", ground ? c + ".bare" : null, at.circuit);
        }
        String h = house.cable(CableKind.OPEN_WIRE, at.box, to, "w:unknown");
        String n = house.cable(CableKind.OPEN_WIRE, at.box, to, "w:unknown");
        at.hot.add(h + ".w");
        at.neutral.add(n + ".w");
        return new Spot(to, h + ".w", n + ".w", null, at.circuit);
    }

    /** Puts a terminal into a joint, with one of the ways to hold it. */
    void attach(OpenJoint j, String terminal) {
        j.add(terminal);
        if (j.hold == Joint.Hold.SPLICE) {
            Joint.Hold h = chance(0.4) ? Joint.Hold.TAIL : chance(0.5) ? Joint.Hold.DEVICE : Joint.Hold.UNSAID;
            j.hold = h;
            if (h != Joint.Hold.UNSAID) {
                j.holders.add(terminal);
            }
        } else if (j.hold == Joint.Hold.TAIL) {
            j.holders.add(terminal);
        }
    }

    void attachGround(OpenJoint ground, String terminal) {
        if (!ground.members.isEmpty()) {
            ground.add(terminal);
            if (ground.hold == Joint.Hold.SPLICE || ground.hold == Joint.Hold.TAIL) {
                ground.held(Joint.Hold.TAIL, terminal);
            }
        }
    }

    void plain(Place at, String kind) {
        String d = house.device(at.box, kind);
        boolean duplex = kind.equals("duplex-receptacle");
        attach(at.hot, d + (duplex ? ".top.hot" : ".hot"));
        attach(at.neutral, d + (duplex ? ".top.neutral" : ".neutral"));
        attachGround(at.ground, d + ".ground");
        loads += duplex ? 2 : 1;
    }

    /** Onward wires on a duplex's other screws: the device carries what is behind it. */
    private List<Spot> throughDevice(Place at, boolean more) {
        String d = house.device(at.box, "duplex-receptacle");
        attach(at.hot, d + ".top.hot");
        attach(at.neutral, d + ".top.neutral");
        attachGround(at.ground, d + ".ground");
        loads += 2;
        if (!more) {
            return List.of();
        }
        OpenJoint hot = house.joint(at.box);
        OpenJoint neutral = chance(0.7) ? house.joint(at.box) : at.neutral;
        Spot s = extend(new Place(at.box, hot, neutral, at.ground, at.circuit));
        attach(hot, d + ".bottom.hot");
        if (neutral != at.neutral) {
            attach(neutral, d + ".bottom.neutral");
        }
        return List.of(s);
    }

    private List<Spot> protective(Place at, boolean more) {
        String kind = chance(0.2) ? "dead-front" : chance(0.3) ? "dual-function-receptacle" : "ground-fault-receptacle";
        String d = house.device(at.box, kind);
        loads += kind.equals("dead-front") ? 0 : 1;
        boolean swapped = chance(0.15);
        String in = swapped ? ".load" : ".line";
        String out = swapped ? ".line" : ".load";
        attach(at.hot, d + in + ".hot");
        attach(at.neutral, d + in + ".neutral");
        attachGround(at.ground, d + ".ground");
        if (!more) {
            return List.of();
        }
        OpenJoint hot = house.joint(at.box);
        int fault = random.nextInt(12);
        OpenJoint neutral = fault == 0 ? at.neutral : house.joint(at.box);
        Spot s = extend(new Place(at.box, hot, neutral, at.ground, at.circuit));
        attach(hot, d + out + ".hot");
        if (neutral != at.neutral) {
            // Whites alone swapped, or the load neutral left out, or in order.
            attach(neutral, d + out + ".neutral");
        }
        return List.of(s);
    }

    private void light(String box, String hot, String neutral, @Nullable String ground) {
        String d = house.device(box, "luminaire");
        attach(house.joint(box, hot), d + ".hot");
        attach(house.joint(box, neutral), d + ".neutral");
        if (ground != null) {
            attachGround(house.joint(box, ground), d + ".ground");
        }
        loads++;
    }

    private void switchedLight(Place at, String kind) {
        String sw = house.device(at.box, kind);
        attach(at.hot, sw + ".line");
        if (kind.equals("smart-switch")) {
            attach(at.neutral, sw + ".neutral");
            loads++;
        }
        attachGround(at.ground, sw + ".ground");
        OpenJoint switched = house.joint(at.box);
        Spot s = extend(new Place(at.box, switched, at.neutral, at.ground, at.circuit));
        attach(switched, sw + ".load");
        light(s.box, s.hot, s.neutral, s.ground);
    }

    private void switchLoop(Place at) {
        String box = house.box();
        String c = house.cable(CableKind.NM, at.box, box, "black", "white");
        at.hot.add(c + ".white");
        String sw = house.device(box, "single-pole-switch");
        attach(house.joint(box, c + ".white"), sw + ".line");
        attach(house.joint(box, c + ".black"), sw + ".load");
        String d = house.device(at.box, "luminaire");
        attach(house.joint(at.box, c + ".black"), d + ".hot");
        attach(at.neutral, d + ".neutral");
        attachGround(at.ground, d + ".ground");
        loads++;
    }

    /** Feed at the first switch, the light behind the last, with that many four-ways between. */
    private void threeWay(Place at, int fourWays) {
        String first = house.device(at.box, "three-way-switch");
        attach(at.hot, first + ".common");
        String box = at.box;
        String from = first + ".traveler-";
        OpenJoint neutral = at.neutral;
        for (int i = 0; i <= fourWays; i++) {
            String to = house.box();
            String c = house.cable(CableKind.NM, box, to, "black", "red", "white");
            attach(house.joint(box, c + ".black"), from + "1");
            attach(house.joint(box, c + ".red"), from + "2");
            neutral.add(c + ".white");
            boolean last = i == fourWays;
            String sw = house.device(to, last ? "three-way-switch" : "four-way-switch");
            attach(house.joint(to, c + ".black"), sw + (last ? ".traveler-1" : ".a-1"));
            attach(house.joint(to, c + ".red"), sw + (last ? ".traveler-2" : ".a-2"));
            neutral = house.joint(to, c + ".white");
            box = to;
            from = last ? sw + ".common" : sw + ".b-";
        }
        OpenJoint switched = house.joint(box);
        String end = house.box();
        String c = house.cable(CableKind.NM, box, end, "black", "white");
        attach(switched.add(c + ".black"), from);
        neutral.add(c + ".white");
        light(end, c + ".black", c + ".white", null);
    }

    /** Feed and light in one box, one switch there, the other at the end of a cable of three wires. */
    private void deadEndThreeWay(Place at) {
        String far = house.box();
        String c = house.cable(CableKind.NM, at.box, far, "black", "red", "white");
        String here = house.device(at.box, "three-way-switch");
        String there = house.device(far, "three-way-switch");
        attach(at.hot, here + ".common");
        attach(house.joint(at.box, c + ".red"), here + ".traveler-1");
        attach(house.joint(at.box, c + ".white"), here + ".traveler-2");
        attach(house.joint(far, c + ".red"), there + ".traveler-1");
        attach(house.joint(far, c + ".white"), there + ".traveler-2");
        attach(house.joint(far, c + ".black"), there + ".common");
        String d = house.device(at.box, "luminaire");
        attach(house.joint(at.box, c + ".black"), d + ".hot");
        attach(at.neutral, d + ".neutral");
        loads++;
    }

    /** The old way: each switch chooses hot or neutral for its end of the lamp. */
    private void carter(Place at) {
        String far = house.box();
        String c = house.cable(CableKind.NM, at.box, far, "black", "red", "white");
        String here = house.device(at.box, "three-way-switch");
        String there = house.device(far, "three-way-switch");
        at.hot.add(c + ".black");
        at.neutral.add(c + ".white");
        attach(at.hot, here + ".traveler-1");
        attach(at.neutral, here + ".traveler-2");
        attach(house.joint(far, c + ".black"), there + ".traveler-1");
        attach(house.joint(far, c + ".white"), there + ".traveler-2");
        attach(house.joint(at.box, c + ".red"), here + ".common");
        String d = house.device(far, "luminaire");
        attach(house.joint(far, c + ".red"), d + ".hot");
        attach(house.joint(far, there + ".common"), d + ".neutral");
        loads++;
    }

    private void halfSwitched(Place at) {
        String d = house.device(at.box, "duplex-receptacle", Map.of("hot", false));
        String far = house.box();
        String c = house.cable(CableKind.NM, at.box, far, "black", "white");
        at.hot.add(c + ".black");
        attach(at.hot, d + ".top.hot");
        attach(at.neutral, d + ".top.neutral");
        attachGround(at.ground, d + ".ground");
        attach(house.joint(at.box, c + ".white"), d + ".bottom.hot");
        String sw = house.device(far, "single-pole-switch");
        attach(house.joint(far, c + ".black"), sw + ".line");
        attach(house.joint(far, c + ".white"), sw + ".load");
        loads += 2;
    }

    private void onOneYoke(Place at) {
        String d = house.device(at.box, "switch-and-receptacle", Map.of("hot", chance(0.8)));
        attach(at.hot, d + ".switch.line");
        attach(at.neutral, d + ".receptacle.neutral");
        attachGround(at.ground, d + ".ground");
        OpenJoint switched = house.joint(at.box);
        Spot s = extend(new Place(at.box, switched, at.neutral, at.ground, at.circuit));
        attach(switched, d + ".switch.load");
        light(s.box, s.hot, s.neutral, s.ground);
        loads++;
    }
}
