package org.splicebook.graph;

import java.time.ZoneOffset;
import java.util.List;
import org.splicebook.record.Basis;
import org.splicebook.record.Box;
import org.splicebook.record.Cable;
import org.splicebook.record.CableEnd;
import org.splicebook.record.Complete;
import org.splicebook.record.Device;
import org.splicebook.record.DeviceKind;
import org.splicebook.record.House;
import org.splicebook.record.Joint;
import org.splicebook.record.Place;
import org.splicebook.record.Protection;
import org.splicebook.record.Ref;
import org.splicebook.record.Source;
import org.splicebook.record.SourceSystem;
import org.splicebook.record.Unit;
import org.splicebook.record.Wire;
import org.splicebook.store.Revision;
import org.splicebook.upkeep.DueTests;
import org.splicebook.upkeep.TestKinds;

/** The recorded part of a house as rows: what was written down, nothing that follows from it. */
final class RecordedRows {
    private final House house;
    private final RowBuilder rows;

    private RecordedRows(House house, RowBuilder rows) {
        this.house = house;
        this.rows = rows;
    }

    /** Adds the rows of a record. */
    static void add(House house, Revision revision, long derivation, RowBuilder rows) {
        RecordedRows r = new RecordedRows(house, rows);
        int root = r.house(revision, derivation);
        house.places().values().forEach(p -> r.place(root, p));
        house.sources().values().forEach(s -> r.source(root, s));
        PanelRows panels = new PanelRows(house, rows);
        house.panels().values().forEach(p -> panels.add(root, p));
        house.boxes().values().forEach(r::box);
        house.cables().values().forEach(r::cable);
        house.boxes().values().forEach(r::joints);
        house.panels().values().forEach(panels::supplyAndLandings);
    }

    private int house(Revision revision, long derivation) {
        int h = rows.node("House", house.id());
        rows.set(h, "title", house.said()).set(h, "revision", revision.number());
        rows.set(h, "stored", revision.stored().atZone(ZoneOffset.UTC));
        rows.set(h, "derivation", derivation).set(h, "draft", false);
        rows.set(h, "sources", house.sources().size());
        rows.set(h, "built", house.built()).set(h, "areaM2", house.area());
        if (house.code() != null) {
            rows.set(h, "country", house.code().country());
            rows.set(h, "edition", house.code().edition());
        }
        rows.about(h, house.about(), house.basis());
        return h;
    }

    private void place(int root, Place p) {
        int n = rows.node("Place", p.name());
        rows.set(n, "title", p.said()).set(n, "kind", p.kind());
        rows.set(n, "finished", p.finished()).set(n, "level", p.level());
        rows.about(n, p.about(), p.about().basisOr(house.basis()));
        rows.tie(n, "OF", root);
    }

    private void source(int root, Source s) {
        int n = rows.node("Source", s.name());
        rows.set(n, "kind", s.kind()).set(n, "system", s.system().word());
        rows.set(n, "amperes", s.rating()).set(n, "bond", s.bond());
        rows.set(n, "from", s.from());
        rows.about(n, s.about(), s.about().basisOr(house.basis()));
        rows.tie(n, "OF", root);
        for (SourceSystem.Pole p : s.system().poles()) {
            int pole = rows.node("Pole", s.name() + "." + p.terminal());
            rows.set(pole, "source", s.name());
            rows.tie(pole, "PART_OF", n);
        }
    }

    private void box(Box b) {
        Basis basis = b.about().basisOr(house.basis());
        int n = rows.node("Box", b.name());
        rows.set(n, "place", b.place()).set(n, "cableEntries", b.cableEntries());
        rows.set(n, "hidden", b.hidden()).set(n, "opened", !b.joints().isEmpty());
        rows.set(n, "cablesComplete", house.isComplete(b, Complete.CABLES));
        rows.set(n, "jointsComplete", house.isComplete(b, Complete.JOINTS));
        if (b.shell() != null) {
            rows.set(n, "material", b.shell().material());
            if (b.shell().volume() != null) {
                rows.set(n, "volumeIn3", b.shell().volume().base() / Unit.CUBIC_INCH.toBase(1));
            }
        }
        rows.about(n, b.about(), basis);
        if (b.place() != null) {
            rows.tie(n, "AT", rows.node("Place", b.place()));
        }
        b.devices().values().forEach(d -> device(n, b, d, basis));
    }

    private void device(int box, Box b, Device d, Basis basis) {
        DeviceKind kind = d.kind();
        int n = rows.node("Device", d.name());
        rows.set(n, "kind", kind.name()).set(n, "title", kind.title());
        rows.set(n, "family", kind.family()).set(n, "box", b.name());
        rows.set(n, "place", b.place()).set(n, "amperes", d.rating());
        rows.set(n, "load", d.load()).set(n, "watts", d.watts());
        rows.set(n, "label", d.label());
        rows.set(
                n,
                "protects",
                kind.guard() == null
                        ? List.of()
                        : kind.guard().functions().stream()
                                .map(Protection::word)
                                .toList());
        if (kind.guard() != null) {
            rows.set(n, "passed", DueTests.lastDone(house, TestKinds.TRIP_BUTTON, d.name()));
        }
        rows.about(n, d.about(), d.about().basisOr(basis));
        rows.tie(n, "IN", box);
        for (DeviceKind.LoadPoint p : kind.loadPoints()) {
            int l = rows.node("LoadPoint", p.name().isEmpty() ? d.name() : d.name() + "." + p.name());
            rows.set(l, "device", d.name()).set(l, "box", b.name());
            rows.set(l, "place", b.place()).set(l, "kind", kind.name());
            rows.set(l, "family", kind.family()).set(l, "load", d.load());
            rows.set(l, "watts", d.watts());
            rows.tie(l, "ON", n);
        }
    }

