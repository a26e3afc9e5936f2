package org.splicebook.loadflow;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.problem.Where;

/** Reads a case from the words in which people write it, on a command line or in a body. All problems are told at once. */
public final class CaseReader {
    private static final String RATED = "rated:";
    private static final Pattern LOAD = Pattern.compile(
            "([0-9]{1,9}(?:\\.[0-9]{1,6})?) ?(W|kW|A|ohm|Ω)((?: (?:impedance|power|[01](?:\\.[0-9]{1,4})?)){0,2})");
    private static final double MOST = 1e7;

    private final LoadFlow flow;
    private final List<Problem> problems = new ArrayList<>();
    private LoadCase state;
    private @Nullable String rated;

    /** A reader of cases of one house. It begins with what is typically on. */
    public CaseReader(LoadFlow flow) {
        this(flow, LoadCase.typical());
    }

    /** A reader that begins with a case. */
    CaseReader(LoadFlow flow, LoadCase state) {
        this.flow = flow;
        this.state = state;
    }

    /** {@return the case, or every problem found} */
    public Result<LoadCase> read() {
        List<Problem> all = new ArrayList<>(problems);
        all.addAll(Names.check(flow.circuit(), state));
        if (!all.isEmpty()) {
            return new Result.Failed<>(all);
        }
        if (rated == null) {
            return Result.ok(state);
        }
        return RatedCircuit.of(flow, state, rated)
                .<Result<LoadCase>>map(Result::ok)
                .orElseGet(() -> Result.failed(Problem.error(
                        ProblemKind.BAD_VALUE,
                        Where.field("case"),
                        "No load hangs on " + rated + ", or its rating is not recorded.",
                        "Name a breaker with a rating: rated:main.2+4.")));
    }

    private void bad(String field, String found, String cure) {
        problems.add(Problem.error(ProblemKind.BAD_VALUE, Where.field(field), found, cure));
    }

    /** Takes a kept case: {@code typical}, {@code all-on}, {@code nothing-on}, {@code heaters} or {@code rated:main.2+4}. */
    public void base(String word) {
        if (word.startsWith(RATED)) {
            rated = word.substring(RATED.length());
            return;
        }
        for (LoadCase.Base b : LoadCase.Base.values()) {
            if (word(b).equals(word)) {
                state = state.withBase(b);
                return;
            }
        }
        bad(
                "case",
                "There is no kept case \"" + word + "\".",
                "There are "
                        + Arrays.stream(LoadCase.Base.values())
                                .map(CaseReader::word)
                                .collect(Collectors.joining(", ")) + " and rated:BREAKER.");
    }

