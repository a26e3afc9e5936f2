package org.splicebook.wiring;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;

/** Where neutral and ground meet past the main bond: joint by joint, and in bonded panels. */
final class GroundTies {
    private final Reach reach;
    private final Net net;

    GroundTies(Reach reach) {
        this.reach = reach;
        this.net = reach.net;
    }

    List<Crossing> all() {
        List<Crossing> found = new ArrayList<>();
        for (Regions.Region r : reach.regions.all) {
            if (mayTie(r)) {
                for (int v : r.vertices) {
                    if (net.kind[v] == Net.Kind.JOINT && ties(v)) {
                        found.add(tie(net.name(v), net.box(v)));
                    }
                }
            }
        }
        net.house.panels().values().stream()
                .filter(p -> !reach.regions.holdsMainBond(p.name()))
                .filter(p -> p.bonded() || net.straps.contains(p.name()))
                .forEach(p -> found.add(tie(p.name() + ".n", p.name())));
        return found;
    }

    private static Crossing tie(String where, String box) {
        return new Crossing(CrossingKind.NEUTRAL_TO_GROUND, where, List.of(), List.of(), box, null, Sureness.SHOWN);
    }

    /** Whether the region holds both a ground thing and a neutral thing. */
    private boolean mayTie(Regions.Region r) {
        if (r.groundOnly && r.neutralRoots.length == 0) {
            return false;
        }
        boolean ground = r.groundRoots.length > 0;
        boolean neutral = r.neutralRoots.length > 0;
        for (int v : r.vertices) {
            ground |= isGroundThing(v);
            neutral |= net.loadTerminals.get(v);
        }
        return ground && neutral;
    }

    private boolean isGroundThing(int v) {
        return net.kind[v] == Net.Kind.METAL || net.groundTerminals.get(v);
    }

    /** A joint ties when one member is, or leads only to, ground, and another is, or leads to, neutral. */
    private boolean ties(int joint) {
        boolean ground = false;
        boolean neutral = false;
        for (int i = net.start[joint]; i < net.start[joint + 1]; i++) {
            int m = net.adjacent[i];
            if (net.kind[m] == Net.Kind.NEUTRAL_BAR) {
                neutral |= !reach.regions.holdsMainBond(net.panel(m));
            } else if (net.kind[m] == Net.Kind.GROUND_BAR) {
                ground |= !reach.regions.holdsMainBond(net.panel(m));
            } else if (isGroundThing(m)) {
                ground = true;
            } else if (net.neutralTerminals.get(m)) {
                neutral = true;
            } else if (!net.cut[m]) {
                int side = side(m, joint);
                ground |= side == GROUND;
                neutral |= side == NEUTRAL;
            }
        }
        return ground && neutral;
    }

    private static final int NOTHING = 0;
    private static final int GROUND = 1;
    private static final int NEUTRAL = 2;

    /**
     * What a member leads to when its joint is taken away, every switch open. What leads to both leads to another tie, and is neither a
     * ground thing nor a neutral thing of this joint.
     */
    private int side(int member, int joint) {
        BitSet seen = new BitSet(net.size);
        List<Integer> queue = new ArrayList<>();
        queue.add(member);
        seen.set(member);
        seen.set(joint);
        boolean ground = false;
        boolean neutral = false;
        boolean hot = false;
        for (int i = 0; i < queue.size(); i++) {
            int v = queue.get(i);
            neutral |= net.neutralTerminals.get(v);
            ground |= isGroundThing(v);
            hot |= net.loadTerminals.get(v) || net.kind[v] == Net.Kind.POLE || net.kind[v] == Net.Kind.LUG;
            for (int k = net.start[v]; k < net.start[v + 1]; k++) {
                int u = net.adjacent[k];
                if (net.kind[u] == Net.Kind.NEUTRAL_BAR) {
                    boolean bond = isBondGround(v, u);
                    neutral |= !bond;
                    ground |= bond;
                } else if (net.kind[u] == Net.Kind.GROUND_BAR) {
                    ground = true;
                } else if (!net.cut[u] && net.lever[u] < 0 && !seen.get(u)) {
                    seen.set(u);
                    queue.add(u);
                }
            }
        }
        if (neutral) {
            return ground ? NOTHING : NEUTRAL;
        }
        return ground && !hot ? GROUND : NOTHING;
    }

    /** A landing on the bonding panel's neutral bar is ground where its region is. */
    private boolean isBondGround(int v, int bar) {
        return reach.regions.holdsMainBond(net.panel(bar)) && reach.regions.all.get(reach.regions.of[v]).groundOnly;
    }
}
