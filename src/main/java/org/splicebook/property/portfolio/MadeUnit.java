package org.splicebook.property.portfolio;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.record.House;

/** One made-up apartment: some forty load points on eleven circuits, with what older buildings hold. */
final class MadeUnit {
    private final Random random;
    private final UnitText y = new UnitText();
    private final StringBuilder places = new StringBuilder();
    private final boolean isGrounded;
    private final boolean isAluminium;
    private int receptacles;
    private int lights;

    private MadeUnit(long seed) {
        this.random = new Random(seed * 6_364_136_223_846_793_005L + 1);
        this.isGrounded = chance(70);
        this.isAluminium = chance(8);
    }

    /** {@return the apartment of a seed} */
    static House of(long seed, String id, String name, int level) {
        String text = new MadeUnit(seed).text(id, name, level);
        return HouseFiles.parse(id, text).get();
    }

    private boolean chance(int percent) {
        return random.nextInt(100) < percent;
    }

    private String text(String id, String name, int level) {
        boolean isSmall = chance(35);
        for (String place : List.of("kitchen", "dining", "living", "hall", "bath=bathroom", "bed-1=bedroom")) {
            place(place, level);
        }
        if (!isSmall) {
            place("bed-2=bedroom", level);
        }
        kitchen();
        living(isSmall);
        String borrowed = bedroom("bed-1", chance(6));
        if (!isSmall) {
            bedroom("bed-2", false);
        }
        hall(borrowed);
        bath();
        heavy();
        String head = "house: %s%nname: %s%nbuilt: %d%ncode: {country: US, edition: 2023}%narea: %d m2%n"
                .formatted(
                        id,
                        name,
                        isAluminium ? 1965 + random.nextInt(7) : 1930 + random.nextInt(50),
                        45 + random.nextInt(40));
        return y.write(
                head,
                "{kind: riser, system: split-phase 120/240, rating: " + (chance(50) ? 60 : 100) + " A}",
                places.toString(),
                "hall",
                chance(85));
    }

    private void place(String said, int level) {
        String[] parts = said.split("=");
        places.append("  %s: {kind: %s, level: %d}%n".formatted(parts[0], parts[parts.length - 1], level));
    }

    private String wires(int size, int conductors, boolean hasGround) {
        return size + "/" + conductors + (hasGround ? "+ground" : "");
    }

    private String more() {
        return isAluminium ? ", material: aluminium" : "";
    }

    /** Two counter circuits that share a neutral, and a circuit for what is built in. */
    private void kitchen() {
        List<String> pair = y.twoBreakers(20, "Counters", chance(60));
        String first = y.cable(wires(12, 3, true), "main", "counter-1", 6 + random.nextInt(5), "");
        y.land(pair.get(0), first + ".black");
        y.land(pair.get(1), first + ".red");
        y.bars(first, true, true);
        String next = y.cable("12/2+ground", "counter-1", "counter-2", 3, "");
        y.box(
                "counter-1",
                "kitchen",
                List.of("counter-gf: {kind: ground-fault-receptacle}"),
                List.of(
                        "[" + first + ".black, counter-gf.line.hot]",
                        "{join: [" + first + ".white, " + next + ".white], tail: counter-gf.line.neutral}",
                        "{join: [" + first + ".bare, " + next + ".bare], tail: counter-gf.ground}",
                        "{join: [" + first + ".red, " + next + ".black]}"));
        if (chance(60)) {
            y.passed("counter-gf", "202" + (3 + random.nextInt(4)) + "-0" + (1 + random.nextInt(9)) + "-15");
        }
        receptacles(next, "counter-2", "kitchen", 2 + random.nextInt(2), true, "");
        String space = y.breaker(20, "Kitchen", "");
        String in = y.cable("12/2+ground", "main", "fridge", 8, "");
        y.land(space, in + ".black");
        y.bars(in, true, true);
        receptacles(in, "fridge", "kitchen", 2, true, "");
    }

