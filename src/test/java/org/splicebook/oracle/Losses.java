package org.splicebook.oracle;

import java.util.List;
import org.splicebook.oracle.Netlist.Load;
import org.splicebook.oracle.Oracle.Seen;
import org.splicebook.oracle.Removals.Removal;
import org.splicebook.wiring.Conductor;
import org.splicebook.wiring.LossRow;
import org.splicebook.wiring.Sureness;

/** What changes for a load point with something taken away, position by position. */
final class Losses {
    private final Oracle o;
    private final LiveThroughLoads throughLoads;

    Losses(Oracle o) {
        this.o = o;
        this.throughLoads = new LiveThroughLoads(o);
    }

    void relies(Load l, Removal r, List<Seen> before, List<Seen> after) {
        for (Conductor c : Conductor.values()) {
            int had = 0;
            int ended = 0;
            for (int i = 0; i < before.size(); i++) {
                if (has(before.get(i), c)) {
                    had++;
                    ended += has(after.get(i), c) ? 0 : 1;
                }
            }
            if (ended > 0) {
                o.facts.put(
                        "relies " + l.id() + " " + c + " " + r.thing(), ended == had ? Sureness.MUST : Sureness.MAY);
            }
        }
    }

    private static boolean has(Seen s, Conductor c) {
        return switch (c) {
            case HOT -> s.live();
            case NEUTRAL -> s.neutral();
            case GROUND -> s.grounded();
        };
    }

    void lost(Load l, Removal r, List<Seen> before, List<Seen> after) {
        LossRow.Hot hot = LossRow.Hot.KEPT;
        long liveBefore = before.stream().filter(Seen::live).count();
        long liveAfter = after.stream().filter(Seen::live).count();
        boolean oneDead = l.terminals().stream()
                .anyMatch(t -> before.stream().anyMatch(s -> s.load().get(t).hot())
                        && after.stream().noneMatch(s -> s.load().get(t).hot()));
        if (liveBefore > 0 && liveAfter == 0) {
            hot = throughLoads.reach(l, r.gone()) ? LossRow.Hot.LOST_LIVE_THROUGH_LOAD : LossRow.Hot.LOST;
        } else if (oneDead) {
            hot = LossRow.Hot.ONE_OF_TWO;
        } else if (liveAfter < liveBefore) {
            hot = LossRow.Hot.IMPAIRED;
        }
        LossRow.Neutral neutral = LossRow.Neutral.KEPT;
        long neutralBefore = before.stream().filter(Seen::neutral).count();
        long neutralAfter = after.stream().filter(Seen::neutral).count();
        if (neutralBefore > 0 && neutralAfter == 0) {
            boolean overGround = l.terminals().stream()
                    .anyMatch(t -> before.stream().anyMatch(s -> s.load().get(t).neutral())
                            && after.stream()
                                    .anyMatch(s -> !s.load().get(t).groundBars().isEmpty()));
            neutral = overGround ? LossRow.Neutral.OVER_GROUND : LossRow.Neutral.LOST;
        } else if (neutralAfter < neutralBefore) {
            neutral = LossRow.Neutral.IMPAIRED;
        }
        LossRow.Ground ground = LossRow.Ground.KEPT;
        long groundBefore = before.stream().filter(Seen::grounded).count();
        long groundAfter = after.stream().filter(Seen::grounded).count();
        if (groundBefore > 0 && groundAfter == 0) {
            ground = LossRow.Ground.LOST;
        } else if (groundAfter < groundBefore) {
            ground = LossRow.Ground.IMPAIRED;
        }
        if (hot != LossRow.Hot.KEPT || neutral != LossRow.Neutral.KEPT || ground != LossRow.Ground.KEPT) {
            o.facts.put("loss " + r.mode() + " " + r.thing() + ": " + l.id(), hot + "/" + neutral + "/" + ground);
        }
    }
}
