package org.splicebook.graph;

import java.time.Instant;
import java.time.ZoneOffset;
import java.time.ZonedDateTime;
import java.time.temporal.ChronoUnit;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import org.neo4j.driver.Record;
import org.neo4j.driver.TransactionContext;
import org.neo4j.driver.Value;
import org.splicebook.people.AuditEntry;
import org.splicebook.people.Grant;
import org.splicebook.people.Invitation;
import org.splicebook.people.PeopleStore;
import org.splicebook.people.Role;
import org.splicebook.people.Session;
import org.splicebook.people.Token;
import org.splicebook.people.User;
import org.splicebook.people.Visitor;

/** Keeps people beside the houses, in nodes that no question reaches: they are tied to no house. */
final class Neo4jPeople implements PeopleStore {
    static final SchemaPart SCHEMA = new SchemaPart(
            "people",
            1,
            List.of(
                    Indexed.unique("User", "name"),
                    Indexed.unique("Token", "id"),
                    Indexed.unique("Invitation", "id"),
                    Indexed.unique("SignedIn", "hash"),
                    Indexed.plain("Token", "hash"),
                    Indexed.plain("Invitation", "hash"),
                    Indexed.plain("Audit", "at")));

    private static final String LOCKED = "MATCH (u:User {name: $name}) SET u.lock = true WITH u ";

    private final Transactions transactions;

    Neo4jPeople(Transactions transactions) {
        this.transactions = transactions;
    }

    @Override
    public List<User> users() {
        return list("MATCH (n:User) RETURN n ORDER BY n.name", Map.of(), Neo4jPeople::user);
    }

    @Override
    public Optional<User> findUser(String name) {
        return list("MATCH (n:User {name: $name}) RETURN n", Map.of("name", name), Neo4jPeople::user).stream()
                .findFirst();
    }

    @Override
    public boolean addUser(User u) {
        Map<String, Object> row =
                Map.of("name", u.name(), "password", u.password(), "grants", said(u.grants()), "made", when(u.made()));
        // Of two who add one name at once, the second waits for the first and finds it taken.
        return count(
                        "MERGE (n:User {name: $row.name}) ON CREATE SET n += $row, n.fresh = true"
                                + " WITH n, n.fresh AS fresh REMOVE n.fresh WITH fresh WHERE fresh RETURN count(*) AS n",
                        Map.of("row", row))
                > 0;
    }

    @Override
    public void setPassword(String name, String password) {
        run(
                LOCKED + "SET u.password = $password, u.failures = 0 REMOVE u.lockedUntil"
                        + " WITH u MATCH (s:SignedIn {subject: $name, invited: false}) DELETE s",
                Map.of("name", name, "password", password));
    }

    @Override
    public void setGrants(String name, List<Grant> grants) {
        run(LOCKED + "SET u.grants = $grants", Map.of("name", name, "grants", said(grants)));
    }

    @Override
    public boolean removeUser(String name) {
        return transactions.write(tx -> {
            tx.run("MATCH (s:SignedIn {subject: $name, invited: false}) DELETE s", Map.of("name", name))
                    .consume();
            tx.run("MATCH (t:Token {user: $name}) DELETE t", Map.of("name", name))
                    .consume();
            return deleted(tx, "MATCH (u:User {name: $name}) DELETE u", Map.of("name", name));
        });
    }

    @Override
    public boolean countFailure(String name, int borne, Instant lockedUntil) {
        return count(
                        LOCKED + "WITH u, coalesce(u.failures, 0) + 1 AS n"
                                + " SET u.failures = CASE WHEN n >= $borne THEN 0 ELSE n END,"
                                + " u.lockedUntil = CASE WHEN n >= $borne THEN $until ELSE u.lockedUntil END"
                                + " RETURN CASE WHEN n >= $borne THEN 1 ELSE 0 END AS n",
                        Map.of("name", name, "borne", borne, "until", when(lockedUntil)))
                > 0;
    }

    @Override
    public void forgetFailures(String name) {
        run("MATCH (u:User {name: $name}) WHERE u.failures > 0 SET u.failures = 0", Map.of("name", name));
    }

    @Override
    public List<Token> tokens() {
        return list("MATCH (n:Token) RETURN n ORDER BY n.made", Map.of(), Neo4jPeople::token);
    }

    @Override
    public Optional<Token> findToken(String hash) {
        return list("MATCH (n:Token {hash: $hash}) RETURN n", Map.of("hash", hash), Neo4jPeople::token).stream()
                .findFirst();
    }

    @Override
    public void addToken(Token t) {
        Map<String, @Nullable Object> row = new HashMap<>(Map.of(
                "id",
                t.id(),
                "hash",
                t.hash(),
                "user",
                t.user(),
                "label",
                t.label(),
                "atMost",
                t.atMost().word()));
        row.put("made", when(t.made()));
        row.put("expires", t.expires() == null ? null : when(t.expires()));
        run("CREATE (n:Token) SET n = $row", Map.of("row", row));
    }

    @Override
    public boolean removeToken(String id) {
        return transactions.write(tx -> deleted(tx, "MATCH (n:Token {id: $id}) DELETE n", Map.of("id", id)));
    }

    @Override
    public List<Invitation> invitations() {
        return list("MATCH (n:Invitation) RETURN n ORDER BY n.made", Map.of(), Neo4jPeople::invitation);
    }

    @Override
    public Optional<Invitation> findInvitation(String id) {
        return list("MATCH (n:Invitation {id: $id}) RETURN n", Map.of("id", id), Neo4jPeople::invitation).stream()
                .findFirst();
    }

