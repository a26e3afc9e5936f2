package org.splicebook.graph;

import java.util.function.Supplier;

/** Whether anything may have been written since some moment; known only where this process is the one that writes. */
final class Recall {
    private static final long UNSURE = -1;

    private final boolean isOnlyWriter;
    private long begun;
    private long ended;

    Recall(boolean isOnlyWriter) {
        this.isOnlyWriter = isOnlyWriter;
    }

    /** Writes; nothing that was read before or meanwhile counts as unchanged afterwards. */
    <T> T writing(Supplier<T> work) {
        synchronized (this) {
            begun++;
        }
        try {
            return work.get();
        } finally {
            synchronized (this) {
                ended++;
            }
        }
    }

    /** {@return a mark of this moment, to be shown to the other methods} */
    synchronized long mark() {
        return isOnlyWriter && begun == ended ? begun : UNSURE;
    }

    /** {@return whether surely nothing was written since that mark} */
    synchronized boolean isUnchanged(long mark) {
        return mark != UNSURE && begun == mark;
    }
}
