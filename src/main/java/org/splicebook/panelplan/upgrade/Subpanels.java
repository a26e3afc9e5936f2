package org.splicebook.panelplan.upgrade;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.splicebook.panelplan.DemandLoad;
import org.splicebook.panelplan.Demands;
import org.splicebook.panelplan.Dwelling;
import org.splicebook.panelplan.RecordedDwelling;
import org.splicebook.panelplan.ServiceSize;
import org.splicebook.panelplan.SharedDemand;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.problem.Where;
import org.splicebook.record.Box;
import org.splicebook.record.Device;
import org.splicebook.record.Draft;
import org.splicebook.record.House;
import org.splicebook.record.Move;
import org.splicebook.record.Panel;
import org.splicebook.rewire.CurrentChange;
import org.splicebook.rewire.Drafts;
import org.splicebook.rewire.Renamed;
import org.splicebook.rules.Checked;
import org.splicebook.rules.Pack;
import org.splicebook.wiring.Crossing;
import org.splicebook.wiring.CrossingKind;
import org.splicebook.wiring.Derivation;
import org.splicebook.wiring.LoadPointWiring;
import org.splicebook.wiring.Supply;
import org.splicebook.wiring.Sureness;
import org.splicebook.wiring.Wiring;

/** Chooses which circuits move to a panel that is backed up, or to one that makes room: whole sets only, each neutral with its hots. */
public final class Subpanels {
    private final House house;
    private final Wiring wiring;
    private final Pack pack;
    private final SubpanelWanted wanted;
    private final Panel panel;
    private final Notes notes = new Notes(new ArrayList<>(), new ArrayList<>(), new ArrayList<>());

    private Subpanels(House house, Pack pack, SubpanelWanted wanted, Panel panel) {
        this.house = house;
        this.wiring = Derivation.derive(house);
        this.pack = pack;
        this.wanted = wanted;
        this.panel = panel;
    }

    /**
     * {@return the choice with the moves that make it, or why there is none}
     *
     * @param revision the revision that the house is; null for one from a file
     */
    public static Result<SubpanelPlan> plan(House house, Pack pack, SubpanelWanted wanted, @Nullable Long revision) {
        Panel panel = Objects.requireNonNull(house.panels().get(wanted.of()), "a panel of the house");
        return new Subpanels(house, pack, wanted, panel).plan(revision);
    }

    private Result<SubpanelPlan> plan(@Nullable Long revision) {
        Dwelling dwelling = RecordedDwelling.of(wiring, wanted.told());
        notes.asked().addAll(dwelling.asked());
        SharedDemand shared = SharedDemand.of(dwelling, Demands.edition(house));
        WireLimits limits = new WireLimits(wiring, pack);
        List<Circuit> circuits = TodaysCircuits.of(wiring, panel, limits, shared, List.of(), false, notes);
        List<Movable> sets = sets(circuits, dwelling);
        SubpanelChoice.Chosen chosen = new SubpanelChoice(wanted, sets).choose();
        if (chosen == null) {
            return Result.failed(Problem.error(
                    ProblemKind.CONFLICT,
                    Where.field("free"),
                    "Not so many spaces can be made free: no whole sets of circuits of " + (wanted.free() + 2)
                            + " spaces fit into " + wanted.spaces() + " spaces behind " + Words.number(wanted.feeder())
                            + " A.",
                    "Ask for fewer, or take a larger panel and feeder."));
        }
        assumed();
        unknown(chosen.sets());
        double most = chosen.sets().stream().mapToDouble(Movable::va).sum();
        double amperes = wanted.isBackedUp() ? wanted.legBears() / ONE_LEG : wanted.feeder();
        Integer feeder = ServiceSize.standard(amperes);
        String copper = feeder == null ? null : limits.copperFor(feeder);
        SubpanelMoves.Written written = feeder == null
                ? SubpanelMoves.Written.none("No standard breaker is large enough for its feeder.")
                : new SubpanelMoves(wiring, panel, wanted, limits, feeder)
                        .write(chosen.sets(), chosen.legs(), staying(sets, chosen.sets()));
        SubpanelPlan.Drafted made = written.moves().isEmpty()
                ? null
                : drafted(written.moves(), revision).get();
        String brings = made == null ? "" : made.brings();
        SubpanelPlan.Drafted drafted = brings.isEmpty() ? made : null;
        return Result.ok(new SubpanelPlan(
                house,
                wanted,
                chosen.sets().stream().map(Subpanels::moved).toList(),
                chosen.legs(),
                sets.stream()
                        .filter(m -> !chosen.sets().contains(m))
                        .map(m -> stays(m, most))
                        .toList(),
                chosen.isProved(),
                copper == null ? "?" : copper,
                feeder == null ? 0 : feeder,
                drafted,
                written.whyNot() + brings,
                List.copyOf(new LinkedHashSet<>(notes.asked())),
                notes.separate(),
                notes.assumed()));
    }

