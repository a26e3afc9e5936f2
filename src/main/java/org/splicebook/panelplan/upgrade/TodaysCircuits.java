package org.splicebook.panelplan.upgrade;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.splicebook.panelplan.SharedDemand;
import org.splicebook.record.Breaker;
import org.splicebook.record.Complete;
import org.splicebook.record.Joint;
import org.splicebook.record.OvercurrentType;
import org.splicebook.record.Panel;
import org.splicebook.record.Protection;
import org.splicebook.record.Quantity;
import org.splicebook.record.Ref;
import org.splicebook.rules.AsksProtection;
import org.splicebook.rules.Certainty;
import org.splicebook.rules.Finding;
import org.splicebook.wiring.LoadPointWiring;
import org.splicebook.wiring.Sureness;
import org.splicebook.wiring.ThingKind;
import org.splicebook.wiring.Wiring;

/** Today's circuits of a panel as breakers of the new one, by the record alone. */
final class TodaysCircuits {
    private static final double SIDE = 2;

    private final Wiring wiring;
    private final Panel panel;
    private final WireLimits limits;
    private final boolean protectsAll;
    private final Notes notes;
    private final Map<String, Double> demand = new TreeMap<>();
    private final Map<String, Set<Protection>> asksFor = new TreeMap<>();

    private TodaysCircuits(Wiring wiring, Panel panel, WireLimits limits, boolean protectsAll, Notes notes) {
        this.wiring = wiring;
        this.panel = panel;
        this.limits = limits;
        this.protectsAll = protectsAll;
        this.notes = notes;
    }

    /**
     * {@return the circuits}
     *
     * @param found what a check finds in the house
     * @param protectsAll whether each circuit is given what is found lacking, where its neutral is its own
     */
    static List<Circuit> of(
            Wiring wiring,
            Panel panel,
            WireLimits limits,
            SharedDemand shared,
            List<Finding> found,
            boolean protectsAll,
            Notes notes) {
        TodaysCircuits t = new TodaysCircuits(wiring, panel, limits, protectsAll, notes);
        t.share(shared);
        t.protections(found);
        Set<String> feedBuses = panel.buses().values().stream()
                .map(b -> b.fedBy())
                .filter(java.util.Objects::nonNull)
                .collect(Collectors.toSet());
        List<Circuit> all = new ArrayList<>();
        for (List<Breaker> group : Groups.of(wiring, panel, notes.separate(), notes.asked())) {
            if (group.stream().anyMatch(b -> feedBuses.contains(b.key()))) {
                notes.assumed()
                        .add("Breaker " + said(group) + " only feeds a bus of the old panel and is not carried over.");
            } else if (!t.isBare(group)) {
                all.add(t.circuit(group));
            }
        }
        return t.unlike(all);
    }

    /** Lays demand on poles: a load's share evenly on the poles that feed it, the general load evenly on those that feed lights and receptacles. */
    private void share(SharedDemand shared) {
        Map<String, Set<String>> polesOf = new LinkedHashMap<>();
        Set<String> general = new TreeSet<>();
        for (LoadPointWiring l : wiring.loadPoints()) {
            Set<String> poles = new TreeSet<>();
            l.feeds().stream()
                    .filter(f -> f.sureness() != Sureness.MAY)
                    .forEach(f -> f.way().hops().stream()
                            .filter(h -> h.thing().kind() == ThingKind.POLE
                                    && h.thing().name().startsWith(panel.name() + "."))
                            .forEach(h -> poles.add(h.thing().name())));
            if (shared.loads().containsKey(l.device())) {
                polesOf.computeIfAbsent(l.device(), k -> new TreeSet<>()).addAll(poles);
            } else {
                general.addAll(poles);
            }
        }
        shared.loads().forEach((load, va) -> {
            Set<String> poles = polesOf.getOrDefault(load, Set.of());
            poles.forEach(p -> demand.merge(p, va / poles.size(), Double::sum));
            if (poles.isEmpty() && polesOf.containsKey(load) && va > 0) {
                notes.asked()
                        .add("Which breaker feeds " + load + "? Its " + Words.whole(va) + " VA are on no leg here.");
            }
        });
        general.forEach(p -> demand.merge(p, shared.general() / general.size(), Double::sum));
    }

