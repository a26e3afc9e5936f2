package org.splicebook.panelplan;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.splicebook.panelplan.DemandLoad.Kind;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.problem.Where;
import org.splicebook.record.House;
import org.splicebook.record.Unit;

/** Reads from words what people say beside a record for a load calculation. All problems are told at once. */
public final class TellReader {
    private static final String NUMBER = "[0-9]{1,7}(?:\\.[0-9]{1,4})?";
    private static final String SIZE = NUMBER + " ?(?:VA|kVA|W|kW|A)";
    private static final Pattern AMOUNT = Pattern.compile("(" + NUMBER + ") ?([A-Za-z0-9]+)");
    private static final Pattern LOAD = Pattern.compile(
            "(?:([^:]{1,60}): *)?([A-Za-z -]{1,40}?)(?: (" + SIZE + "|\\?))?( at 120 V)?(?: held to (" + SIZE + "))?");
    private static final Set<Unit> POWER = Set.of(Unit.WATT, Unit.KILOWATT, Unit.VOLT_AMPERE, Unit.KILOVOLT_AMPERE);
    private static final double ONE_LEG = 120;
    private static final double MOST_POWER = 1e6;
    private static final double MOST_RAISED = 4;
    private static final double MOST_AREA = 1e6;
    private static final double MOST_AMPERES = 4000;
    private static final int MOST_CIRCUITS = 100;

    private final House house;
    private final double volts;
    private final Map<String, Double> devices = new TreeMap<>();
    private final List<Problem> problems = new ArrayList<>();
    private final Map<String, Double> nameplates = new LinkedHashMap<>();
    private final List<DemandLoad> loads = new ArrayList<>();
    private final Set<String> without = new HashSet<>();
    private @Nullable Double area;
    private @Nullable Integer smallAppliance;
    private @Nullable Integer laundry;
    private @Nullable Double rating;
    private @Nullable Double peak;
    private @Nullable Double raised;
    private @Nullable Double season;
    private @Nullable IntervalRecord intervals;
    private boolean isAll;

    /** A reader of what is said of one house. */
    public TellReader(House house) {
        this.house = house;
        volts = RecordedDwelling.volts(house);
        house.boxes()
                .values()
                .forEach(b -> b.devices().forEach((n, d) -> devices.put(n, RecordedDwelling.volts(d.kind()))));
    }

    /** The floor area by outside dimensions: {@code 1800 ft2}, {@code 168 m2}. */
    public void area(String said) {
        Double metres =
                amount("area", said, Set.of(Unit.SQUARE_FOOT, Unit.SQUARE_METRE), MOST_AREA, "1800 ft2 or 168 m2");
        area = metres == null ? null : Double.valueOf(metres / Unit.SQUARE_FOOT.toBase(1));
    }

    /** How many small-appliance circuits. */
    public void smallAppliance(int number) {
        smallAppliance = circuits("small-appliance", number);
    }

    /** How many laundry circuits. */
    public void laundry(int number) {
        laundry = circuits("laundry", number);
    }

    /** The rating that the demand is held against: {@code 100 A}. */
    public void rating(String said) {
        rating = amount("rating", said, Set.of(Unit.AMPERE), MOST_AMPERES, "100 A");
    }

    /** The greatest recorded demand: {@code 8.4 kW}. */
    public void peak(String said) {
        peak = amount("peak", said, POWER, MOST_POWER, "8.4 kW or 8400 VA");
    }

    /** By how much averages over long intervals are raised: {@code 1.3}. */
    public void raise(String said) {
        if (!said.strip().matches("[1-4](\\.[0-9]{1,3})?") || Double.parseDouble(said) > MOST_RAISED) {
            bad(ProblemKind.BAD_VALUE, "raise", "\"" + said + "\" is no factor.", "From 1 to 4, for example 1.3.");
            return;
        }
        raised = Double.valueOf(said.strip());
    }

    /** What did not run in 30 days of readings: {@code 9.6 kW}; {@code ran} where the larger of heating and cooling ran. */
    public void season(String said) {
        season = said.strip().equals("ran") ? Double.valueOf(0) : power("season", said, volts);
    }

    /** Readings of the meter, as comma-separated lines; {@code file} is what problems call them. */
    public void intervals(String file, String text) {
        Result<IntervalRecord> read = IntervalReader.read(file, text);
        problems.addAll(read.problems());
        intervals = read.isOk() ? read.get() : null;
    }

    /** Readings of the meter that were read before. */
    public void intervals(IntervalRecord read) {
        intervals = read;
    }

    /** What a recorded device's plate says: {@code 4500 W}, {@code 10 A} at its own voltage. */
    public void nameplate(String device, String said) {
        if (isDevice("nameplate", device)) {
            boolean isOnOneLeg = Objects.requireNonNull(devices.get(device)) <= ONE_LEG;
            Double va = power("nameplate." + device, said, isOnOneLeg ? ONE_LEG : volts);
            if (va != null) {
                nameplates.put(device, va);
            }
        }
    }

