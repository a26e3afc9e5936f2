package org.splicebook.rules.mutation;

import java.util.List;
import org.splicebook.rules.mutation.Break.Kind;
import org.splicebook.rules.mutation.Draft.Box;
import org.splicebook.rules.mutation.Draft.Circuit;
import org.splicebook.rules.mutation.Draft.Joint;
import org.splicebook.rules.mutation.Draft.Part;

/** Breaks of shared neutrals, of loads of two legs, of switch loops, and of devices' terminals. */
final class SharedBreaks {
    private SharedBreaks() {}

    static List<Kind> all() {
        return List.of(
                new Kind("multiwire circuit on two single breakers", b -> {
                    Circuit c = b.touch("dining");
                    single(b, c, spaces(c)[0], spaces(c)[1]);
                    b.expect("multiwire-without-common-disconnect", neutral(c));
                }),
                new Kind("multiwire circuit on one leg", b -> {
                    Circuit c = b.touch("dining");
                    int free = (spaces(c)[0] + 1) / 2 % 2 == 1 ? 25 : 27; // on the leg of the first
                    single(b, c, spaces(c)[0], free);
                    b.expect("neutral-shared-on-one-leg", neutral(c));
                }),
                new Kind("shared neutral on a device's screws", b -> {
                    Circuit c = b.touch("dining");
                    Box x = b.house.box("dining-1");
                    Joint white = x.joint(c.cables.get(0) + ".white");
                    x.joints.remove(white);
                    Joint held =
                            Joint.screw(c.cables.get(0) + ".white", c.cables.get(1) + ".white", "dining-1-r.neutral");
                    held.at = "dining-1-r.neutral";
                    x.joints.add(held);
                    b.expect("shared-neutral-held-by-a-device", "dining-1:" + BoxBreaks.first(held));
                }),
                new Kind("two circuits on one yoke", b -> {
                    Circuit c = b.touch("dining");
                    single(b, c, spaces(c)[0], spaces(c)[1]);
                    Box x = b.house.box("dining-1");
                    x.devices.get("dining-1-r").put("tabs", "{hot: out, neutral: in}");
                    Joint black = x.joint("dining-1-r.hot");
                    black.tails.set(0, "dining-1-r.top.hot");
                    x.joint(c.cables.get(0) + ".red").tail("dining-1-r.bottom.hot");
                    b.expect("two-circuits-on-one-yoke", "dining-1-r");
                }),
                new Kind("tab left in between two hots", b -> {
                    Circuit c = b.touch("dining");
                    Box x = b.house.box("dining-1");
                    x.joint("dining-1-r.hot").tails.set(0, "dining-1-r.top.hot");
                    x.joint(c.cables.get(0) + ".red").tail("dining-1-r.bottom.hot");
                    Break.halves("dining-1-r").forEach(p -> b.expect("two-legs-joined", p));
                }),
                new Kind("water heater on two single breakers", b -> {
                    Circuit c = b.touch("heater");
                    int[] s = spaces(c);
                    b.house.breakers.remove(c.breaker);
                    for (int one : s) {
                        b.house.breakers.put(
                                String.valueOf(one),
                                Part.of("rating", "30 A", "label", "\"Water heater, pole " + one + "\""));
                        b.touched.add("main." + one);
                    }
                    b.expect("two-leg-load-without-common-disconnect", "heater-w");
                }),
                new Kind("range without a ground wire", b -> {
                    Circuit c = b.touch("range");
                    Box x = b.house.box("range");
                    String in = c.cables.get(0);
                    x.devices.get("range-r").put("kind", "receptacle-120-240-old");
                    Joint ground = x.joint(in + ".bare");
                    x.joints.remove(ground);
                    x.joints.add(Joint.splice(in + ".bare"));
                    b.expect("frame-on-neutral", "range-r");
                }),
                new Kind("switch loop without a neutral", b -> {
                    Circuit c = b.touch("lights");
                    String in = c.cables.get(3);
                    String leg = c.legs.get("bath-switch");
                    Box before = b.house.box(c.boxes.get(2));
                    b.house.cable(in).put("ends", "[" + before.name + ", bath-ceiling]");
                    Box sw = b.house.box("bath-switch");
                    Box light = b.house.box("bath-ceiling");
                    sw.joints.clear();
                    sw.joints.add(Joint.screw(leg + ".white", "bath-switch-s.line"));
                    sw.joints.add(Joint.screw(leg + ".black", "bath-switch-s.load"));
                    sw.joints.add(Joint.splice(leg + ".bare").tail("bath-switch-s.ground"));
                    light.joints.clear();
                    light.joints.add(Joint.splice(in + ".black", leg + ".white"));
                    light.joints.add(Joint.splice(leg + ".black").tail("bath-ceiling-l.hot"));
                    light.joints.add(Joint.splice(in + ".white").tail("bath-ceiling-l.neutral"));
                    light.joints.add(Joint.splice(in + ".bare", leg + ".bare").tail("bath-ceiling-l.ground"));
                    b.expect("no-neutral-at-switch", "bath-switch-s").expect("hot-in-white", leg + ".white");
                }),
                new Kind("hot and neutral reversed at a receptacle", b -> {
                    Circuit c = b.touch(b.row());
                    Box x = b.house.box(b.any(b.receptacleBoxes(c)));
                    String r = Break.receptacle(x.name);
                    Joint hot = x.joint(r + ".hot");
                    Joint neutral = x.joint(r + ".neutral");
                    hot.tails.set(0, r + ".neutral");
                    neutral.tails.set(0, r + ".hot");
                    b.expect("hot-and-neutral-reversed", r);
                }),
                new Kind("hot and neutral reversed at a light", b -> {
                    b.touch("lights");
                    String light = b.litRoom() + "-ceiling";
                    Box x = b.house.box(light);
                    Joint hot = x.joint(light + "-l.hot");
                    Joint neutral = x.joint(light + "-l.neutral");
                    hot.tails.set(0, light + "-l.neutral");
                    neutral.tails.set(0, light + "-l.hot");
                    b.expect("hot-and-neutral-reversed", light + "-l");
                }),
                new Kind("hot on a ground terminal", b -> {
                    Circuit c = b.touch(b.row());
                    Box x = b.house.box(b.any(b.receptacleBoxes(c)));
                    String r = Break.receptacle(x.name);
                    x.joint(r + ".ground").tails.clear();
                    x.joint(r + ".hot").tails.add(r + ".ground");
                    b.expect("false-ground", r);
                }),
                new Kind("dimmer before a receptacle", b -> {
                    b.touch("lights");
                    String room = b.litRoom();
                    b.house.box(room + "-switch").devices.put(room + "-switch-s", Part.of("kind", "dimmer"));
                    b.house
                            .box(room + "-ceiling")
                            .devices
                            .put(
                                    room + "-ceiling-l",
                                    Part.of(
                                            "kind",
                                            "single-receptacle",
                                            "rating",
                                            "15 A",
                                            "label",
                                            "tamper-resistant"));
                    b.expect("dimmer-on-receptacle", room + "-switch-s");
                }),
                new Kind("protective receptacle in a crawl space", b -> {
                    b.touch("yard");
                    b.house.places.put("crawl", Part.of("name", "Crawl space", "kind", "crawl-space"));
                    b.house.box("yard-1").keys.put("place", "crawl");
                    b.expect("protective-device-out-of-reach", "yard-1-r");
                }),
                new Kind("alarm without a light on its circuit", b -> {
                    Circuit c = b.touch("bed-1");
                    for (String box : List.of("bed-1-switch", "bed-1-ceiling")) {
                        Box x = b.house.box(box);
                        x.devices.clear();
                        x.joints.forEach(j -> j.tails.clear());
                        x.joints.stream()
                                .filter(j -> j.members.size() > 1)
                                .forEach(j -> j.members.removeIf(m -> m.startsWith("bed-1")));
                    }
                    b.expect("alarm-shares-a-circuit", "main." + c.breaker);
                }),
                new Kind("no main", b -> {
                    b.house.panel.remove("main");
                    b.touched.add("main");
                    b.expect("too-many-throws", "main");
                }),
                new Kind("tandem breakers", b -> {
                    b.house.breakers.put("29a", Part.of("rating", "15 A", "label", "Unused a"));
                    b.house.breakers.put("29b", Part.of("rating", "15 A", "label", "Unused b"));
                    b.touched.addAll(List.of("main", "main.29a", "main.29b"));
                    b.expect("tandem-limit", "main");
                }),
                new Kind("return in another cable", b -> {
                    Circuit c = b.touch(b.longRow());
                    Box x = b.house.box(c.boxes.get(0));
                    Box y = b.house.box(c.boxes.get(1));
                    String k = c.cables.get(1);
                    b.house.cables.put(
                            "Z3",
                            Part.of(
                                    "kind",
                                    "NM-B",
                                    "wires",
                                    c.size + "/2+ground",
                                    "ends",
                                    "[" + x.name + ", " + y.name + "]",
                                    "length",
                                    "2 m",
                                    "since",
                                    "2024",
                                    "material",
                                    "copper"));
                    b.touched.add("Z3");
                    for (Box each : List.of(x, y)) {
                        Joint white = each.joint(k + ".white");
                        white.members.set(white.members.indexOf(k + ".white"), "Z3.white");
                        each.joint(k + ".bare").members.add("Z3.bare");
                        each.joints.add(Joint.splice("Z3.black"));
                        each.joints.add(Joint.splice(k + ".white"));
                    }
                    b.expect("return-in-another-cable", "main:" + c.cables.get(0) + ".white");
                }));
    }

    private static int[] spaces(Circuit c) {
        String[] both = c.breaker.split("\\+");
        return new int[] {Integer.parseInt(both[0]), Integer.parseInt(both[1])};
    }

    private static String neutral(Circuit c) {
        return "main:" + c.cables.get(0) + ".white";
    }

    /** Two plain breakers without a tie instead of the two-pole one, with the neutral on the bar. */
    private static void single(Break b, Circuit c, int black, int red) {
        String in = c.cables.get(0);
        b.house.breakers.remove(c.breaker);
        b.house.breakers.put(String.valueOf(black), Part.of("rating", "20 A", "label", "\"Dining room, first box\""));
        b.house.breakers.put(String.valueOf(red), Part.of("rating", "20 A", "label", "\"Dining room, second box\""));
        b.touched.add("main." + black);
        b.touched.add("main." + red);
        b.house.landing(in + ".red").members.set(0, String.valueOf(red));
        b.house.landing(in + ".white").members.set(0, "n");
    }
}
