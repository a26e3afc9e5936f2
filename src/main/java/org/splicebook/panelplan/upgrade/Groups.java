package org.splicebook.panelplan.upgrade;

import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.splicebook.record.Breaker;
import org.splicebook.record.Panel;
import org.splicebook.wiring.Crossing;
import org.splicebook.wiring.CrossingKind;
import org.splicebook.wiring.LoadPointWiring;
import org.splicebook.wiring.PanelLegs;
import org.splicebook.wiring.Supply;
import org.splicebook.wiring.Sureness;
import org.splicebook.wiring.Wiring;

/** Which of today's breakers have to become one: partners on a neutral, tied ones, two on one yoke (210.4, 210.7, 240.15). */
final class Groups {
    private static final Set<CrossingKind> SHARED = Set.of(
            CrossingKind.MULTIWIRE, CrossingKind.MULTIWIRE_WITHOUT_COMMON_DISCONNECT, CrossingKind.SHARED_ON_ONE_LEG);

    private final Wiring wiring;
    private final Panel panel;
    private final List<Set<String>> groups = new ArrayList<>();
    private final List<String> separate;

    private Groups(Wiring wiring, Panel panel, List<String> separate) {
        this.wiring = wiring;
        this.panel = panel;
        this.separate = separate;
    }

    /**
     * {@return the keys of breakers, grouped; in the order of the panel}
     *
     * @param separate told what has to be separated before the panel can be changed
     * @param asked told what has to be known
     */
    static List<List<Breaker>> of(Wiring wiring, Panel panel, List<String> separate, List<String> asked) {
        Groups g = new Groups(wiring, panel, separate);
        panel.breakers().keySet().forEach(k -> g.groups.add(new LinkedHashSet<>(List.of(k))));
        g.neutrals(asked);
        panel.ties().forEach(t -> g.join(g.keys(t)));
        panel.pullOuts().values().forEach(t -> g.join(g.keys(t)));
        g.yokes();
        return g.told();
    }

    private Set<String> keys(Collection<String> spaces) {
        Set<String> keys = new TreeSet<>();
        panel.breakers().values().stream()
                .filter(b -> b.spaces().stream().anyMatch(spaces::contains))
                .forEach(b -> keys.add(b.key()));
        return keys;
    }

    private void neutrals(List<String> asked) {
        String prefix = panel.name() + ".";
        for (Crossing c : wiring.crossings()) {
            List<String> here = c.poles().stream()
                    .filter(p -> p.startsWith(prefix))
                    .map(p -> p.substring(prefix.length()))
                    .toList();
            if (!SHARED.contains(c.kind()) || here.isEmpty()) {
                continue;
            }
            if (here.size() < c.poles().size()) {
                separate.add("A neutral is shared by poles of two panels: " + String.join(", ", c.poles())
                        + ". Bring them into one panel, or part the neutral (210.4(A)).");
            } else if (c.sureness() == Sureness.MAY) {
                asked.add("Do " + String.join(" and ", c.poles())
                        + " share a neutral? Then they take one handle on unlike legs.");
            } else {
                join(keys(here));
            }
        }
    }

    private void yokes() {
        Map<String, Set<String>> byDevice = new TreeMap<>();
        Set<String> odd = new TreeSet<>();
        for (LoadPointWiring l : wiring.loadPoints()) {
            if (l.supply() == Supply.EITHER || l.supply() == Supply.TWICE || l.supply() == Supply.SHORT) {
                odd.add(l.device());
            }
            l.feeds().stream()
                    .filter(f -> f.sureness() != Sureness.MAY && f.breaker().startsWith(panel.name() + "."))
                    .forEach(f -> byDevice.computeIfAbsent(l.device(), k -> new TreeSet<>())
                            .add(f.breaker().substring(panel.name().length() + 1)));
        }
        byDevice.forEach((device, keys) -> {
            if (keys.size() > 1 && !odd.contains(device)) {
                join(keys);
            } else if (keys.size() > 1) {
                separate.add(device + " is fed by " + String.join(" and ", keys)
                        + " at once or in turn: find out why and part them first.");
            }
        });
    }

    private void join(Set<String> keys) {
        Set<String> all = new LinkedHashSet<>();
        groups.stream().filter(g -> g.stream().anyMatch(keys::contains)).forEach(all::addAll);
        if (all.size() > 1) {
            groups.removeIf(g -> g.stream().anyMatch(keys::contains));
            groups.add(all);
        }
    }

    private List<List<Breaker>> told() {
        int legs = PanelLegs.of(wiring.house().sources(), panel).count();
        List<List<Breaker>> all = new ArrayList<>();
        for (Set<String> g : groups) {
            List<Breaker> breakers = g.stream()
                    .map(k -> Objects.requireNonNull(panel.breakers().get(k)))
                    .toList();
            int poles = breakers.stream().mapToInt(b -> b.spaces().size()).sum();
            boolean fits =
                    poles <= legs && breakers.stream().allMatch(b -> b.spaces().size() == 1);
            if (breakers.size() == 1 || fits) {
                all.add(breakers);
            } else {
                separate.add("The breakers " + String.join(", ", g)
                        + " share a neutral, a tie or a yoke, and are " + poles + " poles on " + legs
                        + " legs: separate one of them first; they are placed one by one here.");
                breakers.forEach(b -> all.add(List.of(b)));
            }
        }
        List<String> order = List.copyOf(panel.breakers().keySet());
        all.sort(java.util.Comparator.comparingInt(g -> order.indexOf(g.get(0).key())));
        return all;
    }
}
