package org.splicebook.rules.mutation;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.splicebook.rules.mutation.Draft.Box;
import org.splicebook.rules.mutation.Draft.Circuit;
import org.splicebook.rules.mutation.Draft.Joint;
import org.splicebook.rules.mutation.Draft.Part;

/** A random house, wired as edition 2023 asks: whole, seen, nothing open. */
final class CleanHouse {
    /** What no record of such a house says: a check may ask for it. */
    static final java.util.Set<String> ASKED = java.util.Set.of(
            "near-water",
            "surge-protection",
            "emergency-disconnect",
            "protective-device-failed-its-test",
            "push-in-connection");

    private final Random random;
    private final Draft d = new Draft();
    private int space = 1;
    private int cable;

    private CleanHouse(long seed) {
        this.random = new Random(seed);
    }

    static Draft of(long seed) {
        return new CleanHouse(seed).build();
    }

    private Draft build() {
        place("store", "utility", "Store at the north wall");
        place("kitchen", "kitchen", "Kitchen");
        place("bath", "bathroom", "Bath");
        place("wash", "laundry", "Wash room");
        place("living", "living", "Living room");
        place("hall", "hall", "Hall");
        place("garage", "garage", "Garage");
        place("yard", "outdoors", "Yard");
        int bedrooms = 1 + random.nextInt(3);
        receptacles(
                "kitchen-a",
                "kitchen",
                "12",
                2 + random.nextInt(3),
                "Kitchen counter, north",
                "[ground-fault, arc-fault]");
        receptacles(
                "kitchen-b",
                "kitchen",
                "12",
                2 + random.nextInt(3),
                "Kitchen counter, south",
                "[ground-fault, arc-fault]");
        receptacles("bath", "bath", "12", 1 + random.nextInt(2), "Bath receptacles", "[ground-fault]");
        receptacles("wash", "wash", "12", 1 + random.nextInt(2), "Wash room receptacles", "[ground-fault, arc-fault]");
        receptacles("garage", "garage", "12", 2 + random.nextInt(2), "Garage receptacles", "[ground-fault]");
        receptacles("living", "living", "14", 2 + random.nextInt(4), "Living room receptacles", "[arc-fault]");
        lights(
                "lights",
                "14",
                List.of("living", "hall", "kitchen", "bath"),
                "Ceilings of living room, hall, kitchen and bath");
        for (int i = 1; i <= bedrooms; i++) {
            String room = "bed-" + i;
            place(room, "bedroom", "Bedroom " + i + " from the stairs");
            receptacles(room, room, "14", 2 + random.nextInt(3), "Bedroom " + i + " receptacles", "[arc-fault]");
        }
        place("dining", "dining", "Dining room");
        multiwire();
        yard();
        range();
        heater();
        return d;
    }

    private void place(String name, String kind, String title) {
        d.places.put(name, Part.of("name", quoted(title), "kind", kind, "level", "1"));
    }

    private static String quoted(String words) {
        return '"' + words + '"';
    }

    private String take() {
        String s = String.valueOf(space);
        space++;
        return s;
    }

    private String length() {
        return (1 + random.nextInt(3)) + " m";
    }

    /** Two spaces of unlike legs: one below the other. */
    private String takeTwo() {
        while ((space - 1) % 4 >= 2) {
            space++;
        }
        String s = space + "+" + (space + 2);
        space += space % 2 == 1 ? 1 : 3;
        return s;
    }

    private String lead(Circuit c, String to, String wires) {
        String name = "C" + ++cable;
        String from = c.boxes.isEmpty() ? "main" : c.boxes.get(c.boxes.size() - 1);
        d.cables.put(
                name,
                Part.of(
                        "kind",
                        "NM-B",
                        "wires",
                        wires,
                        "ends",
                        "[" + from + ", " + to + "]",
                        "length",
                        length(),
                        "material",
                        "copper",
                        "since",
                        "2024"));
        c.boxes.add(to);
        c.cables.add(name);
        return name;
    }

    private Box box(String name, String place, String circuit, String volume) {
        Box b = new Box(
                name, place, circuit, Part.of("material", "plastic", "volume", volume + " in3", "clamps", "none"));
        d.boxes.put(name, b);
        return b;
    }

    private Circuit circuit(String name, String size, String label, String protects) {
        String key = take();
        Part breaker = Part.of("rating", size.equals("12") ? "20 A" : "15 A", "label", quoted(label));
        if (!protects.isEmpty()) {
            breaker.put("protects", protects);
        }
        d.breakers.put(key, breaker);
        Circuit c = new Circuit(key, size);
        d.circuits.put(name, c);
        return c;
    }

