package org.splicebook.upkeep;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.splicebook.housefile.SightingLine;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.problem.Where;
import org.splicebook.record.House;
import org.splicebook.record.TestResult;
import org.splicebook.store.HouseStore;
import org.splicebook.store.Revision;
import org.splicebook.store.StoredHouse;

/** Records outcomes of tests: each recording is a revision of the house, so that it has its who, when and why. */
public final class TestLog {
    private static final int TRIES = 5;

    private TestLog() {}

    /**
     * Records outcomes, each in the words of a house file: what, device, result, and date, by, note where they are said.
     *
     * @param house the house's id
     * @param tests the outcomes; one without an id gets the next; one whose id is known with the same content changes nothing
     * @param today the day of those that say none
     * @param who who records them
     * @return the revision that holds them
     * @throws ProblemException when there is no such house, or what is said is wrong
     */
    public static Revision append(
            HouseStore store, String house, List<Map<String, String>> tests, String today, String who) {
        for (int i = 1; ; i++) {
            StoredHouse stored = find(store, house);
            List<TestResult> all = new ArrayList<>(stored.house().tests());
            int fresh = add(stored.house(), all, tests, today);
            if (fresh == 0) {
                return stored.revision();
            }
            Result<Revision> made =
                    store.put(stored.house().withTests(all), stored.revision().number(), who, why(all, fresh));
            boolean isStale = !made.isOk() && made.problems().stream().anyMatch(p -> p.kind() == ProblemKind.STALE);
            // Somebody else wrote meanwhile: what was tested is added to what is there now.
            if (!isStale || i == TRIES) {
                return made.get();
            }
        }
    }

    /**
     * Finds out whether outcomes could be recorded, and records nothing.
     *
     * @throws ProblemException as {@link #append} does
     */
    public static void check(HouseStore store, String house, List<Map<String, String>> tests, String today) {
        House there = find(store, house).house();
        int unused = add(there, new ArrayList<>(there.tests()), tests, today);
    }

    private static StoredHouse find(HouseStore store, String house) {
        return store.findHouse(house)
                .orElseThrow(() -> new ProblemException(Problem.error(
                        ProblemKind.NOT_FOUND,
                        Where.field("house"),
                        "There is no house " + house + ".",
                        "Look at the list of houses.")));
    }

    private static String why(List<TestResult> all, int fresh) {
        TestResult last = all.get(all.size() - 1);
        return fresh == 1
                ? "tested " + last.device() + " (" + last.what() + "): " + last.result()
                : fresh + " tests recorded";
    }

    private static int add(House house, List<TestResult> all, List<Map<String, String>> tests, String today) {
        Set<String> taken = new HashSet<>();
        all.forEach(t -> taken.add(t.id()));
        int before = all.size();
        for (Map<String, String> said : tests) {
            Map<String, String> whole = new LinkedHashMap<>(said);
            whole.putIfAbsent("date", today);
            whole.putIfAbsent("id", next(taken));
            TestResult test = SightingLine.parseTest(house, whole).get();
            if (taken.add(test.id())) {
                all.add(test);
            } else if (!all.contains(test)) {
                throw new ProblemException(Problem.error(
                        ProblemKind.CONFLICT,
                        Where.field("id"),
                        "A test " + test.id() + " is known already, with other content.",
                        "What was tested stays as it was told: give the new one an id of its own."));
            }
        }
        return all.size() - before;
    }

    /** {@return the first of t1, t2, ... that is not taken} */
    private static String next(Set<String> taken) {
        int n = taken.size() + 1;
        while (taken.contains("t" + n)) {
            n++;
        }
        return "t" + n;
    }
}
