package org.splicebook.render.drawing;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.splicebook.record.Box;
import org.splicebook.record.Cable;
import org.splicebook.record.Device;
import org.splicebook.record.DeviceKind;
import org.splicebook.record.House;
import org.splicebook.record.Joint;
import org.splicebook.record.Ref;
import org.splicebook.record.Wire;
import org.splicebook.rules.fill.BoxFill;
import org.splicebook.rules.fill.BoxFills;
import org.splicebook.rules.fill.Room;
import org.splicebook.wiring.Sureness;
import org.splicebook.wiring.WireUse;
import org.splicebook.wiring.Wiring;

/** A box opened up: cables left, joints in the middle, devices right. */
final class BoxDrawing {
    private static final double ROW = 20;
    private static final double CABLE = 182;
    private static final double WIRES = 250;
    private static final double JOINT = 500;
    private static final double DEVICE = 630;

    private final House house;
    private final Wiring wiring;
    private final Box box;
    private final Sketch s;
    private final List<String> said = new ArrayList<>();
    private final Map<String, Double> rows = new LinkedHashMap<>();
    private final Map<String, Insulation> colours = new LinkedHashMap<>();
    private final Map<String, String> uses;

    private BoxDrawing(Wiring wiring, Box box) {
        this.house = wiring.house();
        this.s = new Sketch(house);
        this.wiring = wiring;
        this.box = box;
        this.uses = wiring.wires().stream().collect(Collectors.toMap(WireUse::wire, BoxDrawing::use, (a, b) -> a));
    }

    static Drawing of(Wiring wiring, String name) {
        Box box = wiring.house().boxes().get(name);
        if (box == null) {
            throw Parts.missing(DrawingKind.BOX, name);
        }
        return new BoxDrawing(wiring, box).draw();
    }

    private static String use(WireUse w) {
        String all = w.uses().stream()
                .filter(u -> u.sureness() != Sureness.MAY)
                .map(u -> u.conductor().name().toLowerCase(Locale.ROOT) + (u.pole() == null ? "" : " of " + u.pole()))
                .distinct()
                .limit(2)
                .collect(Collectors.joining(", "));
        return all.isEmpty() ? "use not known" : all;
    }

    private Drawing draw() {
        String title = "Box " + box.name() + ", " + Parts.place(house, box.place());
        double y = Sketch.MARGIN + Sketch.LARGE;
        s.bold(Sketch.MARGIN, y, Sketch.LARGE, title);
        y += Sketch.LINE + 4;
        for (String line : head()) {
            s.text(Sketch.MARGIN, y, Sketch.PLAIN, line);
            said.add(line);
            y += Sketch.LINE;
        }
        y = fill(y + 4) + 8;
        double left = cables(y);
        double right = devices(y);
        joints(y, Math.max(left, right));
        return s.done(title, String.join(" ", said));
    }

    private List<String> head() {
        List<String> lines = new ArrayList<>();
        if (box.hidden()) {
            lines.add("Buried behind a finish.");
        }
        if (!Parts.isWhole(house, box.name())) {
            lines.add("Not everything in this box is listed: more cables or joints may be in it.");
        }
        return lines;
    }

    private double fill(double y) {
        BoxFill fill = BoxFills.of(wiring, box, BoxFills.edition(house));
        said.add(fill.said());
        Room capacity = fill.capacity();
        double at = y;
        if (capacity != null && capacity.least() > 0) {
            double scale = 300 / Math.max(capacity.least(), fill.used().least());
            s.bar(Sketch.MARGIN, y, fill.used().least() * scale, 12, 0.55);
            s.frame(Sketch.MARGIN, y, capacity.least() * scale, 12, 1.2, capacity.isExact());
            at += 12;
        }
        at += Sketch.LINE;
        s.text(Sketch.MARGIN, at, Sketch.SMALL, "Fill by " + fill.edition() + ": " + fill.said());
        return at + 8;
    }

    private double cables(double top) {
        double y = top;
        for (Cable c : house.cables().values()) {
            for (int end = 0; end < 2; end++) {
                if (box.name().equals(c.ends().get(end).boxOrNull())) {
                    y = cable(c, end, y);
                }
            }
            if (c.through().contains(box.name())) {
                s.bold(Sketch.MARGIN, y + 14, Sketch.PLAIN, c.name() + " passes through uncut");
                said.add("Cable " + c.name() + " passes through uncut.");
                y += ROW + 10;
            }
        }
        return y;
    }

