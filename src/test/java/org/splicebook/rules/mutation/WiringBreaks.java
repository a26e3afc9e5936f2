package org.splicebook.rules.mutation;

import java.util.List;
import org.splicebook.rules.mutation.Break.Kind;
import org.splicebook.rules.mutation.Draft.Box;
import org.splicebook.rules.mutation.Draft.Circuit;
import org.splicebook.rules.mutation.Draft.Joint;

/** Miswirings: neutrals, grounds, switches, devices. */
final class WiringBreaks {
    private WiringBreaks() {}

    static List<Kind> all() {
        return List.of(
                new Kind("neutral lost", b -> {
                    Circuit c = b.touch(b.row());
                    Box x = b.house.box(c.boxes.get(0));
                    String white = c.cables.get(0) + ".white";
                    x.joint(white).members.remove(white);
                    if (x.joint(Break.receptacle(x.name) + ".neutral").members.isEmpty()) {
                        x.joints.remove(x.joint(Break.receptacle(x.name) + ".neutral"));
                    }
                    x.joints.add(Joint.splice(white));
                    Break.halves(Break.receptacle(x.name)).forEach(p -> b.expect("no-return", p));
                }),
                new Kind("ground lost", b -> {
                    Circuit c = b.touch(b.longRow());
                    Box x = b.house.box(c.boxes.get(0));
                    String bare = c.cables.get(0) + ".bare";
                    x.joint(bare).members.remove(bare);
                    x.joints.add(Joint.splice(bare));
                    b.expect("ground-leads-nowhere", Break.receptacle(x.name));
                }),
                new Kind("light without a ground", b -> {
                    b.touch("lights");
                    String light = b.litRoom() + "-ceiling";
                    b.house.box(light).joint(light + "-l.ground").tails.clear();
                    b.expect("no-ground", light + "-l");
                }),
                new Kind("receptacle without a ground", b -> {
                    Circuit c = b.touch(b.row());
                    Box x = b.house.box(b.any(b.receptacleBoxes(c)));
                    x.joint(Break.receptacle(x.name) + ".ground").tails.clear();
                    b.expect("ungrounded-replacement", Break.receptacle(x.name));
                }),
                new Kind("neutral joined to ground", b -> {
                    Circuit c = b.touch(b.row());
                    Box x = b.house.box(c.boxes.get(0));
                    Joint white = x.joint(c.cables.get(0) + ".white");
                    Joint bare = x.joint(c.cables.get(0) + ".bare");
                    white.members.addAll(bare.members);
                    white.tails.addAll(bare.tails);
                    x.joints.remove(bare);
                    b.expect("neutral-to-ground", x.name + ":" + BoxBreaks.first(white));
                }),
                new Kind("false ground", b -> {
                    Circuit c = b.touch(b.row());
                    Box x = b.house.box(b.any(b.receptacleBoxes(c)));
                    String r = Break.receptacle(x.name);
                    x.joint(r + ".ground").tails.clear();
                    x.joint(r + ".neutral").tails.add(r + ".ground");
                    b.expect("false-ground", r);
                }),
                new Kind("grounds not joined", b -> {
                    Circuit c = b.touch(b.longRow());
                    Box x = b.house.box(c.boxes.get(0));
                    String bare = c.cables.get(1) + ".bare";
                    x.joint(bare).members.remove(bare);
                    x.joints.add(Joint.splice(bare));
                    b.expect("grounds-not-joined", x.name);
                }),
                new Kind("switch in the neutral", b -> {
                    Circuit c = b.touch("lights");
                    String box = b.litRoom() + "-switch";
                    Box x = b.house.box(box);
                    String leg = c.legs.get(box);
                    String in = c.cables.get(c.boxes.indexOf(box));
                    Joint black = x.joint(in + ".black");
                    black.tails.clear();
                    black.members.add(leg + ".black");
                    Joint white = x.joint(in + ".white");
                    white.members.remove(leg + ".white");
                    white.tails.add(box + "-s.line");
                    x.joints.remove(x.joint(box + "-s.load"));
                    x.joints.add(Joint.screw(leg + ".white", box + "-s.load"));
                    b.expect("switched-neutral", box + "-s");
                }),
                new Kind("black and white crossed", b -> {
                    Circuit c = b.touch(b.longRow());
                    String k = c.cables.get(1);
                    Box from = b.house.box(c.boxes.get(0));
                    Box to = b.house.box(c.boxes.get(1));
                    swap(from, k + ".black", k + ".white");
                    swap(to, k + ".black", k + ".white");
                    b.expect("hot-in-white", k + ".white");
                }),
                new Kind("bare wire as neutral", b -> {
                    Circuit c = b.touch(b.longRow());
                    String k = c.cables.get(1);
                    Box from = b.house.box(c.boxes.get(0));
                    Box to = b.house.box(c.boxes.get(1));
                    swap(from, k + ".bare", k + ".white");
                    swap(to, k + ".bare", k + ".white");
                    b.expect("ground-colour-not-ground", k + ".bare");
                }),
                new Kind("line and load reversed", b -> {
                    Circuit c = b.touch("yard");
                    Box x = b.house.box("yard-1");
                    swap(x, c.cables.get(0) + ".black", c.cables.get(1) + ".black");
                    swap(x, c.cables.get(0) + ".white", c.cables.get(1) + ".white");
                    b.expect("line-and-load-reversed", "yard-1-r").expect("ground-fault-by-place", "yard-1-r");
                }),
                new Kind("protective receptacle without its neutral", b -> {
                    Circuit c = b.touch("yard");
                    Box x = b.house.box("yard-1");
                    String white = c.cables.get(0) + ".white";
                    x.joints.remove(x.joint(white));
                    x.joints.add(Joint.splice(white));
                    b.expect("protective-device-without-neutral", "yard-1-r");
                }),
                new Kind("protective receptacle failed its test", b -> {
                    b.touch("yard");
                    b.house.tests.add(
                            "{id: t1, date: 2025-05-01, what: trip-button, device: yard-1-r, result: failed}");
                    b.expect("protective-device-failed-its-test", "yard-1-r");
                }),
                new Kind("plain receptacle in the yard", b -> {
                    Circuit c = b.touch("yard");
                    Box x = b.house.box("yard-1");
                    x.devices.get("yard-1-r").put("kind", "duplex-receptacle");
                    x.joints.clear();
                    for (String wire : List.of("black hot", "white neutral", "bare ground")) {
                        String[] w = wire.split(" ");
                        x.joints.add(Joint.splice(c.cables.get(0) + "." + w[0], c.cables.get(1) + "." + w[0])
                                .tail("yard-1-r." + w[1]));
                    }
                    x.devices.get("yard-1-r").put("tabs", "{hot: in, neutral: in}");
                    Break.halves("yard-1-r").forEach(p -> b.expect("ground-fault-by-place", p));
                    Break.halves("yard-2-r").forEach(p -> b.expect("ground-fault-by-place", p));
                }),
                new Kind("receptacle in the yard not made for weather", b -> {
                    b.touch("yard");
                    b.touched.add("house");
                    b.house.box("yard-2").devices.get("yard-2-r").remove("label");
                    b.expect("weather-resistant", "yard-2-r").expect("tamper-resistant", "house");
                }),
                new Kind("tamper-resistant not recorded", b -> {
                    Circuit c = b.touch(b.row());
                    b.touched.add("house");
                    String box = b.any(b.receptacleBoxes(c));
                    b.house.box(box).devices.get(Break.receptacle(box)).remove("label");
                    b.expect("tamper-resistant", "house");
                }),
                new Kind("receptacle of 30 A among others", b -> {
                    Circuit c = b.touch(b.longRow());
                    String box = b.any(b.receptacleBoxes(c));
                    b.house.box(box).devices.get(Break.receptacle(box)).put("rating", "30 A");
                    b.expect("receptacle-rating", Break.receptacle(box));
                }),
                new Kind("receptacle of 20 A on 15 A", b -> {
                    Circuit c = b.touch("living");
                    String box = b.any(b.receptacleBoxes(c));
                    b.house.box(box).devices.get(Break.receptacle(box)).put("rating", "20 A");
                    b.expect("receptacle-rating", Break.receptacle(box));
                }),
                new Kind("furnace on a shared circuit", b -> {
                    Circuit c = b.touch(b.longRow());
                    String box = b.any(b.receptacleBoxes(c));
                    b.house.box(box).devices.get(Break.receptacle(box)).put("load", "furnace");
                    Break.halves(Break.receptacle(box)).forEach(p -> b.expect("circuit-of-its-own", p));
                }),
                new Kind("freezer behind ground-fault protection", b -> {
                    Circuit c = b.touch("garage");
                    String box = b.any(b.receptacleBoxes(c));
                    b.house.box(box).devices.get(Break.receptacle(box)).put("load", "freezer");
                    Break.halves(Break.receptacle(box)).forEach(p -> b.expect("critical-load-behind-ground-fault", p));
                }),
                new Kind("heater too large", b -> {
                    b.touch("heater");
                    b.house.box("heater").devices.get("heater-w").put("watts", "7000");
                    b.expect("load-too-large-for-breaker", "heater-w");
                }),
                new Kind("light without a switch", b -> {
                    Circuit c = b.touch("lights");
                    String room = b.litRoom();
                    String box = room + "-switch";
                    Box x = b.house.box(box);
                    String in = c.cables.get(c.boxes.indexOf(box));
                    String leg = c.legs.get(box);
                    x.devices.clear();
                    x.joints.remove(x.joint(box + "-s.load"));
                    x.joint(in + ".black").tails.clear();
                    x.joint(in + ".black").members.add(leg + ".black");
                    x.joint(in + ".bare").tails.clear();
                    b.expect("lighting-without-switch", room + "-ceiling-l");
                }),
                new Kind("alarm missing", b -> {
                    b.touch("bed-1");
                    b.touched.add("house");
                    Circuit c = b.house.circuit("bed-1");
                    Box x = b.house.box("bed-1-alarm");
                    x.devices.clear();
                    x.joints.forEach(j -> j.tails.clear());
                    b.expect("alarms-by-place", "house");
                }),
                new Kind("two circuits joined", b -> {
                    Circuit one = b.touch("living");
                    Circuit two = b.touch("bed-1");
                    Box x = b.house.box(one.boxes.get(one.boxes.size() - 1));
                    bridge(b, x, one, two, List.of("black", "white", "bare"));
                    b.touched.add("Z2");
                    boolean alike = leg(one) == leg(two);
                    b.receptacleBoxes(one)
                            .forEach(box -> Break.halves(Break.receptacle(box))
                                    .forEach(p -> b.expect(alike ? "fed-by-two-breakers" : "two-legs-joined", p)));
                }),
                new Kind("neutrals of two circuits joined", b -> {
                    Circuit one = b.touch("living");
                    Circuit two = b.touch("bed-1");
                    Box x = b.house.box(one.boxes.get(one.boxes.size() - 1));
                    bridge(b, x, one, two, List.of("white"));
                    b.touched.add("Z2");
                    b.expect("neutrals-joined", island(one, two));
                }),
                new Kind("neutral borrowed", b -> {
                    Circuit one = b.touch("living");
                    Circuit two = b.touch("bed-1");
                    String box = one.boxes.get(one.boxes.size() - 1);
                    Box x = b.house.box(box);
                    bridge(b, x, one, two, List.of("white"));
                    b.touched.add("Z2");
                    String own = one.cables.get(one.cables.size() - 1) + ".white";
                    x.joint(own).members.remove(own);
                    x.joints.add(Joint.splice(own));
                    b.expect("borrowed-neutral", "main:" + two.cables.get(0) + ".white");
                }));
    }

