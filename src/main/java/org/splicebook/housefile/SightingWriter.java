package org.splicebook.housefile;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.Quantity;
import org.splicebook.record.Sighting;
import org.splicebook.record.Unit;

/** Writes sightings, each in its form. */
final class SightingWriter {
    private SightingWriter() {}

    static Node sighting(Sighting s) {
        Tree tree = new Tree().put("id", s.id()).put("date", s.date()).putList("with-off", s.withOff());
        seen(s.seen(), tree);
        return tree.putMap("levers", s.levers(), Tree::scalar)
                .put("instrument", s.instrument())
                .put("pass", s.pass())
                .put("by", s.by())
                .put("note", s.note())
                .node();
    }

    private static void seen(Sighting.Seen seen, Tree tree) {
        if (seen instanceof Sighting.Lit s) {
            tree.put("at", s.at())
                    .put("before", s.before() == null ? null : s.before().word())
                    .put("read", s.read().word())
                    .put("after", s.after() == null ? null : s.after().word());
        } else if (seen instanceof Sighting.Volts s) {
            tree.put("volts", plain(s.volts(), Unit.VOLT)).put("between", two(s.from(), s.to()));
        } else if (seen instanceof Sighting.Lamps s) {
            tree.put("lamps", bit(s.hotNeutral()) + bit(s.hotGround()) + bit(s.neutralGround()))
                    .put("at", s.at());
        } else if (seen instanceof Sighting.Pressed s) {
            tree.put("pressed", s.device()).putList("went-out", s.wentOut()).putList("stayed", s.stayed());
        } else if (seen instanceof Sighting.Clamp s) {
            tree.put("amperes", plain(s.amperes(), Unit.AMPERE)).put("around", s.around());
        } else if (seen instanceof Sighting.Continuity s) {
            tree.put("continuity", Tree.yesNo(s.connected())).put("between", two(s.from(), s.to()));
        } else if (seen instanceof Sighting.LoadStep s) {
            tree.put("step-at", s.at()).put("seen-at", s.seenAt()).put("amperes", plain(s.amperes(), Unit.AMPERE));
        } else if (seen instanceof Sighting.Traced s) {
            tree.put("traced", two(s.from(), s.to())).put("how", s.how());
        } else if (seen instanceof Sighting.LabelRead s) {
            tree.put("label", s.text()).put("at", s.at());
        }
    }

    private static Node two(String from, String to) {
        return Tree.list(List.of(from, to));
    }

    private static String bit(boolean lit) {
        return lit ? "1" : "0";
    }

    private static @Nullable String plain(@Nullable Quantity q, Unit usual) {
        return q == null ? null : q.unit() == usual ? q.value().toPlainString() : q.said();
    }
}
