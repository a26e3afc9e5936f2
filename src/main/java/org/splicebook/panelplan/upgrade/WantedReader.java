package org.splicebook.panelplan.upgrade;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.splicebook.panelplan.TellReader;
import org.splicebook.panelplan.Told;
import org.splicebook.panelplan.schedule.Reach;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.problem.Where;
import org.splicebook.record.House;
import org.splicebook.record.Panel;
import org.splicebook.record.Quantity;
import org.splicebook.record.Unit;

/** Reads from words what people want of a new panel. All problems are told at once. */
public final class WantedReader {
    private static final Pattern AMOUNT = Pattern.compile("(-?[0-9]{1,4}(?:\\.[0-9]{1,3})?) ?([A-Za-z]+)");
    private static final Set<Unit> LENGTHS = Set.of(Unit.INCH, Unit.FOOT, Unit.METRE, Unit.CENTIMETRE, Unit.MILLIMETRE);
    private static final double MOST_SECONDS = 600;

    private final House house;
    private final List<Problem> problems = new ArrayList<>();
    private final @Nullable PanelKind kind;
    private final @Nullable String of;
    private final TellReader loads;
    private final Map<String, String> places = new LinkedHashMap<>();
    private final Map<String, Quantity> lengths = new LinkedHashMap<>();
    private final Map<String, String> locks = new LinkedHashMap<>();
    private final Set<Integer> kept = new TreeSet<>();
    private Wanted.Protect protect = Wanted.Protect.NEEDED;
    private Reach.Entry entry = Reach.Entry.UNKNOWN;
    private double slack;
    private double lower;
    private @Nullable Double backfeed;
    private double seconds = Wanted.SECONDS;
    private @Nullable Integer year;

    /**
     * A reader of what is wanted for one house.
     *
     * @param panel the word of the panel that is hung
     * @param of today's panel that goes; null for the one that a source supplies, where there is one only
     * @param loads what is said beside the record for the demand
     */
    public WantedReader(House house, String panel, @Nullable String of, TellReader loads) {
        this.house = house;
        this.loads = loads;
        Result<PanelKind> found = PanelKind.find(panel);
        this.kind = found.isOk() ? found.get() : null;
        problems.addAll(found.problems());
        List<String> atSources = house.panels().values().stream()
                .filter(p -> p.supply().stream().anyMatch(s -> house.sources().containsKey(s)))
                .map(Panel::name)
                .toList();
        this.of = of != null ? of : atSources.size() == 1 ? atSources.get(0) : null;
        if (this.of == null) {
            bad(
                    "of",
                    "Which panel goes? " + atSources.size() + " are at a service.",
                    "One of: " + String.join(", ", house.panels().keySet()) + ".");
        }
    }

    /** How much protection: {@code needed} or {@code all}. */
    public void protect(String word) {
        protect = word(Wanted.Protect.values(), "protect", word, protect);
    }

    /** Where cables come in: {@code top}, {@code bottom}, {@code unknown}. */
    public void entry(String word) {
        entry = word(Reach.Entry.values(), "entry", word, entry);
    }

    private <E extends Enum<E>> E word(E[] all, String field, String word, E otherwise) {
        for (E e : all) {
            if (e.name().toLowerCase(Locale.ROOT).equals(word)) {
                return e;
            }
        }
        bad(
                field,
                "'" + word + "' is not known.",
                "One of: "
                        + String.join(
                                ", ",
                                Arrays.stream(all)
                                        .map(e -> e.name().toLowerCase(Locale.ROOT))
                                        .toList()) + ".");
        return otherwise;
    }

    /** A circuit, by a breaker of today or a new load's name, and the space that it has to take: {@code 5+7}. */
    public void lock(String circuit, String space) {
        if (!space.matches("[1-9][0-9]{0,2}[ab]?(\\+[1-9][0-9]{0,2}){0,2}")) {
            bad("lock", "'" + space + "' is no space.", "Write 12, 5+7 for two poles, 12a for half of a tandem.");
        }
        locks.put(circuit, space);
    }

    /** A space that stays free. */
    public void keep(int space) {
        if (kind != null && (space < 1 || space > kind.spaces())) {
            bad("keep", "The panel has no space " + space + ".", "From 1 to " + kind.spaces() + ".");
        }
        kept.add(space);
    }

