package org.splicebook.rewire.search;

import java.util.ArrayList;
import java.util.Collections;
import java.util.HashSet;
import java.util.IdentityHashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Predicate;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.Box;
import org.splicebook.record.Breaker;
import org.splicebook.record.Cable;
import org.splicebook.record.House;
import org.splicebook.record.Joint;
import org.splicebook.record.Panel;
import org.splicebook.record.Ref;
import org.splicebook.record.SubBus;

/**
 * The part of a house that a change can reach: what hangs together with what differs over cables and boxes, panels cut out, and with
 * it what shares a breaker or its tie; all that hangs on a panel where the change can reach what supplies it. What supplies the panels
 * is always in it. A change is judged by this part before and after it,
 * which costs what the part costs and not what the house does.
 */
final class Slices {
    private static final Links NONE = new Links();

    private final House base;
    private final Links links;

    /** What no part may touch: a source's place, and breakers that feed a bus or are interlocked. */
    private final Set<String> fixed;

    /** What supplies each panel, with all that hangs together with it. */
    private final Map<String, Set<String>> feeders = new LinkedHashMap<>();

    /**
     * What is in a part.
     *
     * @param boxes by name
     * @param cables by name
     * @param spaces of breakers, with their panel: {@code main.3}
     */
    record Part(Set<String> boxes, Set<String> cables, Set<String> spaces) {}

