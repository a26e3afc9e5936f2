package org.splicebook.panelplan.upgrade;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import org.splicebook.panelplan.Demand;
import org.splicebook.panelplan.Demands;
import org.splicebook.panelplan.Dwelling;
import org.splicebook.panelplan.RecordedDwelling;
import org.splicebook.panelplan.ServiceSize;
import org.splicebook.panelplan.SharedDemand;
import org.splicebook.panelplan.Told;
import org.splicebook.panelplan.schedule.Frame;
import org.splicebook.panelplan.schedule.Schedule;
import org.splicebook.panelplan.schedule.ScheduleTask;
import org.splicebook.panelplan.schedule.Scheduler;
import org.splicebook.panelplan.schedule.Unit;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.problem.Where;
import org.splicebook.record.Draft;
import org.splicebook.record.House;
import org.splicebook.record.Move;
import org.splicebook.record.OvercurrentType;
import org.splicebook.record.Panel;
import org.splicebook.record.Protection;
import org.splicebook.rewire.CurrentChange;
import org.splicebook.rewire.Drafts;
import org.splicebook.rewire.Renamed;
import org.splicebook.rules.AsksProtection;
import org.splicebook.rules.Certainty;
import org.splicebook.rules.Checked;
import org.splicebook.rules.Comparison;
import org.splicebook.rules.Finding;
import org.splicebook.rules.Pack;
import org.splicebook.wiring.Derivation;
import org.splicebook.wiring.PanelLegs;
import org.splicebook.wiring.Wiring;

/** Plans a new panel in the place of one of today's. */
public final class Upgrades {
    private static final int TRIES = 4;

    private final House house;
    private final Pack pack;
    private final Wanted wanted;
    private final Panel was;
    private final Wiring wiring;
    private final List<Finding> found;
    private final Map<String, String> unprotected = new TreeMap<>();
    private final Map<String, Set<Protection>> ofNew = new TreeMap<>();

    private Upgrades(House house, Pack pack, Wanted wanted, Panel was) {
        this.house = house;
        this.pack = pack;
        this.wanted = wanted;
        this.was = was;
        this.wiring = Derivation.derive(house);
        this.found = Checked.of(wiring, pack).all();
    }

    /**
     * {@return the plan, or why there is none}
     *
     * @param pack by which edition protection is asked for and wires are sized
     * @param revision the revision that the house is; null for one from a file
     * @param progress told of schedules that are found on the way
     */
    public static Result<UpgradePlan> plan(
            House house, Pack pack, Wanted wanted, @Nullable Long revision, Scheduler.Progress progress) {
        Panel was = house.panels().get(wanted.panel());
        if (was == null) {
            return Result.failed(Problem.error(
                    ProblemKind.NOT_FOUND,
                    Where.field("of"),
                    "The house has no panel " + wanted.panel() + ".",
                    "It has " + String.join(", ", house.panels().keySet()) + "."));
        }
        Upgrades u = new Upgrades(house, pack, wanted, was);
        Result<UpgradePlan> made = u.once(revision, progress);
        // A breaker that would not work on its circuit is taken back, with the reason, and all is done again.
        for (int i = 1; i < TRIES && made.isOk() && u.takeBack(made.get()); i++) {
            made = u.once(revision, Scheduler.Progress.NONE);
        }
        return made;
    }

    private Result<UpgradePlan> once(@Nullable Long revision, Scheduler.Progress progress) {
        Notes notes = new Notes(new ArrayList<>(), new ArrayList<>(), new ArrayList<>());
        Told told = wanted.told();
        Dwelling dwelling =
                RecordedDwelling.of(wiring, withRating(told, wanted.kind().main()));
        notes.asked().addAll(dwelling.asked());
        int edition = Demands.edition(house);
        SharedDemand shared = SharedDemand.of(dwelling, edition);
        WireLimits limits = new WireLimits(wiring, pack);
        List<Circuit> circuits = new ArrayList<>();
        TodaysCircuits.of(wiring, was, limits, shared, found, wanted.protect() == Wanted.Protect.ALL, notes)
                .forEach(c -> circuits.add(unprotected.containsKey(c.name()) ? bare(c) : c));
        int old = circuits.size();
        NewCircuits maker = new NewCircuits(house, wanted, limits, shared, notes, ofNew);
        List<NewCircuits.Made> made = maker.all(dwelling.volts());
        made.forEach(m -> circuits.add(m.circuit()));
        Backfeed.add(wanted, circuits, notes);
        List<Problem> problems = tooLarge(circuits);
        problems.addAll(locks(circuits));
        if (!problems.isEmpty()) {
            return new Result.Failed<>(problems);
        }
        Result<Schedule> solved = Scheduler.solve(task(circuits), wanted.seconds(), progress);
        if (!solved.isOk()) {
            return new Result.Failed<>(solved.problems());
        }
        Schedule schedule = solved.get();
        notes(notes, schedule, old);
        List<Move> moves = new UpgradeMoves(house, was, wanted, circuits, schedule, notes).all(maker, made);
        Draft draft = new Draft(
                "panel-" + was.name(),
                house.id(),
                revision,
                "A panel of " + wanted.kind().title() + " in the place of " + was.name() + ".",
                moves);
        return Drafts.of(draft, house).map(after -> told(notes, circuits, schedule, draft, after, dwelling, edition));
    }

