package org.splicebook.housefile;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.Breaker;
import org.splicebook.record.MainDisconnect;
import org.splicebook.record.OvercurrentType;
import org.splicebook.record.Panel;
import org.splicebook.record.Protection;
import org.splicebook.record.SubBus;

/** Writes panels. */
final class PanelWriter {
    private PanelWriter() {}

    static Node panel(Panel p) {
        return new Tree()
                .put("place", p.place())
                .put("supply", p.supply().isEmpty() ? null : Tree.oneOrMore(p.supply()))
                .put("spaces", p.spaces() == null ? null : p.spaces().toString())
                .put("rating", p.rating())
                .put("main", main(p.main()))
                .putMap("breakers", ofType(p, OvercurrentType.BREAKER), PanelWriter::breaker)
                .putMap("fuses", ofType(p, OvercurrentType.FUSE), PanelWriter::breaker)
                .putList("ties", p.ties(), Tree::list)
                .put("pull-outs", pullOuts(p.pullOuts()))
                .putList("exclusive", p.exclusive(), Tree::list)
                .putMap("legs", p.legs(), Tree::scalar)
                .putMap("buses", p.buses(), PanelWriter::bus)
                .putUnless(!p.bonded(), "bonded", "yes")
                .put("neutral-fuse", p.neutralFuse())
                .put("electrode", p.electrode())
                .putList("joints", p.joints(), JointWriter::joint)
                .put("complete", HouseWriter.complete(p.complete()))
                .about(p.about())
                .node();
    }

    private static Map<String, Breaker> ofType(Panel p, OvercurrentType type) {
        Map<String, Breaker> some = new LinkedHashMap<>();
        p.breakers().forEach((key, b) -> {
            if (b.type() == type) {
                some.put(key, b);
            }
        });
        return some;
    }

    private static @Nullable Node main(@Nullable MainDisconnect m) {
        return m == null
                ? null
                : new Tree()
                        .put("poles", String.valueOf(m.poles()))
                        .put("rating", m.rating())
                        .putUnless(m.type() == OvercurrentType.BREAKER, "kind", "fuses")
                        .putList("protects", words(m.protects()))
                        .putUnless(m.position() == Breaker.Position.ON, "position", Words.word(m.position()))
                        .about(m.about())
                        .node();
    }

    static Node breaker(Breaker b) {
        boolean protects = !b.protects().isEmpty();
        boolean commonByKind = b.type() == OvercurrentType.BREAKER;
        return new Tree()
                .put("rating", b.rating())
                .putList("protects", words(b.protects()))
                .putUnless(b.neutralTerminal() == protects, "neutral", Tree.yesNo(b.neutralTerminal()))
                .put("opens-neutral", b.opensNeutral() == null ? null : Tree.yesNo(b.opensNeutral()))
                .putUnless(b.commonTrip() == commonByKind, "common-trip", Tree.yesNo(b.commonTrip()))
                .putUnless(b.position() == Breaker.Position.ON, "position", Words.word(b.position()))
                .put("label", b.label())
                .about(b.about())
                .node();
    }

    private static List<String> words(Set<Protection> protects) {
        return protects.stream().map(Protection::word).toList();
    }

    private static @Nullable Node pullOuts(Map<String, List<String>> pullOuts) {
        if (pullOuts.isEmpty()) {
            return null;
        }
        int n = 0;
        for (String name : pullOuts.keySet()) {
            if (!name.equals(String.valueOf(++n))) {
                Tree named = new Tree();
                pullOuts.forEach((k, v) -> named.put(k, Tree.list(v)));
                return named.node();
            }
        }
        return Tree.list(pullOuts.values(), Tree::list);
    }

    private static Node bus(SubBus b) {
        return new Tree()
                .put("spaces", Tree.list(b.spaces()))
                .put("fed-by", b.fedBy())
                .about(b.about())
                .node();
    }
}
