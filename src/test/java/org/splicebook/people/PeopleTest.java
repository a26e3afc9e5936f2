package org.splicebook.people;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.splicebook.housefile.PropertyFiles;
import org.splicebook.problem.ProblemKind;
import org.splicebook.property.Properties;
import org.splicebook.store.MemoryStore;

class PeopleTest {
    private static final String PASSWORD = "two owls and a ladder";
    private static final Estates MILL =
            (property, house) -> house.startsWith(property + "-") && property.equals("mill");

    private final MemoryPeople store = new MemoryPeople();
    private final TestClock clock = new TestClock();
    private final People people = new People(store, clock, () -> Visitor.OWNER, () -> {});
    private final Entrance entrance = people.entrance();

    private static Grant grant(String said) {
        return Grant.parse(said).get();
    }

    private void add(String name, String... roles) {
        people.addUser(
                        name,
                        PASSWORD,
                        List.of(roles).stream().map(PeopleTest::grant).toList())
                .get();
    }

    @ParameterizedTest
    @ValueSource(strings = {"reader", "recorder@pear-tree-house", "manager@property:mill-lane", "manager"})
    void roleIsReadAsItIsWritten(String said) {
        assertThat(grant(said).said()).isEqualTo(said);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {"", "owner", "reader@", "reader@a/b", "Reader", "reader@property:", "reader@a b", "reader@@a"})
    void whatIsNoRoleIsRefused(String said) {
        assertThat(Grant.parse(said).isOk()).isFalse();
    }

    @ParameterizedTest
    @CsvSource({
        "reader,          pear,   READER,   true",
        "reader,          pear,   RECORDER, false",
        "manager,         pear,   READER,   true",
        "recorder@pear,   pear,   RECORDER, true",
        "recorder@pear,   pear,   MANAGER,  false",
        "manager@pear,    plum,   READER,   false",
        "manager@pear,    pear-2, READER,   false",
        "manager@property:mill, mill-1, MANAGER, true",
        "manager@property:mill, pear,   READER,  false",
        "manager@property:mil,  mill-1, READER,  false",
        "manager@pear,    '',     READER,   false"
    })
    void roleHoldsForWhatItIsFor(String said, String house, Role least, boolean may) {
        Visitor visitor = new Visitor("rowan", Visitor.Way.SESSION, List.of(grant(said)), "");
        assertThat(visitor.may(least, house, MILL)).isEqualTo(may);
    }

    @Test
    void roleForOneHouseIsNoneForEverything() {
        Visitor one = new Visitor("rowan", Visitor.Way.SESSION, List.of(grant("manager@pear")), "");
        assertThat(one.mayEverywhere(Role.READER)).isFalse();
        assertThat(Visitor.NOBODY.mayEverywhere(Role.READER)).isFalse();
        assertThat(Visitor.NOBODY.may(Role.READER, "pear", MILL)).isFalse();
    }