    private UpgradePlan told(
            Notes notes,
            List<Circuit> circuits,
            Schedule schedule,
            Draft draft,
            House after,
            Dwelling dwelling,
            int edition) {
        Comparison findings = Renamed.compare(
                house, draft.moves(), found, Checked.of(after, pack).all());
        List<Demand> demands =
                new ArrayList<>(List.of(Demands.standard(dwelling, edition), Demands.optional(dwelling, edition)));
        demands.addAll(Demands.existing(dwelling, edition));
        if (demands.stream().allMatch(d -> d.verdict() == Demand.Verdict.TOO_MUCH)) {
            notes.separate()
                    .add("By every method the demand is more than the new main of "
                            + wanted.kind().main()
                            + " A: a larger service, or less that is new; the command demand says what would fit.");
        }
        List<Double> now = Arrays.stream(schedule.task().legs(schedule.placed()))
                .mapToObj(x -> (double) x)
                .toList();
        return new UpgradePlan(
                house,
                after,
                was,
                wanted,
                circuits,
                schedule,
                draft,
                findings,
                CurrentChange.between(house, after),
                demands,
                legs(circuits),
                now,
                List.copyOf(new LinkedHashSet<>(notes.asked())),
                notes.separate(),
                notes.assumed());
    }

    private static Told withRating(Told t, int rating) {
        return new Told(
                t.area(),
                t.smallAppliance(),
                t.laundry(),
                t.rating() == null ? Double.valueOf(rating) : t.rating(),
                t.nameplates(),
                t.loads(),
                t.without(),
                t.isAll());
    }

    private Circuit bare(Circuit c) {
        Set<Protection> has = new TreeSet<>();
        was.breakers().values().stream().filter(b -> c.was().contains(b.key())).forEach(b -> has.addAll(b.protects()));
        String why = "No more protection than today: with it a check would find anew: "
                + unprotected.getOrDefault(c.name(), "") + ".";
        return c.protectedBy(has, has.isEmpty() ? List.of() : c.neutrals(), why);
    }

    /** Whether there were breakers with protection about which something new is found; they get none the next time. */
    private boolean takeBack(UpgradePlan plan) {
        int before =
                unprotected.size() + ofNew.values().stream().mapToInt(Set::size).sum();
        for (Finding f : plan.findings().added()) {
            Protection p = AsksProtection.of(f);
            if (p != null) {
                plan.circuits().stream()
                        .filter(c -> c.isNew() && isAt(plan, c, f))
                        .forEach(c -> ofNew.computeIfAbsent(c.name(), k -> new TreeSet<>())
                                .add(p));
            } else if (f.certainty() != Certainty.ASKED) {
                plan.circuits().stream()
                        .filter(c -> !c.isNew() && !c.protects().isEmpty())
                        .filter(c -> isAt(plan, c, f))
                        .forEach(c -> unprotected.put(c.name(), f.title() + ", " + f.subject()));
            }
        }
        return unprotected.size() + ofNew.values().stream().mapToInt(Set::size).sum() > before;
    }

    private boolean isAt(UpgradePlan plan, Circuit c, Finding f) {
        return (was.name() + "." + plan.schedule().of(c.name()).key()).equals(f.breaker());
    }

    private List<Problem> tooLarge(List<Circuit> circuits) {
        List<Problem> problems = new ArrayList<>();
        for (Circuit c : circuits) {
            Double a = c.amperes();
            if (a != null && a > wanted.kind().branch()) {
                problems.add(Problem.error(
                        ProblemKind.CONFLICT,
                        Where.field("panel"),
                        c.name() + " needs " + Words.number(a) + " A; the panel takes breakers of "
                                + wanted.kind().branch() + " A at most.",
                        "Choose a larger panel."));
            }
        }
        return problems;
    }