    private void protections(List<Finding> found) {
        for (Finding f : found) {
            Protection p = AsksProtection.of(f);
            if (p == null || f.certainty() != Certainty.FOUND) {
                continue;
            }
            for (LoadPointWiring l : wiring.loadPoints()) {
                if (f.outlets().contains(l.id())) {
                    l.feeds().stream()
                            .filter(x -> x.sureness() != Sureness.MAY)
                            .forEach(x -> asksFor.computeIfAbsent(x.breaker(), k -> new TreeSet<>())
                                    .add(p));
                }
            }
        }
    }

    /** Nothing lands on it, and all that lands in the panel is listed. */
    private boolean isBare(List<Breaker> group) {
        boolean isEmpty = group.stream().flatMap(b -> b.spaces().stream()).allMatch(s -> wires(s).isEmpty());
        if (!isEmpty) {
            return false;
        }
        if (wiring.house().isComplete(panel, Complete.LANDINGS)) {
            notes.assumed().add("No wire is on " + said(group) + ": it is not carried over.");
            return true;
        }
        notes.asked()
                .add("What lands on " + said(group)
                        + "? No wire is recorded there, and not all landings are listed. It keeps its room.");
        return false;
    }

    private static String said(List<Breaker> group) {
        return group.stream().map(Breaker::key).collect(Collectors.joining(" and "));
    }

    private List<String> wires(String terminal) {
        return panel.joints().stream()
                .filter(j -> j.members().contains(new Ref.PanelTerminal(terminal)))
                .map(Joint::members)
                .flatMap(List::stream)
                .filter(r -> r instanceof Ref.WireEnd)
                .map(Ref::said)
                .distinct()
                .toList();
    }

    private Circuit circuit(List<Breaker> group) {
        List<String> keys = group.stream().map(Breaker::key).toList();
        Set<String> breakers =
                keys.stream().map(k -> panel.name() + "." + k).collect(Collectors.toCollection(LinkedHashSet::new));
        List<String> spaces = group.stream().flatMap(b -> b.spaces().stream()).toList();
        Set<String> poles = spaces.stream().map(s -> panel.name() + "." + s).collect(Collectors.toSet());
        List<LoadPointWiring> served = wiring.loadPoints().stream()
                .filter(l -> l.feeds().stream()
                        .anyMatch(f -> breakers.contains(f.breaker()) && f.sureness() != Sureness.MAY))
                .toList();
        List<String> why = new ArrayList<>();
        if (group.size() > 1) {
            why.add(String.join(" and ", keys)
                    + " become one breaker of " + spaces.size()
                    + " poles on unlike legs: they share a neutral, a tie or a yoke (210.4(B), 210.7).");
        }
        Double amperes = amperes(group, poles, served, why);
        Set<Protection> has =
                group.stream().flatMap(b -> b.protects().stream()).collect(Collectors.toCollection(TreeSet::new));
        Set<Protection> wanted = new TreeSet<>(has);
        Set<Protection> asked = new TreeSet<>();
        breakers.forEach(b -> asked.addAll(asksFor.getOrDefault(b, Set.of())));
        asked.removeAll(has);
        String whyNot = Neutrals.whyNot(wiring, poles, breakers);
        protect(keys, asked, wanted, whyNot, why);
        Set<String> neutrals = new LinkedHashSet<>();
        if (!wanted.isEmpty()) {
            if (whyNot.isEmpty()) {
                neutrals.addAll(Neutrals.landings(wiring, panel.name(), poles));
            }
            group.stream()
                    .filter(Breaker::neutralTerminal)
                    .forEach(b -> neutrals.addAll(wires(b.spaces().get(0) + ".neutral")));
        }
        boolean rows = group.stream().allMatch(b -> b.type() == OvercurrentType.BREAKER)
                && panel.legs().isEmpty();
        List<Circuit.Pole> its = spaces.stream()
                .map(s -> new Circuit.Pole(
                        s, rows ? number(s) : 0, wires(s), demand.getOrDefault(panel.name() + "." + s, 0.0)))
                .toList();
        return new Circuit(
                String.join(", ", keys),
                keys,
                its,
                amperes,
                wanted,
                List.copyOf(neutrals),
                DirectoryLine.of(wiring, breakers, behind(its), false),
                false,
                why);
    }