    /** How much farther than today wires reach: {@code 6 in}. */
    public void slack(String said) {
        slack = inches("slack", said, 0);
    }

    /** How much lower the new panel's first row is: {@code 2 in}; above with a minus. */
    public void lower(String said) {
        lower = inches("lower", said, -120);
    }

    private double inches(String field, String said, double least) {
        Quantity q = amount(field, said, LENGTHS, "6 in or 15 cm");
        double inches = q == null ? 0 : q.base() / Unit.INCH.toBase(1);
        if (inches < least || inches > 120) {
            bad(field, "\"" + said + "\" is too little or too much.", "Write for example 6 in.");
            return 0;
        }
        return inches;
    }

    /** What solar or a battery feeds back for hours: {@code 24 A}. */
    public void backfeed(String said) {
        Quantity q = amount("backfeed", said, Set.of(Unit.AMPERE), "24 A");
        if (q != null && (q.base() <= 0 || q.base() > 400)) {
            bad("backfeed", "\"" + said + "\" is too little or too much.", "Write for example 24 A.");
        } else if (q != null) {
            backfeed = q.base();
        }
    }

    /** Where a new load goes. */
    public void place(String load, String place) {
        if (!house.places().containsKey(place)) {
            problems.add(Problem.error(
                    ProblemKind.DANGLING_NAME,
                    Where.field("place"),
                    "The house has no place '" + place + "'.",
                    "It has " + String.join(", ", house.places().keySet()) + "."));
        }
        places.put(load, place);
    }

    /** The length of a new load's cable: {@code 18 m}. */
    public void length(String load, String said) {
        Quantity q = amount("length", said, LENGTHS, "18 m or 60 ft");
        if (q != null && q.base() > 0) {
            lengths.put(load, q);
        }
    }

    /** The year of the work. */
    public void year(int ofWork) {
        year = ofWork;
    }

    /** How long to search at most. */
    public void seconds(double most) {
        if (!(most > 0 && most <= MOST_SECONDS)) {
            bad("seconds", most + " is no time to search.", "Up to " + MOST_SECONDS + " seconds.");
            return;
        }
        seconds = most;
    }

    private @Nullable Quantity amount(String field, String said, Set<Unit> units, String example) {
        Matcher m = AMOUNT.matcher(said.strip());
        Unit unit = m.matches()
                ? Unit.find(Objects.requireNonNull(m.group(2)))
                        .filter(units::contains)
                        .orElse(null)
                : null;
        if (unit == null) {
            problems.add(Problem.error(
                    ProblemKind.BAD_UNIT,
                    Where.field(field),
                    "\"" + said + "\" is no number with its unit.",
                    "Write for example " + example + "."));
            return null;
        }
        return new Quantity(new BigDecimal(Objects.requireNonNull(m.group(1))), unit);
    }

    /** {@return what is wanted, or all that is wrong with it} */
    public Result<Wanted> read() {
        Result<Told> told = loads.read();
        problems.addAll(told.problems());
        List<String> names =
                told.isOk() ? told.get().loads().stream().map(l -> l.name()).toList() : List.of();
        Set<String> said = new TreeSet<>(places.keySet());
        said.addAll(lengths.keySet());
        said.removeAll(names);
        if (told.isOk()) {
            said.forEach(s -> problems.add(Problem.error(
                    ProblemKind.DANGLING_NAME,
                    Where.field("add"),
                    "No load '" + s + "' is added.",
                    names.isEmpty() ? "Add one with add." : "Added are " + String.join(", ", names) + ".")));
        }
        if (!problems.isEmpty() || kind == null || of == null) {
            return new Result.Failed<>(problems);
        }
        return Result.ok(new Wanted(
                of,
                kind,
                told.get(),
                places,
                lengths,
                protect,
                locks,
                kept,
                entry,
                slack,
                lower,
                backfeed,
                seconds,
                year));
    }

    private void bad(String field, String found, String cure) {
        problems.add(Problem.error(ProblemKind.BAD_VALUE, Where.field(field), found, cure));
    }
}
