package org.splicebook.oracle;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.splicebook.oracle.Netlist.Load;
import org.splicebook.record.House;
import org.splicebook.wiring.Sureness;

/** How loads are served, by flooding the raw netlist in every position: nothing of the derivation is used. */
public final class Served {
    private final Oracle oracle;
    private final Facts facts;

    /** How one load point is served. */
    private record Point(Set<String> works, boolean neutral, boolean ground, Set<String> protections, String supply) {}

    private final Map<String, Point> points = new TreeMap<>();
    private final Set<String> crossings = new TreeSet<>();

    private Served(House house) {
        this.oracle = new Oracle(house);
        this.facts = Oracle.facts(oracle, false);
        oracle.net.loads.forEach(l -> points.put(l.id(), point(l)));
        for (String line : facts.lines.keySet()) {
            if (line.startsWith("neutral-to-ground")) {
                crossings.add(line);
            } else if (line.startsWith("crossing ")
                    && line.contains(" load ")
                    && !line.startsWith("crossing MULTIWIRE ")) {
                crossings.add(line.split(" ")[1] + line.substring(line.indexOf(" load ")));
            }
        }
    }

    /**
     * {@return what is worse in the one house than in the other, in words: a load that works otherwise, without its neutral, ground or
     * protection; hots that meet; a crossing that was not there}
     *
     * @throws World.TooMany where either is too tangled to flood in every position
     */
    public static List<String> worse(House before, House after) {
        Served a = new Served(before);
        Served b = new Served(after);
        List<String> all = new ArrayList<>();
        a.points.forEach((id, was) -> {
            String device = id.contains(".") ? id.substring(0, id.indexOf('.')) : id;
            Point is = b.points.getOrDefault(id, b.points.get(device));
            if (is == null) {
                all.add(id + " is gone");
                return;
            }
            if (!was.works.isEmpty() && !was.works.equals(is.works)) {
                all.add(id + " worked in " + was.works + ", now in " + is.works);
            }
            if (was.neutral && !is.neutral) {
                all.add(id + " has no neutral");
            }
            if (was.ground && !is.ground) {
                all.add(id + " has no ground");
            }
            if (!is.protections.containsAll(was.protections)) {
                all.add(id + " was protected by " + was.protections + ", now by " + is.protections);
            }
            if (!is.supply.equals(was.supply) && (is.supply.equals("SHORT") || is.supply.equals("TWICE"))) {
                all.add(id + " is fed " + is.supply);
            }
        });
        b.crossings.stream()
                .filter(c -> !a.crossings.contains(c))
                .filter(c -> !a.crossings.contains(c.replaceFirst("([a-z0-9-]+)$", "$1.top"))
                        && !a.crossings.contains(c.replaceFirst("([a-z0-9-]+)$", "$1.bottom")))
                .forEach(c -> all.add("new crossing: " + c));
        return all;
    }

    /** {@return what protects each load point for certain, by the words of {@code Protection}'s constants} */
    public static Map<String, Set<String>> protections(House house) {
        Map<String, Set<String>> all = new TreeMap<>();
        new Served(house).points.forEach((id, p) -> all.put(id, p.protections));
        return all;
    }

    private Point point(Load l) {
        BitSet levers = oracle.positions.levers(l.terminals());
        List<World> worlds = oracle.positions.of(levers);
        Map<List<Integer>, Boolean> does = new TreeMap<>((x, y) -> x.toString().compareTo(y.toString()));
        boolean neutral = true;
        boolean ground = l.ground() >= 0;
        for (World w : worlds) {
            List<Integer> at = levers.stream().mapToObj(i -> w.position[i]).toList();
            does.put(at, works(l, w));
            neutral &= l.terminals().stream().anyMatch(t -> oracle.reach(w, t).neutral());
            ground &=
                    l.ground() >= 0 && !oracle.reach(w, l.ground()).groundBars().isEmpty();
        }
        Set<String> protections = new TreeSet<>();
        facts.lines.forEach((line, how) -> {
            if (line.startsWith("protected " + l.id() + " ") && how.equals(Sureness.MUST.toString())) {
                protections.add(line.split(" ")[2]);
            }
        });
        return new Point(
                said(levers.stream().toArray(), does),
                neutral,
                ground,
                protections,
                facts.lines.getOrDefault("supply " + l.id(), ""));
    }

    private boolean works(Load l, World w) {
        for (int[] pair : l.pairs()) {
            Oracle.Reach a = oracle.reach(w, pair[0]);
            Oracle.Reach b = oracle.reach(w, pair[1]);
            boolean twoLegs = a.poles().stream()
                    .anyMatch(p -> b.poles().stream()
                            .anyMatch(q -> !oracle.sourcesOf(oracle.feeders(w), p)
                                    .equals(oracle.sourcesOf(oracle.feeders(w), q))));
            if (a.hot() && b.neutral() || b.hot() && a.neutral() || twoLegs) {
                return true;
            }
        }
        return false;
    }

    /** The positions in which it works, those levers left out that make no difference to it. */
    private Set<String> said(int[] levers, Map<List<Integer>, Boolean> does) {
        List<Integer> matter = new ArrayList<>();
        for (int i = 0; i < levers.length; i++) {
            int k = i;
            Map<List<Integer>, Set<Boolean>> by =
                    new TreeMap<>((x, y) -> x.toString().compareTo(y.toString()));
            does.forEach((at, on) -> {
                List<Integer> others = new ArrayList<>(at);
                others.remove(k);
                by.computeIfAbsent(others, x -> new LinkedHashSet<>()).add(on);
            });
            if (by.values().stream().anyMatch(s -> s.size() > 1)) {
                matter.add(i);
            }
        }
        Set<String> on = new TreeSet<>();
        does.forEach((at, isOn) -> {
            if (isOn) {
                Set<String> words = new TreeSet<>();
                matter.forEach(i -> words.add(oracle.net.levers.get(levers[i]).name() + "=" + at.get(i)));
                on.add(words.toString());
            }
        });
        return on;
    }
}
