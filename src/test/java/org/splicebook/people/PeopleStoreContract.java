package org.splicebook.people;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

/** What every store of people has to do; a test class for each store extends this. */
public abstract class PeopleStoreContract {
    private static final Instant NOW = Instant.parse("2026-03-14T12:00:00Z");
    private static final Instant LATER = NOW.plus(Duration.ofHours(1));

    /** {@return an empty store} */
    protected abstract PeopleStore empty();

    private static Grant grant(String said) {
        return Grant.parse(said).get();
    }

    private static User user(String name) {
        return new User(name, "hash of " + name, List.of(grant("reader"), grant("recorder@alder")), NOW, null);
    }

    @Test
    void userIsKeptWholeAndANameIsTakenOnce() {
        PeopleStore store = empty();
        assertThat(store.addUser(user("rowan"))).isTrue();
        assertThat(store.addUser(user("rowan"))).isFalse();
        assertThat(store.addUser(user("ash"))).isTrue();
        assertThat(store.users()).extracting(User::name).containsExactly("ash", "rowan");
        assertThat(store.findUser("rowan")).hasValueSatisfying(u -> {
            assertThat(u.password()).isEqualTo("hash of rowan");
            assertThat(u.grants())
                    .containsExactlyInAnyOrderElementsOf(user("rowan").grants());
            assertThat(u.made()).isEqualTo(NOW);
            assertThat(u.lockedUntil()).isNull();
        });
        store.setGrants("rowan", List.of(grant("manager@property:mill")));
        assertThat(store.findUser("rowan").orElseThrow().grants()).containsExactly(grant("manager@property:mill"));
        assertThat(store.findUser("elm")).isEmpty();
    }

    @Test
    void lastWrongPasswordLocksAndCountingBeginsAnew() {
        PeopleStore store = empty();
        store.addUser(user("rowan"));
        assertThat(IntStream.range(0, 2).mapToObj(i -> store.countFailure("rowan", 3, LATER)))
                .containsExactly(false, false);
        store.forgetFailures("rowan");
        assertThat(IntStream.range(0, 3).mapToObj(i -> store.countFailure("rowan", 3, LATER)))
                .containsExactly(false, false, true);
        assertThat(store.findUser("rowan").orElseThrow().lockedUntil()).isEqualTo(LATER);
        assertThat(store.countFailure("rowan", 3, LATER)).isFalse();
        store.setPassword("rowan", "another");
        assertThat(store.findUser("rowan").orElseThrow().lockedUntil()).isNull();
    }

    @Test
    void ofManyWrongPasswordsAtOnceNoneIsLost() throws Exception {
        PeopleStore store = empty();
        store.addUser(user("rowan"));
        ExecutorService pool = Executors.newFixedThreadPool(8);
        try {
            List<Future<Boolean>> tried = IntStream.range(0, 40)
                    .mapToObj(i -> pool.submit(() -> store.countFailure("rowan", 10, LATER)))
                    .toList();
            int locked = 0;
            for (Future<Boolean> f : tried) {
                locked += f.get() ? 1 : 0;
            }
            assertThat(locked).isEqualTo(4);
        } finally {
            pool.shutdownNow();
        }
    }

    @Test
    void whatAUserHadGoesWithThem() {
        PeopleStore store = empty();
        store.addUser(user("rowan"));
        store.addUser(user("ash"));
        for (String name : List.of("rowan", "ash")) {
            store.addToken(new Token("t-" + name, "th-" + name, name, "a script", Role.READER, NOW, null));
            store.addSession(new Session("s-" + name, false, name, LATER), NOW);
        }
        // An invitation that happens to be called as a user is.
        store.addSession(new Session("s-invited", true, "rowan", LATER), NOW);
        store.setPassword("ash", "another");
        assertThat(store.findSession("s-ash"))
                .as("another password ends sessions")
                .isEmpty();
        assertThat(store.findToken("th-ash")).as("and leaves tokens").isPresent();
        assertThat(store.removeUser("rowan")).isTrue();
        assertThat(store.removeUser("rowan")).isFalse();
        assertThat(store.findSession("s-rowan")).isEmpty();
        assertThat(store.findToken("th-rowan")).isEmpty();
        assertThat(store.findSession("s-invited")).isPresent();
        assertThat(store.tokens()).extracting(Token::id).containsExactly("t-ash");
        assertThat(store.removeToken("t-ash")).isTrue();
        assertThat(store.removeToken("t-ash")).isFalse();
    }

    @Test
    void tokenIsKeptWhole() {
        PeopleStore store = empty();
        Token forever = new Token("a", "ha", "rowan", "a script", Role.RECORDER, NOW, null);
        Token ending = new Token("b", "hb", "rowan", "a try", Role.READER, NOW.plusSeconds(1), LATER);
        store.addToken(forever);
        store.addToken(ending);
        assertThat(store.tokens()).containsExactly(forever, ending);
        assertThat(store.findToken("hb")).contains(ending);
    }

    @Test
    void ofManyWhoTakeOneCodeAtOnceOneGetsIn() throws Exception {
        PeopleStore store = empty();
        Invitation i = new Invitation("i", "hi", "phone", grant("recorder@alder"), NOW, LATER, true, false);
        store.addInvitation(i);
        assertThat(store.findInvitationByCode("hi")).contains(i);
        ExecutorService pool = Executors.newFixedThreadPool(8);
        try {
            List<Future<Boolean>> taken = IntStream.range(0, 16)
                    .mapToObj(n -> pool.submit(() -> store.useInvitation("i")))
                    .toList();
            int in = 0;
            for (Future<Boolean> f : taken) {
                in += f.get() ? 1 : 0;
            }
            assertThat(in).isEqualTo(1);
        } finally {
            pool.shutdownNow();
        }
        assertThat(store.findInvitation("i").orElseThrow().used()).isTrue();
        assertThat(store.useInvitation("none")).isFalse();
        store.addSession(new Session("s", true, "i", LATER), NOW);
        assertThat(store.removeInvitation("i")).isTrue();
        assertThat(store.findSession("s")).isEmpty();
        assertThat(store.invitations()).isEmpty();
    }

    @Test
    void sessionsThatEndedAreSweptOut() {
        PeopleStore store = empty();
        Session old = new Session("old", false, "rowan", LATER);
        store.addSession(old, NOW);
        assertThat(store.findSession("old")).contains(old);
        store.addSession(new Session("new", false, "rowan", LATER.plusSeconds(60)), LATER);
        assertThat(store.findSession("old")).isEmpty();
        store.removeSession("new");
        assertThat(store.findSession("new")).isEmpty();
    }

    @Test
    void logTellsTheNewestFirst() {
        PeopleStore store = empty();
        for (int n = 0; n < 5; n++) {
            store.append(new AuditEntry(
                    NOW.plusSeconds(n),
                    "rowan",
                    Visitor.Way.SESSION,
                    "house stored",
                    n % 2 == 0 ? "alder" : "birch",
                    "revision " + n,
                    "192.0.2.7"));
        }
        assertThat(store.audit(2, "")).extracting(AuditEntry::said).containsExactly("revision 4", "revision 3");
        assertThat(store.audit(10, "birch")).extracting(AuditEntry::said).containsExactly("revision 3", "revision 1");
        assertThat(store.audit(1, "").get(0))
                .isEqualTo(new AuditEntry(
                        NOW.plusSeconds(4),
                        "rowan",
                        Visitor.Way.SESSION,
                        "house stored",
                        "alder",
                        "revision 4",
                        "192.0.2.7"));
    }
}
