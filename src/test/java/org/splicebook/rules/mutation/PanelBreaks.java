package org.splicebook.rules.mutation;

import java.util.List;
import org.splicebook.rules.mutation.Break.Kind;
import org.splicebook.rules.mutation.Draft.Circuit;
import org.splicebook.rules.mutation.Draft.Joint;

/** Breaks at the panel: breakers, labels, landings, the service. */
final class PanelBreaks {
    private PanelBreaks() {}

    static List<Kind> all() {
        return List.of(
                new Kind("breaker too large", b -> {
                    String name = b.row(14);
                    Circuit c = b.touch(name);
                    b.house.breaker(c.breaker).put("rating", "30 A");
                    c.cables.forEach(k -> b.expect("wire-too-small", k + ".black"));
                }),
                new Kind("label says nothing", b -> label(b, "Misc", "directory-wording")),
                new Kind("label names a person", b -> label(b, "Kids room", "directory-wording")),
                new Kind("label missing", b -> {
                    Circuit c = b.touch(b.row());
                    b.house.breaker(c.breaker).remove("label");
                    b.expect("directory-line-missing", "main." + c.breaker);
                }),
                new Kind("label says spare", b -> label(b, "Spare", "spare-that-feeds")),
                new Kind("labels alike", b -> {
                    Circuit one = b.touch("living");
                    Circuit two = b.touch("garage");
                    b.house
                            .breaker(two.breaker)
                            .put("label", b.house.breaker(one.breaker).get("label"));
                    b.expect(
                            "directory-lines-alike",
                            "main." + Math.min(Integer.parseInt(one.breaker), Integer.parseInt(two.breaker)));
                }),
                new Kind("arc-fault protection gone", b -> {
                    Circuit c = b.touch(b.any(List.of("living", "bed-1")));
                    unprotect(b, c);
                    b.expect("arc-fault-by-room", "main." + c.breaker);
                }),
                new Kind("arc-fault protection of the lights gone", b -> {
                    Circuit c = b.touch("lights");
                    unprotect(b, c);
                    b.expect("arc-fault-by-room", "main." + c.breaker);
                }),
                new Kind("ground-fault protection gone", b -> {
                    Circuit c = b.touch(b.any(List.of("bath", "garage", "kitchen-a", "kitchen-b", "wash")));
                    unprotect(b, c);
                    b.receptacleBoxes(c)
                            .forEach(x -> Break.halves(Break.receptacle(x))
                                    .forEach(p -> b.expect("ground-fault-by-place", p)));
                }),
                new Kind("ground-fault protection of the range gone", b -> {
                    Circuit c = b.touch("range");
                    b.house.breaker(c.breaker).remove("protects");
                    String white = c.cables.get(0) + ".white";
                    Joint j = b.house.landing(white);
                    j.members.remove(0);
                    j.members.add(0, "n");
                    b.expect("ground-fault-by-equipment", "range-r");
                }),
                new Kind("bath on 15 A", b -> rating(b, "bath", "bathroom-circuit", true)),
                new Kind("wash room on 15 A", b -> rating(b, "wash", "laundry-circuit", true)),
                new Kind("garage on 15 A", b -> rating(b, "garage", "garage-circuit", true)),
                new Kind("kitchen counter on 15 A", b -> {
                    Circuit c = b.touch(b.any(List.of("kitchen-a", "kitchen-b")));
                    b.touch("kitchen-a");
                    b.touch("kitchen-b");
                    b.touched.add("kitchen");
                    b.house.breaker(c.breaker).put("rating", "15 A");
                    b.expect("small-appliance-circuits", "kitchen");
                }),
                new Kind("range on 30 A", b -> {
                    Circuit c = b.touch("range");
                    b.house.breaker(c.breaker).put("rating", "30 A");
                    b.expect("load-too-large-for-breaker", "range-r");
                }),
                new Kind("two-pole breaker on one leg", b -> {
                    Circuit c = b.touch("heater");
                    String[] s = c.breaker.split("\\+");
                    int first = Integer.parseInt(s[0]);
                    String key = first + "+" + (first + 4);
                    b.house.breakers.put(key, b.house.breaker(c.breaker));
                    b.house.breakers.remove(c.breaker);
                    Joint j = b.house.landing(c.cables.get(0) + ".red");
                    j.members.set(0, String.valueOf(first + 4));
                    b.touched.add("main." + key);
                    b.expect("two-pole-on-one-leg", "main." + key);
                }),
                new Kind("breaker past the spaces", b -> {
                    b.house.breakers.put("40", Draft.Part.of("rating", "20 A", "label", "Unused"));
                    b.touched.add("main.40");
                    b.touched.add("main");
                    b.expect("more-breakers-than-spaces", "main.40");
                }),
                new Kind("two wires on one breaker", b -> {
                    Circuit one = b.touch("living");
                    Circuit two = b.touch("bed-1");
                    Joint first = b.house.landing(one.cables.get(0) + ".black");
                    Joint gone = b.house.landing(two.cables.get(0) + ".black");
                    Joint white = b.house.landing(two.cables.get(0) + ".white");
                    white.members.set(0, one.breaker + ".neutral");
                    first.members.add(two.cables.get(0) + ".black");
                    b.house.landings.remove(gone);
                    b.house.landings.remove(white);
                    b.house.landing(one.cables.get(0) + ".white").members.add(two.cables.get(0) + ".white");
                    b.house.breakers.remove(two.breaker);
                    b.expect("two-wires-on-one-breaker", "main." + one.breaker);
                }),
                new Kind("main larger than the panel", b -> {
                    b.house.panel.put("main", "{poles: 2, rating: 225 A}");
                    b.touched.add("main");
                    b.expect("main-larger-than-panel", "main");
                }),
                new Kind("panel in a bath", b -> {
                    b.house.panel.put("place", "bath");
                    b.touched.add("main");
                    b.expect("panel-in-wrong-place", "main");
                }),
                new Kind("main bond gone", b -> {
                    b.house.service.remove("bond");
                    b.touchAll();
                    b.touched.add("service");
                    b.expect("no-main-bond", "service");
                }));
    }

    private static void label(Break b, String words, String rule) {
        Circuit c = b.touch(b.row());
        b.house.breaker(c.breaker).put("label", words);
        b.expect(rule, "main." + c.breaker);
    }

    private static void rating(Break b, String circuit, String rule, boolean small) {
        Circuit c = b.touch(circuit);
        b.house.breaker(c.breaker).put("rating", small ? "15 A" : "20 A");
        b.expect(rule, "main." + c.breaker);
    }

    /** A plain breaker instead, with the neutral on the bar. */
    static void unprotect(Break b, Circuit c) {
        b.house.breaker(c.breaker).remove("protects");
        Joint j = b.house.landing(c.cables.get(0) + ".white");
        j.members.set(0, "n");
    }
}
