package org.splicebook.people;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Supplier;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.problem.Where;

/** Looks after people in the store that keeps them. Who may call it is for the caller to see to; each change is logged with who made it. */
public final class People implements Registry {
    private static final Pattern NAME = Pattern.compile("[a-z0-9][a-z0-9._-]{1,39}");
    private static final int LONGEST_LABEL = 60;
    private static final Duration LONGEST_INVITATION = Duration.ofDays(90);

    private final PeopleStore store;
    private final Clock clock;
    private final Supplier<Visitor> visitor;
    private final Runnable atClose;

    /**
     * People of a store.
     *
     * @param visitor who is at work
     * @param atClose what to close with it
     */
    public People(PeopleStore store, Clock clock, Supplier<Visitor> visitor, Runnable atClose) {
        this.store = store;
        this.clock = clock;
        this.visitor = visitor;
        this.atClose = atClose;
    }

    /** {@return what lets them in and looks after it, over the same store} */
    public Entrance entrance() {
        return new Entrance(store, clock);
    }

    @Override
    public List<User> users() {
        return store.users().stream().map(People::untold).toList();
    }

    @Override
    public Result<User> addUser(String name, String password, List<Grant> grants) {
        List<Problem> wrong = new ArrayList<>();
        if (!NAME.matcher(name).matches()) {
            wrong.add(problem(
                    ProblemKind.BAD_NAME,
                    "name",
                    "'" + name + "' cannot be a user's name.",
                    "Use 2 to 40 of a-z, 0-9, dot, hyphen and underscore."));
        } else {
            wrong.addAll(Passwords.wrong(name, password));
        }
        if (grants.isEmpty()) {
            wrong.add(noRole());
        }
        if (!wrong.isEmpty()) {
            return new Result.Failed<>(wrong);
        }
        User user = new User(name, Passwords.hash(password), grants, clock.instant(), null);
        if (!store.addUser(user)) {
            return Result.failed(problem(
                    ProblemKind.DUPLICATE, "name", "There is a user " + name + " already.", "Choose another name."));
        }
        log("user added", name + ": " + said(grants));
        return Result.ok(untold(user));
    }

    @Override
    public Result<User> setPassword(String name, String password) {
        List<Problem> wrong = Passwords.wrong(name, password);
        if (!wrong.isEmpty()) {
            return new Result.Failed<>(wrong);
        }
        Result<User> user = found(name);
        if (user.isOk()) {
            store.setPassword(name, Passwords.hash(password));
            log("password changed", name);
        }
        return user;
    }

    @Override
    public Result<User> setGrants(String name, List<Grant> grants) {
        if (grants.isEmpty()) {
            return Result.failed(noRole());
        }
        Result<User> user = found(name);
        if (!user.isOk()) {
            return user;
        }
        store.setGrants(name, grants);
        log("roles changed", name + ": " + said(grants));
        return found(name);
    }

    @Override
    public Result<User> removeUser(String name) {
        Result<User> user = found(name);
        if (user.isOk() && store.removeUser(name)) {
            log("user removed", name);
        }
        return user;
    }

    @Override
    public List<Token> tokens() {
        return store.tokens().stream()
                .map(t -> new Token(t.id(), "", t.user(), t.label(), t.atMost(), t.made(), t.expires()))
                .toList();
    }

    @Override
    public Result<Issued> addToken(String user, String label, Role atMost, @Nullable Duration lasting) {
        Result<User> whose = found(user);
        List<Problem> wrong = new ArrayList<>(whose.problems());
        wrong.addAll(wrongLabel(label));
        if (lasting != null && (lasting.isNegative() || lasting.isZero())) {
            wrong.add(problem(ProblemKind.BAD_VALUE, "days", "The token would be over already.", "Say 1 day or more."));
        }
        if (!wrong.isEmpty()) {
            return new Result.Failed<>(wrong);
        }
        Instant now = clock.instant();
        Issued issued = new Issued(Secrets.id(), Secrets.random(), lasting == null ? null : now.plus(lasting));
        store.addToken(
                new Token(issued.id(), Secrets.hash(issued.secret()), user, label, atMost, now, issued.expires()));
        log("token made", issued.id() + " for " + user + ", at most " + atMost.word());
        return Result.ok(issued);
    }

