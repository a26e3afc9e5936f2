package org.splicebook.ask;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.LongFunction;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.House;
import org.splicebook.record.Sighting;
import org.splicebook.store.Revision;
import org.splicebook.store.StoredHouse;
import org.splicebook.wiring.evidence.Expiry;

/**
 * The sightings that still stand, and those that do not: something on a way between what was read and its source has changed since
 * (design ruling 11).
 *
 * @param standing those that stand
 * @param expired what changed, by sighting
 */
record Standing(List<Sighting> standing, Map<String, List<Expiry.Change>> expired) {
    private static final int NAMED = 4;

    Standing {
        standing = List.copyOf(standing);
        expired = Map.copyOf(expired);
    }

    /**
     * {@return the standing of a house's sightings: each is held to every step of the record from the revision it was made on}
     *
     * @param now the house as it is
     * @param revisions its revisions, oldest first
     * @param read gives one of them
     * @param sightings what was observed
     */
    static Standing of(
            StoredHouse now,
            List<Revision> revisions,
            LongFunction<Optional<StoredHouse>> read,
            List<Sighting> sightings) {
        Map<String, Set<Expiry.Change>> changes = new TreeMap<>();
        Expiry.newer(now.house(), sightings)
                .forEach((id, c) ->
                        changes.computeIfAbsent(id, k -> new LinkedHashSet<>()).addAll(c));
        List<Revision> until = revisions.stream()
                .filter(r -> !r.deleted() && r.number() <= now.revision().number())
                .toList();
        House before = null;
        for (int i = 0; i < until.size(); i++) {
            Revision r = until.get(i);
            House after = r.number() == now.revision().number()
                    ? now.house()
                    : read.apply(r.number()).map(StoredHouse::house).orElse(null);
            if (i > 0) {
                long made = until.get(i - 1).number();
                List<Sighting> older =
                        sightings.stream().filter(s -> madeOn(s, until) <= made).toList();
                step(before, after, r, older)
                        .forEach((id, c) -> changes.computeIfAbsent(id, k -> new LinkedHashSet<>())
                                .addAll(c));
            }
            before = after;
        }
        Map<String, List<Expiry.Change>> expired = new TreeMap<>();
        changes.forEach((id, c) -> expired.put(id, new ArrayList<>(c)));
        return new Standing(
                sightings.stream().filter(s -> !expired.containsKey(s.id())).toList(), expired);
    }

    /** What expires by one step of the record; by one to or from a revision that cannot be read, everything. */
    private static Map<String, List<Expiry.Change>> step(
            @Nullable House before, @Nullable House after, Revision r, List<Sighting> older) {
        if (before != null && after != null) {
            return Expiry.changes(before, after, older);
        }
        Map<String, List<Expiry.Change>> all = new TreeMap<>();
        older.forEach(s -> all.put(
                s.id(), List.of(new Expiry.Change("in revision " + r.number() + " something", Expiry.How.CHANGED))));
        return all;
    }

    /** {@return why a sighting no longer stands: "K1 was changed, K9 was added"} */
    String why(String sighting) {
        List<String> said = expired.getOrDefault(sighting, List.of()).stream()
                .map(c -> c.what() + " " + said(c.how()))
                .distinct()
                .toList();
        int more = said.size() - NAMED;
        return String.join(", ", said.subList(0, Math.min(NAMED, said.size())))
                + (more > 0 ? " and " + more + " more" : "");
    }

    private static String said(Expiry.How how) {
        return switch (how) {
            case ADDED -> "was added";
            case REMOVED -> "was taken out";
            case CHANGED -> "was changed";
            case NEWER -> "is newer";
        };
    }

    /**
     * The revision that a sighting was made on: the last that was stored before its day anywhere on earth. What was stored on that day may
     * have come before or after it. One from before the first revision was made on the wiring that this tells of.
     */
    private static long madeOn(Sighting s, List<Revision> revisions) {
        long on = revisions.get(0).number();
        for (Revision r : revisions) {
            if (isBefore(r, s.date())) {
                on = r.number();
            }
        }
        return on;
    }

    private static boolean isBefore(Revision r, String date) {
        try {
            LocalDate day = LocalDate.parse(date.substring(0, Math.min(date.length(), 10)));
            return LocalDate.ofInstant(r.stored(), ZoneOffset.UTC).plusDays(1).isBefore(day);
        } catch (DateTimeException e) {
            return false;
        }
    }
}