    private void protect(
            List<String> keys, Set<Protection> asked, Set<Protection> wanted, String whyNot, List<String> why) {
        if (asked.isEmpty()) {
            return;
        }
        String said = asked.stream().map(Protection::word).collect(Collectors.joining(" and "));
        if (!whyNot.isEmpty()) {
            notes.separate()
                    .add("Circuit " + String.join(", ", keys) + ": " + whyNot + ". A breaker with " + said
                            + " would trip or not see the fault: put the neutral right first, then change it.");
            why.add("No " + said + " until its neutral is put right: " + whyNot + ".");
        } else if (protectsAll) {
            wanted.addAll(asked);
            why.add("Gets " + said + " protection, as new work would have.");
        } else {
            why.add(
                    "New work would have " + said
                            + " protection; wires lengthened by no more than 1.8 m do not ask for it (210.12, exception). Better with it.");
        }
    }

    private List<Panel> behind(List<Circuit.Pole> poles) {
        Set<String> cables = poles.stream()
                .flatMap(p -> p.wires().stream())
                .map(w -> w.substring(0, Math.max(0, w.indexOf('.'))))
                .collect(Collectors.toSet());
        return wiring.house().panels().values().stream()
                .filter(p ->
                        !p.name().equals(panel.name()) && p.supply().stream().anyMatch(cables::contains))
                .toList();
    }

    private @Nullable Double amperes(
            List<Breaker> group, Set<String> poles, List<LoadPointWiring> served, List<String> why) {
        Double today = null;
        boolean isKnown = true;
        for (Breaker b : group) {
            Quantity r = b.rating();
            isKnown &= r != null;
            today = r == null
                    ? today
                    : today == null ? Double.valueOf(r.base()) : Double.valueOf(Math.min(today, r.base()));
        }
        List<String> unsized = limits.unsized(poles);
        if (!unsized.isEmpty()) {
            notes.asked()
                    .add("What size and material are "
                            + String.join(", ", unsized.subList(0, Math.min(6, unsized.size()))) + " behind "
                            + said(group) + "? The weakest wire decides its breaker.");
        }
        Optional<WireLimits.Weakest> weakest = limits.weakest(poles, served);
        if (!isKnown) {
            notes.asked().add("What is the rating of " + said(group) + " today?");
            today = weakest.map(w -> Double.valueOf(w.amperes())).orElse(null);
        }
        if (group.size() > 1
                && today != null
                && group.stream().map(Breaker::rating).distinct().count() > 1) {
            why.add("One rating for both poles: the smaller of today's.");
        }
        if (today != null && weakest.isPresent() && weakest.get().amperes() < today) {
            why.add("Down from " + Words.number(today) + " A: " + weakest.get().wire() + " may have "
                    + Words.number(weakest.get().amperes()) + " A at most (240.4(D)).");
            return weakest.get().amperes();
        }
        return today;
    }

    /** Lines of the directory that read alike are told by their devices, and if that is alike too by their wires. */
    private List<Circuit> unlike(List<Circuit> all) {
        return unlike(unlike(all, this::devices), c -> c.label() + " (" + wires(c) + ")");
    }

    private static List<Circuit> unlike(List<Circuit> all, Function<Circuit, String> otherwise) {
        return all.stream()
                .map(c -> all.stream().filter(o -> o.label().equals(c.label())).count() < SIDE
                        ? c
                        : new Circuit(
                                c.name(),
                                c.was(),
                                c.poles(),
                                c.amperes(),
                                c.protects(),
                                c.neutrals(),
                                otherwise.apply(c),
                                c.isNew(),
                                c.why()))
                .toList();
    }

    private String devices(Circuit c) {
        Set<String> breakers = c.was().stream().map(k -> panel.name() + "." + k).collect(Collectors.toSet());
        String named = DirectoryLine.of(wiring, breakers, behind(c.poles()), true);
        return named.startsWith("Not known") ? named + " (" + wires(c) + ")" : named;
    }

    private static String wires(Circuit c) {
        return c.poles().stream().flatMap(p -> p.wires().stream()).collect(Collectors.joining(", "));
    }

    private static int number(String space) {
        String digits = space.replaceAll("[^0-9].*", "");
        return digits.isEmpty() || digits.length() > 3 ? 0 : Integer.parseInt(digits);
    }
}
