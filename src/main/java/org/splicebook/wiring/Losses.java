package org.splicebook.wiring;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Set;

/** What is lost with each thing. */
final class Losses {
    private final Net net;
    private final Effects effects;
    private final Unknowns unknowns;

    Losses(Net net, Effects effects, Unknowns unknowns) {
        this.net = net;
        this.effects = effects;
        this.unknowns = unknowns;
    }

    List<Loss> all() {
        List<Loss> found = new ArrayList<>();
        // Things with the same effects share their rows, unless what is unknown makes a difference between them.
        IdentityHashMap<List<Effects.Effect>, List<LossRow>> shared = new IdentityHashMap<>();
        boolean whole = unknowns.regions().isEmpty() && net.assumedFed.isEmpty();
        for (Things.Lossy x : Things.losses(net)) {
            List<Effects.Effect> changes = effects.of(x.vertices());
            List<LossRow> rows = whole
                    ? shared.computeIfAbsent(changes, c -> List.copyOf(rows(c, x.vertices())))
                    : possible(x, rows(changes, x.vertices()));
            if (!rows.isEmpty()) {
                found.add(new Loss(x.mode(), x.thing(), rows));
            }
        }
        return found;
    }

    private List<LossRow> rows(List<Effects.Effect> changes, int[] gone) {
        List<LossRow> rows = new ArrayList<>();
        for (Effects.Effect e : changes) {
            if (e.changes()) {
                rows.add(new LossRow(
                        net.loadPoints.get(e.loadPoint()).id(),
                        e.hot(),
                        e.neutral(),
                        e.ground(),
                        unknowns.sureness(e, gone)));
            }
        }
        return rows;
    }

    /** A breaker may also feed what hangs on something that is not recorded. */
    private List<LossRow> possible(Things.Lossy x, List<LossRow> rows) {
        if (!unknowns.mayHang(x.vertices())) {
            return rows;
        }
        Set<String> already = new HashSet<>();
        rows.forEach(r -> already.add(r.loadPoint()));
        Set<String> hanging = unknowns.mayHang(x.vertices(), already);
        hanging.forEach(lp ->
                rows.add(new LossRow(lp, LossRow.Hot.LOST, LossRow.Neutral.KEPT, LossRow.Ground.KEPT, Sureness.MAY)));
        if (!hanging.isEmpty()) {
            rows.sort(Comparator.comparing(LossRow::loadPoint));
        }
        return rows;
    }
}