    Slices(House base) {
        this.base = base;
        this.links = Links.of(base);
        Set<String> sources = new TreeSet<>();
        for (Box b : base.boxes().values()) {
            if (b.joints().stream()
                    .anyMatch(j -> j.members().stream().anyMatch(r -> r instanceof Ref.SourceTerminal))) {
                sources.add("b:" + b.name());
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
                    .forEach(b -> b.spaces().forEach(s -> sources.add("p:" + p.name() + "." + s)));
            feeders.put(p.name(), links.reach(feeders(p), NONE));
        }
        fixed = links.reach(sources, NONE);
    }

    private Set<String> feeders(Panel p) {
        Set<String> all = new TreeSet<>();
        p.supply().stream().filter(base.cables()::containsKey).forEach(k -> all.add("c:" + k));
        for (Joint j : p.joints()) {
            if (isSupply(j)) {
                Links.cables(j).forEach(k -> all.add("c:" + k));
            }
        }
        return all;
    }

    private static boolean isSupply(Joint j) {
        return j.members().stream()
                .anyMatch(r -> r instanceof Ref.SourceTerminal
                        || (r instanceof Ref.PanelTerminal t && Links.isLine(t.terminal())));
    }

    /** {@return the part that what differs in another state of the house can reach; null where that is all of it, as with work along a feeder} */
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
                more.cable(after, c);
            }
        }
        base.cables().keySet().stream()
                .filter(k -> !after.cables().containsKey(k))
                .forEach(k -> touched.add("c:" + k));
        for (Box b : after.boxes().values()) {
            Box was = base.boxes().get(b.name());
            if (!Objects.equals(b, was)) {
                touched.add("b:" + b.name());
                more.box(after, b);
            }
        }
        base.boxes().keySet().stream()
                .filter(k -> !after.boxes().containsKey(k))
                .forEach(k -> touched.add("b:" + k));
        // What is done along a feeder, elsewhere than at the breaker that it hangs on, may join legs of its panel.
        if (feeders.values().stream().anyMatch(f -> !Collections.disjoint(f, touched))) {
            return null;
        }
        for (Panel p : after.panels().values()) {
            Panel was = Objects.requireNonNull(base.panels().get(p.name()), p.name());
            if (!Objects.equals(p, was)) {
                if (!panels(was, p, touched, more)) {
                    return null;
                }
            }
        }
        Set<String> reached = withPanels(touched, after, more);
        if (reached == null) {
            return null;
        }
        feeders.values().forEach(reached::addAll);
        reached.addAll(fixed);
        Set<String> boxes = new TreeSet<>();
        Set<String> cables = new TreeSet<>();
        Set<String> spaces = new TreeSet<>();
        for (String s : reached) {
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

    /** What some things reach; where that is what supplies a panel, all that hangs on the panel too. Null where that is all of them. */
    private @Nullable Set<String> withPanels(Set<String> touched, House after, Links more) {
        Set<String> reached = links.reach(touched, more);
        Set<String> left = new LinkedHashSet<>(feeders.keySet());
        boolean grows = true;
        while (grows) {
            grows = false;
            for (String name : List.copyOf(left)) {
                if (!Collections.disjoint(Objects.requireNonNull(feeders.get(name), name), reached)) {
                    left.remove(name);
                    Set<String> all = new HashSet<>(reached);
                    on(Objects.requireNonNull(base.panels().get(name), name), all);
                    on(Objects.requireNonNull(after.panels().get(name), name), all);
                    reached = links.reach(all, more);
                    grows = true;
                }
            }
        }
        return left.isEmpty() || !Collections.disjoint(fixed, reached) ? null : reached;
    }

    private static void on(Panel p, Set<String> all) {
        all.addAll(Links.spaces(p));
        p.joints().forEach(j -> Links.cables(j).forEach(k -> all.add("c:" + k)));
    }

    /** A wire on a bar, and what is known of it there. Whatever else is on that bar is no matter of its. */
    private record OnBar(Ref bar, Ref.WireEnd end, Joint alone) {
        /** {@return the wires of a joint that is a bar with wires on it; none where it is anything else} */
        static List<OnBar> of(Joint j) {
            List<OnBar> all = new ArrayList<>();
            List<String> posts = Links.posts(j);
            if (posts.size() == 1 && Links.isBar(posts.get(0))) {
                Joint alone = new Joint(List.of(), j.hold(), j.holders(), j.by(), j.about());
                j.members().stream()
                        .filter(r -> r instanceof Ref.WireEnd)
                        .forEach(r -> all.add(new OnBar(new Ref.PanelTerminal(posts.get(0)), (Ref.WireEnd) r, alone)));
            }
            return all.size() == j.members().size() - 1 ? all : List.of();
        }
    }

    /** Adds what differs between two states of a panel; false where more differs than landings, breakers and ties. */
    private static boolean panels(Panel was, Panel is, Set<String> touched, Links more) {
        if (!was.supply().equals(is.supply())
                || !was.buses().equals(is.buses())
                || !was.exclusive().equals(is.exclusive())
                || was.bonded() != is.bonded()
                || !Objects.equals(was.main(), is.main())) {
            return false;
        }
        List<Joint> before = without(was, is);
        List<Joint> now = without(is, was);
        // What is done at its lugs may join its legs, and with them those of the panel before it.
        if (Stream.concat(before.stream(), now.stream()).anyMatch(Slices::isSupply)) {
            return false;
        }
        more.panel(is, now);
        Set<OnBar> once = new HashSet<>();
        Set<OnBar> then = new HashSet<>();
        before.forEach(j -> once.addAll(OnBar.of(j)));
        now.forEach(j -> then.addAll(OnBar.of(j)));
        for (Set<OnBar> one : List.of(once, then)) {
            Set<OnBar> other = one == once ? then : once;
            one.stream().filter(w -> !other.contains(w)).forEach(w -> touched.add("c:" + w.end.cable()));
        }
        for (List<Joint> joints : List.of(before, now)) {
            for (Joint j : joints) {
                if (OnBar.of(j).isEmpty()) {
                    Links.cables(j).forEach(k -> touched.add("c:" + k));
                }
            }
        }
        differing(was, is, touched);
        differing(is, was, touched);
        return true;
    }

    /** Adds the spaces of breakers and ties that another state of the panel has not. */
    private static void differing(Panel p, Panel other, Set<String> touched) {
        String in = "p:" + p.name() + ".";
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

    /** The joints that another state of the panel has not. Most are the very same ones, which need no comparing. */
    private static List<Joint> without(Panel p, Panel other) {
        Set<Joint> very = Collections.newSetFromMap(new IdentityHashMap<>());
        very.addAll(other.joints());
        List<Joint> rest = p.joints().stream().filter(j -> !very.contains(j)).toList();
        if (rest.isEmpty()) {
            return rest;
        }
        Set<Joint> equal = new HashSet<>(other.joints());
        return rest.stream().filter(j -> !equal.contains(j)).toList();
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
                List<String> its = Links.cables(j);
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
