package org.splicebook.app;

import java.util.concurrent.CountDownLatch;
import java.util.concurrent.atomic.AtomicBoolean;
import org.splicebook.cli.Program;
import org.splicebook.store.HouseStore;
import org.splicebook.web.WebServer;

/** A server and its store, closed together: by hand, or when the process is told to stop. */
final class LiveServer implements Program.Server {
    private final WebServer web;
    private final HouseStore store;
    private final String caution;
    private final Runnable atClose;
    private final AtomicBoolean closed = new AtomicBoolean();
    private final CountDownLatch stopped = new CountDownLatch(1);
    private final Thread hook = new Thread(this::shutDown, "splicebook-server-shutdown");

    LiveServer(WebServer web, HouseStore store, String caution, Runnable atClose) {
        this.web = web;
        this.store = store;
        this.caution = caution;
        this.atClose = atClose;
        Runtime.getRuntime().addShutdownHook(hook);
    }

    @Override
    public String url() {
        return web.url();
    }

    @Override
    public String caution() {
        return caution;
    }

    @Override
    public HouseStore store() {
        return store;
    }

    @Override
    public void await() {
        try {
            stopped.await();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    private void shutDown() {
        if (closed.compareAndSet(false, true)) {
            atClose.run();
            web.close();
            store.close();
            stopped.countDown();
        }
    }

    @Override
    public void close() {
        shutDown();
        try {
            Runtime.getRuntime().removeShutdownHook(hook);
        } catch (IllegalStateException e) {
            // The process is ending: the hook runs by itself and finds nothing to do.
        }
    }
}