    /** Receptacles of two rooms on two breakers that share a neutral; one of them is split between both. */
    private void living(boolean isSmall) {
        List<String> pair = y.twoBreakers(20, "Living and dining", chance(40));
        String in = y.cable(wires(12, 3, isGrounded), "main", "split", 9, more());
        y.land(pair.get(0), in + ".black");
        y.land(pair.get(1), in + ".red");
        y.bars(in, true, isGrounded);
        String next = y.cable(wires(12, 2, isGrounded), "split", "living-1", 4, more());
        List<String> joints = new ArrayList<>(List.of(
                "[" + in + ".black, split-lamp.top.hot]",
                "{join: [" + in + ".red, " + next + ".black], tail: split-lamp.bottom.hot}",
                "{join: [" + in + ".white, " + next + ".white], tail: split-lamp.neutral}"));
        if (isGrounded) {
            joints.add("{join: [" + in + ".bare, " + next + ".bare], tail: split-lamp.ground}");
        }
        y.box(
                "split",
                "dining",
                List.of("split-lamp: {kind: duplex-receptacle, tabs: {hot: out, neutral: in}}"),
                joints);
        receptacles(next, "living-1", "living", isSmall ? 3 : 4 + random.nextInt(2), isGrounded, more());
    }

    /** Receptacles and a switched light; {@return a cable to the hall whose white is borrowed there, or empty}. */
    private String bedroom(String place, boolean lends) {
        String space = y.breaker(15, place, chance(30) ? ", protects: [arc-fault]" : "");
        String in = y.cable(wires(14, 2, isGrounded), "main", place + "-door", 10, more());
        y.land(space, in + ".black");
        y.bars(in, true, isGrounded);
        String on = switched(in, place, place + "-door", chance(50));
        return receptacles(on, place + "-wall", place, 3 + random.nextInt(3), isGrounded, more(), lends);
    }

    /** A switch with its light, fed by a cable; {@return the cable that goes on from there to the box of that place's walls}. */
    private String switched(String in, String place, String box, boolean isLoop) {
        String light = "light-" + ++lights;
        String on = y.cable(wires(14, 2, isGrounded), box, place + "-wall", 4, more());
        String to = y.cable(wires(14, 2, isGrounded), box, light + "-box", 3, more());
        String hots = in + ".black, " + on + ".black";
        List<String> joints = new ArrayList<>();
        if (isLoop) {
            // The light hangs where the power comes in, and the switch at the end of a cable: no neutral in its box.
            joints.add("{join: [" + hots + ", " + to + ".white]}");
            joints.add("[" + to + ".black, " + light + ".hot]");
            joints.add("{join: [" + in + ".white, " + on + ".white], tail: " + light + ".neutral}");
            grounds(joints, light, in, on, to);
            y.box(box, place, List.of(light + ": {kind: luminaire}"), joints);
            List<String> far = new ArrayList<>(List.of(
                    "[" + to + ".white, sw-" + lights + ".line]", "[" + to + ".black, sw-" + lights + ".load]"));
            grounds(far, "sw-" + lights, to);
            y.box(light + "-box", place, List.of("sw-" + lights + ": {kind: single-pole-switch}"), far);
        } else {
            joints.add("{join: [" + hots + "], tail: sw-" + lights + ".line}");
            joints.add("[" + to + ".black, sw-" + lights + ".load]");
            joints.add("{join: [" + in + ".white, " + on + ".white, " + to + ".white]}");
            grounds(joints, "sw-" + lights, in, on, to);
            y.box(box, place, List.of("sw-" + lights + ": {kind: single-pole-switch}"), joints);
            List<String> far = new ArrayList<>(
                    List.of("[" + to + ".black, " + light + ".hot]", "[" + to + ".white, " + light + ".neutral]"));
            grounds(far, light, to);
            y.box(light + "-box", place, List.of(light + ": {kind: luminaire}"), far);
        }
        return on;
    }

