package org.splicebook.rules.mutation;

import java.util.List;
import org.splicebook.rules.mutation.Break.Kind;
import org.splicebook.rules.mutation.Draft.Box;
import org.splicebook.rules.mutation.Draft.Circuit;
import org.splicebook.rules.mutation.Draft.Joint;
import org.splicebook.rules.mutation.Draft.Part;

/** Breaks of boxes, wires and connections. */
final class BoxBreaks {
    private BoxBreaks() {}

    static List<Kind> all() {
        return List.of(
                new Kind("box buried", b -> {
                    Box x = box(b);
                    x.keys.put("hidden", "yes");
                    b.expect("hidden-box", x.name);
                }),
                new Kind("box set deep", b -> {
                    Box x = box(b);
                    x.shell.put("depth", "12 mm");
                    b.expect("box-set-back", x.name);
                }),
                new Kind("one cable more was counted", b -> {
                    Box x = box(b);
                    x.keys.put("cable-entries", "5");
                    b.expect("cable-not-found-in-box", x.name);
                }),
                new Kind("no box", b -> {
                    Circuit c = b.touch(b.longRow());
                    Box x = b.house.box(c.boxes.get(0));
                    x.shell.put("none", "");
                    b.expect("splice-without-box", x.name);
                }),
                new Kind("box too small", b -> {
                    Box x = box(b);
                    x.shell.put("volume", "7.5 in3");
                    b.expect("box-too-full", x.name);
                }),
                new Kind("metal box without a ground", b -> {
                    Box x = box(b);
                    x.shell.put("material", "steel");
                    b.expect("metal-box-without-ground", x.name);
                }),
                new Kind("pushed into the back", b -> {
                    Box x = box(b);
                    Joint j = x.joints.get(0);
                    String wire = j.members.get(0);
                    x.joints.set(0, Joint.screw(wire, j.tails.get(0)));
                    x.joints.get(0).by = "push-in";
                    j.members.stream().skip(1).forEach(x.joints.get(0).members::add);
                    b.expect("push-in-connection", x.name + ":" + first(x.joints.get(0)));
                }),
                new Kind("joined somehow", b -> {
                    Box x = box(b);
                    x.joints.get(0).by = "other";
                    b.expect("connector-not-made-for-it", x.name + ":" + first(x.joints.get(0)));
                }),
                new Kind("aluminium cable", b -> {
                    Circuit c = b.touch(b.row(12));
                    String k = c.cables.get(0);
                    b.house.cable(k).put("material", "aluminium");
                    b.expect("aluminium-branch-wire", k).expect("wire-too-small", k + ".black");
                }),
                new Kind("aluminium under a wire nut with copper", b -> {
                    Circuit c = b.touch(b.any(List.of("kitchen-a", "kitchen-b", "garage")));
                    String k = c.cables.get(1);
                    b.house.cable(k).put("material", "aluminium");
                    Box x = b.house.box(c.boxes.get(0));
                    b.expect("copper-and-aluminium-together", x.name + ":" + first(x.joint(k + ".black")))
                            .expect("aluminium-branch-wire", k);
                }),
                new Kind("thin cable in the middle", b -> {
                    Circuit c = b.touch(b.any(List.of("kitchen-a", "kitchen-b", "garage")));
                    String k = c.cables.get(c.cables.size() - 1);
                    b.house.cable(k).put("wires", "14/2+ground");
                    b.expect("wire-too-small", k + ".black");
                }),
                new Kind("thin ground", b -> {
                    Circuit c = b.touch(b.row(14));
                    String k = c.cables.get(0);
                    b.house
                            .cable(k)
                            .put(
                                    "wires",
                                    "{black: {colour: black, size: 14}, white: {colour: white, size: 14}, bare: {colour: bare, size: 16}}");
                    b.expect("ground-too-small", k);
                }),
                new Kind("hot end left open", b -> {
                    Circuit c = b.touch(b.longRow());
                    String wire = c.cables.get(1) + ".black";
                    b.house.box(c.boxes.get(0)).joint(wire).members.remove(wire);
                    b.expect("open-wire-end", wire + " in " + c.boxes.get(0));
                }),
                new Kind("live cable to nowhere", b -> {
                    Circuit c = b.touch(b.row());
                    Box x = b.house.box(c.boxes.get(0));
                    b.house.cables.put(
                            "Z1",
                            Part.of(
                                    "kind",
                                    "NM-B",
                                    "wires",
                                    c.size + "/2+ground",
                                    "ends",
                                    "[" + x.name + ", \"?\"]",
                                    "since",
                                    "2024",
                                    "material",
                                    "copper"));
                    b.touched.add("Z1");
                    x.joint(c.cables.get(0) + ".black").members.add("Z1.black");
                    x.joint(c.cables.get(0) + ".white").members.add("Z1.white");
                    x.joint(c.cables.get(0) + ".bare").members.add("Z1.bare");
                    b.expect("live-cable-end-not-found", "Z1");
                }),
                new Kind("cord in the wall", b -> {
                    Circuit c = b.touch(b.longRow());
                    b.house.cable(c.cables.get(1)).put("kind", "cord");
                    b.expect("cord-as-wiring", c.cables.get(1));
                }),
                new Kind("age of a cable not recorded", b -> {
                    Circuit c = b.touch(b.row());
                    b.house.cable(c.cables.get(0)).remove("since");
                    b.touched.add("house");
                    b.expect("age-not-recorded", "house");
                }),
                new Kind("very long run", b -> {
                    Circuit c = b.touch(b.row());
                    b.house.cable(c.cables.get(0)).put("length", "90 m");
                    b.receptacleBoxes(c)
                            .forEach(x -> Break.halves(Break.receptacle(x)).forEach(p -> b.expect("voltage-drop", p)));
                }));
    }

    private static Box box(Break b) {
        Circuit c = b.touch(b.row());
        return b.house.box(b.any(b.receptacleBoxes(c)));
    }

    /** {@return the member of a joint by which a finding names it: the first by name} */
    static String first(Joint j) {
        return java.util.stream.Stream.concat(j.members.stream(), j.tails.stream())
                .sorted()
                .findFirst()
                .orElseThrow();
    }
}
