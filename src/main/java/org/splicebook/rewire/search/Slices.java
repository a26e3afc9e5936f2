package org.splicebook.rewire.search;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.HashSet;
import java.util.IdentityHashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Predicate;
import java.util.stream.Collectors;
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
import org.splicebook.record.SubBus;

/**
 * The part of a house that a change can reach: what hangs together with what differs over cables and boxes, panels cut out, and with
 * it what shares a breaker or its tie. What supplies the panels is always in it. A change is judged by this part before and after it,
 * which costs what the part costs and not what the house does.
 */
final class Slices {
    /** Stands for all that is not wholly known: something unrecorded may join it. */
    private static final String OPEN = "";

    private final House base;
    private final Links links;
    private final Set<String> always = new TreeSet<>();

    /**
     * What is in a part.
     *
     * @param boxes by name
     * @param cables by name
     * @param spaces of breakers, with their panel: {@code main.3}
     */
    record Part(Set<String> boxes, Set<String> cables, Set<String> spaces) {}

    /** What hangs together: from a thing to those beside it. */
    private static final class Links {
        /** By kind and name: {@code b:} a box, {@code c:} a cable, {@code p:} a breaker's space. */
        final Map<String, Set<String>> next = new HashMap<>();

        void join(String a, String b) {
            next.computeIfAbsent(a, k -> new TreeSet<>()).add(b);
            next.computeIfAbsent(b, k -> new TreeSet<>()).add(a);
        }
    }

    Slices(House base) {
        this.base = base;
        this.links = new Links();
        base.cables().values().forEach(c -> cable(base, c, links));
        base.panels().values().forEach(p -> {
            panel(p, links);
            if (!base.isComplete(p, Complete.LANDINGS) || !base.isComplete(p, Complete.BREAKERS)) {
                p.breakers()
                        .values()
                        .forEach(b -> b.spaces().forEach(s -> links.join("p:" + p.name() + "." + s, OPEN)));
            }
        });
        base.boxes().values().forEach(b -> box(base, b, links));
        Set<String> feeders = new TreeSet<>();
        for (Panel p : base.panels().values()) {
            p.supply().stream().filter(base.cables()::containsKey).forEach(k -> feeders.add("c:" + k));
            for (Joint j : p.joints()) {
                boolean isSupply = j.members().stream()
                        .anyMatch(r -> r instanceof Ref.SourceTerminal
                                || (r instanceof Ref.PanelTerminal t
                                        && t.terminal().startsWith("line-")));
                if (isSupply) {
                    cables(j).forEach(k -> feeders.add("c:" + k));
                }
            }
        }
        for (Box b : base.boxes().values()) {
            if (b.joints().stream()
                    .anyMatch(j -> j.members().stream().anyMatch(r -> r instanceof Ref.SourceTerminal))) {
                feeders.add("b:" + b.name());
            }
        }
        for (Panel p : base.panels().values()) {
            Set<String> keys = new HashSet<>();
            p.exclusive().forEach(keys::addAll);
            p.buses().values().stream()
                    .map(SubBus::fedBy)
                    .filter(Objects::nonNull)
                    .forEach(keys::add);
            p.breakers().values().stream()
                    .filter(b -> keys.contains(b.key()))
                    .forEach(b -> b.spaces().forEach(s -> feeders.add("p:" + p.name() + "." + s)));
        }
        always.addAll(reach(feeders, links, new Links()));
    }

    private static void cable(House house, Cable c, Links to) {
        String name = "c:" + c.name();
        to.next.computeIfAbsent(name, k -> new TreeSet<>());
        List<String> sites = new ArrayList<>(c.through());
        for (CableEnd e : c.ends()) {
            if (e instanceof CableEnd.At at) {
                sites.add(at.box());
            } else {
                to.join(name, OPEN);
                if (e instanceof CableEnd.OneOf some) {
                    sites.addAll(some.boxes());
                }
            }
        }
        sites.stream().filter(s -> !house.panels().containsKey(s)).forEach(s -> to.join(name, "b:" + s));
    }