    private void grounds(List<String> joints, String device, String... cables) {
        if (isGrounded) {
            joints.add("{join: [" + String.join(".bare, ", cables) + ".bare], tail: " + device + ".ground}");
        }
    }

    private void receptacles(String in, String box, String place, int many, boolean isGround, String more) {
        String unused = receptacles(in, box, place, many, isGround, more, false);
    }

    /** Receptacles one behind the other from a box on; {@return the cable that goes on from the last, if it is to}. */
    private String receptacles(
            String first, String firstBox, String place, int many, boolean isGround, String more, boolean goesOn) {
        String in = first;
        String box = firstBox;
        for (int i = 0; i < many; i++) {
            String name = "r" + ++receptacles;
            boolean isLast = i == many - 1;
            String nextBox = isLast ? "hall-light-box" : name + "-next";
            String out = isLast && !goesOn ? "" : y.cable(wires(14, 2, isGround), box, nextBox, 3, more);
            List<String> joints = new ArrayList<>();
            boolean isThrough = chance(30) && !out.isEmpty();
            for (String wire : isGround
                    ? List.of("black hot", "white neutral", "bare ground")
                    : List.of("black hot", "white neutral")) {
                String[] to = wire.split(" ");
                if (isThrough && !to[0].equals("bare")) {
                    // In by one screw and out by the other: the receptacle itself carries what comes after it.
                    joints.add("[" + in + "." + to[0] + ", " + name + ".top." + to[1] + "]");
                    joints.add("[" + out + "." + to[0] + ", " + name + ".bottom." + to[1] + "]");
                } else {
                    joints.add("{join: [" + in + "." + to[0] + (out.isEmpty() ? "" : ", " + out + "." + to[0])
                            + "], tail: " + name + "." + to[1] + "}");
                }
            }
            y.box(box, place, List.of(name + ": {kind: duplex-receptacle, tabs: {hot: in, neutral: in}}"), joints);
            in = out;
            box = nextBox;
        }
        return goesOn ? in : "";
    }

    /** A light that is switched from two places; its neutral may be borrowed from a bedroom. */
    private void hall(String borrowed) {
        String space = y.breaker(15, "Hall", "");
        String in = y.cable(wires(14, 2, isGrounded), "main", "hall-near", 3, more());
        y.land(space, in + ".black");
        y.bars(in, true, isGrounded);
        String between = y.cable(wires(14, 3, isGrounded), "hall-near", "hall-far", 5, more());
        String to = y.cable(wires(14, 2, isGrounded), "hall-far", "hall-light-box", 3, more());
        List<String> near = new ArrayList<>(List.of(
                "[" + in + ".black, near.common]",
                "[" + between + ".black, near.traveler-1]",
                "[" + between + ".red, near.traveler-2]",
                "{join: [" + in + ".white, " + between + ".white]}"));
        grounds(near, "near", in, between);
        List<String> far = new ArrayList<>(List.of(
                "[" + between + ".black, far.traveler-1]",
                "[" + between + ".red, far.traveler-2]",
                "[" + to + ".black, far.common]",
                "{join: [" + between + ".white, " + to + ".white]}"));
        grounds(far, "far", between, to);
        List<String> light = new ArrayList<>(List.of("[" + to + ".black, hall-light.hot]"));
        if (borrowed.isEmpty()) {
            light.add("[" + to + ".white, hall-light.neutral]");
            grounds(light, "hall-light", to);
        } else {
            light.add("[" + to + ".white]");
            light.add("[" + borrowed + ".white, hall-light.neutral]");
            light.add("[" + borrowed + ".black]");
            grounds(light, "hall-light", to, borrowed);
        }
        y.box("hall-near", "hall", List.of("near: {kind: three-way-switch}"), near);
        y.box("hall-far", "hall", List.of("far: {kind: three-way-switch}"), far);
        y.box("hall-light-box", "hall", List.of("hall-light: {kind: luminaire}"), light);
    }