    /** What moves with wires that are not known to their ends may share its neutral with what stays. */
    private void unknown(Set<Movable> chosen) {
        Set<String> open = wiring.openRegions().stream()
                .flatMap(o -> o.breakers().stream())
                .collect(Collectors.toSet());
        for (Movable m : chosen) {
            for (Circuit c : m.circuits()) {
                if (c.was().stream().anyMatch(k -> open.contains(panel.name() + "." + k))) {
                    notes.asked()
                            .add(
                                    "Where do all wires of " + c.name()
                                            + " go? Until that is known its neutral may be of what stays as well: find out before it moves.");
                }
            }
        }
    }

    /** Circuits that share nothing with others. */
    private static List<Circuit> staying(List<Movable> sets, Set<Movable> chosen) {
        return sets.stream()
                .filter(m -> !chosen.contains(m) && m.circuits().size() == 1)
                .flatMap(m -> m.circuits().stream())
                .toList();
    }

    private Result<SubpanelPlan.Drafted> drafted(List<Move> moves, @Nullable Long revision) {
        String kind = wanted.isBackedUp() ? "backed-up" : "further";
        Draft draft = new Draft(
                kind + "-panel-" + panel.name(),
                house.id(),
                revision,
                "A " + kind + " panel beside " + panel.name() + ", to which circuits move whole.",
                moves);
        return Drafts.of(draft, house)
                .map(after -> new SubpanelPlan.Drafted(
                        draft,
                        after,
                        Renamed.compare(
                                house,
                                moves,
                                Checked.of(wiring, pack).all(),
                                Checked.of(after, pack).all()),
                        CurrentChange.between(house, after)));
    }

    private static final double ONE_LEG = 120;

    private static SubpanelPlan.Moved moved(Movable m) {
        return new SubpanelPlan.Moved(
                m.circuits().stream().map(Circuit::name).toList(),
                m.circuits().stream().map(Circuit::label).toList(),
                m.circuits().stream().map(Circuit::breaker).toList(),
                m.va(),
                m.starts(),
                m.poles(),
                m.wires());
    }

    private SubpanelPlan.Stays stays(Movable m, double taken) {
        String why = !m.whyNot().isEmpty()
                ? String.join("; ", m.whyNot())
                : !wanted.isBackedUp()
                        ? "It need not move."
                        : taken + m.va() > wanted.bears()
                                ? "With it the demand would be more than the source gives, or what is more wanted would have to stay."
                                : "Legs, spaces or the start of a motor leave no room for it beside what is more wanted.";
        return new SubpanelPlan.Stays(
                m.circuits().stream().map(Circuit::name).toList(),
                m.circuits().stream().map(Circuit::label).toList(),
                m.va(),
                why);
    }

