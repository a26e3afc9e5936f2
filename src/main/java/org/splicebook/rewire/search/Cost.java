package org.splicebook.rewire.search;

import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.splicebook.record.Box;
import org.splicebook.record.DeviceKind;
import org.splicebook.record.House;
import org.splicebook.record.Joint;
import org.splicebook.record.Move;
import org.splicebook.record.Place;
import org.splicebook.record.PlaceKind;
import org.splicebook.rewire.Worklist;

/**
 * What a change takes, compared in this order.
 *
 * @param cables new cables through walls
 * @param run along how many of today's cables the new ones could run: how far they have to be pulled
 * @param sites boxes and panels to open
 * @param moved load points that come on another circuit
 * @param parts things to buy
 * @param moves moves to make
 * @param finishes covers among those to open that sit in a finished ceiling, or behind a finish: twice
 * @param panels panels among what is to be opened
 * @param joints joints that are parted or made
 */
public record Cost(
        int cables, int run, int sites, int moved, int parts, int moves, int finishes, int panels, int joints)
        implements Comparable<Cost> {
    /** What people are told; two that are alike in this cost the same. */
    static final Comparator<Cost> TOLD = Comparator.comparingInt(Cost::cables)
            .thenComparingInt(Cost::run)
            .thenComparingInt(Cost::sites)
            .thenComparingInt(Cost::moved)
            .thenComparingInt(Cost::parts)
            .thenComparingInt(Cost::moves);

    private static final Comparator<Cost> ORDER =
            TOLD.thenComparingInt(Cost::finishes).thenComparingInt(Cost::panels).thenComparingInt(Cost::joints);

    private static final Set<PlaceKind> UNFINISHED = Set.of(
            PlaceKind.BASEMENT,
            PlaceKind.CRAWL_SPACE,
            PlaceKind.ATTIC,
            PlaceKind.GARAGE,
            PlaceKind.ACCESSORY_BUILDING,
            PlaceKind.UTILITY,
            PlaceKind.WORKSHOP,
            PlaceKind.PORCH,
            PlaceKind.OUTDOORS);

    /** {@return what moves on a house take, load points that change their circuit not counted} */
    static Cost of(House before, List<Move> moves) {
        Set<String> sites = new HashSet<>();
        Set<String> joints = new HashSet<>();
        int parts = 0;
        int cables = 0;
        for (Move m : moves) {
            sites.addAll(Worklist.sites(before, before, m));
            parts += Worklist.parts(before, before, m).size();
            cables += m instanceof Move.AddCable ? 1 : 0;
            if (m instanceof Move.Shift s) {
                joints.add(joint(before, s.in(), s.end()));
                joints.add(joint(before, s.in(), s.to()));
            } else if (m instanceof Move.Cap c) {
                joints.add(joint(before, c.in(), c.end()));
            } else if (m instanceof Move.Splice s) {
                s.ends().forEach(e -> joints.add(joint(before, s.in(), e)));
            }
        }
        int finishes = 0;
        int panels = 0;
        for (String s : sites) {
            Box box = before.boxes().get(s);
            finishes += box == null ? 0 : box.hidden() ? 2 : isInFinishedCeiling(before, box) ? 1 : 0;
            panels += before.panels().containsKey(s) ? 1 : 0;
        }
        int run = cables == 0 ? 0 : NewCable.run(before, moves);
        return new Cost(cables, run, sites.size(), 0, parts, moves.size(), finishes, panels, joints.size());
    }

    /** A luminaire or an alarm hangs on it, in a room that is finished as far as is said. */
    private static boolean isInFinishedCeiling(House house, Box box) {
        Place place = box.place() == null ? null : house.places().get(box.place());
        boolean isFinished =
                place == null || (place.finished() == null ? !UNFINISHED.contains(place.kind()) : place.finished());
        return isFinished
                && box.devices().values().stream()
                        .map(d -> d.kind().family())
                        .anyMatch(f -> f == DeviceKind.Family.LUMINAIRE || f == DeviceKind.Family.ALARM);
    }

    /** The joint that a wire end or terminal is in, by its box and first member. */
    private static String joint(House house, String in, String end) {
        Box box = house.boxes().get(in);
        List<Joint> all = box != null
                ? box.joints()
                : house.panels().containsKey(in) ? house.panels().get(in).joints() : List.of();
        for (Joint j : all) {
            for (var r : j.members()) {
                if (r.said().equals(end)) {
                    return in + ":" + j.members().get(0).said();
                }
            }
        }
        return in + ":" + end;
    }

    Cost withMoved(int points) {
        return new Cost(cables, run, sites, points, parts, moves, finishes, panels, joints);
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
