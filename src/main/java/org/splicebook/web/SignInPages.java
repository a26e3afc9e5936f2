package org.splicebook.web;

import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import org.splicebook.people.Entrance;
import org.splicebook.people.Grant;
import org.splicebook.people.Invitation;
import org.splicebook.people.Issued;
import org.splicebook.people.Registry;
import org.splicebook.people.Role;
import org.splicebook.people.Scope;
import org.splicebook.people.Visitor;
import org.splicebook.people.Visitors;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.problem.Where;
import org.splicebook.web.view.EditPage;
import org.splicebook.web.view.Entry;
import org.splicebook.web.view.Input;
import org.splicebook.web.view.Link;
import org.splicebook.web.view.Section;
import org.splicebook.web.view.Wrong;

/** Comes in and goes out: by name and password, by an invitation; and what somebody may see and change of themselves. */
final class SignInPages {
    private final Access access;
    private final Entrance entrance;
    private final Registry registry;

    SignInPages(Access access, Entrance entrance, Registry registry) {
        this.access = access;
        this.entrance = entrance;
        this.registry = registry;
    }

    List<Route> routes() {
        return List.of(
                Route.get("/login", this::show),
                Route.post("/login", this::signIn),
                Route.post("/logout", this::signOut),
                Route.get("/join/{code}", this::invited),
                Route.post("/join", this::join),
                Route.get("/account", ctx -> ctx.html(account(Wrong.NONE))),
                Route.post("/account/password", this::changePassword));
    }

    /** {@return the address of the page that was asked for, as far as one may be led back to it} */
    static String here(Context ctx) {
        String query = ctx.queryString();
        return ctx.path() + (query == null ? "" : "?" + query);
    }

    private void show(Context ctx) {
        if (!access.hasLogin()) {
            ctx.redirect("/", HttpStatus.SEE_OTHER);
            return;
        }
        ctx.html(login("", Objects.requireNonNullElse(ctx.queryParam("to"), "/"), Wrong.NONE));
    }

    private static String login(String name, String to, Wrong wrong) {
        Entry entry = new Entry(
                "/login",
                "Who are you?",
                List.of(
                        Input.hidden("to", to),
                        Input.typed(Input.Kind.TEXT, "name", "Name", name, "", true),
                        Input.typed(Input.Kind.PASSWORD, "password", "Password", "", "", true)),
                "Sign in");
        Entry code = new Entry(
                "/join",
                "Or with a code for one survey",
                List.of(Input.typed(Input.Kind.TEXT, "code", "Code", "", "as the terminal shows it", true)),
                "Come in");
        return page("Sign in", "", wrong, List.of(entry, code), List.of());
    }

    private void signIn(Context ctx) {
        access.tryIn(ctx);
        String to = Sent.field(ctx, "to");
        String name = Sent.field(ctx, "name");
        Result<Issued> tried =
                entrance.signIn(name, Objects.requireNonNullElse(ctx.formParam("password"), ""), Access.address(ctx));
        if (!tried.isOk()) {
            ctx.status(HttpStatus.UNAUTHORIZED).html(login(name, to, Sent.wrong(ctx, Map.of(), tried.problems())));
            return;
        }
        access.welcome(ctx, tried.get());
        ctx.redirect(ownPage(to), HttpStatus.SEE_OTHER);
    }

    /** {@return the address if it is one of this server's pages; a sign-in leads nowhere else} */
    static String ownPage(String to) {
        boolean isOwn = to.startsWith("/")
                && !to.startsWith("//")
                && !to.startsWith("/\\")
                && to.chars().allMatch(c -> c > ' ' && c < 127 && c != '\\');
        return isOwn ? to : "/";
    }

    private void signOut(Context ctx) {
        access.farewell(ctx);
        ctx.redirect("/login", HttpStatus.SEE_OTHER);
    }

    /** Looking uses nothing up: programs that look at links before people do must not come in in their stead. */
    private void invited(Context ctx) {
        access.tryIn(ctx);
        String code = ctx.pathParam("code");
        Invitation i = entrance.look(code)
                .orElseThrow(() -> Failures.failure(
                        ProblemKind.SIGN_IN,
                        "This code or link lets nobody in: it was used, is over, or never was.",
                        "Ask for a new one."));
        ctx.html(page(
                "You are invited",
                "For " + i.label() + ": " + words(i.grant()) + ", until " + Pages.minute(i.expires()) + ".",
                Wrong.NONE,
                List.of(new Entry("/join", "Come in with this device", List.of(Input.hidden("code", code)), "Come in")),
                List.of()));
    }

