package org.splicebook.web;

import io.javalin.http.Context;
import io.javalin.http.Cookie;
import io.javalin.http.Handler;
import io.javalin.http.HandlerType;
import io.javalin.http.HttpStatus;
import io.javalin.http.SameSite;
import java.net.InetAddress;
import java.net.UnknownHostException;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.splicebook.people.Entrance;
import org.splicebook.people.Estates;
import org.splicebook.people.Issued;
import org.splicebook.people.Role;
import org.splicebook.people.Secrets;
import org.splicebook.people.Visitor;
import org.splicebook.people.Visitors;
import org.splicebook.problem.ProblemKind;

/** Finds out who sends a request, and lets each route be used by those alone who may. */
final class Access {
    /** The field of a form, and the header of a request, that shows that a page of this server sent it. */
    static final String CSRF = "csrf";

    static final String CSRF_HEADER = "X-Csrf";
    private static final String COOKIE = "splicebook-session";
    /** Browsers take a cookie of such a name over HTTPS alone, and from this very host. */
    private static final String SECURE_COOKIE = "__Host-" + COOKIE;

    private static final String BEARER = "Bearer ";
    private static final List<String> OVER_A_PROXY = List.of("Forwarded", "X-Forwarded-For", "X-Real-IP", "Via");

    private final AccessTable table = new AccessTable();
    private final Tries tries = new Tries();
    private final Door door;
    private final Entrance entrance;
    private final Estates estates;

    Access(Door door, Entrance entrance, Estates estates) {
        this.door = door;
        this.entrance = entrance;
        this.estates = estates;
    }

    /** {@return whether people have to sign in} */
    boolean hasLogin() {
        return door.login();
    }

    /** Finds out who sends a request. Until then it is nobody's. */
    void identify(Context ctx) {
        Visitors.leave();
        if (!door.login()) {
            if (OVER_A_PROXY.stream().anyMatch(h -> ctx.header(h) != null)) {
                throw Failures.failure(
                        ProblemKind.REFUSED,
                        "This came over a proxy, and here nobody has to sign in.",
                        "Start the server with --login, so that people do.");
            }
            Visitors.enter(Visitor.OWNER);
            return;
        }
        tries.request(address(ctx));
        if (isSecure(ctx)) {
            ctx.header("Strict-Transport-Security", "max-age=31536000");
        }
        String said = ctx.header("Authorization");
        if (said != null) {
            Visitors.enter(byBearer(ctx, said));
            return;
        }
        String cookie = cookie(ctx);
        if (cookie != null) {
            Visitors.enter(entrance.byCookie(cookie));
        }
    }

    private Visitor byBearer(Context ctx, String said) {
        String secret =
                said.startsWith(BEARER) ? said.substring(BEARER.length()).strip() : "";
        // The key lies in a file that only the owner of the process can read: it is worth nothing from another machine.
        if (!door.ownerKey().isEmpty() && Secrets.isSame(secret, door.ownerKey()) && isLoopback(ctx.ip())) {
            return Visitor.OWNER;
        }
        Visitor visitor = secret.isEmpty() ? Visitor.NOBODY : entrance.byToken(secret);
        if (!visitor.isKnown()) {
            tries.signIn(address(ctx));
            entrance.refusedToken(address(ctx));
            ctx.header("WWW-Authenticate", "Bearer");
            throw Failures.failure(
                    ProblemKind.SIGN_IN,
                    "This token lets nobody in.",
                    "It may be over or taken away: ask for a new one.");
        }
        return visitor;
    }

    /** {@return the handler of a route, for those alone who may use it} */
    Handler guarded(Route route) {
        return ctx -> {
            Watch.took(ctx, route);
            Visitor visitor = Visitors.now();
            String of = route.isOfAHouse() ? Api.house(ctx) : route.isOfAProperty() ? ctx.pathParam("property") : "";
            if (!table.allows(route, visitor, of, estates)) {
                refuse(ctx, route, visitor, of);
                return;
            }
            checkForm(ctx, visitor);
            route.handler().handle(ctx);
        };
    }