    @Test
    void passwordIsKeptAsASaltedHashAndNeverTold() {
        add("rowan", "reader");
        add("ash", "reader");
        String kept = store.findUser("rowan").orElseThrow().password();
        assertThat(kept).startsWith("$argon2id$v=19$m=19456,t=2,p=1$").doesNotContain(PASSWORD);
        assertThat(store.findUser("ash").orElseThrow().password()).isNotEqualTo(kept);
        assertThat(people.users()).allSatisfy(u -> assertThat(u.password()).isEmpty());
        assertThat(store.audit(100, "").toString()).doesNotContain(PASSWORD, kept);
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "short", "aaaaaaaaaaaaaaaa", "abababababababab", "my name is rowan"})
    void weakPasswordIsRefused(String password) {
        assertThat(people.addUser("rowan", password, List.of(grant("reader"))).isOk())
                .isFalse();
        assertThat(people.users()).isEmpty();
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "A", "a", "rowan tree", "../x", "rowan\n", "<b>"})
    void nameThatIsNoneIsRefused(String name) {
        assertThat(people.addUser(name, PASSWORD, List.of(grant("reader"))).isOk())
                .isFalse();
    }

    @Test
    void rightPasswordLetsInAndAllElseSoundsTheSame() {
        add("rowan", "reader@pear");
        Issued cookie = entrance.signIn("rowan", PASSWORD, "").get();
        Visitor visitor = entrance.byCookie(cookie.secret());
        assertThat(visitor.name()).isEqualTo("rowan");
        assertThat(visitor.csrf()).isNotEmpty().isNotEqualTo(cookie.secret());
        assertThat(store.findSession(cookie.secret()))
                .as("the cookie itself is not kept")
                .isEmpty();
        assertThat(entrance.signIn("rowan", "a wrong password", "").problems())
                .isEqualTo(entrance.signIn("nobody", PASSWORD, "").problems())
                .isEqualTo(entrance.signIn("", "", "").problems())
                .isEqualTo(entrance.signIn("rowan", "x".repeat(100_000), "").problems());
        assertThat(store.audit(100, "").toString())
                .as("what was typed as a name may have been a password")
                .doesNotContain("who=nobody");
    }

    @Test
    void tooManyWrongPasswordsLockForAWhile() {
        add("rowan", "reader");
        for (int i = 0; i < Entrance.BORNE; i++) {
            assertThat(entrance.signIn("rowan", "wrong " + i, "192.0.2.7").isOk())
                    .isFalse();
        }
        assertThat(entrance.signIn("rowan", PASSWORD, "192.0.2.7").isOk())
                .as("even the right one")
                .isFalse();
        assertThat(store.audit(100, "")).extracting(AuditEntry::said).contains("locked", "wrong password, locked now");
        clock.pass(Entrance.LOCKED.plusSeconds(1));
        assertThat(entrance.signIn("rowan", PASSWORD, "").isOk()).isTrue();
    }

    @Test
    void sessionEndsInTimeOrWhenItIsLeftOrItsUserGoes() {
        add("rowan", "reader");
        String first = entrance.signIn("rowan", PASSWORD, "").get().secret();
        String second = entrance.signIn("rowan", PASSWORD, "").get().secret();
        assertThat(first).isNotEqualTo(second);
        entrance.signOut(first);
        assertThat(entrance.byCookie(first)).isEqualTo(Visitor.NOBODY);
        people.setGrants("rowan", List.of(grant("recorder"))).get();
        assertThat(entrance.byCookie(second).mayEverywhere(Role.RECORDER))
                .as("roles as they are now")
                .isTrue();
        clock.pass(Entrance.SESSION);
        assertThat(entrance.byCookie(second)).isEqualTo(Visitor.NOBODY);
        String third = entrance.signIn("rowan", PASSWORD, "").get().secret();
        people.removeUser("rowan").get();
        assertThat(entrance.byCookie(third)).isEqualTo(Visitor.NOBODY);
        assertThat(entrance.byCookie("")).isEqualTo(Visitor.NOBODY);
    }

    @Test
    void tokenHasItsUsersRolesNoHigherThanItsOwn() {
        add("rowan", "manager", "recorder@pear");
        Issued token = people.addToken("rowan", "a script", Role.RECORDER, Duration.ofDays(1))
                .get();
        assertThat(entrance.byToken(token.secret()).grants())
                .extracting(Grant::said)
                .containsExactlyInAnyOrder("recorder", "recorder@pear");
        assertThat(store.tokens().toString()).doesNotContain(token.secret());
        assertThat(entrance.byToken(token.id())).isEqualTo(Visitor.NOBODY);
        assertThat(entrance.byToken(store.tokens().get(0).hash()))
                .as("the hash is no token")
                .isEqualTo(Visitor.NOBODY);
        people.setGrants("rowan", List.of(grant("reader@plum"))).get();
        assertThat(entrance.byToken(token.secret()).grants())
                .extracting(Grant::said)
                .containsExactly("reader@plum");
        clock.pass(Duration.ofDays(1));
        assertThat(entrance.byToken(token.secret())).isEqualTo(Visitor.NOBODY);
        assertThat(people.addToken("nobody", "x", Role.READER, null).isOk()).isFalse();
    }

    @Test
    void codeLetsTheFirstInOnceAndInTime() {
        Issued code = people.invite("a phone", grant("recorder@pear"), Duration.ofMinutes(15), true)
                .get();
        assertThat(entrance.look(code.secret())).isPresent();
        assertThat(entrance.look(code.secret())).as("looking uses nothing up").isPresent();
        String typed = code.secret().toUpperCase(java.util.Locale.ROOT).replace("-", " ");
        Visitor in = entrance.byCookie(entrance.join(typed, "").get().secret());
        assertThat(in.name()).isEqualTo("a phone");
        assertThat(in.may(Role.RECORDER, "pear", MILL)).isTrue();
        assertThat(in.may(Role.READER, "plum", MILL)).isFalse();
        assertThat(entrance.join(code.secret(), "").problems())
                .extracting(p -> p.kind())
                .containsExactly(ProblemKind.SIGN_IN);
        Issued late = people.invite("a phone", grant("recorder@pear"), Duration.ofMinutes(15), true)
                .get();
        clock.pass(Duration.ofMinutes(15));
        assertThat(entrance.join(late.secret(), "").isOk()).isFalse();
    }

    @Test
    void linkLetsInUntilItIsOverOrTakenAwayAndSoLongDoesWhatCameByIt() {
        Issued link = people.invite("a contractor", grant("reader@pear"), Duration.ofHours(3), false)
                .get();
        String a = entrance.join(link.secret(), "").get().secret();
        String b = entrance.join(link.secret(), "").get().secret();
        assertThat(entrance.byCookie(a).may(Role.READER, "pear", MILL)).isTrue();
        clock.pass(Duration.ofHours(3));
        assertThat(entrance.byCookie(a)).isEqualTo(Visitor.NOBODY);
        assertThat(entrance.join(link.secret(), "").isOk()).isFalse();
        Issued other = people.invite("a contractor", grant("reader@pear"), Duration.ofDays(3), false)
                .get();
        String c = entrance.join(other.secret(), "").get().secret();
        people.removeInvitation(other.id()).get();
        assertThat(entrance.byCookie(c)).isEqualTo(Visitor.NOBODY);
        assertThat(entrance.byCookie(b)).isEqualTo(Visitor.NOBODY);
    }

    @ParameterizedTest
    @CsvSource({
        "manager@pear, PT1H",
        "reader, PT1H",
        "recorder, PT1H",
        "reader@pear, P91D",
        "reader@pear, PT0S",
        "reader@pear, PT-1S"
    })
    void invitationIsForLittleAndNotForLong(String said, String lasting) {
        assertThat(people.invite("x", grant(said), Duration.parse(lasting), false)
                        .isOk())
                .isFalse();
    }

    @Test
    void whatIsDoneAboutPeopleIsLogged() {
        add("rowan", "reader");
        people.setPassword("rowan", "three owls on a ladder").get();
        people.setGrants("rowan", List.of(grant("recorder"))).get();
        people.removeUser("rowan").get();
        assertThat(store.audit(100, ""))
                .extracting(AuditEntry::what)
                .containsExactlyInAnyOrder("user added", "password changed", "roles changed", "user removed");
    }

    /** A clock that ran ahead when somebody came in, and was put right then, must not let them stay for so much longer. */
    @ParameterizedTest
    @ValueSource(strings = {"PT13H", "P1D", "P400D"})
    void clockThatIsSetBackMakesNothingLastLonger(String ahead) {
        add("rowan", "reader");
        String cookie = entrance.signIn("rowan", PASSWORD, "").get().secret();
        String token = people.addToken("rowan", "a script", Role.READER, Duration.ofDays(30))
                .get()
                .secret();
        String link = people.invite("a contractor", grant("reader@pear"), Duration.ofDays(30), false)
                .get()
                .secret();
        String came = entrance.join(link, "").get().secret();
        clock.pass(Duration.parse(ahead).negated());
        assertThat(entrance.byCookie(cookie)).isEqualTo(Visitor.NOBODY);
        assertThat(entrance.byCookie(came)).isEqualTo(Visitor.NOBODY);
        assertThat(entrance.byToken(token)).isEqualTo(Visitor.NOBODY);
        assertThat(entrance.join(link, "").isOk()).isFalse();
        assertThat(entrance.signIn("rowan", PASSWORD, "").isOk())
                .as("by the clock as it is now")
                .isTrue();
    }

    @Test
    void clockThatIsPutRightByALittlePutsNobodyOut() {
        add("rowan", "reader");
        String cookie = entrance.signIn("rowan", PASSWORD, "").get().secret();
        String token = people.addToken("rowan", "a script", Role.READER, Duration.ofDays(30))
                .get()
                .secret();
        clock.pass(Duration.ofMinutes(-2));
        assertThat(entrance.byCookie(cookie).name()).isEqualTo("rowan");
        assertThat(entrance.byToken(token).name()).isEqualTo("rowan");
    }

    @Test
    void clockThatIsSetBackKeepsNobodyLocked() {
        add("rowan", "reader");
        for (int i = 0; i < Entrance.BORNE; i++) {
            assertThat(entrance.signIn("rowan", "wrong " + i, "").isOk()).isFalse();
        }
        clock.pass(Duration.ofDays(-400));
        assertThat(entrance.signIn("rowan", PASSWORD, "").isOk()).isTrue();
    }

    @Test
    void housesOfAPropertyAreLookedAtAgainAlsoWhenTheClockWasSetBack() {
        MemoryStore houses = new MemoryStore();
        StoredEstates estates = new StoredEstates(houses, clock);
        assertThat(estates.hold("alder-row", "alder-row-14b")).isFalse();
        houses.properties()
                .put(
                        PropertyFiles.parse("row", Properties.text("alder-row.yaml"))
                                .get()
                                .property(),
                        0,
                        "me",
                        "new")
                .get();
        clock.pass(Duration.ofDays(-400));
        assertThat(estates.hold("alder-row", "alder-row-14b")).isTrue();
    }
}