    private void join(Context ctx) {
        access.tryIn(ctx);
        String code = Sent.field(ctx, "code");
        Optional<Invitation> invitation = entrance.look(code);
        Result<Issued> tried = entrance.join(code, Access.address(ctx));
        if (!tried.isOk()) {
            ctx.status(HttpStatus.UNAUTHORIZED)
                    .html(login("", "/", Sent.wrong(ctx, Map.of(".*", "code"), tried.problems())));
            return;
        }
        access.welcome(ctx, tried.get());
        ctx.redirect(invitation.map(i -> landing(i.grant())).orElse("/"), HttpStatus.SEE_OTHER);
    }

    private static String landing(Grant grant) {
        return grant.scope().kind() == Scope.Kind.HOUSE
                ? new Paths(grant.scope().name()).base()
                : "/";
    }

    private void changePassword(Context ctx) {
        access.tryIn(ctx);
        Visitor visitor = Visitors.now();
        if (visitor.way() != Visitor.Way.SESSION) {
            throw Failures.failure(ProblemKind.REFUSED, "Only who signed in by name has a password.", "");
        }
        String fresh = Objects.requireNonNullElse(ctx.formParam("new"), "");
        Optional<Problem> wrong = entrance.wrong(
                visitor.name(), Objects.requireNonNullElse(ctx.formParam("password"), ""), Access.address(ctx));
        List<Problem> problems = new ArrayList<>();
        wrong.ifPresent(problems::add);
        if (!fresh.equals(ctx.formParam("again"))) {
            problems.add(Problem.error(
                    ProblemKind.BAD_VALUE,
                    Where.field("again"),
                    "The new password is not the same twice.",
                    "Type it again."));
        }
        if (problems.isEmpty()) {
            problems.addAll(registry.setPassword(visitor.name(), fresh).problems());
        }
        if (!problems.isEmpty()) {
            ctx.status(Statuses.of(problems)).html(account(Sent.wrong(ctx, Map.of("", "password"), problems)));
            return;
        }
        // Every session of the user has ended with the old password, this one too.
        access.farewell(ctx);
        ctx.redirect("/login", HttpStatus.SEE_OTHER);
    }

    private static String account(Wrong wrong) {
        Visitor visitor = Visitors.now();
        List<Entry> entries = new ArrayList<>();
        if (!visitor.csrf().isEmpty()) {
            entries.add(new Entry("/logout", "Leave this device", List.of(), "Sign out"));
        }
        if (visitor.way() == Visitor.Way.SESSION) {
            entries.add(new Entry(
                    "/account/password",
                    "Change the password. Wherever you are signed in, that ends.",
                    List.of(
                            Input.typed(Input.Kind.PASSWORD, "password", "Password now", "", "", true),
                            Input.typed(Input.Kind.PASSWORD, "new", "New password", "", "12 characters or more", true),
                            Input.typed(Input.Kind.PASSWORD, "again", "New password again", "", "", true)),
                    "Change it"));
        }
        List<Link> roles = visitor.grants().stream()
                .map(g -> g.scope().kind() == Scope.Kind.HOUSE
                        ? new Link(new Paths(g.scope().name()).base(), words(g), "")
                        : Link.words(words(g)))
                .toList();
        String lead = visitor.isOwner()
                ? "Here nobody has to sign in: whoever reaches this server may do everything."
                : "You are " + visitor.name() + ".";
        List<Link> more = visitor.mayEverywhere(Role.MANAGER)
                ? List.of(new Link("/people", "People, invitations and tokens", ""), new Link("/audit", "The log", ""))
                : List.of();
        return page(
                "You and this server",
                lead,
                wrong,
                entries,
                List.of(new Section("What you may do", "", roles), new Section("Look after people", "", more)));
    }

    /** {@return a grant in words} */
    static String words(Grant g) {
        String what = g.role() == Role.READER ? "read" : g.role() == Role.RECORDER ? "read and record" : "manage";
        return switch (g.scope().kind()) {
            case EVERYTHING -> what + " everything";
            case PROPERTY -> what + " the houses of property " + g.scope().name();
            case HOUSE -> what + " house " + g.scope().name();
        };
    }

    /** {@return a page that belongs to no house} */
    static String page(String title, String lead, Wrong wrong, List<Entry> entries, List<Section> sections) {
        return Templates.page("edit", Map.of("page", new EditPage(title, lead, wrong, entries, sections, List.of())));
    }
}
