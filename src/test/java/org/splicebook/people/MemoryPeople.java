package org.splicebook.people;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;

/** People in memory, for tests; held to the same contract as those in the database. */
public final class MemoryPeople implements PeopleStore {
    private final Map<String, User> users = new TreeMap<>();
    private final Map<String, Integer> failures = new HashMap<>();
    private final Map<String, Token> tokens = new LinkedHashMap<>();
    private final Map<String, Invitation> invitations = new LinkedHashMap<>();
    private final Map<String, Session> sessions = new HashMap<>();
    private final List<AuditEntry> log = new ArrayList<>();

    @Override
    public synchronized List<User> users() {
        return List.copyOf(users.values());
    }

    @Override
    public synchronized Optional<User> findUser(String name) {
        return Optional.ofNullable(users.get(name));
    }

    @Override
    public synchronized boolean addUser(User user) {
        return users.putIfAbsent(user.name(), user) == null;
    }

    @Override
    public synchronized void setPassword(String name, String password) {
        failures.remove(name);
        users.computeIfPresent(name, (n, u) -> new User(n, password, u.grants(), u.made(), null));
        sessions.values().removeIf(s -> !s.invited() && s.subject().equals(name));
    }

    @Override
    public synchronized void setGrants(String name, List<Grant> grants) {
        users.computeIfPresent(name, (n, u) -> new User(n, u.password(), grants, u.made(), u.lockedUntil()));
    }

    @Override
    public synchronized boolean removeUser(String name) {
        tokens.values().removeIf(t -> t.user().equals(name));
        sessions.values().removeIf(s -> !s.invited() && s.subject().equals(name));
        return users.remove(name) != null;
    }

    @Override
    public synchronized boolean countFailure(String name, int borne, Instant lockedUntil) {
        if (failures.merge(name, 1, Integer::sum) < borne) {
            return false;
        }
        failures.remove(name);
        users.computeIfPresent(name, (n, u) -> new User(n, u.password(), u.grants(), u.made(), lockedUntil));
        return true;
    }

    @Override
    public synchronized void forgetFailures(String name) {
        failures.remove(name);
    }

    @Override
    public synchronized List<Token> tokens() {
        return List.copyOf(tokens.values());
    }

    @Override
    public synchronized Optional<Token> findToken(String hash) {
        return tokens.values().stream().filter(t -> t.hash().equals(hash)).findFirst();
    }

    @Override
    public synchronized void addToken(Token token) {
        tokens.put(token.id(), token);
    }

    @Override
    public synchronized boolean removeToken(String id) {
        return tokens.remove(id) != null;
    }

    @Override
    public synchronized List<Invitation> invitations() {
        return List.copyOf(invitations.values());
    }

    @Override
    public synchronized Optional<Invitation> findInvitation(String id) {
        return Optional.ofNullable(invitations.get(id));
    }

    @Override
    public synchronized Optional<Invitation> findInvitationByCode(String hash) {
        return invitations.values().stream().filter(i -> i.hash().equals(hash)).findFirst();
    }

    @Override
    public synchronized void addInvitation(Invitation invitation) {
        invitations.put(invitation.id(), invitation);
    }

    @Override
    public synchronized boolean useInvitation(String id) {
        Invitation i = invitations.get(id);
        if (i == null || i.used()) {
            return false;
        }
        invitations.put(id, new Invitation(id, i.hash(), i.label(), i.grant(), i.made(), i.expires(), i.once(), true));
        return true;
    }

    @Override
    public synchronized boolean removeInvitation(String id) {
        sessions.values().removeIf(s -> s.invited() && s.subject().equals(id));
        return invitations.remove(id) != null;
    }

    @Override
    public synchronized Optional<Session> findSession(String hash) {
        return Optional.ofNullable(sessions.get(hash));
    }

    @Override
    public synchronized void addSession(Session session, Instant now) {
        sessions.values().removeIf(s -> !s.expires().isAfter(now));
        sessions.put(session.hash(), session);
    }

    @Override
    public synchronized void removeSession(String hash) {
        sessions.remove(hash);
    }

    @Override
    public synchronized void append(AuditEntry entry) {
        log.add(entry);
    }

    @Override
    public synchronized List<AuditEntry> audit(int most, String house) {
        return log.stream()
                .filter(e -> house.isEmpty() || e.house().equals(house))
                .sorted(Comparator.comparing(AuditEntry::at).reversed())
                .limit(most)
                .toList();
    }
}