    /** A cable from the last box of one circuit to the first of another, joined there by some of its wires. */
    private static void bridge(Break b, Box x, Circuit one, Circuit two, List<String> wires) {
        Box y = b.house.box(two.boxes.get(0));
        b.house.cables.put(
                "Z2",
                Draft.Part.of(
                        "kind",
                        "NM-B",
                        "wires",
                        "14/2+ground",
                        "ends",
                        "[" + x.name + ", " + y.name + "]",
                        "length",
                        "4 m",
                        "since",
                        "2024",
                        "material",
                        "copper"));
        for (String w : List.of("black", "white", "bare")) {
            boolean joined = wires.contains(w) || w.equals("bare");
            if (joined) {
                x.joint(one.cables.get(one.boxes.indexOf(x.name)) + "." + w)
                        .members
                        .add("Z2." + w);
                y.joint(two.cables.get(0) + "." + w).members.add("Z2." + w);
            } else {
                x.joints.add(Joint.splice("Z2." + w));
                y.joints.add(Joint.splice("Z2." + w));
            }
        }
    }

    /** A neutral island is named by the first of its wires in the panel. */
    private static String island(Circuit one, Circuit two) {
        return java.util.stream.Stream.of(one, two)
                .map(c -> "main:" + c.cables.get(0) + ".white")
                .min(java.util.Comparator.naturalOrder())
                .orElseThrow();
    }

    private static int leg(Circuit c) {
        return (Integer.parseInt(c.breaker) + 1) / 2 % 2;
    }

    private static void swap(Box box, String a, String b) {
        Joint ja = box.joint(a);
        Joint jb = box.joint(b);
        ja.members.set(ja.members.indexOf(a), b);
        jb.members.set(jb.members.indexOf(b), a);
    }
}
