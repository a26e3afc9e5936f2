package org.splicebook.ask;

import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.splicebook.record.House;
import org.splicebook.record.TestResult;
import org.splicebook.store.Revision;
import org.splicebook.store.StoredHouse;
import org.splicebook.upkeep.DueTests;

/** What changes of the wiring ask to be tested again, and which recorded tests close it. */
final class Retests {
    /** Changes before so many revisions are not looked at, and that is said. */
    static final int MOST = 40;

    /**
     * Something that is to be tested again.
     *
     * @param subject a load point, or a protective device
     * @param isDevice whether it is a protective device
     * @param after the revision that changed what it hangs on
     */
    record Wanted(String subject, boolean isDevice, Revision after) {}

    private final Asked asked;
    private final Map<String, Wanted> wanted = new TreeMap<>();
    private boolean isCut;

    private Retests(Asked asked) {
        this.asked = asked;
    }

    static Retests of(Asked asked) {
        Retests r = new Retests(asked);
        r.look();
        return r;
    }

    /** {@return what is open, by name} */
    List<Wanted> open() {
        return List.copyOf(wanted.values());
    }

    /** {@return whether earlier changes were not looked at} */
    boolean isCut() {
        return isCut;
    }

    private void look() {
        List<Revision> all = asked.workings().revisions().stream()
                .filter(r ->
                        !r.deleted() && r.number() <= asked.stored().revision().number())
                .toList();
        isCut = all.size() > MOST;
        List<Revision> some = all.subList(Math.max(0, all.size() - MOST), all.size());
        Optional<StoredHouse> before = Optional.empty();
        for (Revision r : some) {
            Optional<StoredHouse> now = r.number() == asked.stored().revision().number()
                    ? Optional.of(asked.stored())
                    : asked.workings().revision(r.number());
            if (before.isPresent() && now.isPresent()) {
                step(before.get(), now.get());
            }
            before = now.isPresent() ? now : before;
        }
    }

    private void step(StoredHouse before, StoredHouse now) {
        if (wiring(before.house()).equals(wiring(now.house()))) {
            return;
        }
        Differences.Again again = Differences.again(asked, before, now);
        Set<String> points =
                asked.wiring().loadPoints().stream().map(l -> l.id()).collect(Collectors.toSet());
        List<Wanted> asks = new ArrayList<>();
        again.points().forEach(p -> asks.add(new Wanted(p, false, now.revision())));
        again.devices().forEach(d -> asks.add(new Wanted(d, true, now.revision())));
        for (Wanted w : asks) {
            boolean isThere = w.isDevice() || points.contains(w.subject());
            String key = w.isDevice() + w.subject();
            if (isThere && !isClosed(w, now.house())) {
                wanted.put(key, w);
            } else {
                wanted.remove(key);
            }
        }
    }

    /** A record without what was observed in it. */
    private static House wiring(House h) {
        return h.withSightings(List.of()).withTests(List.of()).withAccepted(List.of());
    }

    /** A test closes it that was recorded after the change was, and not made before that day. */
    private boolean isClosed(Wanted w, House changed) {
        String day = LocalDate.ofInstant(w.after().stored(), ZoneOffset.UTC).toString();
        Set<String> known = changed.tests().stream().map(TestResult::id).collect(Collectors.toSet());
        return asked.house().tests().stream()
                .anyMatch(t -> DueTests.isDone(t)
                        && !known.contains(t.id())
                        && t.date().compareTo(day) >= 0
                        && (w.isDevice()
                                ? t.device().equals(w.subject())
                                        && t.what().equals(org.splicebook.upkeep.TestKinds.TRIP_BUTTON)
                                : t.device().equals(w.subject())
                                        && !t.what().equals(org.splicebook.upkeep.TestKinds.TRIP_BUTTON)));
    }
}
