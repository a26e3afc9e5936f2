package org.splicebook.cli;

import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicBoolean;

/** While it is open, Ctrl-C is a wish to stop soon and to tell what there is, not to be gone at once. */
final class Stopping implements AutoCloseable {
    /** So long the program waits for what there is to be told. */
    private static final long SECONDS = 20;

    private final AtomicBoolean asked = new AtomicBoolean();
    private final CountDownLatch told = new CountDownLatch(1);
    private final Thread hook = new Thread(this::stop, "stopping");

    Stopping() {
        Runtime.getRuntime().addShutdownHook(hook);
    }

    /** {@return whether someone wants it to stop} */
    boolean isAsked() {
        return asked.get();
    }

    private void stop() {
        asked.set(true);
        try {
            told.await(SECONDS, TimeUnit.SECONDS);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    @Override
    public void close() {
        told.countDown();
        if (!asked.get()) {
            try {
                Runtime.getRuntime().removeShutdownHook(hook);
            } catch (IllegalStateException e) {
                // The program is ending; the hook has nothing left to wait for.
                asked.set(true);
            }
        }
    }
}
