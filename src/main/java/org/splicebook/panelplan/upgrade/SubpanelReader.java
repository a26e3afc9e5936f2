package org.splicebook.panelplan.upgrade;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.splicebook.panelplan.TellReader;
import org.splicebook.panelplan.Told;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.problem.Where;
import org.splicebook.record.House;
import org.splicebook.record.Panel;
import org.splicebook.record.Unit;

/** Reads from words what people want of a further panel. All problems are told at once. */
public final class SubpanelReader {
    private static final Pattern AMOUNT = Pattern.compile("([0-9]{1,6}(?:\\.[0-9]{1,3})?) ?([A-Za-z]+)");
    private static final Set<Unit> POWER = Set.of(Unit.WATT, Unit.KILOWATT, Unit.VOLT_AMPERE, Unit.KILOVOLT_AMPERE);
    private static final int MOST_SPACES = 60;
    private static final double MOST_VA = 100_000;
    private static final double MOST_AMPERES = 400;

    private final House house;
    private final TellReader loads;
    private final List<Problem> problems = new ArrayList<>();
    private final List<String> want = new ArrayList<>();
    private final Set<String> never = new TreeSet<>();
    private final @Nullable Panel of;
    private int spaces = 12;
    private int free;
    private double feeder = 60;
    private boolean twoLegs = true;
    private @Nullable Double source;
    private @Nullable Double surge;
    private @Nullable Integer year;

    /**
     * A reader of what is wanted for one house.
     *
     * @param of today's panel whose circuits may move; null for the one that a source supplies, where there is one only
     * @param loads what is said beside the record for the demand
     */
    public SubpanelReader(House house, @Nullable String of, TellReader loads) {
        this.house = house;
        this.loads = loads;
        List<Panel> atSources = house.panels().values().stream()
                .filter(p -> p.supply().stream().anyMatch(s -> house.sources().containsKey(s)))
                .toList();
        this.of = of != null ? house.panels().get(of) : atSources.size() == 1 ? atSources.get(0) : null;
        if (this.of == null) {
            bad(
                    "of",
                    of == null ? "Circuits of which panel may move?" : "The house has no panel " + of + ".",
                    "One of: " + String.join(", ", house.panels().keySet()) + ".");
        }
    }

    /** Spaces of the further panel. */
    public void spaces(int number) {
        if (number < 2 || number > MOST_SPACES) {
            bad("spaces", number + " is no number of spaces.", "From 2 to " + MOST_SPACES + ".");
        }
        spaces = number;
    }

    /** What the alternate source gives for hours: {@code 7.6 kW}. */
    public void source(String said) {
        source = amount("source", said, POWER, MOST_VA, "7.6 kW");
    }

    /** What it gives while a motor starts: {@code 12 kW}. */
    public void surge(String said) {
        surge = amount("surge", said, POWER, MOST_VA, "12 kW");
    }

    /** Its system: {@code 120} or {@code 120/240}. */
    public void volts(String said) {
        if (!said.equals("120") && !said.equals("120/240")) {
            bad("volts", "'" + said + "' is no system.", "Write 120 or 120/240.");
        }
        twoLegs = !said.equals("120");
    }

    /** Amperes of the feeder, where the panel only makes room: {@code 60 A}. */
    public void feeder(String said) {
        Double a = amount("feeder", said, Set.of(Unit.AMPERE), MOST_AMPERES, "60 A");
        feeder = a == null ? feeder : a;
    }

    /** Spaces that are to become free in today's panel. */
    public void free(int number) {
        if (number < 1 || number > MOST_SPACES) {
            bad("free", number + " is no number of spaces.", "From 1 to " + MOST_SPACES + ".");
        }
        free = number;
    }

    /** What is to stay on, the most wanted first: a device, what hangs on it, or a breaker of today. */
    public void want(String what) {
        boolean isDevice = house.boxes().values().stream()
                .flatMap(b -> b.devices().values().stream())
                .anyMatch(d -> d.name().equals(what) || what.equals(d.load()));
        if (!isDevice && !isBreaker(what)) {
            unknown("want", what);
        }
        want.add(what);
    }

    /** A breaker of today that is to stay where it is. */
    public void never(String breaker) {
        if (!isBreaker(breaker)) {
            unknown("never", breaker);
        }
        never.add(breaker);
    }

    /** The year of the work. */
    public void year(int number) {
        year = number;
    }

    private boolean isBreaker(String key) {
        return of != null && of.breakers().containsKey(key);
    }

    private void unknown(String field, String what) {
        problems.add(Problem.error(
                ProblemKind.DANGLING_NAME,
                Where.field(field),
                "Nothing is called '" + what + "'.",
                field.equals("never")
                        ? "Name a breaker of the panel by its space."
                        : "Name a device, what hangs on one (freezer, furnace), or a breaker by its space."));
    }

    private @Nullable Double amount(String field, String said, Set<Unit> units, double most, String example) {
        Matcher m = AMOUNT.matcher(said.strip());
        Unit unit = m.matches()
                ? Unit.find(Objects.requireNonNull(m.group(2)))
                        .filter(units::contains)
                        .orElse(null)
                : null;
        double base = unit == null ? 0 : unit.toBase(new BigDecimal(Objects.requireNonNull(m.group(1))).doubleValue());
        if (unit == null || base <= 0 || base > most) {
            bad(field, "\"" + said + "\" is no size with its unit, or too much.", "Write for example " + example + ".");
            return null;
        }
        return base;
    }

    /** {@return what is wanted, or all that is wrong with it} */
    public Result<SubpanelWanted> read() {
        Result<Told> told = loads.read();
        problems.addAll(told.problems());
        if (source == null && free == 0) {
            bad(
                    "source",
                    "It was not said what the panel is for.",
                    "Say source, as 7.6 kW, for one that is backed up; or free, as 6, for one that makes room.");
        }
        if (surge != null && source != null && surge < source) {
            bad("surge", "The source gives less for seconds than for hours.", "Exchange the two.");
        }
        return problems.isEmpty()
                ? Result.ok(new SubpanelWanted(
                        Objects.requireNonNull(of).name(),
                        spaces,
                        source,
                        surge,
                        twoLegs,
                        feeder,
                        free,
                        want,
                        never,
                        year,
                        told.get()))
                : new Result.Failed<>(problems);
    }

    private void bad(String field, String found, String cure) {
        problems.add(Problem.error(ProblemKind.BAD_VALUE, Where.field(field), found, cure));
    }
}