    private void assumed() {
        notes.assumed()
                .add(
                        "Demand by the standard method, not nameplates; lights and receptacles laid evenly on their circuits.");
        notes.assumed()
                .add("The further panel hangs beside " + panel.name()
                        + ", so that wires are lengthened by no more than "
                        + UpgradeData.exact("extension-metres")
                        + " m; farther away, circuits ask for today's arc-fault protection (210.12).");
        if (!wanted.isBackedUp()) {
            return;
        }
        notes.assumed()
                .add(
                        "The source comes in through a breaker beside the further panel's main, interlocked with it, and is drafted as a generator whose neutral is not bonded in itself.");
        notes.assumed()
                .add("One motor starts while all else runs; one takes "
                        + Words.number(UpgradeData.number("start-factor"))
                        + " times its running power to start unless its plate says less.");
        if (wanted.surge() == null) {
            notes.asked()
                    .add(
                            "What does the source give while a motor starts? Say surge; the starts were not held against it.");
        }
    }

    /** Circuits joined by any neutral that more than one of them uses, certainly or possibly. */
    private List<Movable> sets(List<Circuit> circuits, Dwelling dwelling) {
        List<Set<Circuit>> sets = new ArrayList<>();
        circuits.forEach(c -> sets.add(new LinkedHashSet<>(List.of(c))));
        Map<Circuit, List<String>> whyNot = new LinkedHashMap<>();
        String prefix = panel.name() + ".";
        for (Crossing x : wiring.crossings()) {
            if (x.kind() == CrossingKind.NEUTRAL_TO_GROUND || x.kind() == CrossingKind.RETURN_IN_ANOTHER_CABLE) {
                continue;
            }
            Set<Circuit> touched = new LinkedHashSet<>();
            boolean isElsewhere = false;
            for (String pole : x.poles()) {
                isElsewhere |= !pole.startsWith(prefix);
                circuits.stream()
                        .filter(c -> c.poles().stream()
                                .anyMatch(p -> !p.terminal().isEmpty() && pole.equals(prefix + p.terminal())))
                        .forEach(touched::add);
            }
            join(sets, touched);
            if (touched.size() > 1) {
                notes.separate()
                        .add("The neutrals of "
                                + String.join(
                                        " and ",
                                        touched.stream().map(Circuit::name).toList())
                                + (x.sureness() == Sureness.MAY ? " may be" : " are")
                                + " joined ("
                                + x.kind()
                                        .name()
                                        .toLowerCase(java.util.Locale.ROOT)
                                        .replace('_', ' ')
                                + "): they move together or not at all; part them first where they should not.");
            }
            if (isElsewhere) {
                touched.forEach(c -> whyNot.computeIfAbsent(c, k -> new ArrayList<>())
                        .add("Its neutral is shared with another panel: part it first (210.4(A))."));
            }
        }
        joinedHots(circuits, whyNot);
        return sets.stream().map(s -> movable(List.copyOf(s), whyNot, dwelling)).toList();
    }

    /** Hots of several circuits that meet, at once or in turn: on another leg they would be a short. */
    private void joinedHots(List<Circuit> circuits, Map<Circuit, List<String>> whyNot) {
        Map<Set<String>, String> meeting = new LinkedHashMap<>();
        for (LoadPointWiring l : wiring.loadPoints()) {
            if (l.supply() != Supply.EITHER && l.supply() != Supply.TWICE && l.supply() != Supply.SHORT) {
                continue;
            }
            Set<String> breakers = new TreeSet<>();
            l.feeds().stream().filter(f -> f.sureness() != Sureness.MAY).forEach(f -> breakers.add(f.breaker()));
            if (breakers.size() > 1) {
                meeting.putIfAbsent(breakers, l.id());
            }
        }
        meeting.forEach((breakers, point) -> circuits.stream()
                .filter(c -> c.was().stream().anyMatch(k -> breakers.contains(panel.name() + "." + k)))
                .forEach(c -> whyNot.computeIfAbsent(c, k -> new ArrayList<>())
                        .add("Hots of " + String.join(" and ", breakers) + " meet at " + point
                                + ": on another leg that is a short. Find out why and part them first.")));
    }

    private static void join(List<Set<Circuit>> sets, Set<Circuit> touched) {
        if (touched.size() < 2) {
            return;
        }
        Set<Circuit> all = new LinkedHashSet<>();
        sets.stream().filter(s -> s.stream().anyMatch(touched::contains)).forEach(all::addAll);
        sets.removeIf(s -> s.stream().anyMatch(touched::contains));
        sets.add(all);
    }

