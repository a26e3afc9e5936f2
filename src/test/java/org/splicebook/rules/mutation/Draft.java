package org.splicebook.rules.mutation;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.record.House;

/** A house that is being written: everything in it may still be changed. It becomes a record by way of a house file. */
final class Draft {
    /** What touches: spliced, with pigtails, or held by a device's screws. */
    static final class Joint {
        final List<String> members = new ArrayList<>();
        final List<String> tails = new ArrayList<>();
        boolean plain;

        @Nullable
        String by = "twist-on";

        static Joint splice(String... members) {
            Joint j = new Joint();
            j.members.addAll(Arrays.asList(members));
            return j;
        }

        /** A wire on a screw of a device. */
        static Joint screw(String... members) {
            Joint j = splice(members);
            j.plain = true;
            j.by = null;
            return j;
        }

        Joint tail(String... terminals) {
            tails.addAll(Arrays.asList(terminals));
            return this;
        }

        @Nullable
        String at;

        private String said() {
            if (at != null) {
                return "{join: [" + String.join(", ", members) + "], at: " + at + "}";
            }
            if (plain && by == null) {
                return "[" + String.join(", ", members) + "]";
            }
            return "{join: [" + String.join(", ", members) + "]"
                    + (tails.isEmpty() ? "" : ", tail: [" + String.join(", ", tails) + "]")
                    + (by == null ? "" : ", by: " + by) + "}";
        }
    }

    /** Anything with keys. */
    static final class Part extends LinkedHashMap<String, String> {
        private static final long serialVersionUID = 1;

        static Part of(String... keysAndValues) {
            Part p = new Part();
            for (int i = 0; i < keysAndValues.length; i += 2) {
                p.put(keysAndValues[i], keysAndValues[i + 1]);
            }
            return p;
        }

        private String said() {
            List<String> all = new ArrayList<>();
            forEach((k, v) -> all.add(k + ": " + v));
            return "{" + String.join(", ", all) + "}";
        }
    }

    /** A box. */
    static final class Box {
        final String name;
        final Part keys;
        final Part shell;
        final Map<String, Part> devices = new LinkedHashMap<>();
        final List<Joint> joints = new ArrayList<>();
        String circuit;

        Box(String name, String place, String circuit, Part shell) {
            this.name = name;
            this.circuit = circuit;
            this.keys = Part.of("place", place);
            this.shell = shell;
        }

        /** {@return the joint that holds a wire end or terminal} */
        Joint joint(String member) {
            return joints.stream()
                    .filter(j -> j.members.contains(member) || j.tails.contains(member))
                    .findFirst()
                    .orElseThrow(() -> new IllegalStateException(member + " in " + name));
        }

        String device(int i) {
            return new ArrayList<>(devices.keySet()).get(i);
        }
    }

    /** A circuit: a breaker and a row of boxes, each with the cable that comes to it. */
    static final class Circuit {
        final String breaker;
        final String size;
        final List<String> boxes = new ArrayList<>();
        /** The cable to each of the boxes. */
        final List<String> cables = new ArrayList<>();

        /** The cable from a switch box to its light, by switch box. */
        final Map<String, String> legs = new LinkedHashMap<>();
        /** The boxes of the lights. */
        final List<String> lights = new ArrayList<>();

        Circuit(String breaker, String size) {
            this.breaker = breaker;
            this.size = size;
        }
    }

    final Part head = Part.of("built", "2024", "basis", "seen", "code", "{country: US, edition: 2023}");
    final Part service = Part.of("system", "split-phase 120/240", "rating", "200 A", "bond", "main");
    final Map<String, Part> places = new LinkedHashMap<>();
    final Part panel = Part.of(
            "place",
            "store",
            "supply",
            "service",
            "spaces",
            "30",
            "rating",
            "200 A",
            "main",
            "{poles: 2, rating: 200 A}");
    final Map<String, Part> breakers = new LinkedHashMap<>();
    final List<String> ties = new ArrayList<>();
    final List<Joint> landings = new ArrayList<>();
    final Map<String, Part> cables = new LinkedHashMap<>();
    final Map<String, Box> boxes = new LinkedHashMap<>();
    final Map<String, Circuit> circuits = new TreeMap<>();
    final List<String> tests = new ArrayList<>();

    Box box(String name) {
        return Objects.requireNonNull(boxes.get(name), name);
    }

    Part cable(String name) {
        return Objects.requireNonNull(cables.get(name), name);
    }

    Part breaker(String key) {
        return Objects.requireNonNull(breakers.get(key), key);
    }

    Circuit circuit(String name) {
        return Objects.requireNonNull(circuits.get(name), name);
    }

    /** {@return the landing of a wire in the panel} */
    Joint landing(String member) {
        return landings.stream()
                .filter(j -> j.members.contains(member))
                .findFirst()
                .orElseThrow(() -> new IllegalStateException(member));
    }

    /** {@return the house file} */
    String text() {
        StringBuilder s = new StringBuilder("splicebook: 1\nhouse: drafted\n");
        head.forEach((k, v) -> s.append(k).append(": ").append(v).append('\n'));
        s.append("sources: {service: ").append(service.said()).append("}\nplaces:\n");
        places.forEach(
                (k, p) -> s.append("  ").append(k).append(": ").append(p.said()).append('\n'));
        s.append("panels:\n  main:\n");
        panel.forEach(
                (k, v) -> s.append("    ").append(k).append(": ").append(v).append('\n'));
        s.append("    breakers:\n");
        breakers.forEach((k, b) ->
                s.append("      ").append(k).append(": ").append(b.said()).append('\n'));
        s.append("    ties: [").append(String.join(", ", ties)).append("]\n    joints:\n");
        landings.forEach(j -> s.append("      - ").append(j.said()).append('\n'));
        s.append("    complete: [breakers, landings]\ncables:\n");
        cables.forEach(
                (k, c) -> s.append("  ").append(k).append(": ").append(c.said()).append('\n'));
        s.append("boxes:\n");
        boxes.values().forEach(b -> box(s, b));
        if (!tests.isEmpty()) {
            s.append("tests:\n");
            tests.forEach(t -> s.append("  - ").append(t).append('\n'));
        }
        return s.toString();
    }

    private static void box(StringBuilder s, Box b) {
        s.append("  ").append(b.name).append(":\n");
        b.keys.forEach(
                (k, v) -> s.append("    ").append(k).append(": ").append(v).append('\n'));
        s.append("    box: ")
                .append(b.shell.containsKey("none") ? "none" : b.shell.said())
                .append('\n');
        if (!b.devices.isEmpty()) {
            s.append("    devices:\n");
            b.devices.forEach((k, d) ->
                    s.append("      ").append(k).append(": ").append(d.said()).append('\n'));
        }
        s.append("    joints:\n");
        b.joints.forEach(j -> s.append("      - ").append(j.said()).append('\n'));
        s.append("    complete: [cables, joints]\n");
    }

    /** {@return the record} */
    House house() {
        return HouseFiles.parse("drafted.yaml", text()).get();
    }
}
