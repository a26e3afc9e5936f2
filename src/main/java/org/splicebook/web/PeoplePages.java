package org.splicebook.web;

import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import org.splicebook.people.AuditEntry;
import org.splicebook.people.Grant;
import org.splicebook.people.Invitation;
import org.splicebook.people.Issued;
import org.splicebook.people.Registry;
import org.splicebook.people.Role;
import org.splicebook.people.Scope;
import org.splicebook.people.Token;
import org.splicebook.people.User;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.store.HouseStore;
import org.splicebook.web.view.Entry;
import org.splicebook.web.view.Input;
import org.splicebook.web.view.Link;
import org.splicebook.web.view.Section;
import org.splicebook.web.view.Wrong;

/** Who may come in and what they did, for whoever looks after people. */
final class PeoplePages {
    private static final String PATH = "/people";
    private static final int MOST_ENTRIES = 300;
    private static final List<Input.Choice> LASTING = List.of(
            new Input.Choice("PT15M", "15 minutes, for the first who comes: a phone for a survey"),
            new Input.Choice("P1D", "A day, for whoever has the link"),
            new Input.Choice("P7D", "A week, for whoever has the link"),
            new Input.Choice("P30D", "30 days, for whoever has the link"));

    /** What the registry calls it, and the forms do. */
    private static final Map<String, String> FIELDS = Map.of("name", "user", "role", "roles");

    private final HouseStore store;
    private final Registry registry;

    PeoplePages(HouseStore store, Registry registry) {
        this.store = store;
        this.registry = registry;
    }

    List<Route> routes() {
        return List.of(
                Route.get(PATH, ctx -> ctx.html(page(Wrong.NONE, List.of()))),
                Route.post(PATH, this::change),
                Route.get("/audit", this::audit));
    }

    private void change(Context ctx) {
        try {
            List<Section> told = changed(ctx, Sent.field(ctx, "what"));
            if (told.isEmpty()) {
                ctx.redirect(PATH, HttpStatus.SEE_OTHER);
            } else {
                ctx.html(page(Wrong.NONE, told));
            }
        } catch (ProblemException e) {
            ctx.status(Statuses.of(e.problems())).html(page(Sent.wrong(ctx, FIELDS, e.problems()), List.of()));
        }
    }

    /** Does what a form says; {@return what is told this once} */
    private List<Section> changed(Context ctx, String what) {
        String user = Sent.field(ctx, "user");
        String password = Objects.requireNonNullElse(ctx.formParam("password"), "");
        switch (what) {
            case "add" -> registry.addUser(user, password, grants(ctx)).get();
            case "roles" -> registry.setGrants(user, grants(ctx)).get();
            case "password" -> registry.setPassword(user, password).get();
            case "remove" -> registry.removeUser(user).get();
            case "withdraw" -> registry.removeInvitation(Sent.field(ctx, "id")).get();
            case "end-token" -> registry.removeToken(Sent.field(ctx, "id")).get();
            case "invite" -> {
                return invited(ctx);
            }
            default ->
                throw Failures.failure(ProblemKind.BAD_VALUE, "'" + what + "' is nothing that can be done here.", "");
        }
        return List.of();
    }

    private List<Section> invited(Context ctx) {
        String lasting = Sent.field(ctx, "lasting");
        if (LASTING.stream().noneMatch(c -> c.value().equals(lasting))) {
            throw Failures.failure("lasting", ProblemKind.BAD_VALUE, "How long it lasts is not said.", "Choose one.");
        }
        boolean once = lasting.equals(LASTING.get(0).value());
        Role role = Role.of(Sent.field(ctx, "role"))
                .orElseThrow(() ->
                        Failures.failure("role", ProblemKind.BAD_VALUE, "What they may do is not said.", "Choose."));
        Issued made = registry.invite(
                        Sent.field(ctx, "label"),
                        new Grant(role, Scope.house(Sent.field(ctx, "house"))),
                        Duration.parse(lasting),
                        once)
                .get();
        String link = "/join/" + made.secret();
        return List.of(new Section(
                "Shown this once",
                once
                        ? "Open this page's address on the phone with this at its end, or type the code "
                                + made.secret() + " where one signs in."
                        : "Give this link to whom it is for: whoever has it comes in.",
                List.of(new Link(link, link, "until " + Pages.minute(Objects.requireNonNull(made.expires()))))));
    }

    private static List<Grant> grants(Context ctx) {
        return Arrays.stream(Sent.field(ctx, "roles").split("[,\\s]+"))
                .filter(r -> !r.isEmpty())
                .map(r -> Grant.parse(r).get())
                .toList();
    }