    private void refuse(Context ctx, Route route, Visitor visitor, String of) {
        boolean isApi = ctx.path().startsWith(Api.BASE);
        if (!visitor.isKnown()) {
            if (!isApi && HandlerType.GET.equals(ctx.method())) {
                ctx.redirect("/login?to=" + Paths.part(SignInPages.here(ctx)), HttpStatus.SEE_OTHER);
                return;
            }
            ctx.header("WWW-Authenticate", "Bearer");
            throw Failures.failure(
                    ProblemKind.SIGN_IN,
                    "It is not known who you are.",
                    "Sign in, or send a token: Authorization: Bearer.");
        }
        if (!of.isEmpty() && !AccessTable.may(route, visitor, Role.READER, of, estates)) {
            // As if it were not there: whether it is, is nobody's business.
            throw route.isOfAHouse() ? Api.notFound(ctx) : PropertyApi.notFound(of);
        }
        throw Failures.failure(
                ProblemKind.REFUSED, "Your role does not allow this.", "Ask a manager to do it, or for the role.");
    }

    /** A browser sends a cookie along whoever made it send the request; what only this server's pages know shows that they did. */
    private static void checkForm(Context ctx, Visitor visitor) {
        if (visitor.csrf().isEmpty() || HandlerType.GET.equals(ctx.method())) {
            return;
        }
        String shown = ctx.path().startsWith(Api.BASE) ? ctx.header(CSRF_HEADER) : ctx.formParam(CSRF);
        if (shown == null || !Secrets.isSame(shown, visitor.csrf())) {
            throw Failures.failure(
                    ProblemKind.REFUSED,
                    "What was sent does not show that a page of this server sent it.",
                    "Open the page again and send it from there.");
        }
    }

    /** Counts a try to come in. */
    void tryIn(Context ctx) {
        tries.signIn(address(ctx));
    }

    /** Gives whoever came in a cookie; what an earlier one was worth ends. */
    void welcome(Context ctx, Issued cookie) {
        String before = cookie(ctx);
        if (before != null) {
            entrance.signOut(before);
        }
        Instant end = Objects.requireNonNull(cookie.expires());
        put(ctx, cookie.secret(), (int) Duration.between(Instant.now(), end).toSeconds());
    }

    /** Ends the session that the request came with. */
    void farewell(Context ctx) {
        Optional.ofNullable(cookie(ctx)).ifPresent(entrance::signOut);
        put(ctx, "", 0);
        ctx.header("Clear-Site-Data", "\"cache\"");
    }

    private void put(Context ctx, String value, int seconds) {
        boolean secure = isSecure(ctx);
        Cookie cookie =
                new Cookie(secure ? SECURE_COOKIE : COOKIE, value, "/", seconds, secure, true, null, SameSite.STRICT);
        ctx.cookie(cookie);
    }

    private @Nullable String cookie(Context ctx) {
        String value = ctx.cookie(isSecure(ctx) ? SECURE_COOKIE : COOKIE);
        return value == null || value.isEmpty() ? null : value;
    }

    private boolean isSecure(Context ctx) {
        return door.tls() != null || (isLoopback(ctx.ip()) && "https".equals(ctx.header("X-Forwarded-Proto")));
    }

    /** {@return the address that a request comes from; what a proxy on this machine says of it is believed} */
    static String address(Context ctx) {
        String over = ctx.header("X-Forwarded-For");
        if (over == null || !isLoopback(ctx.ip())) {
            return ctx.ip();
        }
        String last = over.substring(over.lastIndexOf(',') + 1).strip();
        return last.length() > 45 ? ctx.ip() : last;
    }

    private static boolean isLoopback(String ip) {
        try {
            return InetAddress.getByName(ip).isLoopbackAddress();
        } catch (UnknownHostException e) {
            return false;
        }
    }
}
