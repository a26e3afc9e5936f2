package org.splicebook.loadflow;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.Box;
import org.splicebook.record.Complete;
import org.splicebook.record.Device;
import org.splicebook.record.DeviceKind;

/** The inside of a device: its links, contacts and loads. */
final class DeviceCircuit {
    private final CircuitBuilder b;
    private final Box box;
    private final Device device;

    private DeviceCircuit(CircuitBuilder b, Box box, Device device) {
        this.b = b;
        this.box = box;
        this.device = device;
    }

    static void add(CircuitBuilder b, Box box, Device device) {
        DeviceCircuit d = new DeviceCircuit(b, box, device);
        device.kind().terminals().forEach(t -> b.node(device.name() + "." + t.name()));
        device.kind().tabs().forEach(d::tab);
        device.kind().levers().forEach(l -> b.levers.put(d.leverName(l.name()), l.positions()));
        d.links();
        device.kind().loadPoints().forEach(d::loadPoint);
    }

    private String leverName(String lever) {
        return lever.equals("lever") ? device.name() : device.name() + "." + lever;
    }

    private int at(String terminal) {
        return b.at(device.name() + "." + terminal);
    }

    private String between(String x, String y) {
        return device.name() + "[" + x + "," + y + "]";
    }

    private void tab(DeviceKind.Tab t) {
        Boolean said = device.tabs().get(t.name());
        if (said == null && !b.house.isComplete(box, Complete.JOINTS)) {
            b.assume(
                    device.name(),
                    "not known whether its " + t.name() + " tab is in, taken as " + (t.madeIn() ? "in" : "out"));
        }
        if (said == null ? t.madeIn() : said) {
            link(t.a(), t.b(), Branch.Kind.LINK, null, "link");
        }
    }

    private int link(String x, String y, Branch.Kind kind, @Nullable Gate gate, String contact) {
        return b.branch(between(x, y), kind, at(x), at(y), gate, Tables.number("contact", contact));
    }

    private void links() {
        List<Integer> guarded = new ArrayList<>();
        DeviceKind.Guard guard = device.kind().guard();
        for (DeviceKind.Link l : device.kind().links()) {
            switch (l.when()) {
                case ALWAYS -> link(l.a(), l.b(), Branch.Kind.LINK, null, "link");
                case LEVER ->
                    link(
                            l.a(),
                            l.b(),
                            Branch.Kind.CONTACT,
                            new Gate(leverName(String.valueOf(l.lever())), null, l.positions()),
                            "switch");
                case GUARDED -> {
                    boolean opens = guard != null && guard.opens().contains(l.a());
                    guarded.add(link(
                            l.a(),
                            l.b(),
                            Branch.Kind.CONTACT,
                            opens ? new Gate(device.name(), null, Set.of()) : null,
                            "protective"));
                }
                case AS_LOAD ->
                    b.branch(
                            between(l.a(), l.b()) + ".load",
                            Branch.Kind.LOAD,
                            at(l.a()),
                            at(l.b()),
                            null,
                            Tables.number("as-load", "ohms"));
            }
        }
        if (guard != null && !guarded.isEmpty()) {
            b.sensors.add(new Sensor(device.name(), guard.functions(), guarded));
        }
    }

    private void loadPoint(DeviceKind.LoadPoint lp) {
        String name = lp.name().isEmpty() ? device.name() : device.name() + "." + lp.name();
        List<LoadPoint.Pair> pairs = new ArrayList<>();
        boolean several = lp.pairs().size() > 1;
        for (DeviceKind.Pair p : lp.pairs()) {
            String said = several ? name + "[" + p.a() + "," + p.b() + "]" : name;
            int branch = b.branch(said, Branch.Kind.LOAD, at(p.a()), at(p.b()), null, 0);
            double volts = p.volts();
            if (volts == 0) {
                volts = 120;
                b.assume(device.name(), "nominal volts not said, taken as 120");
            }
            pairs.add(new LoadPoint.Pair(branch, volts, pairs.isEmpty() ? typical(lp, volts) : Load.OFF));
        }
        b.loadPoints.add(new LoadPoint(
                name,
                device.name(),
                device.kind().name(),
                device.load(),
                box.name(),
                box.place(),
                device.kind().family() == DeviceKind.Family.RECEPTACLE
                        || device.kind().family() == DeviceKind.Family.PROTECTIVE,
                lp.ground() == null ? -1 : at(lp.ground()),
                pairs));
    }

    /** The nameplate first, then the word for what hangs on it, then the kind; in a duplex receptacle on its first half. */
    private Load typical(DeviceKind.LoadPoint lp, double volts) {
        if (!lp.equals(device.kind().loadPoints().get(0))) {
            return Load.OFF;
        }
        DeviceKind.LoadModel kind = device.kind().load();
        Map<String, String> word =
                device.load() == null ? null : Tables.rows("loads").get(device.load());
        Load.Model model = Load.Model.IMPEDANCE;
        double watts = 0;
        double powerFactor = 1;
        if (word != null) {
            model = "power".equals(word.get("model")) ? Load.Model.POWER : Load.Model.IMPEDANCE;
            watts = Double.parseDouble(word.getOrDefault("watts", "0"));
            powerFactor = Double.parseDouble(word.getOrDefault("power-factor", "1"));
        } else if (kind != null) {
            model = Load.Model.valueOf(kind.model().name());
            watts = kind.watts();
            powerFactor = kind.powerFactor();
        }
        if (device.watts() != null) {
            watts = device.watts().base();
        } else if (watts > 0) {
            b.assume(device.name(), "its load taken as typical, " + (long) watts + " W");
        }
        return new Load(model, model == Load.Model.CURRENT ? watts / volts / powerFactor : watts, powerFactor);
    }
}
