package org.splicebook.rewire.search;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.Box;
import org.splicebook.record.Breaker;
import org.splicebook.record.Cable;
import org.splicebook.record.CableEnd;
import org.splicebook.record.Complete;
import org.splicebook.record.House;
import org.splicebook.record.Joint;
import org.splicebook.record.Panel;
import org.splicebook.record.Ref;

/**
 * What hangs together over cables, boxes, breakers and splices in panels, but for the buses and bars of panels: from a thing to those
 * beside it. A thing is called by kind and name: {@code c:} a cable, {@code b:} a box, {@code p:} a breaker's space with its panel.
 */
final class Links {
    /** Stands for all that is not wholly known: something unrecorded may join it. */
    private static final String OPEN = "";

    private final Map<String, Set<String>> next = new HashMap<>();

    private void join(String a, String b) {
        next.computeIfAbsent(a, k -> new TreeSet<>()).add(b);
        next.computeIfAbsent(b, k -> new TreeSet<>()).add(a);
    }

    /** {@return those of a whole house} */
    static Links of(House house) {
        Links all = new Links();
        house.cables().values().forEach(c -> all.cable(house, c));
        house.panels().values().forEach(p -> {
            all.panel(p, p.joints());
            if (!house.isComplete(p, Complete.LANDINGS) || !house.isComplete(p, Complete.BREAKERS)) {
                spaces(p).forEach(s -> all.join(s, OPEN));
            }
        });
        house.boxes().values().forEach(b -> all.box(house, b));
        return all;
    }

    void cable(House house, Cable c) {
        String name = "c:" + c.name();
        List<String> sites = new ArrayList<>(c.through());
        for (CableEnd e : c.ends()) {
            if (e instanceof CableEnd.At at) {
                sites.add(at.box());
            } else {
                join(name, OPEN);
                if (e instanceof CableEnd.OneOf some) {
                    sites.addAll(some.boxes());
                }
            }
        }
        sites.stream().filter(s -> !house.panels().containsKey(s)).forEach(s -> join(name, "b:" + s));
    }

    void box(House house, Box b) {
        if (!house.isComplete(b, Complete.JOINTS) || !house.isComplete(b, Complete.CABLES)) {
            join("b:" + b.name(), OPEN);
        }
    }

    /** What lands on one breaker, or on several that are tied, pulled or locked together, and of these joints what is spliced in the panel. */
    void panel(Panel p, Collection<Joint> joints) {
        String in = "p:" + p.name() + ".";
        for (Breaker b : p.breakers().values()) {
            b.spaces().forEach(s -> join(in + s, in + b.spaces().get(0)));
        }
        List<List<String>> groups = new ArrayList<>(p.ties());
        groups.addAll(p.pullOuts().values());
        for (List<String> keys : p.exclusive()) {
            groups.add(keys.stream().map(k -> k.split("\\+")[0]).toList());
        }
        groups.forEach(g -> g.forEach(s -> join(in + s, in + g.get(0))));
        for (Joint j : joints) {
            List<String> posts = posts(j);
            List<String> cables = cables(j);
            if (posts.isEmpty()) {
                cables.forEach(k -> join("c:" + k, "c:" + cables.get(0)));
            }
            for (String post : posts) {
                if (!isBar(post) && !isLine(post)) {
                    cables.forEach(k -> join("c:" + k, in + post.replace(".neutral", "")));
                }
            }
        }
    }

    /** {@return the spaces of all breakers of a panel} */
    static List<String> spaces(Panel p) {
        return p.breakers().values().stream()
                .flatMap(b -> b.spaces().stream())
                .map(s -> "p:" + p.name() + "." + s)
                .toList();
    }

    static boolean isBar(String post) {
        return post.equals("n") || post.equals("g");
    }

    static boolean isLine(String post) {
        return post.startsWith("line-");
    }

    /** {@return the terminals of the panel in a joint} */
    static List<String> posts(Joint j) {
        List<String> all = new ArrayList<>(1);
        for (Ref r : j.members()) {
            if (r instanceof Ref.PanelTerminal t) {
                all.add(t.terminal());
            }
        }
        return all;
    }

    /** {@return the cables of which a wire is in a joint, one twice where two of its wires are} */
    static List<String> cables(Joint j) {
        List<String> all = new ArrayList<>(j.members().size());
        for (Ref r : j.members()) {
            if (r instanceof Ref.WireEnd w) {
                all.add(w.cable());
            }
        }
        return all;
    }

    /** {@return all that hangs together with some things, by these links or others} */
    Set<String> reach(Collection<String> from, Links other) {
        Set<String> seen = new HashSet<>(from);
        ArrayDeque<String> queue = new ArrayDeque<>(from);
        while (!queue.isEmpty()) {
            String at = queue.remove();
            add(next.get(at), seen, queue);
            add(other.next.get(at), seen, queue);
        }
        return seen;
    }

    private static void add(@Nullable Set<String> to, Set<String> seen, ArrayDeque<String> queue) {
        if (to != null) {
            for (String s : to) {
                if (seen.add(s)) {
                    queue.add(s);
                }
            }
        }
    }
}
