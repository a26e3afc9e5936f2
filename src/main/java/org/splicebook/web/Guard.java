package org.splicebook.web;

import io.javalin.http.Context;
import io.javalin.http.Handler;
import io.javalin.http.HandlerType;
import java.util.HashSet;
import java.util.Locale;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.splicebook.problem.ProblemKind;
import org.splicebook.store.Photograph;

/**
 * Looks at every request before anything else does. A page of a stranger, open in a browser on this machine, can send requests to
 * loopback ports: it cannot choose the Host and Origin that the browser puts on them.
 */
final class Guard implements Handler {
    private static final Set<String> LOOPBACK = Set.of("127.0.0.1", "localhost", "[::1]");
    private static final Set<HandlerType> WITH_BODY = Set.of(HandlerType.PUT, HandlerType.POST, HandlerType.PATCH);
    private static final String POLICY =
            "default-src 'none'; script-src 'self'; style-src 'self'; connect-src 'self'; img-src 'self';"
                    + " form-action 'self'; base-uri 'none'; frame-ancestors 'none'";

    /** Most bytes that a form of a page may have: a photograph, and what is said of it. */
    static final int LARGEST_FORM = Photograph.MOST_BYTES + 1_000_000;

    private final Set<String> knownHosts;

    Guard(Set<String> knownHosts) {
        this.knownHosts = knownHosts;
    }

    @Override
    public void handle(Context ctx) {
        headers(ctx);
        Set<String> known = known(ctx.req().getLocalAddr(), ctx.req().getLocalPort());
        String host = ctx.header("Host");
        if (host == null || !known.contains(host.toLowerCase(Locale.ROOT))) {
            throw Failures.failure(
                    ProblemKind.REFUSED,
                    "This server does not go by the name of this request's Host header.",
                    "Use the address it printed when it started, or start it with --known-host.");
        }
        String origin = ctx.header("Origin");
        if (origin != null && !isKnown(origin, known)) {
            throw Failures.failure(
                    ProblemKind.REFUSED,
                    "Another site's page sent this request.",
                    "Only this server's own pages and programs may.");
        }
        if (HandlerType.POST.equals(ctx.method()) && !ctx.path().startsWith(Api.BASE)) {
            if (origin == null || !Body.isForm(ctx.header("Content-Type"))) {
                throw Failures.failure(
                        ProblemKind.REFUSED,
                        "Pages take only what was sent from a page of this server.",
                        "Programs use the API: /api.");
            }
            if (ctx.req().getContentLengthLong() > LARGEST_FORM) {
                throw Failures.failure(
                        ProblemKind.TOO_LARGE,
                        "The form has " + ctx.req().getContentLengthLong() + " bytes.",
                        "At most " + LARGEST_FORM + " are taken: send a smaller picture.");
            }
            return;
        }
        boolean isArchive = ctx.path().equals(ArchiveBody.PATH) && ArchiveBody.TYPE.equals(ctx.header("Content-Type"));
        if (WITH_BODY.contains(ctx.method()) && !isArchive && Body.format(ctx.header("Content-Type")) == null) {
            throw Failures.failure(
                    ProblemKind.MEDIA_TYPE,
                    "A body has to be JSON or YAML.",
                    "Say Content-Type: application/json or application/yaml, in UTF-8.");
        }
    }

    /** Beside its names, the very address that a request came to: a page of a stranger goes by a name, never by that. */
    private Set<String> known(String address, int port) {
        Set<String> known = new HashSet<>();
        String own = (address.contains(":") ? "[" + address + "]" : address).toLowerCase(Locale.ROOT);
        known.add(own + ":" + port);
        if (port == 80 || port == 443) {
            known.add(own);
        }
        LOOPBACK.forEach(name -> known.add(name + ":" + port));
        if (port == 80) {
            known.addAll(LOOPBACK);
        }
        knownHosts.forEach(name -> known.add(name.toLowerCase(Locale.ROOT)));
        return known;
    }

    private static boolean isKnown(String origin, Set<String> known) {
        String o = origin.toLowerCase(Locale.ROOT);
        @Nullable
        String host = o.startsWith("http://") ? o.substring(7) : o.startsWith("https://") ? o.substring(8) : null;
        return host != null && known.contains(host);
    }

    private static void headers(Context ctx) {
        ctx.header("Content-Security-Policy", POLICY);
        ctx.header("X-Content-Type-Options", "nosniff");
        ctx.header("X-Frame-Options", "DENY");
        // With no-referrer a browser would send "Origin: null" with this server's own forms.
        ctx.header("Referrer-Policy", "same-origin");
        ctx.header("Cross-Origin-Opener-Policy", "same-origin");
        ctx.header("Cross-Origin-Resource-Policy", "same-origin");
        ctx.header("Permissions-Policy", "camera=(), geolocation=(), microphone=()");
        ctx.header("Cache-Control", "no-store");
    }
}