    /** A recorded device that is left out. */
    public void without(String device) {
        if (isDevice("without", device)) {
            without.add(device);
        }
    }

    /** There is no fixed load beside those recorded and told. */
    public void allListed() {
        isAll = true;
    }

    /** A load to be added: {@code ev 48 A}, {@code hot tub: appliance 6 kW}, {@code ev 48 A held to 16 A}, {@code dishwasher 1.2 kW at 120 V}. */
    public void add(String said) {
        Matcher m = LOAD.matcher(said.strip());
        Kind kind = m.matches() ? kind(Objects.requireNonNull(m.group(2))) : null;
        if (kind == null) {
            Set<String> words = new TreeSet<>(DemandTables.said().keySet());
            for (Kind k : Kind.values()) {
                words.add(k.word());
            }
            bad(
                    ProblemKind.BAD_VALUE,
                    "add",
                    "\"" + said + "\" is no load that can be added.",
                    "Write a kind and a size, as in \"ev 48 A\", \"heat pump 5.7 kVA\" or \"ev 48 A held to 16 A\"; kinds are "
                            + String.join(", ", words) + ".");
            return;
        }
        boolean onNeutral = m.group(4) != null;
        double across = onNeutral ? ONE_LEG : volts;
        String size = m.group(3);
        String held = m.group(5);
        Double va = size == null || size.equals("?") ? null : power("add", size, across);
        Double point = held == null ? null : power("add", held, across);
        String name = m.group(1) == null
                ? Objects.requireNonNull(m.group(2)).strip()
                : m.group(1).strip();
        loads.add(new DemandLoad(unlike(name), kind, va, true, RecordedDwelling.isMotor(kind), onNeutral, point));
    }

    /** {@return what was said, or all that is wrong with it} */
    public Result<Told> read() {
        return problems.isEmpty()
                ? Result.ok(new Told(area, smallAppliance, laundry, rating, nameplates, loads, without, isAll))
                : new Result.Failed<>(problems);
    }

    /** {@return what the meter showed: by its readings, where those may not be used by the figure that was told; null where there is none} */
    public @Nullable Metering metering() {
        Metering read = intervals == null ? null : Metering.of(intervals, house, raised, season);
        boolean isEnough = read != null && read.isUsable() && read.asked().isEmpty();
        return peak != null && !isEnough ? Metering.of(peak) : read;
    }

    private static @Nullable Kind kind(String words) {
        String word = words.strip().toLowerCase(Locale.ROOT);
        return Kind.find(DemandTables.said().getOrDefault(word, word)).orElse(null);
    }

    private String unlike(String name) {
        int n = 1;
        String unlike = name;
        while (isTaken(unlike)) {
            n++;
            unlike = name + " " + n;
        }
        return unlike;
    }

    private boolean isTaken(String name) {
        return devices.containsKey(name)
                || loads.stream().anyMatch(l -> l.name().equals(name));
    }

    private @Nullable Integer circuits(String field, int number) {
        if (number < 0 || number > MOST_CIRCUITS) {
            bad(
                    ProblemKind.BAD_VALUE,
                    field,
                    number + " is no number of circuits.",
                    "From 0 to " + MOST_CIRCUITS + ".");
            return null;
        }
        return number;
    }

    private boolean isDevice(String field, String name) {
        boolean is = devices.containsKey(name);
        if (!is) {
            bad(
                    ProblemKind.DANGLING_NAME,
                    field,
                    "The house has no device '" + name + "'.",
                    "Name a device of the record; a load that is not in it is added with add.");
        }
        return is;
    }

    private @Nullable Double power(String field, String said, double across) {
        String example = "4500 W, 4.5 kVA, or amperes (20 A) at " + Sheet.number(across) + " V";
        boolean isCurrent = said.endsWith("A") && !said.endsWith("VA");
        Double amount = isCurrent
                ? amount(field, said, Set.of(Unit.AMPERE), MOST_POWER / across, example)
                : amount(field, said, POWER, MOST_POWER, example);
        return amount == null || !isCurrent ? amount : Double.valueOf(amount * across);
    }

    private @Nullable Double amount(String field, String said, Set<Unit> units, double most, String example) {
        Matcher m = AMOUNT.matcher(said.strip());
        Unit unit = m.matches()
                ? Unit.find(Objects.requireNonNull(m.group(2)))
                        .filter(units::contains)
                        .orElse(null)
                : null;
        if (unit == null) {
            bad(
                    ProblemKind.BAD_UNIT,
                    field,
                    "\"" + said + "\" is no number with its unit.",
                    "Write for example " + example + ".");
            return null;
        }
        double base = unit.toBase(Double.parseDouble(Objects.requireNonNull(m.group(1))));
        if (base <= 0 || base > most) {
            bad(
                    ProblemKind.BAD_VALUE,
                    field,
                    "\"" + said + "\" is too little or too much.",
                    "Write for example " + example + ".");
            return null;
        }
        return base;
    }

    private void bad(ProblemKind kind, String field, String found, String cure) {
        problems.add(Problem.error(kind, Where.field(field), found, cure));
    }
}