    private Movable movable(List<Circuit> circuits, Map<Circuit, List<String>> why, Dwelling dwelling) {
        Set<String> breakers = new TreeSet<>();
        circuits.forEach(c -> c.was().forEach(k -> breakers.add(panel.name() + "." + k)));
        Set<String> devices = new TreeSet<>();
        Set<String> words = new TreeSet<>();
        int points = 0;
        for (LoadPointWiring l : wiring.loadPoints()) {
            if (l.feeds().stream().anyMatch(f -> breakers.contains(f.breaker()))) {
                devices.add(l.device());
                Device d = device(l);
                if (d != null && d.load() != null) {
                    words.add(d.load());
                }
                points++;
            }
        }
        Set<String> whyNot = new LinkedHashSet<>();
        circuits.forEach(c -> whyNot.addAll(why.getOrDefault(c, List.of())));
        wanted.never().stream()
                .filter(k -> circuits.stream().anyMatch(c -> c.isOf(k)))
                .forEach(k -> whyNot.add("It is to stay."));
        if (wanted.isBackedUp()
                && !wanted.twoLegs()
                && circuits.stream().anyMatch(c -> c.poles().size() > 1)) {
            whyNot.add("It needs both legs; the source gives 120 V.");
        }
        boolean feedsPanel = house.panels().values().stream()
                .filter(p -> !p.name().equals(panel.name()))
                .flatMap(p -> p.supply().stream())
                .anyMatch(cable -> circuits.stream()
                        .flatMap(c -> c.poles().stream())
                        .flatMap(p -> p.wires().stream())
                        .anyMatch(w -> w.startsWith(cable + ".")));
        if (circuits.stream()
                .flatMap(c -> c.was().stream())
                .anyMatch(k -> panel.exclusive().stream().anyMatch(g -> g.contains(k)))) {
            whyNot.add(
                    "It is interlocked with another: a second source feeds in there, or only one of them may be on.");
        }
        if (feedsPanel) {
            whyNot.add("It feeds a panel of its own.");
        }
        if (wanted.isBackedUp()) {
            dwelling.loads().stream()
                    .filter(l -> l.va() == null && devices.contains(l.name()))
                    .forEach(l -> whyNot.add("What " + l.name() + " takes is not known."));
        }
        double[] power = power(devices, dwelling);
        double demand = circuits.stream().mapToDouble(Circuit::va).sum();
        return new Movable(circuits, Math.max(demand, power[0]), power[1], devices, words, points, List.copyOf(whyNot));
    }

    private @Nullable Device device(LoadPointWiring l) {
        Box b = house.boxes().get(l.box());
        return b == null ? null : b.devices().get(l.device());
    }

    /** What the motors among devices take for hours, and the most that one of them takes more while it starts. */
    private double[] power(Set<String> devices, Dwelling dwelling) {
        double factor = UpgradeData.number("start-factor");
        List<String> motors = UpgradeData.list("motors");
        double runs = 0;
        double starts = 0;
        for (Box b : house.boxes().values()) {
            for (Device d : b.devices().values()) {
                boolean isMotor = (d.load() != null && motors.contains(d.load()))
                        || dwelling.loads().stream()
                                .filter(DemandLoad::isMotor)
                                .anyMatch(l -> l.name().equals(d.name()));
                if (!devices.contains(d.name()) || !isMotor) {
                    continue;
                }
                Double told = wanted.told().nameplates().get(d.name());
                double va =
                        told != null ? told : d.watts() == null ? 0 : d.watts().base();
                if (va == 0 && wanted.isBackedUp()) {
                    notes.asked()
                            .add(
                                    "What does " + d.name() + " (" + (d.load() == null ? "motor" : d.load())
                                            + ") take running and starting? It counts for nothing beyond its circuit's share here.");
                }
                runs += va;
                starts = Math.max(starts, va * (factor - 1));
            }
        }
        return new double[] {runs, starts};
    }
}