    private void cable(Cable c) {
        int n = rows.node("Cable", c.name());
        rows.set(n, "kind", c.kind().word()).set(n, "shorthand", c.shorthand());
        rows.set(n, "metres", c.length());
        rows.set(n, "ends", c.ends().stream().map(RecordedRows::said).toList());
        rows.set(n, "open", c.ends().stream().anyMatch(e -> e.boxOrNull() == null));
        rows.about(n, c.about(), c.about().basisOr(house.basis()));
        for (int i = 0; i < 2; i++) {
            if (c.ends().get(i) instanceof CableEnd.At at) {
                rows.tie(n, "ENDS_IN", enclosure(house, rows, at.box()), "end", i + 1);
            } else if (c.ends().get(i) instanceof CableEnd.OneOf one) {
                for (String b : one.boxes()) {
                    rows.tie(n, "MAY_END_IN", enclosure(house, rows, b), "end", i + 1);
                }
            }
        }
        c.through().forEach(b -> rows.tie(n, "PASSES", enclosure(house, rows, b)));
        c.wires().forEach(w -> wire(n, c, w));
    }

    private void wire(int cable, Cable c, Wire w) {
        int n = rows.node("Wire", c.name() + "." + w.name());
        rows.set(n, "cable", c.name()).set(n, "colour", w.colour());
        rows.set(n, "size", w.size()).set(n, "material", w.material());
        rows.set(n, "metal", w.metal());
        rows.tie(n, "PART_OF", cable);
    }

    private void joints(Box b) {
        Basis basis = b.about().basisOr(house.basis());
        int box = rows.node("Box", b.name());
        for (Joint j : b.joints()) {
            List<String> said = j.members().stream().map(Ref::said).sorted().toList();
            if (said.isEmpty()) {
                continue;
            }
            int n = joint(rows, box, b.name(), said, j, j.about().basisOr(basis));
            j.members().forEach(r -> touches(house, rows, b.name(), r, n));
        }
    }

    /** Adds a joint and {@return its node}. */
    static int joint(RowBuilder rows, int box, String boxName, List<String> sorted, Joint j, Basis basis) {
        int n = rows.node("Joint", boxName + ":" + sorted.get(0));
        rows.set(n, "box", boxName);
        rows.set(n, "by", j.by() == null ? null : j.by().word());
        rows.set(n, "hold", j.hold() == Joint.Hold.UNSAID ? null : j.hold());
        boolean isCapped = j.members().size() == 1 && j.members().get(0) instanceof Ref.WireEnd;
        rows.set(n, "capped", isCapped ? true : null);
        rows.about(n, j.about(), basis);
        rows.tie(n, "IN", box);
        return n;
    }

    /** Adds that something touches the others in a joint of that box or panel. */
    static void touches(House house, RowBuilder rows, String box, Ref ref, int joint) {
        if (ref instanceof Ref.WireEnd w) {
            rows.tie(rows.node("Wire", w.cable() + "." + w.wire()), "TOUCHES", joint, "end", w.end() + 1);
        } else if (ref instanceof Ref.DeviceTerminal t) {
            rows.tie(rows.node("Device", t.device()), "TOUCHES", joint, "terminal", t.terminal());
        } else if (ref instanceof Ref.SourceTerminal s) {
            String pole = s.source() + "." + s.terminal();
            int n = rows.has("Pole", pole) ? rows.node("Pole", pole) : rows.node("Source", s.source());
            rows.tie(n, "TOUCHES", joint);
        } else if (ref instanceof Ref.PanelTerminal t) {
            PanelRows.touches(house, rows, box, t.terminal(), joint);
        } else {
            rows.tie(metal(house, rows, box), "TOUCHES", joint);
        }
    }

    /** {@return the node of a box's or panel's metal} */
    static int metal(House house, RowBuilder rows, String box) {
        boolean isNew = !rows.has("Metal", box);
        int n = rows.node("Metal", box);
        if (isNew) {
            rows.tie(n, "IN", enclosure(house, rows, box));
        }
        return n;
    }

    /** {@return the node of a box or panel} */
    static int enclosure(House house, RowBuilder rows, String name) {
        return rows.node(house.panels().containsKey(name) ? "Panel" : "Box", name);
    }

    private static String said(CableEnd end) {
        if (end instanceof CableEnd.At at) {
            return at.box();
        }
        return end instanceof CableEnd.OneOf one ? String.join("|", one.boxes()) : "?";
    }
}
