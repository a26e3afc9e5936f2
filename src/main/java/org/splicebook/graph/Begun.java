package org.splicebook.graph;

import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionException;
import java.util.function.Supplier;

/** Work that another thread has begun, while this one does other work. */
final class Begun {
    private Begun() {}

    /** A thread of its own: those that all share may be busy with a search for minutes. */
    private static void start(Runnable work) {
        Thread thread = new Thread(work, "splicebook-begun");
        thread.setDaemon(true);
        thread.start();
    }

    /** Begins work; {@return what waits for it, and throws what it threw} */
    static <T> Supplier<T> begin(Supplier<T> work) {
        CompletableFuture<T> begun = CompletableFuture.supplyAsync(work, Begun::start);
        return () -> {
            try {
                return begun.join();
            } catch (CompletionException e) {
                if (e.getCause() instanceof RuntimeException thrown) {
                    throw thrown;
                }
                throw e;
            }
        };
    }
}
