package org.splicebook.rewire;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.splicebook.problem.ProblemKind;
import org.splicebook.record.Breaker;
import org.splicebook.record.Joint;
import org.splicebook.record.Move;
import org.splicebook.record.Panel;
import org.splicebook.record.Ref;
import org.splicebook.record.SubBus;

/** Breakers that come and go, and what has landed on them. */
final class Landings {
    private Landings() {}

    /** {@return the terminals of a panel that wires may land on} */
    static Set<String> names(Panel p) {
        Set<String> names = new LinkedHashSet<>(List.of("n", "g", "line-1", "line-2", "line-3"));
        for (Breaker b : p.breakers().values()) {
            names.addAll(b.spaces());
            if (b.neutralTerminal()) {
                names.add(neutral(b));
            }
        }
        return names;
    }

    private static String neutral(Breaker b) {
        return b.spaces().get(0) + ".neutral";
    }

    static Panel change(Panel p, Move.ChangeBreaker m) {
        Map<String, Breaker> breakers = new LinkedHashMap<>(p.breakers());
        List<Breaker> went = new ArrayList<>();
        for (String key : m.was()) {
            Breaker b = breakers.remove(key);
            if (b == null) {
                throw Bench.none("breaker in " + p.name(), key, p.breakers().keySet());
            }
            went.add(b);
        }
        Breaker is = m.is();
        List<String> poles = went.stream().flatMap(b -> b.spaces().stream()).toList();
        Map<String, String> follows = new HashMap<>();
        if (is != null) {
            for (Breaker other : breakers.values()) {
                if (other.spaces().stream().anyMatch(is.spaces()::contains)) {
                    throw Bench.wrong(
                            ProblemKind.CONFLICT,
                            "The breaker " + other.key() + " is in a space of " + is.key() + ".",
                            "Name it among those that go, or choose other spaces.");
                }
            }
            breakers.put(is.key(), is);
            for (int i = 0; i < poles.size(); i++) {
                follows.put(
                        poles.get(i),
                        is.spaces().size() == poles.size()
                                ? is.spaces().get(i)
                                : is.spaces().contains(poles.get(i)) ? poles.get(i) : "");
            }
            went.forEach(b -> follows.put(neutral(b), is.neutralTerminal() ? neutral(is) : "n"));
        } else {
            poles.forEach(s -> follows.put(s, ""));
            went.forEach(b -> follows.put(neutral(b), "n"));
        }
        List<Joint> joints = new ArrayList<>();
        for (Joint j : p.joints()) {
            joints.add(followed(j, follows));
        }
        List<List<String>> ties = new ArrayList<>();
        for (List<String> tie : p.ties()) {
            List<String> left =
                    tie.stream().map(s -> follows.getOrDefault(s, s)).distinct().toList();
            boolean isOne = is != null && is.spaces().containsAll(left);
            if (!left.contains("") && left.size() > 1 && !isOne) {
                ties.add(left);
            }
        }
        Map<String, List<String>> pullOuts = new LinkedHashMap<>();
        p.pullOuts().forEach((name, spaces) -> {
            List<String> left = spaces.stream()
                    .map(s -> follows.getOrDefault(s, s))
                    .filter(s -> !s.isEmpty())
                    .distinct()
                    .toList();
            if (!left.isEmpty()) {
                pullOuts.put(name, left);
            }
        });
        Map<String, SubBus> buses = new LinkedHashMap<>();
        p.buses()
                .forEach((name, bus) -> buses.put(
                        name,
                        new SubBus(
                                name,
                                bus.spaces(),
                                bus.fedBy() == null ? null : successor(p, m, bus.fedBy()),
                                bus.about())));
        List<List<String>> exclusive = p.exclusive().stream()
                .map(group -> group.stream().map(k -> successor(p, m, k)).toList())
                .toList();
        return new Panel(
                p.name(),
                p.place(),
                p.supply(),
                p.spaces(),
                p.rating(),
                p.main(),
                breakers,
                ties,
                pullOuts,
                exclusive,
                p.legs(),
                buses,
                p.bonded(),
                p.neutralFuse(),
                p.electrode(),
                joints,
                p.complete(),
                p.about());
    }

    /** What stands for a breaker in a panel's interlocks and buses after the change: one that takes its place, alone. */
    private static String successor(Panel p, Move.ChangeBreaker m, String key) {
        if (!m.was().contains(key)) {
            return key;
        }
        if (m.is() == null || m.was().size() > 1) {
            throw Bench.wrong(
                    ProblemKind.CONFLICT,
                    "A bus of " + p.name() + " or an interlock in it hangs on the breaker " + key + ".",
                    "Replace it by one breaker that takes its place.");
        }
        return m.is().key();
    }

    private static Joint followed(Joint j, Map<String, String> follows) {
        List<Ref> members = new ArrayList<>();
        for (Ref r : j.members()) {
            String to = r instanceof Ref.PanelTerminal t ? follows.getOrDefault(t.terminal(), t.terminal()) : null;
            if (to != null && to.isEmpty()) {
                throw Bench.wrong(
                        ProblemKind.CONFLICT,
                        "On " + r.said() + " lands " + others(j, r) + ", and no pole is left for it.",
                        "Move or cap what lands there first.");
            }
            members.add(to == null ? r : new Ref.PanelTerminal(to));
        }
        List<Ref> holders = j.holders().stream()
                .map(r -> r instanceof Ref.PanelTerminal t
                        ? (Ref) new Ref.PanelTerminal(follows.getOrDefault(t.terminal(), t.terminal()))
                        : r)
                .toList();
        return new Joint(new ArrayList<>(new LinkedHashSet<>(members)), j.hold(), holders, j.by(), j.about());
    }

    private static String others(Joint j, Ref r) {
        return String.join(
                ", ",
                j.members().stream().filter(m -> !m.equals(r)).map(Ref::said).toList());
    }
}