    /** A protective receptacle, old or of today, with a light and a fan behind or beside it. */
    private void bath() {
        String space = y.breaker(20, "Bath", "");
        String in = y.cable(wires(12, 2, isGrounded), "main", "bath-basin", 7, "");
        y.land(space, in + ".black");
        y.bars(in, true, isGrounded);
        boolean isProtected = chance(70);
        boolean isBehind = chance(50);
        String on = y.cable(wires(14, 2, isGrounded), "bath-basin", "bath-door", 3, "");
        List<String> joints = new ArrayList<>();
        for (String wire : List.of("black hot", "white neutral")) {
            String[] to = wire.split(" ");
            if (isProtected && isBehind) {
                joints.add("[" + in + "." + to[0] + ", bath-gf.line." + to[1] + "]");
                joints.add("[" + on + "." + to[0] + ", bath-gf.load." + to[1] + "]");
            } else {
                joints.add("{join: [" + in + "." + to[0] + ", " + on + "." + to[0] + "], tail: "
                        + (isProtected ? "bath-gf.line." : "bath-old.") + to[1] + "}");
            }
        }
        grounds(joints, isProtected ? "bath-gf" : "bath-old", in, on);
        y.box(
                "bath-basin",
                "bath",
                List.of(
                        isProtected
                                ? "bath-gf: {kind: ground-fault-receptacle}"
                                : "bath-old: {kind: duplex-receptacle, tabs: {hot: in, neutral: in}}"),
                joints);
        if (isProtected && chance(50)) {
            y.passed("bath-gf", "2026-0" + (1 + random.nextInt(9)) + "-20");
        }
        receptacles(switched(on, "bath", "bath-door", false), "bath-wall", "bath", 1, isGrounded, "");
    }

    /** What takes both legs, and the alarm. */
    private void heavy() {
        List<String> pair = y.twoPole(40, "Range");
        boolean isOld = chance(40);
        String range = y.cable(wires(8, 3, !isOld), "main", "range-wall", 7, "");
        y.land(pair.get(0), range + ".black");
        y.land(pair.get(1), range + ".red");
        y.bars(range, true, !isOld);
        List<String> joints = new ArrayList<>(List.of(
                "[" + range + ".black, range.hot-1]",
                "[" + range + ".red, range.hot-2]",
                "[" + range + ".white, range.neutral]"));
        if (!isOld) {
            joints.add("[" + range + ".bare, range.ground]");
        }
        y.box(
                "range-wall",
                "kitchen",
                List.of("range: {kind: " + (isOld ? "receptacle-120-240-old" : "receptacle-120-240") + "}"),
                joints);
        List<String> cool = y.twoPole(20, "Window unit");
        String unit = y.cable("12/2+ground", "main", "window", 9, "");
        y.land(cool.get(0), unit + ".black");
        y.land(cool.get(1), unit + ".white");
        y.bars(unit, false, true);
        y.box(
                "window",
                "living",
                List.of("cooling: {kind: receptacle-240}"),
                List.of(
                        "[" + unit + ".black, cooling.hot-1]",
                        "[" + unit + ".white, cooling.hot-2]",
                        "[" + unit + ".bare, cooling.ground]"));
        String space = y.breaker(15, "Alarm", "");
        String alarm = y.cable("14/2+ground", "main", "alarm-box", 4, "");
        y.land(space, alarm + ".black");
        y.bars(alarm, true, true);
        y.box(
                "alarm-box",
                "hall",
                List.of("alarm: {kind: smoke-alarm}"),
                List.of(
                        "[" + alarm + ".black, alarm.hot]",
                        "[" + alarm + ".white, alarm.neutral]",
                        "[" + alarm + ".bare, alarm.ground]"));
    }
}
