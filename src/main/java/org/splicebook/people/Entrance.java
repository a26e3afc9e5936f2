package org.splicebook.people;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.problem.Where;

/** Lets people in and knows them again. Whatever is wrong with a name and a password, the same is said of it, after as long. */
public final class Entrance {
    /** So many wrong passwords are borne before a user is locked. */
    public static final int BORNE = 5;
    /** So long a user is locked then. */
    public static final Duration LOCKED = Duration.ofMinutes(15);
    /** So long a session lasts. */
    public static final Duration SESSION = Duration.ofHours(12);

    private final PeopleStore store;
    private final Clock clock;

    Entrance(PeopleStore store, Clock clock) {
        this.store = store;
        this.clock = clock;
    }

    /**
     * Lets somebody in by name and password.
     *
     * @param from the network address that they come from
     * @return the cookie, always a new one
     */
    public Result<Issued> signIn(String name, String password, String from) {
        Optional<Problem> wrong = wrong(name, password, from);
        if (wrong.isPresent()) {
            return Result.failed(wrong.get());
        }
        Instant now = clock.instant();
        Issued cookie = open(false, name, now, now.plus(SESSION));
        log("signed in", name, Visitor.Way.SESSION, "", from);
        return Result.ok(cookie);
    }

    /** {@return what is said of a name and a password that do not let anybody in; empty where they do. Wrong ones are counted.} */
    public Optional<Problem> wrong(String name, String password, String from) {
        Optional<User> user = store.findUser(name);
        boolean isRight = Passwords.isRight(password, user.map(User::password).orElse(""));
        if (user.isEmpty()) {
            // What was typed is not kept: it may be a password in the wrong field.
            return refused("", "no such user", from);
        }
        Instant now = clock.instant();
        if (user.get().isLocked(now)) {
            return refused(name, "locked", from);
        }
        if (!isRight) {
            boolean isLocked = store.countFailure(name, BORNE, now.plus(LOCKED));
            return refused(name, isLocked ? "wrong password, locked now" : "wrong password", from);
        }
        store.forgetFailures(name);
        return Optional.empty();
    }

    /** Lets somebody in by the code of an invitation; {@return the cookie} */
    public Result<Issued> join(String code, String from) {
        Instant now = clock.instant();
        Optional<Invitation> found =
                store.findInvitationByCode(Secrets.hash(code)).filter(i -> i.isOpen(now));
        if (found.isEmpty()
                || (!store.useInvitation(found.get().id()) && found.get().once())) {
            log("invitation refused", "", Visitor.Way.NONE, "", from);
            return Result.failed(Problem.error(
                    ProblemKind.SIGN_IN,
                    Where.NOWHERE,
                    "This code or link lets nobody in: it was used, is over, or never was.",
                    "Ask for a new one."));
        }
        Invitation i = found.get();
        Instant end = now.plus(SESSION).isBefore(i.expires()) ? now.plus(SESSION) : i.expires();
        // Who joins a survey by a code that lasts minutes stays for the day; a link's end is the end.
        Issued cookie = open(true, i.id(), now, i.once() ? now.plus(SESSION) : end);
        log(
                "came in by invitation",
                i.label(),
                Visitor.Way.INVITED,
                i.id() + ": " + i.grant().said(),
                from);
        return Result.ok(cookie);
    }

    /** {@return what a code would let somebody do, while it lets anybody in; looking at it does not use it} */
    public Optional<Invitation> look(String code) {
        Instant now = clock.instant();
        return store.findInvitationByCode(Secrets.hash(code)).filter(i -> i.isOpen(now));
    }

    /** {@return who has that cookie; nobody where it is over, or was never given} */
    public Visitor byCookie(String cookie) {
        Instant now = clock.instant();
        Optional<Session> session = store.findSession(Secrets.hash(cookie)).filter(s -> s.holds(now));
        if (session.isEmpty()) {
            return Visitor.NOBODY;
        }
        String csrf = Secrets.csrf(cookie);
        String subject = session.get().subject();
        return session.get().invited()
                ? store.findInvitation(subject)
                        .map(i -> new Visitor(i.label(), Visitor.Way.INVITED, List.of(i.grant()), csrf))
                        .orElse(Visitor.NOBODY)
                : store.findUser(subject)
                        .map(u -> new Visitor(u.name(), Visitor.Way.SESSION, u.grants(), csrf))
                        .orElse(Visitor.NOBODY);
    }

    /** {@return whose token that is; nobody where it is over, or was never given} */
    public Visitor byToken(String secret) {
        Instant now = clock.instant();
        Optional<Token> token = store.findToken(Secrets.hash(secret)).filter(t -> !t.isOver(now));
        return token.flatMap(t -> store.findUser(t.user())
                        .map(u -> new Visitor(
                                u.name(),
                                Visitor.Way.TOKEN,
                                u.grants().stream()
                                        .map(g -> g.atMost(t.atMost()))
                                        .toList(),
                                "")))
                .orElse(Visitor.NOBODY);
    }

    /** Lets somebody out: their cookie is worth nothing from now on. */
    public void signOut(String cookie) {
        store.removeSession(Secrets.hash(cookie));
    }

    /** Writes down that a token was refused. */
    public void refusedToken(String from) {
        log("token refused", "", Visitor.Way.NONE, "", from);
    }

    private Issued open(boolean invited, String subject, Instant now, Instant end) {
        String cookie = Secrets.random();
        store.addSession(new Session(Secrets.hash(cookie), invited, subject, end), now);
        return new Issued("", cookie, end);
    }

    private Optional<Problem> refused(String name, String said, String from) {
        log("sign-in refused", name, Visitor.Way.NONE, said, from);
        return Optional.of(Problem.error(
                ProblemKind.SIGN_IN,
                Where.NOWHERE,
                "Name or password is wrong, or the user is locked for a while after too many wrong ones.",
                "Try again, later if it was often; a manager gives a new password."));
    }

    private void log(String what, String who, Visitor.Way way, String said, String from) {
        store.append(new AuditEntry(clock.instant(), who, way, what, "", said, from));
    }
}