    private double cable(Cable c, int end, double top) {
        String other = c.ends().get(1 - end).boxOrNull();
        String to = other == null ? "other end not known" : "other end in " + other;
        s.bold(Sketch.MARGIN, top + 14, Sketch.PLAIN, c.name() + " " + c.kind().word());
        double y = top + 14;
        for (String line : Sketch.wrap(to, Sketch.SMALL, CABLE - 8)) {
            y += Sketch.LINE;
            s.text(Sketch.MARGIN, y, Sketch.SMALL, line);
        }
        said.add("Cable " + c.name() + ", " + to + ".");
        y += 6;
        for (Wire w : c.wires()) {
            Insulation colour = Insulation.of(w);
            String name = c.name() + "." + w.name();
            String key = new Ref.WireEnd(c.name(), w.name(), end, false).said() + "@" + end;
            rows.put(key, y + 10);
            colours.put(key, colour);
            String words = colour.name() + (colour.name().equals(w.name()) ? "" : " (" + w.name() + ")");
            s.text(Sketch.MARGIN + 8, y + 14, Sketch.PLAIN, words);
            s.text(WIRES + 50, y + 6, Sketch.SMALL, uses.getOrDefault(name, "use not known"));
            s.wire(colour, WIRES - 60, y + 10, JOINT - 60, y + 10);
            y += ROW + 6;
        }
        s.frame(Sketch.MARGIN - 4, top - 2, CABLE, y - top, 1, true);
        return y + 12;
    }

    private double devices(double top) {
        double y = top;
        for (Device d : box.devices().values()) {
            double from = y;
            s.bold(DEVICE + 8, y + 14, Sketch.PLAIN, Parts.said(d));
            y += ROW + 4;
            for (DeviceKind.Terminal t : d.kind().terminals()) {
                boolean unused = d.unused().contains(t.name());
                s.text(DEVICE + 18, y + 12, Sketch.PLAIN, t.name() + (unused ? ", no wire on it" : ""));
                s.dot(DEVICE + 6, y + 8, 4, false);
                rows.put(d.name() + "." + t.name(), y + 8);
                y += ROW;
            }
            for (DeviceKind.Tab t : d.kind().tabs()) {
                Boolean in = d.tabs().get(t.name());
                String state = "tab " + t.name() + (in == null ? ": nobody noted it" : in ? ": in" : ": broken out");
                s.text(DEVICE + 18, y + 12, Sketch.SMALL, state);
                said.add("On " + d.name() + ", " + state + ".");
                y += ROW;
            }
            double w = Math.max(180, Sketch.width(Parts.said(d), Sketch.PLAIN, true) + 16);
            s.frame(DEVICE, from - 2, w, y - from + 6, 1.4, true);
            said.add("Device " + Parts.said(d) + ".");
            y += 16;
        }
        return y;
    }

    private void joints(double top, double bottom) {
        int count = box.joints().size();
        double step = Math.max(ROW + 4, (bottom - top) / Math.max(1, count));
        List<Joint> ordered = new ArrayList<>(box.joints());
        ordered.sort(Comparator.comparingDouble(this::middle));
        for (int i = 0; i < count; i++) {
            joint(ordered.get(i), top + 16 + i * step);
        }
    }

    private double middle(Joint j) {
        return members(j).stream()
                .filter(rows::containsKey)
                .mapToDouble(rows::get)
                .average()
                .orElse(0);
    }

    private List<String> members(Joint j) {
        List<String> keys = new ArrayList<>();
        Stream.concat(j.members().stream(), j.holders().stream())
                .distinct()
                .forEach(r ->
                        keys.add(r instanceof Ref.WireEnd e ? e.cable() + "." + e.wire() + "@" + e.end() : r.said()));
        return keys;
    }

    private void joint(Joint j, double y) {
        List<String> keys = members(j);
        boolean capped = keys.size() == 1;
        for (String key : keys) {
            Double row = rows.get(key);
            Insulation colour = colours.get(key);
            if (row != null && colour != null) {
                s.wire(colour, JOINT - 60, row, JOINT, y);
            } else if (row != null) {
                s.line(1.2, "", JOINT, y, DEVICE + 2, row);
            }
        }
        String by = j.by() == null ? "" : j.by().word();
        boolean metal = keys.contains("box");
        String words = capped ? "capped" : (by + (metal ? " to the box" : "")).trim();
        s.dot(JOINT, y, capped ? 4 : 6, !capped);
        s.text(JOINT + 10, y - 5, Sketch.SMALL, words);
        String all = Stream.concat(j.members().stream(), j.holders().stream())
                .distinct()
                .map(Ref::said)
                .collect(Collectors.joining(", "));
        said.add(capped ? all + " is capped." : "Joined: " + all + ".");
    }
}
