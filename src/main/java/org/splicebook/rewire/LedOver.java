package org.splicebook.rewire;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.House;
import org.splicebook.record.Move;
import org.splicebook.record.Panel;
import org.splicebook.record.Ref;

/**
 * Circuits that were led over to a further panel: what landed in one panel is spliced to a wire of a new cable, which lands in the other.
 * Breakers and landings are known again by that.
 */
final class LedOver {
    private final Map<String, String> names = new HashMap<>();
    private final Map<String, Panel> added = new HashMap<>();

    private LedOver() {}

    static LedOver of(House before, List<Move> moves) {
        LedOver all = new LedOver();
        Map<String, Move.Shift> landings = new HashMap<>();
        for (Move m : moves) {
            if (m instanceof Move.AddPanel p) {
                all.added.put(p.is().name(), p.is());
            } else if (m instanceof Move.Shift s && all.added.containsKey(s.in())) {
                landings.put(s.end(), s);
            }
        }
        for (Move m : moves) {
            if (m instanceof Move.Splice s) {
                s.ends().stream()
                        .filter(landings::containsKey)
                        .findFirst()
                        .ifPresent(wire -> all.spliced(
                                before.panels().get(s.in()), s, Objects.requireNonNull(landings.get(wire))));
            }
        }
        return all;
    }

    private void spliced(@Nullable Panel from, Move.Splice splice, Move.Shift to) {
        if (from == null) {
            return;
        }
        for (String wire : splice.ends()) {
            from.joints().stream()
                    .filter(j -> j.members().stream().anyMatch(r -> r.said().equals(wire)))
                    .flatMap(j -> j.members().stream())
                    .filter(r -> r instanceof Ref.PanelTerminal)
                    .forEach(r -> {
                        names.put(from.name() + "." + r.said(), to.in() + "." + to.to());
                        names.put(from.name() + ":" + wire, to.in() + ":" + to.end());
                    });
        }
    }

    /** {@return whether anything was led over} */
    boolean isAny() {
        return !names.isEmpty();
    }

    /** {@return what a breaker, a space of one or a landing is called after the moves, where it was led over} */
    Optional<String> name(String before) {
        int dot = before.indexOf('.');
        String space = before.indexOf(':') < 0 && dot > 0 ? before.split("\\+", 2)[0] : before;
        String now = names.get(space);
        if (now == null || now.endsWith(".n") || now.endsWith(".g")) {
            return Optional.empty();
        }
        int at = now.indexOf('.');
        Panel panel = at < 0 || now.indexOf(':') >= 0 ? null : added.get(now.substring(0, at));
        return panel == null
                ? Optional.of(now)
                : panel.breakers().values().stream()
                        .filter(b -> b.spaces().contains(now.substring(at + 1)))
                        .map(b -> panel.name() + "." + b.key())
                        .findFirst();
    }
}
