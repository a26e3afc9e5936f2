package org.splicebook.web;

import io.javalin.http.Context;
import io.micrometer.core.instrument.Gauge;
import io.micrometer.core.instrument.binder.jvm.JvmMemoryMetrics;
import io.micrometer.core.instrument.binder.jvm.JvmThreadMetrics;
import io.micrometer.core.instrument.binder.system.ProcessorMetrics;
import io.micrometer.core.instrument.binder.system.UptimeMetrics;
import io.micrometer.prometheusmetrics.PrometheusConfig;
import io.micrometer.prometheusmetrics.PrometheusMeterRegistry;
import java.time.Duration;
import java.util.List;
import java.util.Objects;
import java.util.concurrent.ThreadLocalRandom;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.slf4j.MDC;
import org.splicebook.store.HouseStore;

/**
 * Gives each request an id, counts and times them, and logs one line of each: its route, never its address, which names houses and things
 * in them.
 */
final class Watch {
    /** The header, and the key of logs, that tell one request from others. */
    static final String ID_HEADER = "X-Request-Id";

    private static final String ID = "request";
    private static final String ROUTE = "splicebook-route";
    private static final Logger LOG = LoggerFactory.getLogger(Watch.class);

    private final PrometheusMeterRegistry registry = new PrometheusMeterRegistry(PrometheusConfig.DEFAULT);

    Watch(HouseStore store) {
        new JvmMemoryMetrics().bindTo(registry);
        new JvmThreadMetrics().bindTo(registry);
        new ProcessorMetrics().bindTo(registry);
        new UptimeMetrics().bindTo(registry);
        Gauge.builder("splicebook.store.up", store, s -> s.health().up() ? 1 : 0)
                .description("Whether the database answers")
                .register(registry);
    }

    List<Route> routes() {
        return List.of(Route.get(
                Api.BASE + "/metrics",
                ctx -> ctx.contentType("text/plain; version=0.0.4; charset=utf-8")
                        .result(registry.scrape())));
    }

    /** Gives a request its id. */
    static void begin(Context ctx) {
        String id = Long.toString(ThreadLocalRandom.current().nextLong(1L << 48) | 1L << 48, 36);
        MDC.put(ID, id);
        ctx.header(ID_HEADER, id);
    }

    /** Says which route a request took. */
    static void took(Context ctx, Route route) {
        ctx.attribute(ROUTE, AccessTable.name(route));
    }

    /** {@return the route that a request took, as the contract writes it} */
    static String route(Context ctx) {
        return Objects.requireNonNullElse(ctx.attribute(ROUTE), "none");
    }

    /** {@return the id of the request at hand} */
    static String id() {
        return Objects.requireNonNullElse(MDC.get(ID), "");
    }

    /** Counts a request that is answered. */
    void end(Context ctx, float millis) {
        registry.timer("http.server.requests", "route", route(ctx), "status", String.valueOf(ctx.statusCode()))
                .record(Duration.ofNanos((long) (millis * 1_000_000)));
        LOG.info("{} {} in {} ms", route(ctx), ctx.statusCode(), Math.round(millis));
        MDC.remove(ID);
    }
}
