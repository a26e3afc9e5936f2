package org.splicebook.web;

import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.stream.Collectors;
import org.splicebook.drafts.DraftDesk;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.record.Draft;
import org.splicebook.store.HouseStore;
import org.splicebook.store.KeptDraft;
import org.splicebook.store.StoredHouse;

/** Searches that run or have ended lately: each begins at once or waits for one before it, tells how far it is, and can be ended. */
final class Searches {
    private static final int AT_ONCE = 2;
    private static final int WAITING = 8;
    private static final int REMEMBERED = 30;

    private final ExecutorService workers = Executors.newFixedThreadPool(AT_ONCE, work -> {
        Thread t = new Thread(work, "search");
        t.setDaemon(true);
        return t;
    });
    private final Map<String, Running> all = new LinkedHashMap<>();

    /** How far a search is. */
    enum State {
        WAITING,
        RUNNING,
        DONE,
        FAILED
    }

    /** One search. */
    static final class Running {
        private final String id = UUID.randomUUID().toString().substring(0, 13);
        private final StoredHouse house;
        private final Sought sought;
        private final AtomicBoolean isBegun = new AtomicBoolean();
        private final AtomicInteger judged = new AtomicInteger();
        private final AtomicInteger most;
        private final AtomicBoolean isEnded = new AtomicBoolean();
        private final CompletableFuture<Result<Sought.Outcome>> found = new CompletableFuture<>();

        private Running(StoredHouse house, Sought sought) {
            this.house = house;
            this.sought = sought;
            this.most = new AtomicInteger(sought.most());
        }

        String id() {
            return id;
        }

        StoredHouse house() {
            return house;
        }

        Sought sought() {
            return sought;
        }

        State state() {
            return !found.isDone()
                    ? isBegun.get() ? State.RUNNING : State.WAITING
                    : found.join().isOk() ? State.DONE : State.FAILED;
        }

        /** {@return how many changed houses were judged so far} */
        int judged() {
            return judged.get();
        }

        /** {@return how many are judged at most; 0 where that is not known yet} */
        int most() {
            return most.get();
        }

        /** Ends it: what was found so far is what it found. */
        void end() {
            isEnded.set(true);
        }

        /** {@return whether it was ended before it had looked at all} */
        boolean isEnded() {
            return isEnded.get();
        }

        /** {@return what it found, once it has ended} */
        Optional<Result<Sought.Outcome>> found() {
            return found.isDone() ? Optional.of(found.join()) : Optional.empty();
        }

        /** Keeps one of its proposals, counted from 1, as a draft of that name. */
        KeptDraft keep(HouseStore store, long number, String name, String who) {
            List<Draft> drafts =
                    found().filter(Result::isOk).map(f -> f.get().drafts()).orElse(List.of());
            if (number < 1 || number > drafts.size()) {
                throw Failures.failure(
                        ProblemKind.NOT_FOUND,
                        "There is no proposal " + number + ".",
                        state() == State.WAITING || state() == State.RUNNING
                                ? "The search has not ended yet."
                                : "There are " + drafts.size() + ".");
            }
            Draft d = drafts.get((int) number - 1);
            return new DraftDesk(store).save(new Draft(name, d.house(), d.revision(), d.reason(), d.moves()), 0, who);
        }

        private void run() {
            isBegun.set(true);
            try {
                found.complete(sought.work().find(house, sought.pack().apply(house.house()), (n, of) -> {
                    judged.set(n);
                    most.set(of);
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
    synchronized Running begin(StoredHouse house, Sought sought) {
        long busy = all.values().stream().filter(r -> r.found().isEmpty()).count();
        if (busy >= AT_ONCE + WAITING) {
            throw Failures.failure(
                    ProblemKind.TOO_MANY,
                    busy + " searches run or wait already.",
                    "End one of them, or begin it again later.");
        }
        all.values().removeIf(r -> all.size() >= REMEMBERED && r.found().isPresent());
        Running r = new Running(house, sought);
        all.put(r.id(), r);
        workers.execute(r::run);
        return r;
    }

    /** {@return the searches of a house that run or have ended lately, the newest first} */
    synchronized List<Running> of(String house) {
        List<Running> its = all.values().stream()
                .filter(r -> r.house().house().id().equals(house))
                .collect(Collectors.toCollection(ArrayList::new));
        Collections.reverse(its);
        return List.copyOf(its);
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