    private static void box(House house, Box b, Links to) {
        to.next.computeIfAbsent("b:" + b.name(), k -> new TreeSet<>());
        if (!house.isComplete(b, Complete.JOINTS) || !house.isComplete(b, Complete.CABLES)) {
            to.join("b:" + b.name(), OPEN);
        }
    }

    /** What lands on one breaker, or on several that are tied, pulled or locked together, and what is spliced in the panel. */
    private static void panel(Panel p, Links to) {
        String in = "p:" + p.name() + ".";
        for (Breaker b : p.breakers().values()) {
            b.spaces().forEach(s -> to.join(in + s, in + b.spaces().get(0)));
        }
        List<List<String>> groups = new ArrayList<>(p.ties());
        groups.addAll(p.pullOuts().values());
        for (List<String> keys : p.exclusive()) {
            groups.add(keys.stream().map(k -> k.split("\\+")[0]).toList());
        }
        groups.forEach(g -> g.forEach(s -> to.join(in + s, in + g.get(0))));
        for (Joint j : p.joints()) {
            List<String> posts = posts(j);
            List<String> cables = cables(j);
            if (posts.isEmpty()) {
                cables.forEach(k -> to.join("c:" + k, "c:" + cables.get(0)));
            }
            for (String post : posts) {
                if (!post.equals("n") && !post.equals("g") && !post.startsWith("line-")) {
                    cables.forEach(k -> to.join("c:" + k, in + post.replace(".neutral", "")));
                }
            }
        }
    }

    private static List<String> posts(Joint j) {
        return j.members().stream()
                .filter(r -> r instanceof Ref.PanelTerminal)
                .map(Ref::said)
                .toList();
    }

    private static List<String> cables(Joint j) {
        return j.members().stream()
                .filter(r -> r instanceof Ref.WireEnd)
                .map(r -> ((Ref.WireEnd) r).cable())
                .distinct()
                .toList();
    }

    private static Set<String> reach(Set<String> from, Links one, Links other) {
        Set<String> seen = new HashSet<>(from);
        ArrayDeque<String> queue = new ArrayDeque<>(from);
        while (!queue.isEmpty()) {
            String at = queue.remove();
            for (Links l : List.of(one, other)) {
                for (String to : l.next.getOrDefault(at, Set.of())) {
                    if (seen.add(to)) {
                        queue.add(to);
                    }
                }
            }
        }
        return seen;
    }

    /** {@return the part that what differs in another state of the house can reach; null where that is all of it, as with a feeder} */
    @Nullable
    Part of(House after) {
        if (!after.panels().keySet().equals(base.panels().keySet())
                || !after.sources().equals(base.sources())) {
            return null;
        }
        Set<String> touched = new TreeSet<>();
        Links more = new Links();
        for (Cable c : after.cables().values()) {
            Cable was = base.cables().get(c.name());
            if (!Objects.equals(c, was)) {
                touched.add("c:" + c.name());
                cable(after, c, more);
            }
        }
        base.cables().keySet().stream()
                .filter(k -> !after.cables().containsKey(k))
                .forEach(k -> touched.add("c:" + k));
        for (Box b : after.boxes().values()) {
            Box was = base.boxes().get(b.name());
            if (!Objects.equals(b, was)) {
                touched.add("b:" + b.name());
                box(after, b, more);
            }
        }
        base.boxes().keySet().stream()
                .filter(k -> !after.boxes().containsKey(k))
                .forEach(k -> touched.add("b:" + k));
        for (Panel p : after.panels().values()) {
            Panel was = Objects.requireNonNull(base.panels().get(p.name()), p.name());
            if (!Objects.equals(p, was)) {
                if (!panels(was, p, touched)) {
                    return null;
                }
                panel(p, more);
            }
        }
        if (touched.stream().anyMatch(always::contains)) {
            return null;
        }
        touched.addAll(always);
        Set<String> boxes = new TreeSet<>();
        Set<String> cables = new TreeSet<>();
        Set<String> spaces = new TreeSet<>();
        for (String s : reach(touched, links, more)) {
            if (s.startsWith("b:")) {
                boxes.add(s.substring(2));
            } else if (s.startsWith("c:")) {
                cables.add(s.substring(2));
            } else if (s.startsWith("p:")) {
                spaces.add(s.substring(2));
            }
        }
        return new Part(boxes, cables, spaces);
    }

