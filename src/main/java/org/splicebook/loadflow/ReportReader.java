package org.splicebook.loadflow;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.problem.Where;

/** Reads which report is wanted, and what it must be told, from words, and makes it. All problems are told at once. */
public final class ReportReader {
    private static final Pattern READING =
            Pattern.compile("(\\S+) (\\S+) ([0-9]{1,4}(?:\\.[0-9]{1,3})?) ?V?(?: with (.+))?");
    private static final Pattern NUMBER = Pattern.compile("[0-9]{1,6}(?:\\.[0-9]{1,6})?");

    /** Settings that are numbers: from, to, and what they are where nothing is said. */
    private enum Setting {
        VOLTS("volts", 1, 600, 120),
        AMPERES("amperes", 0.01, 4000, 15),
        SHARE("share", 0.001, 0.5, 0.03),
        POWER_FACTOR("power-factor", 0.05, 1, 1),
        METER("meter", 0.01, 50, 1);

        private final String word;
        private final double least;
        private final double most;
        private final double usual;

        Setting(String word, double least, double most, double usual) {
            this.word = word;
            this.least = least;
            this.most = most;
            this.usual = usual;
        }
    }

    private final LoadFlow flow;
    private final List<Problem> problems = new ArrayList<>();
    private final Map<Setting, Double> numbers = new TreeMap<>();
    private final List<String> readings = new ArrayList<>();
    private @Nullable FlowReport wanted;
    private String about = "";

    /** A reader for reports on one house. */
    public ReportReader(LoadFlow flow) {
        this.flow = flow;
    }

    /** Says which report is wanted. */
    public void report(String word) {
        wanted = FlowReport.of(word).orElse(null);
        if (wanted == null) {
            bad(
                    "report",
                    "There is no report \"" + word + "\".",
                    "There are "
                            + Arrays.stream(FlowReport.values())
                                    .map(FlowReport::word)
                                    .collect(Collectors.joining(", ")) + ".");
        }
    }

    /** Says what it is about: a breaker, a ground-fault unit, a load point. */
    public void about(String name) {
        about = name;
    }

    /** Gives one of {@code volts}, {@code amperes}, {@code share}, {@code power-factor}, {@code meter}. */
    public void setting(String name, String said) {
        for (Setting s : Setting.values()) {
            if (s.word.equals(name)) {
                double value = NUMBER.matcher(said).matches() ? Double.parseDouble(said) : -1;
                if (value < s.least || value > s.most) {
                    bad(name, "\"" + said + "\" will not do.", "From " + s.least + " to " + s.most + ".");
                } else {
                    numbers.put(s, value);
                }
                return;
            }
        }
        bad(
                name,
                "There is nothing of that name to say.",
                "There are "
                        + Arrays.stream(Setting.values()).map(s -> s.word).collect(Collectors.joining(", "))
                        + ", about and reading.");
    }

    /**
     * Adds what a meter showed between two nodes: {@code lamp.hot lamp.neutral 117.5 V}, or {@code lamp.hot lamp.neutral 109 V with
     * kettle.top=1500 W, lamp=off} where loads differed from the case.
     */
    public void reading(String said) {
        readings.add(said);
    }

    private void bad(String field, String found, String cure) {
        problems.add(Problem.error(ProblemKind.BAD_VALUE, Where.field(field), found, cure));
    }

    /**
     * {@return the report on a state, or every problem found}
     *
     * @throws ProblemException when what it is about is not there
     */
    public Result<Report<?>> read(LoadCase state) {
        List<LooseNeutral.Reading> read = new ArrayList<>();
        for (int i = 0; i < readings.size(); i++) {
            LooseNeutral.Reading r = reading(state, readings.get(i), "readings[" + i + "]");
            if (r != null) {
                read.add(r);
            }
        }
        if (wanted == FlowReport.LOOSE_NEUTRAL && readings.isEmpty()) {
            bad("readings", "No reading is given.", "Give one or more: lamp.hot lamp.neutral 117.5 V.");
        }
        if ((wanted == FlowReport.BREAKER_HOLDS || wanted == FlowReport.DEVICE_HOLDS) && about.isEmpty()) {
            bad("about", "It is not said which one.", "Name a breaker as main.2+4, or a ground-fault unit.");
        }
        if (!problems.isEmpty() || wanted == null) {
            return new Result.Failed<>(problems);
        }
        return Result.ok(made(wanted, state, read));
    }

    private Report<?> made(FlowReport report, LoadCase state, List<LooseNeutral.Reading> read) {
        return switch (report) {
            case OPEN_NEUTRAL -> OpenNeutral.in(flow, state);
            case DEVICE_HOLDS -> DeviceHolds.of(flow, state, about);
            case BREAKER_HOLDS -> BreakerHolds.of(flow, state, about);
            case RUN_LENGTH ->
                RunLength.of(
                        flow,
                        state,
                        new RunLength.Run(
                                about,
                                number(Setting.VOLTS),
                                number(Setting.AMPERES),
                                number(Setting.POWER_FACTOR),
                                number(Setting.SHARE)));
            case FAULT_CURRENT -> FaultCurrent.atLoadPoints(flow, state);
            case PANEL_FAULT -> FaultCurrent.atPanels(flow, state);
            case LOOSE_NEUTRAL -> LooseNeutral.fit(flow, read, number(Setting.METER));
        };
    }

    private double number(Setting s) {
        return numbers.getOrDefault(s, s.usual);
    }

    private LooseNeutral.@Nullable Reading reading(LoadCase state, String said, String field) {
        Matcher m = READING.matcher(said.strip());
        if (!m.matches()) {
            bad(
                    field,
                    "\"" + said + "\" is not a reading.",
                    "Write two terminals and the volts between them: lamp.hot lamp.neutral 117.5 V; add what else was on: with kettle=1500 W.");
            return null;
        }
        String from = Objects.requireNonNull(m.group(1));
        String to = Objects.requireNonNull(m.group(2));
        for (String node : List.of(from, to)) {
            if (flow.circuit().findNode(node) == null) {
                problems.add(Problem.error(
                        ProblemKind.DANGLING_NAME,
                        Where.field(field),
                        "There is no terminal or wire end \"" + node + "\".",
                        "Name it as the house file does: lamp.hot, K3.white@1."));
            }
        }
        CaseReader reader = new CaseReader(flow, state);
        String with = Objects.requireNonNullElse(m.group(4), "");
        for (String load : with.isEmpty() ? new String[0] : with.split(", *")) {
            String[] parts = load.split("=", 2);
            reader.load(parts[0], parts.length == 2 ? parts[1] : "");
        }
        Result<LoadCase> then = reader.read();
        if (then instanceof Result.Failed<LoadCase> failed) {
            failed.problems()
                    .forEach(p -> problems.add(Problem.error(p.kind(), Where.field(field), p.message(), p.cure())));
            return null;
        }
        return new LooseNeutral.Reading(then.get(), from, to, Double.parseDouble(Objects.requireNonNull(m.group(3))));
    }
}
