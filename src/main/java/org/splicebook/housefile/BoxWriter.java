package org.splicebook.housefile;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.Box;
import org.splicebook.record.BoxPart;
import org.splicebook.record.Device;
import org.splicebook.record.DeviceKind;
import org.splicebook.record.Quantity;
import org.splicebook.record.Unit;

/** Writes boxes and their devices. */
final class BoxWriter {
    private BoxWriter() {}

    static Node box(Box b) {
        return new Tree()
                .put("place", b.place())
                .put("box", shell(b.shell()))
                .put(
                        "cable-entries",
                        b.cableEntries() == null ? null : b.cableEntries().toString())
                .putUnless(!b.hidden(), "hidden", "yes")
                .putMap("devices", b.devices(), BoxWriter::device)
                .putList("joints", b.joints(), JointWriter::joint)
                .put("complete", HouseWriter.complete(b.complete()))
                .about(b.about())
                .node();
    }

    private static @Nullable Node shell(Box.@Nullable Shell s) {
        if (s == null) {
            return null;
        }
        if (s.equals(new Box.Shell(BoxReader.NONE, null, null, null))) {
            return Tree.scalar(BoxReader.NONE);
        }
        return new Tree()
                .put("material", s.material())
                .put("volume", s.volume())
                .put("clamps", s.clamps())
                .put("depth", s.depth())
                .put("size", s.size() == null ? null : s.size().name())
                .put("gangs", s.gangs() == null ? null : s.gangs().toString())
                .putList("parts", s.parts(), BoxWriter::part)
                .put("note", s.note())
                .node();
    }

    private static Node part(BoxPart p) {
        return new Tree()
                .put("kind", Words.word(p.kind()))
                .put("size", p.size() == null ? null : p.size().name())
                .put("volume", p.volume())
                .put("material", p.material())
                .put("wire", p.wire())
                .put("note", p.note())
                .node();
    }

    static Node device(Device d) {
        Tree tree = new Tree()
                .put("kind", d.kind().name())
                .put("rating", d.rating())
                .putMap("tabs", d.tabs(), in -> Tree.scalar(in ? "in" : "out"))
                .putList("unused", d.unused())
                .put("load", d.load())
                .put("watts", watts(d.watts()))
                .put("label", d.label())
                .put("canopy", d.canopy());
        if (d.kind().name().equals(Kinds.OTHER)) {
            own(d.kind(), tree);
        }
        return tree.about(d.about()).node();
    }

    private static @Nullable String watts(@Nullable Quantity q) {
        return q == null ? null : q.unit() == Unit.WATT ? q.value().toPlainString() : q.said();
    }

    private static void own(DeviceKind kind, Tree tree) {
        Tree terminals = new Tree();
        kind.terminals().forEach(t -> terminals.put(t.name(), Words.word(t.role())));
        tree.put("terminals", terminals.node())
                .putList("links", kind.links(), BoxWriter::link)
                .putList("load-points", kind.loadPoints(), BoxWriter::loadPoint)
                .put("guard", guard(kind.guard()))
                .putUnless(kind.boxFill() == 2, "box-fill", number(kind.boxFill()));
    }

    private static Node link(DeviceKind.Link l) {
        if (l.when() == DeviceKind.When.ALWAYS) {
            return Tree.list(List.of(l.a(), l.b()));
        }
        Tree tree = new Tree().put("between", Tree.list(List.of(l.a(), l.b()))).put("when", Words.word(l.when()));
        if (l.lever() != null) {
            tree.putUnless(l.lever().equals("lever"), "lever", l.lever());
        }
        return tree.putList("positions", l.positions()).node();
    }

    private static Node loadPoint(DeviceKind.LoadPoint p) {
        Tree tree = new Tree().putUnless(p.name().isEmpty(), "name", p.name());
        if (p.pairs().size() == 1) {
            tree.putAll(pair(p.pairs().get(0)));
        } else {
            tree.putList("pairs", p.pairs(), pair -> pair(pair).node());
        }
        return tree.put("ground", p.ground()).node();
    }

    private static Tree pair(DeviceKind.Pair p) {
        return new Tree()
                .put("between", Tree.list(List.of(p.a(), p.b())))
                .putUnless(p.volts() == 0, "volts", number(p.volts()));
    }

    private static @Nullable Node guard(DeviceKind.@Nullable Guard g) {
        return g == null
                ? null
                : new Tree()
                        .put(
                                "functions",
                                Tree.list(g.functions().stream()
                                        .map(f -> f.word())
                                        .toList()))
                        .put("opens", Tree.list(g.opens()))
                        .put("face-on-load-side", Tree.yesNo(g.faceOnLoadSide()))
                        .put("reversed", Words.word(g.reversed()))
                        .put("senses-neutral", Tree.yesNo(g.sensesNeutral()))
                        .node();
    }

    private static String number(double d) {
        return new java.math.BigDecimal(String.valueOf(d)).stripTrailingZeros().toPlainString();
    }
}
