package org.splicebook.rewire.search;

import java.util.Comparator;
import java.util.List;
import org.splicebook.record.House;
import org.splicebook.record.Move;
import org.splicebook.rewire.Worklist;

/**
 * What a change takes, compared in this order.
 *
 * @param cables new cables through walls
 * @param sites boxes and panels to open
 * @param moved load points that come on another circuit
 * @param parts things to buy
 * @param moves moves to make
 */
public record Cost(int cables, int sites, int moved, int parts, int moves) implements Comparable<Cost> {
    private static final Comparator<Cost> ORDER = Comparator.comparingInt(Cost::cables)
            .thenComparingInt(Cost::sites)
            .thenComparingInt(Cost::moved)
            .thenComparingInt(Cost::parts)
            .thenComparingInt(Cost::moves);

    static Cost of(House before, House after, List<Move> moves) {
        Worklist work = Worklist.of(before, after, moves);
        int parts = work.parts().values().stream().mapToInt(Integer::intValue).sum();
        int cables =
                (int) moves.stream().filter(m -> m instanceof Move.AddCable).count();
        return new Cost(cables, work.sites().size(), 0, parts, moves.size());
    }

    Cost withMoved(int points) {
        return new Cost(cables, sites, points, parts, moves);
    }

    @Override
    public int compareTo(Cost other) {
        return ORDER.compare(this, other);
    }

    /** {@return it in words} */
    public String said() {
        return said(cables, "new cable") + ", " + sites + " to open, "
                + (moved == 0 ? "" : said(moved, "load point") + " on another circuit, ") + said(parts, "part") + ", "
                + said(moves, "move");
    }

    private static String said(int n, String what) {
        return n + " " + what + (n == 1 ? "" : "s");
    }
}