    @Override
    public Result<Token> removeToken(String id) {
        for (Token t : tokens()) {
            if (t.id().equals(id) && store.removeToken(id)) {
                log("token removed", id + " of " + t.user());
                return Result.ok(t);
            }
        }
        return Result.failed(notThere("token", id));
    }

    @Override
    public List<Invitation> invitations() {
        return store.invitations().stream()
                .map(i -> new Invitation(i.id(), "", i.label(), i.grant(), i.made(), i.expires(), i.once(), i.used()))
                .toList();
    }

    @Override
    public Result<Issued> invite(String label, Grant grant, Duration lasting, boolean once) {
        List<Problem> wrong = new ArrayList<>(wrongLabel(label));
        if (grant.role() == Role.MANAGER) {
            wrong.add(problem(
                    ProblemKind.REFUSED,
                    "role",
                    "An invitation cannot make a manager.",
                    "Invite a reader or a recorder; a manager has a name and a password."));
        }
        if (grant.scope().kind() == Scope.Kind.EVERYTHING) {
            wrong.add(problem(
                    ProblemKind.REFUSED,
                    "role",
                    "An invitation is for one house or one property.",
                    "Say which: recorder@HOUSE."));
        }
        if (lasting.isNegative() || lasting.isZero() || lasting.compareTo(LONGEST_INVITATION) > 0) {
            wrong.add(problem(
                    ProblemKind.BAD_VALUE,
                    "lasting",
                    "An invitation lasts up to " + LONGEST_INVITATION.toDays() + " days.",
                    "Say a shorter time."));
        }
        if (!wrong.isEmpty()) {
            return new Result.Failed<>(wrong);
        }
        Instant now = clock.instant();
        Issued issued = new Issued(Secrets.id(), once ? Secrets.typed() : Secrets.random(), now.plus(lasting));
        store.addInvitation(new Invitation(
                issued.id(), Secrets.hash(issued.secret()), label, grant, now, now.plus(lasting), once, false));
        log("invited", issued.id() + ": " + grant.said() + (once ? ", once" : ""));
        return Result.ok(issued);
    }

    @Override
    public Result<Invitation> removeInvitation(String id) {
        for (Invitation i : invitations()) {
            if (i.id().equals(id) && store.removeInvitation(id)) {
                log("invitation removed", id);
                return Result.ok(i);
            }
        }
        return Result.failed(notThere("invitation", id));
    }

    @Override
    public List<AuditEntry> audit(int most, String house) {
        return store.audit(Math.max(1, Math.min(most, 10_000)), house);
    }

    @Override
    public void close() {
        atClose.run();
    }

    private void log(String what, String said) {
        Visitor who = visitor.get();
        store.append(new AuditEntry(clock.instant(), who.name(), who.way(), what, "", said, ""));
    }

    private Result<User> found(String name) {
        return store.findUser(name)
                .map(u -> Result.ok(untold(u)))
                .orElseGet(() -> Result.failed(notThere("user", name)));
    }

    private static User untold(User u) {
        return new User(u.name(), "", u.grants(), u.made(), u.lockedUntil());
    }

    private static List<Problem> wrongLabel(String label) {
        return label.isBlank()
                        || label.length() > LONGEST_LABEL
                        || !label.chars().allMatch(c -> c >= ' ')
                ? List.of(problem(
                        ProblemKind.BAD_VALUE,
                        "label",
                        "What it is for has from 1 to " + LONGEST_LABEL + " characters on one line.",
                        "Say whom or what it is for."))
                : List.of();
    }

    private static String said(List<Grant> grants) {
        return String.join(", ", grants.stream().map(Grant::said).toList());
    }

    private static Problem noRole() {
        return problem(
                ProblemKind.MISSING, "role", "No role is said.", "Say reader, recorder or manager, or reader@HOUSE.");
    }

    private static Problem notThere(String what, String id) {
        return problem(
                ProblemKind.NOT_FOUND, what, "There is no " + what + " " + id + ".", "Look at the list of them.");
    }

    private static Problem problem(ProblemKind kind, String field, String message, String cure) {
        return Problem.error(kind, Where.field(field), message, cure);
    }
}
