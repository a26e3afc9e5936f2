package org.splicebook.rewire.place;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.record.House;

/**
 * Small random houses with receptacles that ask for protection and have none: chains on screws or on pigtails, halves split, pairs of
 * circuits that share a neutral, tied, as one breaker or not, in order or borrowed; now and then a protective receptacle that is there.
 */
final class UnprotectedHouses {
    private static final List<String> ROOMS = List.of("bathroom", "garage", "bedroom", "living", "outdoors");

    private final Random random;
    private final StringBuilder places = new StringBuilder();
    private final StringBuilder boxes = new StringBuilder();
    private final StringBuilder cables = new StringBuilder();
    private final List<String> breakers = new ArrayList<>();
    private final List<String> landings = new ArrayList<>();
    private int n;
    private int space = 1;

    private UnprotectedHouses(int seed) {
        this.random = new Random(seed);
    }

    /** {@return the house of that number, wholly known} */
    static House of(int seed) {
        UnprotectedHouses h = new UnprotectedHouses(seed);
        int parts = 1 + h.random.nextInt(2);
        for (int i = 0; i < parts; i++) {
            if (h.random.nextInt(3) == 0) {
                h.pair();
            } else {
                h.circuit(1 + h.random.nextInt(2));
            }
        }
        String text = """
                splicebook: 1
                house: unprotected
                basis: seen
                complete: [cables, joints, breakers, landings]
                sources: {service: {system: split-phase 120/240, bond: main}}
                places:
                %spanels:
                  main:
                    supply: service
                    spaces: 12
                    breakers: {%s}
                    joints: [%s]
                cables:
                %sboxes:
                %s""".formatted(
                        h.places, String.join(", ", h.breakers), String.join(", ", h.landings), h.cables, h.boxes);
        return HouseFiles.parse("seed " + seed, text).get();
    }

    private boolean flip() {
        return random.nextBoolean();
    }

    private String breaker(String protects) {
        int s = space++;
        breakers.add(s + ": {rating: 15 A" + protects + "}");
        return String.valueOf(s);
    }

    private void landing(String what) {
        landings.add("[" + what + "]");
    }

    /** A chain of boxes on one breaker. */
    private void circuit(int length) {
        String s = breaker("");
        String from = "main";
        String before = "";
        for (int i = 0; i < length; i++) {
            int id = ++n;
            cable("K" + id, "14/2+ground", from, "b" + id);
            if (i == 0) {
                landing(s + ", K" + id + ".black");
                landing("n, K" + id + ".white");
                landing("g, K" + id + ".bare");
            }
            box(id, "K" + id, before = i + 1 < length ? "K" + (id + 1) : "");
            from = "b" + id;
        }
        assert before.isEmpty();
    }

    private void cable(String name, String wires, String from, String to) {
        cables.append("  %s: {kind: NM, wires: %s, ends: [%s, %s]}%n".formatted(name, wires, from, to));
    }

    private void box(int id, String in, String out) {
        places.append("  p%d: {kind: %s}%n".formatted(id, ROOMS.get(random.nextInt(ROOMS.size()))));
        String r = "r" + id;
        List<String> joints = new ArrayList<>();
        boolean tails = flip();
        int kind = random.nextInt(4);
        String device = kind == 0 ? "ground-fault-receptacle" : kind == 1 ? "single-receptacle" : "duplex-receptacle";
        for (String w : List.of("black hot", "white neutral")) {
            String wire = w.split(" ")[0];
            String terminal = r + "." + (kind == 0 ? "line." : kind == 1 ? "" : "top.") + w.split(" ")[1];
            if (out.isEmpty()) {
                joints.add("[%s.%s, %s]".formatted(in, wire, terminal));
            } else if (tails || kind == 1) {
                joints.add("{join: [%s.%s, %s.%s], tail: %s}".formatted(in, wire, out, wire, terminal));
            } else if (kind == 0) {
                joints.add("[%s.%s, %s]".formatted(in, wire, terminal));
                joints.add("[%s.%s, %s]".formatted(out, wire, terminal.replace("line.", "load.")));
            } else {
                joints.add("[%s.%s, %s]".formatted(in, wire, terminal));
                joints.add("[%s.%s, %s]".formatted(out, wire, terminal.replace("top.", "bottom.")));
            }
        }
        joints.add("[%s.bare, %s%s.ground]".formatted(in, out.isEmpty() ? "" : out + ".bare, ", r));
        boxes.append("  b%d: {place: p%d, devices: {%s: {kind: %s}}, joints: [%s]}%n"
                .formatted(id, id, r, device, String.join(", ", joints)));
    }

    /** Two circuits that share a neutral: split over one duplex, or parting in the first box; now and then on one leg. */
    private void pair() {
        boolean asOne = random.nextInt(3) == 0;
        String a;
        String b;
        if (asOne) {
            a = String.valueOf(space);
            b = String.valueOf(space + 2);
            breakers.add(a + "+" + b + ": {rating: 15 A}");
            space += 3;
        } else {
            a = breaker("");
            b = String.valueOf(space + (flip() ? 1 : 0));
            breakers.add(b + ": {rating: 15 A}");
            space = Integer.parseInt(b) + 1;
        }
        int id = ++n;
        int next = ++n;
        cable("K" + id, "14/3+ground", "main", "b" + id);
        cable("K" + next, "14/2+ground", "b" + id, "b" + next);
        landing(a + ", K" + id + ".black");
        landing(b + ", K" + id + ".red");
        landing("n, K" + id + ".white");
        landing("g, K" + id + ".bare");
        places.append("  p%d: {kind: %s}%n".formatted(id, ROOMS.get(random.nextInt(ROOMS.size()))));
        boxes.append("""
                  b%d: {place: p%d, devices: {r%d: {kind: duplex-receptacle}}, joints: [[K%d.black, r%d.top.hot], [K%d.red, K%d.black], {join: [K%d.white, K%d.white], tail: r%d.top.neutral}, [K%d.bare, K%d.bare, r%d.ground]]}
                """.formatted(id, id, id, id, id, id, next, id, next, id, id, next, id)
                .indent(2)
                .replace("    b", "  b"));
        box(next, "K" + next, "");
    }
}
