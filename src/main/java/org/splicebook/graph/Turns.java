package org.splicebook.graph;

import java.time.Duration;
import java.util.concurrent.Semaphore;
import java.util.concurrent.TimeUnit;
import java.util.function.Supplier;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;

/**
 * Lets a few questions run at once, the others in the order in which they came. A question's limit counts while it runs: if all ran at
 * once, each would take the processors from the others until all had run out of theirs.
 */
final class Turns {
    private final Semaphore free;
    private final Duration patience;

    /**
     * Turns to be taken.
     *
     * @param atOnce how many may run at once
     * @param patience after how long of waiting one is refused
     */
    Turns(int atOnce, Duration patience) {
        this.free = new Semaphore(atOnce, true);
        this.patience = patience;
    }

    /**
     * Does work when it is its turn; {@return what it returns}
     *
     * @throws ProblemException when too many were before it
     */
    <T> T take(Supplier<T> work) {
        if (!hasTurn()) {
            throw new ProblemException(Problem.error(
                    ProblemKind.TOO_MANY,
                    Where.NOWHERE,
                    "So many questions are asked at once that this one was not begun within " + patience.toSeconds()
                            + " s.",
                    "Ask again in a while."));
        }
        try {
            return work.get();
        } finally {
            free.release();
        }
    }

    private boolean hasTurn() {
        try {
            return free.tryAcquire(patience.toMillis(), TimeUnit.MILLISECONDS);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            return false;
        }
    }
}
