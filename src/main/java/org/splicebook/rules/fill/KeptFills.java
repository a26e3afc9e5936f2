package org.splicebook.rules.fill;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.Basis;
import org.splicebook.record.Box;
import org.splicebook.record.Cable;
import org.splicebook.record.CodeBook;
import org.splicebook.record.Complete;
import org.splicebook.record.House;
import org.splicebook.record.Wire;
import org.splicebook.wiring.WireUse;
import org.splicebook.wiring.Wiring;

/**
 * How full boxes are, over many like houses: a box that is the same one as in a house before, with the same cables and the same wires for
 * grounds, is not counted again. Safe for use by several threads.
 */
public final class KeptFills {
    private static final int MOST_KEPT = 20_000;

    private final IdentityHashMap<Box, Kept> kept = new IdentityHashMap<>();

    /** All that a count hangs on beside the box itself. */
    private record Of(
            List<Cable> cables,
            BitSet grounds,
            int edition,
            @Nullable CodeBook code,
            Basis basis,
            Set<Complete> complete) {
        boolean isAs(Of o) {
            return edition == o.edition
                    && grounds.equals(o.grounds)
                    && areSame(cables, o.cables)
                    && basis == o.basis
                    && java.util.Objects.equals(code, o.code)
                    && complete.equals(o.complete);
        }

        @SuppressWarnings(
                "ReferenceEquality") // the very same ones: to compare them by value takes longer than counting
        private static boolean areSame(List<Cable> a, List<Cable> b) {
            boolean are = a.size() == b.size();
            for (int i = 0; are && i < a.size(); i++) {
                are = a.get(i) == b.get(i);
            }
            return are;
        }
    }

    private record Kept(Of of, BoxFill fill) {}

    /** {@return how full each box of a house is, without what else would fit, by the count of an edition} */
    public List<BoxFill> verdicts(Wiring wiring, int edition) {
        House house = wiring.house();
        Map<String, WireUse> uses = Opened.uses(wiring);
        Map<String, List<Cable>> cables = Opened.cables(house);
        List<BoxFill> all = new ArrayList<>();
        for (Box box : house.boxes().values()) {
            List<Cable> its = cables.getOrDefault(box.name(), List.of());
            Of of = new Of(its, grounds(its, uses), edition, house.code(), house.basis(), house.complete());
            Kept known = find(box);
            BoxFill fill;
            if (known != null && known.of.isAs(of)) {
                fill = known.fill;
            } else {
                fill = BoxFills.verdict(house, uses, its, box, edition);
                keep(box, new Kept(of, fill));
            }
            if (fill.verdict() != BoxFill.Verdict.NO_BOX) {
                all.add(fill);
            }
        }
        return all;
    }

    private static BitSet grounds(List<Cable> cables, Map<String, WireUse> uses) {
        BitSet grounds = new BitSet();
        int i = 0;
        for (Cable c : cables) {
            for (Wire w : c.wires()) {
                grounds.set(i++, !w.metal() && Opened.isGround(uses.get(c.name() + "." + w.name()), w));
            }
        }
        return grounds;
    }

    private synchronized @Nullable Kept find(Box box) {
        return kept.get(box);
    }

    private synchronized void keep(Box box, Kept k) {
        if (kept.size() >= MOST_KEPT) {
            kept.clear();
        }
        kept.put(box, k);
    }
}