    private String page(Wrong wrong, List<Section> told) {
        List<Input.Choice> users = registry.users().stream()
                .map(u -> new Input.Choice(u.name(), u.name()))
                .toList();
        List<Input.Choice> houses = store.listHouses().stream()
                .map(r -> new Input.Choice(r.house(), r.name()))
                .toList();
        List<Entry> entries = new ArrayList<>();
        if (!houses.isEmpty()) {
            entries.add(new Entry(
                    PATH,
                    "Invite somebody to one house",
                    List.of(
                            Input.hidden("what", "invite"),
                            Input.typed(Input.Kind.TEXT, "label", "Whom", "", "the history calls them so", true),
                            Input.chosen(
                                    Input.Kind.LIST,
                                    "house",
                                    "House",
                                    houses.get(0).value(),
                                    "",
                                    houses),
                            Input.chosen(
                                    Input.Kind.ONE,
                                    "role",
                                    "They may",
                                    "reader",
                                    "",
                                    List.of(
                                            new Input.Choice("reader", "Read"),
                                            new Input.Choice("recorder", "Read and record"))),
                            Input.chosen(Input.Kind.LIST, "lasting", "For", "P7D", "", LASTING)),
                    "Make the link"));
        }
        entries.add(new Entry(
                PATH,
                "Add somebody with a name and a password",
                List.of(
                        Input.hidden("what", "add"),
                        Input.typed(Input.Kind.TEXT, "user", "Name", "", "a-z, 0-9, dot, hyphen", true),
                        roles(),
                        Input.typed(Input.Kind.PASSWORD, "password", "Password", "", "12 characters or more", true)),
                "Add"));
        if (!users.isEmpty()) {
            Input user =
                    Input.chosen(Input.Kind.LIST, "user", "User", users.get(0).value(), "", users);
            entries.add(new Entry(
                    PATH,
                    "Change what somebody may do",
                    List.of(Input.hidden("what", "roles"), user, roles()),
                    "Change"));
            entries.add(new Entry(
                    PATH,
                    "Give somebody a new password; wherever they are signed in, that ends",
                    List.of(
                            Input.hidden("what", "password"),
                            user,
                            Input.typed(Input.Kind.PASSWORD, "password", "New password", "", "", true)),
                    "Change"));
            entries.add(new Entry(
                    PATH,
                    "Take somebody away, with sessions and tokens",
                    List.of(Input.hidden("what", "remove"), user),
                    "Remove"));
        }
        taken(
                entries,
                "withdraw",
                "Take an invitation away; who came in by it is out",
                registry.invitations().stream()
                        .map(i -> new Input.Choice(
                                i.id(), i.label() + ", " + i.grant().said()))
                        .toList());
        taken(
                entries,
                "end-token",
                "Take a token away",
                registry.tokens().stream()
                        .map(t -> new Input.Choice(t.id(), t.label() + ", of " + t.user()))
                        .toList());
        List<Section> sections = new ArrayList<>(told);
        sections.addAll(List.of(
                new Section(
                        "Users",
                        "",
                        registry.users().stream().map(PeoplePages::line).toList()),
                new Section(
                        "Invitations",
                        "",
                        registry.invitations().stream().map(PeoplePages::line).toList()),
                new Section(
                        "Tokens of programs",
                        "",
                        registry.tokens().stream().map(PeoplePages::line).toList()),
                new Section(
                        "The log",
                        "",
                        List.of(new Link("/audit", "Who changed what, who came in, who was refused", "")))));
        return SignInPages.page(
                told.isEmpty()
                        ? "People"
                        : "Shown this once: " + told.get(0).items().get(0).words(),
                told.isEmpty() ? "Who may come in, and what for." : told.get(0).lead(),
                wrong,
                told.isEmpty() ? entries : List.of(),
                sections);
    }

    private static void taken(List<Entry> entries, String what, String words, List<Input.Choice> of) {
        if (!of.isEmpty()) {
            entries.add(new Entry(
                    PATH,
                    words,
                    List.of(
                            Input.hidden("what", what),
                            Input.chosen(
                                    Input.Kind.LIST, "id", "Which", of.get(0).value(), "", of)),
                    "Remove"));
        }
    }

    private static Input roles() {
        return Input.typed(
                Input.Kind.TEXT,
                "roles",
                "Roles",
                "",
                "reader, recorder or manager; for one house reader@HOUSE; several with commas",
                true);
    }

    private static Link line(User u) {
        return new Link(
                "",
                u.name(),
                String.join("; ", u.grants().stream().map(SignInPages::words).toList())
                        + (u.lockedUntil() == null ? "" : "; locked until " + Pages.minute(u.lockedUntil())));
    }

    private static Link line(Invitation i) {
        return new Link(
                "",
                i.label(),
                SignInPages.words(i.grant()) + ", until " + Pages.minute(i.expires())
                        + (i.once() ? (i.used() ? ", used" : ", once") : ""));
    }

    private static Link line(Token t) {
        return new Link(
                "", t.label(), "of " + t.user() + ", at most " + t.atMost().word());
    }

    private void audit(Context ctx) {
        String house = Objects.requireNonNullElse(ctx.queryParam("house"), "");
        List<Link> lines = registry.audit(MOST_ENTRIES, house).stream()
                .map(PeoplePages::line)
                .toList();
        ctx.html(SignInPages.page(
                "The log",
                "The newest first, " + MOST_ENTRIES + " at most; the command audit prints more.",
                Wrong.NONE,
                List.of(),
                List.of(new Section("What was done", lines.isEmpty() ? "Nothing yet." : "", lines))));
    }

    private static Link line(AuditEntry e) {
        String who = e.who().isEmpty() ? "(" + e.way().name().toLowerCase(Locale.ROOT) + ")" : e.who();
        String more = String.join(
                ", ",
                List.of(e.house(), e.said(), e.from()).stream()
                        .filter(s -> !s.isEmpty())
                        .toList());
        return new Link("", Pages.minute(e.at()) + ", " + who + ": " + e.what(), more);
    }
}
