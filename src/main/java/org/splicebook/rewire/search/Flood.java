package org.splicebook.rewire.search;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.splicebook.record.Box;
import org.splicebook.record.Breaker;
import org.splicebook.record.Cable;
import org.splicebook.record.Device;
import org.splicebook.record.DeviceKind;
import org.splicebook.record.House;
import org.splicebook.record.Joint;
import org.splicebook.record.Panel;
import org.splicebook.record.Ref;
import org.splicebook.record.Wire;

/**
 * A first, cheap look at a house: what hangs together by wires when every lever joins all that it ever joins. Who gets no hot or no way
 * back even so gets none in any position; and what no lever parts from both a pole and a neutral bar is a short. It only ever turns
 * away what the judgement of the whole would turn away too.
 */
final class Flood {
    private static final int HOT = 1;
    private static final int NEUTRAL = 2;
    private static final int GROUND = 4;

    private final Map<String, Integer> numbers = new HashMap<>();
    private final List<Integer> parents = new ArrayList<>();
    private final List<Integer> marks = new ArrayList<>();
    /** By load point: what its terminals and its ground terminal reach. */
    private final Map<String, Reached> reached = new HashMap<>();

    private boolean isShort;

    /**
     * What a load point may reach.
     *
     * @param isPowered whether a hot reaches one terminal of a pair and a hot, a neutral or a ground the other
     * @param hasNeutral whether one of its terminals reaches a neutral bar
     * @param hasGround whether its ground terminal reaches a ground bar
     */
    record Reached(boolean isPowered, boolean hasNeutral, boolean hasGround) {}

    private Flood(House house) {
        house.panels().values().forEach(this::panel);
        house.cables().values().forEach(this::cable);
        List<int[]> levers = new ArrayList<>();
        house.boxes().values().forEach(b -> box(house, b, levers));
        for (int i = 0; i < parents.size(); i++) {
            int m = marks.get(root(i));
            isShort |= (m & HOT) != 0 && (m & NEUTRAL) != 0;
        }
        levers.forEach(l -> join(l[0], l[1]));
        house.boxes()
                .values()
                .forEach(b ->
                        b.devices().values().forEach(d -> d.kind().loadPoints().forEach(l -> point(d, l))));
    }

    static Flood of(House house) {
        return new Flood(house);
    }

    /** {@return whether some conductor is a hot and a neutral, whatever the levers do} */
    boolean isShort() {
        return isShort;
    }

    /** {@return what each load point may reach} */
    Map<String, Reached> reached() {
        return reached;
    }

    private int node(String name) {
        Integer n = numbers.get(name);
        if (n == null) {
            n = parents.size();
            numbers.put(name, n);
            parents.add(n);
            marks.add(0);
        }
        return n;
    }

    private int root(int node) {
        int v = node;
        while (parents.get(v) != v) {
            parents.set(v, parents.get(parents.get(v)));
            v = parents.get(v);
        }
        return v;
    }

    private void join(int a, int b) {
        int x = root(a);
        int y = root(b);
        if (x != y) {
            parents.set(y, x);
            marks.set(x, marks.get(x) | marks.get(y));
        }
    }

    private void mark(int node, int what) {
        int r = root(node);
        marks.set(r, marks.get(r) | what);
    }

    private void panel(Panel p) {
        String in = p.name() + "/";
        mark(node(in + "n"), NEUTRAL);
        mark(node(in + "g"), GROUND);
        join(node(in + "g"), node(in + "box"));
        for (Breaker b : p.breakers().values()) {
            b.spaces().forEach(s -> mark(node(in + s), HOT));
            if (b.neutralTerminal()) {
                join(node(in + b.spaces().get(0) + ".neutral"), node(in + "n"));
            }
        }
        for (Joint j : p.joints()) {
            Set<Integer> posts = new HashSet<>();
            Set<Integer> landed = new HashSet<>();
            for (Ref r : j.members()) {
                (r instanceof Ref.PanelTerminal ? posts : landed).add(member(p.name(), r));
            }
            boolean isBond = posts.contains(node(in + "n")) && posts.contains(node(in + "g"));
            if (!isBond) {
                all(new ArrayList<>(posts));
                landed.addAll(posts);
                all(new ArrayList<>(landed));
            } else {
                landed.forEach(l -> posts.forEach(t -> mark(l, marks.get(root(t)))));
            }
        }
    }

    private void all(List<Integer> some) {
        for (int i = 1; i < some.size(); i++) {
            join(some.get(0), some.get(i));
        }
    }

    private int member(String in, Ref r) {
        if (r instanceof Ref.WireEnd w) {
            return node(w.cable() + "." + w.wire());
        }
        if (r instanceof Ref.PanelTerminal t) {
            int n = node(in + "/" + t.terminal());
            if (t.terminal().startsWith("line-")) {
                mark(n, HOT);
            }
            return n;
        }
        if (r instanceof Ref.SourceTerminal s) {
            int n = node(s.said());
            mark(n, s.terminal().equals("n") ? NEUTRAL : s.terminal().equals("g") ? GROUND : HOT);
            return n;
        }
        return r instanceof Ref.DeviceTerminal ? node(r.said()) : node(in + "/box");
    }

    private void cable(Cable c) {
        for (Wire w : c.wires()) {
            node(c.name() + "." + w.name());
        }
    }

    private void box(House house, Box b, List<int[]> levers) {
        boolean isOpen = !house.isComplete(b, org.splicebook.record.Complete.JOINTS);
        for (Joint j : b.joints()) {
            List<Integer> members = new ArrayList<>();
            j.members().forEach(r -> members.add(member(b.name(), r)));
            all(members);
        }
        for (Device d : b.devices().values()) {
            for (DeviceKind.Tab t : d.kind().tabs()) {
                Boolean said = d.tabs().get(t.name());
                if (said == null ? t.madeIn() || isOpen : said) {
                    int[] both = {node(d.name() + "." + t.a()), node(d.name() + "." + t.b())};
                    if (said == null && isOpen) {
                        levers.add(both);
                    } else {
                        join(both[0], both[1]);
                    }
                }
            }
            for (DeviceKind.Link l : d.kind().links()) {
                int[] both = {node(d.name() + "." + l.a()), node(d.name() + "." + l.b())};
                if (l.when() == DeviceKind.When.LEVER) {
                    levers.add(both);
                } else if (l.when() != DeviceKind.When.AS_LOAD) {
                    join(both[0], both[1]);
                }
            }
        }
    }

    private int marksOf(Device d, String terminal) {
        return marks.get(root(node(d.name() + "." + terminal)));
    }

    private void point(Device d, DeviceKind.LoadPoint l) {
        boolean isPowered = false;
        boolean hasNeutral = false;
        for (DeviceKind.Pair p : l.pairs()) {
            int a = marksOf(d, p.a());
            int b = marksOf(d, p.b());
            isPowered |= ((a & HOT) != 0 && b != 0) || ((b & HOT) != 0 && a != 0);
            hasNeutral |= ((a | b) & NEUTRAL) != 0;
        }
        boolean hasGround = l.ground() != null && (marksOf(d, l.ground()) & GROUND) != 0;
        reached.put(
                l.name().isEmpty() ? d.name() : d.name() + "." + l.name(),
                new Reached(isPowered, hasNeutral, hasGround));
    }
}