    /** Lands the first cable of a circuit. A breaker that watches the current has its neutral on itself. */
    private void land(Circuit c, String key, String protects) {
        String first = c.cables.get(0);
        d.landings.add(Joint.screw(key, first + ".black"));
        d.landings.add(Joint.screw(protects.isEmpty() ? "n" : key + ".neutral", first + ".white"));
        d.landings.add(Joint.screw("g", first + ".bare"));
    }

    private void receptacles(String name, String place, String size, int count, String label, String protects) {
        Circuit c = circuit(name, size, label, protects);
        for (int i = 1; i <= count; i++) {
            String box = name + "-" + i;
            String in = lead(c, box, size + "/2+ground");
            Box b = box(box, place, name, "22.5");
            b.devices.put(
                    box + "-r",
                    Part.of(
                            "kind",
                            "duplex-receptacle",
                            "rating",
                            "15 A",
                            "tabs",
                            "{hot: in, neutral: in}",
                            "label",
                            "tamper-resistant"));
            b.joints.add(Joint.splice(in + ".black").tail(box + "-r.hot"));
            b.joints.add(Joint.splice(in + ".white").tail(box + "-r.neutral"));
            b.joints.add(Joint.splice(in + ".bare").tail(box + "-r.ground"));
            goOn(c, i - 1);
        }
        if (place.startsWith("bed-")) {
            light(c, name, place);
            alarm(c, name, place);
        }
        land(c, c.breaker, protects);
    }

    /** A smoke alarm at the end of a bedroom's circuit, and a light that is used daily. */
    private void alarm(Circuit c, String name, String place) {
        String box = name + "-alarm";
        String in = lead(c, box, c.size + "/2+ground");
        Box b = box(box, place, name, "20");
        b.devices.put(box + "-a", Part.of("kind", "smoke-alarm", "canopy", "domed"));
        b.joints.add(Joint.splice(in + ".black").tail(box + "-a.hot"));
        b.joints.add(Joint.splice(in + ".white").tail(box + "-a.neutral"));
        b.joints.add(Joint.splice(in + ".bare"));
        goOn(c, c.boxes.size() - 1);
    }

    /** Splices the cable that has just come to box i through the box before it. */
    private void goOn(Circuit c, int i) {
        if (i > 0) {
            Box before = d.box(c.boxes.get(i - 1));
            for (String wire : List.of("black", "white", "bare")) {
                before.joint(c.cables.get(i - 1) + "." + wire).members.add(c.cables.get(i) + "." + wire);
            }
        }
    }

    /** A switch box in each room, one after the other, and a light behind each. */
    private void lights(String name, String size, List<String> rooms, String label) {
        Circuit c = circuit(name, size, label, "[arc-fault]");
        rooms.forEach(room -> light(c, name, room));
        land(c, c.breaker, "[arc-fault]");
    }

    private void light(Circuit c, String name, String room) {
        String box = room + "-switch";
        String in = lead(c, box, c.size + "/2+ground");
        Box b = box(box, room, name, "22.5");
        String light = room + "-ceiling";
        String leg = "C" + ++cable;
        c.legs.put(box, leg);
        c.lights.add(light);
        d.cables.put(
                leg,
                Part.of(
                        "kind",
                        "NM-B",
                        "wires",
                        c.size + "/2+ground",
                        "ends",
                        "[" + box + ", " + light + "]",
                        "length",
                        length(),
                        "material",
                        "copper",
                        "since",
                        "2024"));
        b.devices.put(box + "-s", Part.of("kind", "single-pole-switch"));
        b.joints.add(Joint.splice(in + ".black").tail(box + "-s.line"));
        b.joints.add(Joint.screw(leg + ".black", box + "-s.load"));
        b.joints.add(Joint.splice(in + ".white", leg + ".white"));
        b.joints.add(Joint.splice(in + ".bare", leg + ".bare").tail(box + "-s.ground"));
        Box l = box(light, room, name, "20");
        l.devices.put(light + "-l", Part.of("kind", "luminaire", "canopy", "domed", "watts", "15"));
        l.joints.add(Joint.splice(leg + ".black").tail(light + "-l.hot"));
        l.joints.add(Joint.splice(leg + ".white").tail(light + "-l.neutral"));
        l.joints.add(Joint.splice(leg + ".bare").tail(light + "-l.ground"));
        goOn(c, c.boxes.size() - 1);
    }

