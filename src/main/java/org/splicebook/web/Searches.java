package org.splicebook.web;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.atomic.AtomicInteger;
import org.splicebook.housefile.Kinds;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.rewire.search.Found;
import org.splicebook.rewire.search.Search;
import org.splicebook.rewire.search.Wish;
import org.splicebook.rules.Packs;
import org.splicebook.store.StoredHouse;

/** Searches for a change that run or have ended lately: each begins at once or waits for one before it, tells how far it is, and can be ended. */
final class Searches {
    /** How many changes a search judges at most. */
    static final int MOST = 2000;

    private static final int AT_ONCE = 2;
    private static final int WAITING = 8;
    private static final int REMEMBERED = 30;

    private final ExecutorService workers = Executors.newFixedThreadPool(AT_ONCE, work -> {
        Thread t = new Thread(work, "search");
        t.setDaemon(true);
        return t;
    });
    private final Map<String, Running> all = new LinkedHashMap<>();

    /** One search. */
    static final class Running {
        private final String id = UUID.randomUUID().toString().substring(0, 13);
        private final StoredHouse house;
        private final Wish wish;
        private final AtomicInteger looked = new AtomicInteger();
        private final AtomicBoolean isEnded = new AtomicBoolean();
        private final CompletableFuture<Result<Found>> found = new CompletableFuture<>();

        private Running(StoredHouse house, Wish wish) {
            this.house = house;
            this.wish = wish;
        }

        String id() {
            return id;
        }

        StoredHouse house() {
            return house;
        }

        Wish wish() {
            return wish;
        }

        /** {@return how many changes were judged so far} */
        int looked() {
            return looked.get();
        }

        /** Ends it: what was found so far is what it found. */
        void end() {
            isEnded.set(true);
        }

        /** {@return what it found, once it has ended} */
        Optional<Result<Found>> found() {
            return found.isDone() ? Optional.of(found.join()) : Optional.empty();
        }

        private void run() {
            try {
                found.complete(Search.of(house.house(), Packs.of(house.house()), wish, Kinds.standard(), MOST, n -> {
                    looked.set(n);
                    return !isEnded.get();
                }));
            } catch (RuntimeException e) {
                found.complete(Result.failed(Failures.problem(
                        ProblemKind.INTERNAL,
                        "The search failed: " + e + ".",
                        "Wish for something else, and tell of it.")));
            }
        }
    }

    /** Begins a search. */
    synchronized Running begin(StoredHouse house, Wish wish) {
        long busy = all.values().stream().filter(r -> r.found().isEmpty()).count();
        if (busy >= AT_ONCE + WAITING) {
            throw Failures.failure(
                    ProblemKind.CONFLICT, busy + " searches run or wait already.", "End one of them, or wait.");
        }
        all.values().removeIf(r -> all.size() >= REMEMBERED && r.found().isPresent());
        Running r = new Running(house, wish);
        all.put(r.id(), r);
        workers.execute(r::run);
        return r;
    }

    /** {@return a search of a house} */
    synchronized Running find(String house, String id) {
        Running r = all.get(id);
        if (r == null || !r.house().house().id().equals(house)) {
            throw Failures.failure(ProblemKind.NOT_FOUND, "There is no such search, or no longer.", "Begin it again.");
        }
        return r;
    }
}
