package org.splicebook.web;

import io.javalin.Javalin;
import io.javalin.config.JavalinConfig;
import io.javalin.util.JavalinBindException;
import java.util.List;
import java.util.stream.Stream;
import org.eclipse.jetty.server.HttpConfiguration;
import org.eclipse.jetty.server.HttpConnectionFactory;
import org.eclipse.jetty.server.ServerConnector;
import org.eclipse.jetty.util.thread.QueuedThreadPool;
import org.splicebook.problem.ProblemKind;
import org.splicebook.store.HouseStore;

/** The running server. */
public final class WebServer implements AutoCloseable {
    private static final int MOST_THREADS = 64;
    private static final int MOST_HEADER_BYTES = 8 * 1024;
    private static final long IDLE_MILLIS = 30_000;

    private final Javalin javalin;
    private final String host;

    private WebServer(Javalin javalin, String host) {
        this.javalin = javalin;
        this.host = host;
    }

    /** {@return a server that answers from the store until it is closed; it does not close the store} */
    public static WebServer start(HouseStore store, WebSettings settings) {
        Javalin javalin = Javalin.create(config -> configure(config, store, settings));
        try {
            return new WebServer(javalin.start(settings.host(), settings.port()), settings.host());
        } catch (JavalinBindException e) {
            throw Failures.failure(
                    ProblemKind.CONFLICT,
                    "Port " + settings.port() + " of " + settings.host() + " is taken.",
                    "Choose another with --port; 0 takes a free one.");
        }
    }

    private static void configure(JavalinConfig config, HouseStore store, WebSettings settings) {
        config.startup.showJavalinBanner = false;
        config.startup.showOldJavalinVersionWarning = false;
        config.startup.startupWatcherEnabled = false;
        config.http.prefer405over404 = true;
        config.http.maxRequestSize = settings.largestBody() + 1L;
        config.jetty.threadPool = new QueuedThreadPool(MOST_THREADS);
        config.jetty.modifyHttpConfiguration(WebServer::limit);
        config.jetty.addConnector((server, http) -> {
            ServerConnector connector = new ServerConnector(server, new HttpConnectionFactory(http));
            connector.setHost(settings.host());
            connector.setPort(settings.port());
            connector.setIdleTimeout(IDLE_MILLIS);
            return connector;
        });
        config.routes.before(new Guard(settings.knownHosts()));
        Failures.register(config.routes);
        Stream.of(
                        Api.routes(store, settings),
                        new Pages(store).routes(),
                        new WalkPage(store).routes(),
                        new RecordPages(store).routes(),
                        new PropertyPages(store).routes(),
                        new NewHousePage(store).routes(),
                        new SightPage(store).routes(),
                        new NewBoxPage(store).routes(),
                        new BoxPages(store).routes())
                .flatMap(List::stream)
                .forEach(r -> config.routes.addHttpHandler(r.method(), r.path(), r.handler()));
    }

    private static void limit(HttpConfiguration http) {
        http.setSendServerVersion(false);
        http.setRequestHeaderSize(MOST_HEADER_BYTES);
        http.setIdleTimeout(IDLE_MILLIS);
    }

    /** {@return the port it listens on} */
    public int port() {
        return javalin.port();
    }

    /** {@return its address, for example {@code http://127.0.0.1:7391}} */
    public String url() {
        String name = host.contains(":") && !host.startsWith("[") ? "[" + host + "]" : host;
        return "http://" + name + ":" + port();
    }

    @Override
    public void close() {
        javalin.stop();
    }
}
