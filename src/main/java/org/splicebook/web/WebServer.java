package org.splicebook.web;

import io.javalin.Javalin;
import io.javalin.config.JavalinConfig;
import io.javalin.config.SizeUnit;
import io.javalin.util.JavalinBindException;
import java.time.Clock;
import java.util.List;
import java.util.concurrent.atomic.AtomicReference;
import java.util.stream.Stream;
import org.eclipse.jetty.http.HttpVersion;
import org.eclipse.jetty.server.HttpConfiguration;
import org.eclipse.jetty.server.HttpConnectionFactory;
import org.eclipse.jetty.server.SecureRequestCustomizer;
import org.eclipse.jetty.server.Server;
import org.eclipse.jetty.server.ServerConnector;
import org.eclipse.jetty.server.SslConnectionFactory;
import org.eclipse.jetty.util.thread.QueuedThreadPool;
import org.jspecify.annotations.Nullable;
import org.splicebook.people.Estates;
import org.splicebook.people.GuardedStore;
import org.splicebook.people.People;
import org.splicebook.people.PeopleStore;
import org.splicebook.people.Visitors;
import org.splicebook.problem.ProblemKind;
import org.splicebook.store.Files;
import org.splicebook.store.HouseStore;

/** The running server. */
public final class WebServer implements AutoCloseable {
    private static final int MOST_THREADS = 64;
    private static final int MOST_HEADER_BYTES = 8 * 1024;
    private static final long IDLE_MILLIS = 30_000;
    private static final String LOOPBACK = "127.0.0.1";

    private final Javalin javalin;
    private final WebSettings settings;
    private final AtomicReference<@Nullable ServerConnector> commands;

    private WebServer(Javalin javalin, WebSettings settings, AtomicReference<@Nullable ServerConnector> commands) {
        this.javalin = javalin;
        this.settings = settings;
        this.commands = commands;
    }

    /**
     * {@return a server that answers from the store until it is closed; it does not close the store}
     *
     * @param files where photographs are kept
     * @param people who may do what
     * @param estates which houses belong to which property
     */
    public static WebServer start(
            HouseStore store, Files files, WebSettings settings, PeopleStore people, Estates estates) {
        return start(store, files, settings, people, estates, Clock.systemUTC());
    }

    static WebServer start(
            HouseStore store, Files files, WebSettings settings, PeopleStore people, Estates estates, Clock clock) {
        People company = new People(people, clock, Visitors::now, () -> {});
        Access access = new Access(settings.door(), company.entrance(), estates);
        HouseStore guarded = new GuardedStore(store, people, clock, Visitors::now, estates);
        AtomicReference<@Nullable ServerConnector> commands = new AtomicReference<>();
        Watch watch = new Watch(store);
        Javalin javalin = Javalin.create(config -> configure(
                config, settings, access, routes(guarded, files, company, access, watch, settings), watch, commands));
        try {
            return new WebServer(javalin.start(settings.host(), settings.port()), settings, commands);
        } catch (JavalinBindException e) {
            throw Failures.failure(
                    ProblemKind.CONFLICT,
                    "Port " + settings.port() + " of " + settings.host() + " is taken.",
                    "Choose another with --port; 0 takes a free one.");
        }
    }

    /** {@return every route there is} */
    static List<Route> routes(
            HouseStore store, Files files, People people, Access access, Watch watch, WebSettings settings) {
        Searches searches = new Searches();
        return Stream.of(
                        Api.routes(store, files, people, watch, searches, settings),
                        new SignInPages(access, people.entrance(), people).routes(),
                        new PeoplePages(store, people).routes(),
                        new Pages(store, files).routes(),
                        new WalkPage(store).routes(),
                        new RecordPages(store).routes(),
                        new PropertyPages(store).routes(),
                        new TestPages(store, settings.largestBody()).pages(),
                        new ChangePage(store).pages(),
                        new VisitPages(store).routes(),
                        new ResidentPages(store).routes(),
                        new RoundPage(store).routes(),
                        new ListPages(store, settings.largestBody()).pages(),
                        new ArchivePage(store, files).pages(),
                        new NewHousePage(store).routes(),
                        new BeginPages(store).routes(),
                        new SightPage(store).routes(),
                        new DiagnosePage(store).routes(),
                        new NewBoxPage(store, files).routes(),
                        new PhotoPages(store, files).routes(),
                        new BoxPages(store).routes(),
                        new ReadingsPages(store).routes(),
                        new HandOverPage(store).routes(),
                        new DraftPages(store).routes(),
                        new DraftMovePage(store).routes(),
                        new LookPages(store, searches).routes(),
                        new DemandPage(store).routes(),
                        new PlanPages(store).routes(),
                        new SubpanelPages(store).routes())
                .flatMap(List::stream)
                .toList();
    }

