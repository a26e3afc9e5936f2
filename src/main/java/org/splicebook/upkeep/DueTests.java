package org.splicebook.upkeep;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.Box;
import org.splicebook.record.Breaker;
import org.splicebook.record.Device;
import org.splicebook.record.DeviceKind;
import org.splicebook.record.House;
import org.splicebook.record.OvercurrentType;
import org.splicebook.record.Panel;
import org.splicebook.record.TestResult;

/** What is due in a house, by its recorded tests. What nothing shows to be done is due. */
public final class DueTests {
    /** The day on which a test is due that was never done. */
    public static final LocalDate LONG_PAST = LocalDate.of(1900, 1, 1);

    private static final String FAILED = "failed";
    private static final Pattern DATE = Pattern.compile("([0-9]{4})(?:-([0-9]{2}))?(?:-([0-9]{2}))?.*");

    private DueTests() {}

    /** What a test can be done to: its name and place, and its age as written. */
    private record Subject(
            String name, @Nullable String place, @Nullable String since) {}

    /**
     * {@return every test of every thing in the house, the most pressing first}
     *
     * @param today the day that it is asked on
     * @param within how many days are looked ahead
     * @param all whether tests that are not usual in every house are told too
     */
    public static List<Due> of(House house, LocalDate today, int within, boolean all) {
        Map<String, List<TestResult>> tests = new TreeMap<>();
        house.tests()
                .forEach(t -> tests.computeIfAbsent(key(t.what(), t.device()), k -> new ArrayList<>())
                        .add(t));
        List<Due> due = new ArrayList<>();
        for (TestKind kind : TestKinds.all()) {
            if (kind.months() > 0 && (all || kind.isUsual())) {
                subjects(house, kind.of())
                        .forEach(s -> due.add(
                                due(s, kind, tests.getOrDefault(key(kind.id(), s.name()), List.of()), today, within)));
            }
        }
        due.sort(Comparator.comparing(Due::state)
                .thenComparing(Due::on)
                .thenComparing(d -> d.kind().id())
                .thenComparing(Due::subject));
        return due;
    }

    /** {@return whether a test was done and did not fail: it passed, or a reading was taken} */
    public static boolean isDone(TestResult test) {
        return test.result().equals("passed") || test.result().matches("[<>~]?\\s*-?[0-9].*");
    }

    /** {@return the day of the last test of that kind that was done, as written; empty where none was, or one failed after it} */
    public static String lastDone(House house, String what, String device) {
        List<TestResult> tests = house.tests().stream()
                .filter(t -> t.what().equals(what) && t.device().equals(device))
                .toList();
        return last(tests).filter(DueTests::isDone).map(TestResult::date).orElse("");
    }

    private static Due due(Subject s, TestKind kind, List<TestResult> tests, LocalDate today, int within) {
        Optional<TestResult> last = last(tests);
        if (last.filter(t -> t.result().equals(FAILED)).isPresent()) {
            return new Due(s.name(), s.place(), kind, last.get(), LONG_PAST, Due.State.FAILED);
        }
        Optional<LocalDate> from = kind.fromAge()
                ? Optional.ofNullable(s.since()).flatMap(DueTests::earliest)
                : last(tests.stream().filter(DueTests::isDone).toList()).flatMap(t -> earliest(t.date()));
        TestResult told = last.orElse(null);
        if (from.isEmpty()) {
            return new Due(s.name(), s.place(), kind, told, LONG_PAST, Due.State.NEVER);
        }
        LocalDate on = from.get().plusMonths(kind.months());
        Due.State state = !on.isAfter(today)
                ? Due.State.OVERDUE
                : on.isAfter(today.plusDays(within)) ? Due.State.LATER : Due.State.SOON;
        return new Due(s.name(), s.place(), kind, told, on, state);
    }

    /** Of one day, the one that was recorded last. What neither worked nor failed, such as a device out of reach, says nothing. */
    private static Optional<TestResult> last(List<TestResult> tests) {
        return tests.stream()
                .filter(t -> isDone(t) || t.result().equals(FAILED))
                .reduce((a, b) -> b.date().compareTo(a.date()) >= 0 ? b : a);
    }

    /** {@return the earliest day that a date may mean, of which only the year or the month may be known} */
    static Optional<LocalDate> earliest(String written) {
        Matcher m = DATE.matcher(written.strip());
        if (!m.matches()) {
            return Optional.empty();
        }
        try {
            return Optional.of(LocalDate.of(number(m.group(1)), number(m.group(2)), number(m.group(3))));
        } catch (DateTimeException e) {
            return Optional.empty();
        }
    }

    private static int number(@Nullable String group) {
        return group == null ? 1 : Integer.parseInt(group);
    }

    private static List<Subject> subjects(House house, TestKind.Of of) {
        Map<String, Subject> all = new LinkedHashMap<>();
        for (Panel p : house.panels().values()) {
            if (of == TestKind.Of.PANEL) {
                all.put(p.name(), new Subject(p.name(), p.place(), p.about().since()));
            }
            for (Breaker b : p.breakers().values()) {
                boolean guards = of == TestKind.Of.PROTECTIVE && !b.protects().isEmpty();
                boolean isBreaker = of == TestKind.Of.BREAKER && b.type() == OvercurrentType.BREAKER;
                if (guards || isBreaker) {
                    String name = p.name() + "." + b.key();
                    all.put(name, new Subject(name, p.place(), b.about().since()));
                }
            }
        }
        for (Box box : house.boxes().values()) {
            for (Device d : box.devices().values()) {
                boolean guards = of == TestKind.Of.PROTECTIVE && d.kind().guard() != null;
                boolean isAlarm = of == TestKind.Of.ALARM && d.kind().family() == DeviceKind.Family.ALARM;
                if (guards || isAlarm) {
                    all.put(
                            d.name(),
                            new Subject(d.name(), box.place(), d.about().since()));
                }
            }
        }
        return List.copyOf(all.values());
    }

    private static String key(String what, String device) {
        return what + " " + device;
    }
}
