package org.splicebook.panelplan;

import java.time.Duration;
import java.time.LocalDateTime;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.problem.Where;

/**
 * Reads interval readings from lines of comma-separated values: a head {@code start,kW} (or {@code kWh}, {@code W}, {@code Wh},
 * {@code kVA}, {@code VA}), then a time and a number in each line, in order. Further columns are passed over. Every line that is wrong
 * is told.
 */
public final class IntervalReader {
    private static final int MOST_LINES = 600_000;
    private static final int MOST_TOLD = 50;
    private static final double MOST_VA = 1e6;
    private static final int LONGEST = 60;
    private static final double MINUTES = 60;
    private static final String NUMBER = "-?[0-9]{1,9}(\\.[0-9]{1,6})?";

    private enum Measure {
        W(1, false),
        KW(1000, false),
        VA(1, false),
        KVA(1000, false),
        WH(1, true),
        KWH(1000, true);

        private final double factor;
        private final boolean isEnergy;

        Measure(double factor, boolean isEnergy) {
            this.factor = factor;
            this.isEnergy = isEnergy;
        }
    }

    private final String file;
    private final List<Problem> problems = new ArrayList<>();
    private final List<LocalDateTime> starts = new ArrayList<>();
    private final List<Integer> lines = new ArrayList<>();
    private final List<Double> values = new ArrayList<>();
    private final List<String> notes = new ArrayList<>();

    private IntervalReader(String file) {
        this.file = file;
    }

    /**
     * {@return the record, or every line that is wrong}
     *
     * @param file what problems call it
     */
    public static Result<IntervalRecord> read(String file, String text) {
        return new IntervalReader(file).read(text);
    }

    private Result<IntervalRecord> read(String text) {
        List<String> all = text.lines().limit(MOST_LINES + 1L).toList();
        if (all.size() > MOST_LINES) {
            bad(
                    ProblemKind.TOO_LARGE,
                    MOST_LINES + 1,
                    "The file has more than " + MOST_LINES + " lines.",
                    "Send a year or two of intervals.");
            return new Result.Failed<>(problems);
        }
        String head = all.isEmpty() ? "" : all.get(0).replace("\uFEFF", "");
        String cut = head.contains(";") ? ";" : ",";
        List<String> columns = Arrays.stream(head.split(cut, -1))
                .map(c -> plain(c).toLowerCase(Locale.ROOT))
                .toList();
        int start = columns.indexOf("start");
        int column = -1;
        @Nullable Measure measure = null;
        for (Measure m : Measure.values()) {
            int at = columns.indexOf(m.name().toLowerCase(Locale.ROOT));
            if (at >= 0 && measure == null) {
                column = at;
                measure = m;
            }
        }
        if (start < 0 || measure == null) {
            bad(
                    ProblemKind.SYNTAX,
                    1,
                    "The first line does not name its columns.",
                    "Begin with start,kW or start,kWh (or W, Wh, VA, kVA); each line has a time and a number.");
            return new Result.Failed<>(problems);
        }
        for (int i = 1; i < all.size() && problems.size() < MOST_TOLD; i++) {
            if (!all.get(i).isBlank()) {
                line(all.get(i).split(cut, -1), i + 1, start, column);
            }
        }
        return problems.isEmpty() ? told(measure) : new Result.Failed<>(problems);
    }

    private void line(String[] cells, int line, int start, int column) {
        if (cells.length <= Math.max(start, column)) {
            bad(ProblemKind.MISSING, line, "The line has " + cells.length + " columns.", "Write a time and a number.");
            return;
        }
        LocalDateTime at = time(plain(cells[start]));
        if (at == null) {
            bad(
                    ProblemKind.BAD_VALUE,
                    line,
                    said(cells[start]) + " is no time.",
                    "Write for example 2026-03-14T10:15, or with its offset 2026-03-14T10:15-05:00.");
        }
        String number = plain(cells[column]);
        if (!number.matches(NUMBER)) {
            bad(ProblemKind.BAD_VALUE, line, said(cells[column]) + " is no number.", "Write for example 1.25.");
        } else if (number.startsWith("-") && Double.parseDouble(number) < 0) {
            bad(
                    ProblemKind.BAD_VALUE,
                    line,
                    said(cells[column]) + " is less than nothing: something fed back.",
                    "A record with solar or a battery behind the meter does not tell what the house took.");
        } else if (at != null) {
            starts.add(at);
            values.add(Double.valueOf(number));
            lines.add(line);
        }
    }

    private static @Nullable LocalDateTime time(String said) {
        String iso = said.replaceFirst("^(\\d{4}-\\d{2}-\\d{2}) ", "$1T");
        try {
            return LocalDateTime.parse(iso);
        } catch (DateTimeParseException e) {
            return withOffset(iso);
        }
    }

    /** Times with an offset are put on one clock, that of no offset. */
    private static @Nullable LocalDateTime withOffset(String iso) {
        try {
            return OffsetDateTime.parse(iso)
                    .withOffsetSameInstant(ZoneOffset.UTC)
                    .toLocalDateTime();
        } catch (DateTimeParseException e) {
            return null;
        }
    }