    private static void configure(
            JavalinConfig config,
            WebSettings settings,
            Access access,
            List<Route> routes,
            Watch watch,
            AtomicReference<@Nullable ServerConnector> commands) {
        config.startup.showJavalinBanner = false;
        config.startup.showOldJavalinVersionWarning = false;
        config.startup.startupWatcherEnabled = false;
        config.http.prefer405over404 = true;
        config.http.maxRequestSize = settings.largestBody() + 1L;
        config.jetty.multipartConfig.maxFileSize(Guard.LARGEST_FORM, SizeUnit.BYTES);
        config.jetty.multipartConfig.maxTotalRequestSize(Guard.LARGEST_FORM, SizeUnit.BYTES);
        config.jetty.multipartConfig.maxInMemoryFileSize(Guard.LARGEST_FORM, SizeUnit.BYTES);
        config.jetty.threadPool = new QueuedThreadPool(MOST_THREADS);
        config.jetty.modifyHttpConfiguration(WebServer::limit);
        config.jetty.addConnector((server, http) -> connector(server, http, settings));
        if (settings.door().login()) {
            // For commands of this process' owner: whatever the address and the certificate for others are.
            config.jetty.addConnector((server, http) -> {
                ServerConnector own = new ServerConnector(server, new HttpConnectionFactory(http));
                own.setHost(LOOPBACK);
                own.setIdleTimeout(IDLE_MILLIS);
                commands.set(own);
                return own;
            });
        }
        config.requestLogger.http(watch::end);
        config.routes.before(ctx -> Visitors.leave());
        config.routes.before(Watch::begin);
        config.routes.before(Just::enter);
        config.routes.before(new Guard(settings.knownHosts()));
        config.routes.before(access::identify);
        Failures.register(config.routes);
        routes.forEach(r -> config.routes.addHttpHandler(r.method(), r.path(), access.guarded(r)));
    }

    private static ServerConnector connector(Server server, HttpConfiguration http, WebSettings settings) {
        Door.Tls tls = settings.door().tls();
        ServerConnector connector;
        if (tls == null) {
            connector = new ServerConnector(server, new HttpConnectionFactory(http));
        } else {
            HttpConfiguration https = new HttpConfiguration(http);
            // Phones on a home network reach it by number, for which there is no name to be told before.
            https.addCustomizer(new SecureRequestCustomizer(false));
            connector = new ServerConnector(
                    server,
                    new SslConnectionFactory(Certificates.of(tls), HttpVersion.HTTP_1_1.asString()),
                    new HttpConnectionFactory(https));
        }
        connector.setHost(settings.host());
        connector.setPort(settings.port());
        connector.setIdleTimeout(IDLE_MILLIS);
        return connector;
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
        String host = settings.host();
        String name = host.contains(":") && !host.startsWith("[") ? "[" + host + "]" : host;
        return (settings.door().tls() == null ? "http://" : "https://") + name + ":" + port();
    }

    /** {@return the address at which commands of this process' owner reach it, on this machine} */
    public String commandUrl() {
        ServerConnector own = commands.get();
        return own == null ? url() : "http://" + LOOPBACK + ":" + own.getLocalPort();
    }

    @Override
    public void close() {
        javalin.stop();
    }
}