    /** Adds what differs between two states of a panel; false where more differs than landings, breakers and ties. */
    private static boolean panels(Panel was, Panel is, Set<String> touched) {
        if (!was.supply().equals(is.supply())
                || !was.buses().equals(is.buses())
                || !was.exclusive().equals(is.exclusive())
                || was.bonded() != is.bonded()
                || !Objects.equals(was.main(), is.main())) {
            return false;
        }
        String in = "p:" + was.name() + ".";
        // Most joints are the very same ones, which need no comparing.
        Set<Joint> kept = Collections.newSetFromMap(new IdentityHashMap<>());
        Set<Joint> before = Collections.newSetFromMap(new IdentityHashMap<>());
        before.addAll(was.joints());
        is.joints().stream().filter(before::contains).forEach(kept::add);
        Set<Joint> same = other(was, kept);
        same.retainAll(other(is, kept));
        List<Panel> both = List.of(was, is);
        for (int i = 0; i < 2; i++) {
            Panel p = both.get(i);
            for (Joint j : p.joints()) {
                if (!kept.contains(j) && !same.contains(j)) {
                    cables(j).forEach(k -> touched.add("c:" + k));
                }
            }
            Panel other = both.get(1 - i);
            for (Breaker b : p.breakers().values()) {
                if (!b.equals(other.breakers().get(b.key()))) {
                    b.spaces().forEach(s -> touched.add(in + s));
                }
            }
            for (List<String> tie : p.ties()) {
                if (!other.ties().contains(tie)) {
                    tie.forEach(s -> touched.add(in + s));
                }
            }
        }
        return true;
    }

    private static Set<Joint> other(Panel p, Set<Joint> than) {
        return p.joints().stream().filter(j -> !than.contains(j)).collect(Collectors.toCollection(HashSet::new));
    }

    private static Panel panel(Panel p, List<Joint> joints, Predicate<String> isIn) {
        Map<String, Breaker> breakers = new LinkedHashMap<>(p.breakers());
        breakers.values().removeIf(b -> b.spaces().stream().noneMatch(isIn));
        Map<String, List<String>> pullOuts = new LinkedHashMap<>(p.pullOuts());
        pullOuts.values().removeIf(spaces -> spaces.stream().noneMatch(isIn));
        return new Panel(
                p.name(),
                p.place(),
                p.supply(),
                p.spaces(),
                p.rating(),
                p.main(),
                breakers,
                p.ties().stream().filter(t -> t.stream().anyMatch(isIn)).toList(),
                pullOuts,
                p.exclusive(),
                p.legs(),
                p.buses(),
                p.bonded(),
                p.neutralFuse(),
                p.electrode(),
                joints,
                p.complete(),
                p.about());
    }

    /** {@return a house with nothing but that part, and all panels} */
    static House cut(House house, Part part) {
        Map<String, Panel> panels = new LinkedHashMap<>();
        house.panels().forEach((name, p) -> {
            List<Joint> kept = new ArrayList<>();
            for (Joint j : p.joints()) {
                List<String> its = cables(j);
                if (part.cables.containsAll(its)) {
                    kept.add(j);
                } else if (its.stream().anyMatch(part.cables::contains)) {
                    List<Ref> members = j.members().stream()
                            .filter(r -> !(r instanceof Ref.WireEnd w) || part.cables.contains(w.cable()))
                            .toList();
                    kept.add(new Joint(members, j.hold(), j.holders(), j.by(), j.about()));
                }
            }
            panels.put(name, panel(p, kept, s -> part.spaces.contains(name + "." + s)));
        });
        Map<String, Cable> cables = new LinkedHashMap<>();
        house.cables().forEach((name, c) -> {
            if (part.cables.contains(name)) {
                cables.put(name, c);
            }
        });
        Map<String, Box> boxes = new LinkedHashMap<>();
        house.boxes().forEach((name, b) -> {
            if (part.boxes.contains(name)) {
                boxes.put(name, b);
            }
        });
        return house.withParts(panels, cables, boxes);
    }
}
