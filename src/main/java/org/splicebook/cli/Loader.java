package org.splicebook.cli;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.record.House;
import org.splicebook.store.HouseStore;
import org.splicebook.store.Progress;
import org.splicebook.store.Revision;

/** Stores houses that were read: new ones together, those that exist one by one. */
record Loader(HouseStore store, String who, String why, Progress progress) {
    /** So many new houses go in one transaction. */
    private static final int TOGETHER = 200;

    /**
     * Stores all, or none where one exists and is not to be replaced.
     *
     * @return the new revisions
     */
    List<Revision> load(List<House> houses, boolean replace) {
        Map<String, Long> known = new HashMap<>();
        store.listHouses().forEach(r -> known.put(r.house(), r.number()));
        List<Problem> clashes = houses.stream()
                .filter(h -> !replace && known.containsKey(h.id()))
                .map(h -> Houses.stored(h.id()))
                .toList();
        if (!clashes.isEmpty()) {
            throw new ProblemException(clashes);
        }
        List<House> fresh =
                houses.stream().filter(h -> !known.containsKey(h.id())).toList();
        List<Revision> made = new ArrayList<>();
        for (int from = 0; from < fresh.size(); from += TOGETHER) {
            List<House> some = fresh.subList(from, Math.min(fresh.size(), from + TOGETHER));
            made.addAll(store.putAll(some, who, why).get());
            progress.at(made.size(), houses.size(), some.get(some.size() - 1).id());
        }
        for (House house : houses) {
            Long revision = known.get(house.id());
            if (revision != null) {
                made.add(store.put(house, revision, who, why).get());
                progress.at(made.size(), houses.size(), house.id());
            }
        }
        return made;
    }
}