    private static String word(LoadCase.Base base) {
        return base.name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    /** Leaves out all resistance but what is given in ohms. */
    public void ideal() {
        state = state.ideal();
    }

    /** Takes wires at a temperature, in degrees Celsius. */
    public void celsius(double celsius) {
        if (!(celsius >= -50 && celsius <= 200)) {
            bad("celsius", "Wires of " + celsius + " degrees.", "From -50 to 200.");
            return;
        }
        state = state.at(celsius);
    }

    /** Puts a load somewhere: {@code 1500 W}, {@code 300 W power 0.8}, {@code 12 A}, {@code 9.6 ohm}, {@code off}. */
    public void load(String at, String said) {
        Load load = load(said.strip());
        if (load == null) {
            bad(
                    "loads." + at,
                    "\"" + said + "\" is not a load.",
                    "Write 1500 W, 300 W power 0.8 (constant power at that power factor), 12 A, 9.6 ohm or off.");
            return;
        }
        state = state.load(at, load);
    }

    private static @Nullable Load load(String said) {
        if (said.equals("off")) {
            return Load.OFF;
        }
        Matcher m = LOAD.matcher(said);
        if (!m.matches()) {
            return null;
        }
        double amount = Double.parseDouble(Objects.requireNonNull(m.group(1)));
        String unit = Objects.requireNonNull(m.group(2));
        Load.Model model =
                unit.endsWith("W") ? Load.Model.IMPEDANCE : unit.equals("A") ? Load.Model.CURRENT : Load.Model.OHMS;
        double powerFactor = 1;
        boolean fits = true;
        for (String word : Objects.requireNonNull(m.group(3)).strip().split(" ")) {
            if (word.equals("power")) {
                fits = unit.endsWith("W");
                model = Load.Model.POWER;
            } else if (word.equals("impedance")) {
                fits = unit.endsWith("W");
            } else if (!word.isEmpty() && Character.isDigit(word.charAt(0))) {
                powerFactor = Double.parseDouble(word);
            }
        }
        amount *= unit.equals("kW") ? 1000 : 1;
        fits &= amount <= MOST
                && powerFactor >= 0.05
                && powerFactor <= 1
                && (model != Load.Model.OHMS || (powerFactor == 1 && amount > 0));
        return fits ? new Load(model, amount, powerFactor) : null;
    }

    /** Moves a lever. */
    public void lever(String lever, String position) {
        state = state.lever(lever, position);
    }

    /** Opens a breaker, a pole, a main or a protective device. */
    public void open(String thing) {
        state = state.open(thing);
    }

    /** Closes a breaker, a pole, a main or a protective device. */
    public void close(String thing) {
        state = state.close(thing);
    }

    /** Gives a branch its measured ohms: {@code 0.19}, {@code 0.19 ohm}. */
    public void ohms(String branch, String said) {
        Double ohms = number(said);
        if (ohms == null) {
            bad("ohms." + branch, "\"" + said + "\" is not in ohms.", "Write 0.19 ohm.");
            return;
        }
        state = state.ohms(branch, ohms);
    }

    /**
     * Inserts a fault: {@code open K1.white@2}, {@code open-joint bench:K1.white}, {@code loose K1.white@2 2 ohm}, {@code touch
     * bench-1.top.hot bench.box 0 ohm}, {@code leak main.1 main.g 5 mA}, {@code on-leg main.3 main.a}, {@code stuck main.3}.
     */
    public void fault(String said) {
        String[] w = said.strip().split("\\s+", 4);
        Fault fault = switch (w[0]) {
            case "open" -> w.length == 2 ? new Fault.Open(w[1]) : null;
            case "open-joint" -> w.length == 2 ? new Fault.OpenJoint(w[1]) : null;
            case "on-leg" -> w.length == 3 ? new Fault.OnLeg(w[1], w[2]) : null;
            case "stuck" -> w.length == 2 ? new Fault.Stuck(w[1]) : null;
            case "loose" -> loose(w);
            case "touch" -> touch(w);
            case "leak" -> leak(w);
            default -> null;
        };
        if (fault == null) {
            bad(
                    "faults",
                    "\"" + said + "\" is not a fault.",
                    "Write open WIRE-END, open-joint BOX:MEMBER, loose WIRE-END 2 ohm, touch A B 0.1 ohm, leak A B 5 mA, on-leg POLE BUS or stuck CONTACT.");
            return;
        }
        state = state.fault(fault);
    }

    private static @Nullable Fault loose(String[] w) {
        Double ohms = w.length < 3 ? null : number(String.join(" ", Arrays.copyOfRange(w, 2, w.length)));
        return ohms == null ? null : new Fault.Loose(w[1], ohms);
    }

    private static @Nullable Fault touch(String[] w) {
        Double ohms = w.length == 3 ? Double.valueOf(0) : w.length == 4 ? number(w[3]) : null;
        return ohms == null ? null : new Fault.Touch(w[1], w[2], ohms);
    }

    /** A leak is given by what it lets pass at 120 V. */
    private static @Nullable Fault leak(String[] w) {
        Matcher m = w.length == 4
                ? Pattern.compile("([0-9]{1,6}(?:\\.[0-9]{1,6})?) ?mA").matcher(w[3])
                : null;
        if (m == null || !m.matches()) {
            return null;
        }
        double milliamperes = Double.parseDouble(Objects.requireNonNull(m.group(1)));
        return milliamperes > 0 ? Fault.leak(w[1], w[2], milliamperes / 1000, 120) : null;
    }

    private static @Nullable Double number(String said) {
        Matcher m = Pattern.compile("([0-9]{1,9}(?:\\.[0-9]{1,9})?)(?: ?(?:ohm|Ω))?")
                .matcher(said.strip());
        return m.matches() ? Double.valueOf(Objects.requireNonNull(m.group(1))) : null;
    }
}