    private List<Problem> locks(List<Circuit> circuits) {
        List<Problem> problems = new ArrayList<>();
        wanted.locks().keySet().stream()
                .filter(k -> circuits.stream().noneMatch(c -> c.isOf(k)))
                .forEach(k -> problems.add(Problem.error(
                        ProblemKind.DANGLING_NAME,
                        Where.field("lock"),
                        "There is no circuit " + k + " to lock.",
                        "Name a breaker of today or a load that is new: "
                                + String.join(
                                        "; ",
                                        circuits.stream().map(Circuit::name).toList()) + ".")));
        return problems;
    }

    private ScheduleTask task(List<Circuit> circuits) {
        int legs = PanelLegs.of(house.sources(), was).count();
        Frame frame = new Frame(
                wanted.kind().spaces(),
                legs,
                wanted.kind().tandem(),
                wanted.kind().circuits(),
                wanted.kept());
        Map<String, String> locked = new LinkedHashMap<>();
        wanted.locks()
                .forEach((k, space) ->
                        circuits.stream().filter(c -> c.isOf(k)).forEach(c -> locked.put(c.name(), space)));
        Interlocks interlocks = new Interlocks(was, wanted);
        List<Unit> units = circuits.stream()
                .map(c -> new Unit(
                        c.name(),
                        c.poles().stream()
                                .map(p -> new Unit.Pole(
                                        (int) Math.round(p.va()),
                                        p.column(),
                                        Math.max(1, p.wires().size())))
                                .toList(),
                        mayBeHalf(c),
                        c.name().equals(Backfeed.NAME) ? Backfeed.farEnd(frame) : interlocks.place(c, circuits),
                        locked.get(c.name())))
                .toList();
        return new ScheduleTask(frame, units, wanted.reach());
    }

    private static boolean mayBeHalf(Circuit c) {
        Double a = c.amperes();
        return c.poles().size() == 1 && c.protects().isEmpty() && a != null && a <= UpgradeData.number("tandem-most");
    }

    private List<Double> legs(List<Circuit> circuits) {
        PanelLegs legs = PanelLegs.of(house.sources(), was);
        Double[] sums = new Double[legs.count()];
        Arrays.fill(sums, 0.0);
        for (Circuit c : circuits) {
            for (Circuit.Pole p : c.poles()) {
                if (!p.terminal().isEmpty()) {
                    int leg = "abc".indexOf(legs.of(p.terminal()));
                    sums[leg] += p.va();
                }
            }
        }
        return List.of(sums);
    }

    private void notes(Notes notes, Schedule schedule, int old) {
        boolean isRows = was.legs().isEmpty()
                && was.breakers().values().stream().allMatch(b -> b.type() == OvercurrentType.BREAKER);
        notes.assumed()
                .add(
                        isRows
                                ? "A wire reaches as far as it does today"
                                        + (wanted.slackInches() > 0
                                                ? " and " + Words.number(wanted.slackInches()) + " in farther"
                                                : ", no slack counted")
                                        + "; cables come in "
                                        + switch (wanted.entry()) {
                                            case TOP -> "at the top.";
                                            case BOTTOM -> "at the bottom.";
                                            case UNKNOWN ->
                                                "at a place that is not told, so that moving up and down both count.";
                                        }
                                : "Where wires land in today's panel tells nothing of how far they reach: lengthening is not counted.");
        notes.assumed().add("Lights and receptacles are laid evenly on the circuits that feed any.");
        int free = wanted.kind().spaces() - old;
        if (free < 0) {
            notes.assumed().add("More circuits than spaces: halves of tandems are taken.");
        }
        long left = schedule.task().frame().usable().size()
                - schedule.placed().stream()
                        .flatMap(p -> p.spaces().stream())
                        .distinct()
                        .count();
        if (left < UpgradeData.number("spare-share") * wanted.kind().spaces()) {
            notes.assumed()
                    .add(left + " spaces stay free: less than a fifth. A larger panel leaves more room for later.");
        }
        ServiceSize size = ServiceSize.ofRating(wanted.kind().main());
        notes.assumed()
                .add("Service conductors of " + Objects.requireNonNullElse(size.copper(), "?") + " copper or "
                        + Objects.requireNonNullElse(size.aluminium(), "?")
                        + " aluminium where they carry the whole dwelling (310.12); grounding electrode conductor "
                        + Objects.requireNonNullElse(size.electrodeOfCopper(), "?") + " copper (T250.66).");
    }
}