    @Override
    public Optional<Invitation> findInvitationByCode(String hash) {
        return list("MATCH (n:Invitation {hash: $hash}) RETURN n", Map.of("hash", hash), Neo4jPeople::invitation)
                .stream()
                .findFirst();
    }

    @Override
    public void addInvitation(Invitation i) {
        run(
                "CREATE (n:Invitation) SET n = $row",
                Map.of(
                        "row",
                        Map.of(
                                "id", i.id(),
                                "hash", i.hash(),
                                "label", i.label(),
                                "grant", i.grant().said(),
                                "made", when(i.made()),
                                "expires", when(i.expires()),
                                "once", i.once(),
                                "used", i.used())));
    }

    @Override
    public boolean useInvitation(String id) {
        // Setting the lock first: what is read after it is what the last one left.
        return count(
                        "MATCH (n:Invitation {id: $id}) SET n.lock = true WITH n, n.used AS used SET n.used = true"
                                + " RETURN CASE WHEN used THEN 0 ELSE 1 END AS n",
                        Map.of("id", id))
                > 0;
    }

    @Override
    public boolean removeInvitation(String id) {
        return transactions.write(tx -> {
            tx.run("MATCH (s:SignedIn {subject: $id, invited: true}) DELETE s", Map.of("id", id))
                    .consume();
            return deleted(tx, "MATCH (n:Invitation {id: $id}) DELETE n", Map.of("id", id));
        });
    }

    @Override
    public Optional<Session> findSession(String hash) {
        return list(
                        "MATCH (n:SignedIn {hash: $hash}) RETURN n",
                        Map.of("hash", hash),
                        n -> new Session(
                                n.get("hash").asString(),
                                n.get("invited").asBoolean(),
                                n.get("subject").asString(),
                                instant(n.get("expires"))))
                .stream()
                .findFirst();
    }

    @Override
    public void addSession(Session s, Instant now) {
        transactions.write(tx -> {
            tx.run("MATCH (n:SignedIn) WHERE n.expires <= $now DELETE n", Map.of("now", when(now)))
                    .consume();
            return tx.run(
                            "CREATE (n:SignedIn) SET n = $row",
                            Map.of(
                                    "row",
                                    Map.of(
                                            "hash", s.hash(),
                                            "invited", s.invited(),
                                            "subject", s.subject(),
                                            "expires", when(s.expires()))))
                    .consume();
        });
    }

    @Override
    public void removeSession(String hash) {
        run("MATCH (n:SignedIn {hash: $hash}) DELETE n", Map.of("hash", hash));
    }

    @Override
    public void append(AuditEntry e) {
        run(
                "CREATE (n:Audit) SET n = $row",
                Map.of(
                        "row",
                        Map.of(
                                "at", when(e.at()),
                                "who", e.who(),
                                "way", e.way().name(),
                                "what", e.what(),
                                "house", e.house(),
                                "said", e.said(),
                                "from", e.from())));
    }

    @Override
    public List<AuditEntry> audit(int most, String house) {
        return list(
                "MATCH (n:Audit) WHERE $house = '' OR n.house = $house RETURN n ORDER BY n.at DESC LIMIT $most",
                Map.of("most", most, "house", house),
                n -> new AuditEntry(
                        instant(n.get("at")),
                        n.get("who").asString(),
                        Visitor.Way.valueOf(n.get("way").asString()),
                        n.get("what").asString(),
                        n.get("house").asString(),
                        n.get("said").asString(),
                        n.get("from").asString()));
    }

    private static User user(Value n) {
        return new User(
                n.get("name").asString(),
                n.get("password").asString(),
                n.get("grants").asList(Value::asString).stream()
                        .map(Grant::parse)
                        .map(g -> g.get())
                        .sorted(Comparator.comparing(Grant::said))
                        .toList(),
                instant(n.get("made")),
                n.get("lockedUntil").isNull() ? null : instant(n.get("lockedUntil")));
    }

    private static Token token(Value n) {
        return new Token(
                n.get("id").asString(),
                n.get("hash").asString(),
                n.get("user").asString(),
                n.get("label").asString(),
                Role.of(n.get("atMost").asString()).orElse(Role.READER),
                instant(n.get("made")),
                n.get("expires").isNull() ? null : instant(n.get("expires")));
    }

    private static Invitation invitation(Value n) {
        return new Invitation(
                n.get("id").asString(),
                n.get("hash").asString(),
                n.get("label").asString(),
                Grant.parse(n.get("grant").asString()).get(),
                instant(n.get("made")),
                instant(n.get("expires")),
                n.get("once").asBoolean(),
                n.get("used").asBoolean());
    }

    private static List<String> said(List<Grant> grants) {
        return grants.stream().map(Grant::said).toList();
    }

    private static ZonedDateTime when(Instant moment) {
        return moment.truncatedTo(ChronoUnit.MICROS).atZone(ZoneOffset.UTC);
    }

    private static Instant instant(Value when) {
        return when.asZonedDateTime().toInstant();
    }

    private <T> List<T> list(String cypher, Map<String, Object> parameters, Function<Value, T> each) {
        return transactions.read(tx -> tx.run(cypher, parameters).list((Record r) -> each.apply(r.get("n"))));
    }

    private long count(String cypher, Map<String, Object> parameters) {
        return transactions.write(tx -> tx.run(cypher, parameters).stream()
                .mapToLong(r -> r.get("n").asLong())
                .sum());
    }

    private void run(String cypher, Map<String, Object> parameters) {
        Objects.requireNonNull(
                transactions.write(tx -> tx.run(cypher, parameters).consume()));
    }

    private static boolean deleted(TransactionContext tx, String cypher, Map<String, Object> parameters) {
        return tx.run(cypher, parameters).consume().counters().nodesDeleted() > 0;
    }
}