    private Result<IntervalRecord> told(Measure measure) {
        if (starts.size() < 2) {
            bad(ProblemKind.MISSING, 1, "There are fewer than two readings.", "Send at least 30 days of them.");
            return new Result.Failed<>(problems);
        }
        long minutes = usual();
        if (minutes < 1 || minutes > LONGEST) {
            bad(
                    ProblemKind.BAD_VALUE,
                    Objects.requireNonNull(lines.get(1)),
                    "The readings are " + minutes + " minutes apart.",
                    "Send readings of an hour or less; a quarter of an hour is asked for.");
            return new Result.Failed<>(problems);
        }
        long missing = 0;
        boolean hasGoneBack = false;
        boolean hasGoneOn = false;
        for (int i = 1; i < starts.size() && problems.size() < MOST_TOLD; i++) {
            long step = Duration.between(starts.get(i - 1), starts.get(i)).toMinutes();
            long over = step - minutes;
            if (over == -LONGEST && !hasGoneBack) {
                hasGoneBack = true;
            } else if (over == LONGEST && !hasGoneOn && starts.get(i).getHour() <= 4) {
                hasGoneOn = true;
            } else if (step <= 0) {
                bad(
                        step == 0 ? ProblemKind.DUPLICATE : ProblemKind.BAD_VALUE,
                        lines.get(i),
                        starts.get(i) + (step == 0 ? " stands twice." : " comes after a later time."),
                        "Put the readings in order, each once; write times with their offset where a clock was changed.");
            } else if (over % minutes != 0) {
                bad(
                        ProblemKind.BAD_VALUE,
                        lines.get(i),
                        starts.get(i) + " is " + step + " minutes after the reading before, the others " + minutes
                                + ".",
                        "Send intervals of one length.");
            } else {
                missing += over / minutes;
            }
        }
        if (!problems.isEmpty()) {
            return new Result.Failed<>(problems);
        }
        if (hasGoneBack || hasGoneOn) {
            notes.add("An hour that is left out in the night, or told twice, is taken for a change of the clock.");
        }
        notes.add("Watts are taken for volt-amperes: at a power factor below 1 the demand is larger.");
        return record(measure, (int) minutes, missing);
    }

    /** The step between readings that comes most often. */
    private long usual() {
        Map<Long, Integer> steps = new HashMap<>();
        for (int i = 1; i < starts.size(); i++) {
            long step = Duration.between(starts.get(i - 1), starts.get(i)).toMinutes();
            if (step > 0) {
                steps.merge(step, 1, Integer::sum);
            }
        }
        return steps.isEmpty()
                ? 0
                : Collections.max(
                                steps.entrySet(),
                                Map.Entry.<Long, Integer>comparingByValue()
                                        .thenComparing(Map.Entry.comparingByKey(Collections.reverseOrder())))
                        .getKey();
    }

    private Result<IntervalRecord> record(Measure measure, int minutes, long missing) {
        double[] sum = new double[24];
        double[] most = new double[24];
        int[] count = new int[24];
        int peak = 0;
        List<Double> va = new ArrayList<>();
        for (int i = 0; i < values.size(); i++) {
            double x = values.get(i) * measure.factor * (measure.isEnergy ? MINUTES / minutes : 1);
            va.add(x);
            if (x > MOST_VA) {
                bad(
                        ProblemKind.BAD_VALUE,
                        lines.get(i),
                        "That is " + Math.round(x / 1000) + " kW in a dwelling.",
                        "Look at the unit in the first line.");
                return new Result.Failed<>(problems);
            }
            int hour = starts.get(i).getHour();
            sum[hour] += x;
            count[hour]++;
            most[hour] = Math.max(most[hour], x);
            peak = x > va.get(peak) ? i : peak;
        }
        List<Double> mean = new ArrayList<>();
        for (int h = 0; h < 24; h++) {
            mean.add(count[h] == 0 ? 0 : sum[h] / count[h]);
        }
        return Result.ok(new IntervalRecord(
                starts.get(0),
                starts.get(starts.size() - 1).plusMinutes(minutes),
                minutes,
                starts.size(),
                missing,
                va.get(peak),
                starts.get(peak),
                mean,
                Arrays.stream(most).boxed().toList(),
                notes));
    }

    private static String plain(String cell) {
        String c = cell.strip();
        return c.length() > 1 && c.startsWith("\"") && c.endsWith("\"")
                ? c.substring(1, c.length() - 1).strip()
                : c;
    }

    private static String said(String cell) {
        String c = plain(cell);
        return "\"" + (c.length() > 40 ? c.substring(0, 40) + "..." : c) + "\"";
    }

    private void bad(ProblemKind kind, int line, String found, String cure) {
        problems.add(Problem.error(kind, new Where(file, line, 1, ""), found, cure));
    }
}