    /** A ground-fault receptacle that protects the ones behind it. */
    private void yard() {
        Circuit c = circuit("yard", "12", "Yard receptacles", "");
        String in = lead(c, "yard-1", "12/2+ground");
        Box b = box("yard-1", "yard", "yard", "22.5");
        b.devices.put(
                "yard-1-r",
                Part.of("kind", "ground-fault-receptacle", "rating", "20 A", "label", "tamper- and weather-resistant"));
        String out = lead(c, "yard-2", "12/2+ground");
        b.joints.add(Joint.screw(in + ".black", "yard-1-r.line.hot"));
        b.joints.add(Joint.screw(in + ".white", "yard-1-r.line.neutral"));
        b.joints.add(Joint.screw(out + ".black", "yard-1-r.load.hot"));
        b.joints.add(Joint.screw(out + ".white", "yard-1-r.load.neutral"));
        b.joints.add(Joint.splice(in + ".bare", out + ".bare").tail("yard-1-r.ground"));
        Box far = box("yard-2", "yard", "yard", "22.5");
        far.devices.put(
                "yard-2-r",
                Part.of(
                        "kind",
                        "duplex-receptacle",
                        "rating",
                        "20 A",
                        "tabs",
                        "{hot: in, neutral: in}",
                        "label",
                        "tamper- and weather-resistant"));
        far.joints.add(Joint.splice(out + ".black").tail("yard-2-r.hot"));
        far.joints.add(Joint.splice(out + ".white").tail("yard-2-r.neutral"));
        far.joints.add(Joint.splice(out + ".bare").tail("yard-2-r.ground"));
        land(c, c.breaker, "");
    }

    /** One neutral for two hots of unlike legs: black serves the first box, red the second. */
    private void multiwire() {
        String key = takeTwo();
        d.breakers.put(key, Part.of("rating", "20 A", "label", "Dining room receptacles", "protects", "[arc-fault]"));
        Circuit c = new Circuit(key, "12");
        d.circuits.put("dining", c);
        String in = lead(c, "dining-1", "12/3+ground");
        String out = lead(c, "dining-2", "12/3+ground");
        for (String[] each : new String[][] {{"dining-1", in, "black"}, {"dining-2", out, "red"}}) {
            Box b = box(each[0], "dining", "dining", "22.5");
            b.devices.put(
                    each[0] + "-r",
                    Part.of(
                            "kind",
                            "duplex-receptacle",
                            "rating",
                            "20 A",
                            "tabs",
                            "{hot: in, neutral: in}",
                            "label",
                            "tamper-resistant"));
            for (String wire : List.of("black", "red", "white", "bare")) {
                Joint j = Joint.splice(each[1] + "." + wire);
                b.joints.add(j);
                if (each[1].equals(in)) {
                    j.members.add(out + "." + wire);
                }
                String terminal = wire.equals("white") ? "neutral" : wire.equals("bare") ? "ground" : "hot";
                if (!terminal.equals("hot") || wire.equals(each[2])) {
                    j.tail(each[0] + "-r." + terminal);
                }
            }
        }
        twoHots(key, in, "red");
        d.landings.add(Joint.screw(key.substring(0, key.indexOf('+')) + ".neutral", in + ".white"));
    }

    private void range() {
        String key = takeTwo();
        d.breakers.put(key, Part.of("rating", "50 A", "label", "Range", "protects", "[ground-fault]"));
        Circuit c = new Circuit(key, "6");
        d.circuits.put("range", c);
        String in = lead(c, "range", "6/3+ground");
        Box b = box("range", "kitchen", "range", "60");
        b.devices.put(
                "range-r", Part.of("kind", "receptacle-120-240", "rating", "50 A", "load", "range", "watts", "8000"));
        b.joints.add(Joint.screw(in + ".black", "range-r.hot-1"));
        b.joints.add(Joint.screw(in + ".red", "range-r.hot-2"));
        b.joints.add(Joint.screw(in + ".white", "range-r.neutral"));
        b.joints.add(Joint.screw(in + ".bare", "range-r.ground"));
        twoHots(key, in, "red");
        d.landings.add(Joint.screw(key.substring(0, key.indexOf('+')) + ".neutral", in + ".white"));
    }

    private void heater() {
        String key = takeTwo();
        d.breakers.put(key, Part.of("rating", "30 A", "label", "Water heater"));
        Circuit c = new Circuit(key, "10");
        d.circuits.put("heater", c);
        String in = lead(c, "heater", "{black: black, red: red, bare: bare}");
        d.cable(in).put("size", "10");
        Box b = box("heater", "store", "heater", "30");
        b.devices.put("heater-w", Part.of("kind", "water-heater", "watts", "4500"));
        b.joints.add(Joint.splice(in + ".black").tail("heater-w.hot-1"));
        b.joints.add(Joint.splice(in + ".red").tail("heater-w.hot-2"));
        b.joints.add(Joint.splice(in + ".bare").tail("heater-w.ground"));
        twoHots(key, in, "red");
    }

    private void twoHots(String key, String in, String second) {
        List<String> spaces = new ArrayList<>(List.of(key.split("\\+")));
        d.landings.add(Joint.screw(spaces.get(0), in + ".black"));
        d.landings.add(Joint.screw(spaces.get(1), in + "." + second));
        d.landings.add(Joint.screw("g", in + ".bare"));
    }
}
