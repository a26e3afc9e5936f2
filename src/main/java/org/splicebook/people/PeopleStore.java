package org.splicebook.people;

import java.time.Instant;
import java.util.List;
import java.util.Optional;

/** Keeps people and what they did. Every method is one transaction. */
public interface PeopleStore {
    /** {@return all users, by name} */
    List<User> users();

    /** {@return the user of that name} */
    Optional<User> findUser(String name);

    /** Adds a user; {@return whether the name was free} */
    boolean addUser(User user);

    /** Stores another password; every session of the user ends. */
    void setPassword(String name, String password);

    /** Stores other grants. */
    void setGrants(String name, List<Grant> grants);

    /** Takes a user away with their tokens and sessions; {@return whether there was one} */
    boolean removeUser(String name);

    /**
     * Counts a wrong password, at once for all that try: when it is the last that is borne, the user is locked and counting begins anew.
     *
     * @return whether the user is locked now
     */
    boolean countFailure(String name, int borne, Instant lockedUntil);

    /** Forgets the wrong passwords of a user who gave the right one. */
    void forgetFailures(String name);

    /** {@return all tokens, oldest first} */
    List<Token> tokens();

    /** {@return the token whose secret has that hash} */
    Optional<Token> findToken(String hash);

    /** Adds a token. */
    void addToken(Token token);

    /** Takes a token away; {@return whether there was one} */
    boolean removeToken(String id);

    /** {@return all invitations, oldest first} */
    List<Invitation> invitations();

    /** {@return the invitation with that id} */
    Optional<Invitation> findInvitation(String id);

    /** {@return the invitation whose code has that hash} */
    Optional<Invitation> findInvitationByCode(String hash);

    /** Adds an invitation. */
    void addInvitation(Invitation invitation);

    /** Uses an invitation; {@return whether it was still to be used}: of several who come at once to one for one, one gets true. */
    boolean useInvitation(String id);

    /** Takes an invitation away, and ends the sessions that came by it; {@return whether there was one} */
    boolean removeInvitation(String id);

    /** {@return the session whose cookie has that hash} */
    Optional<Session> findSession(String hash);

    /** Adds a session, and takes away those that ended before that moment. */
    void addSession(Session session, Instant now);

    /** Ends a session. */
    void removeSession(String hash);

    /** Adds to the log. */
    void append(AuditEntry entry);

    /** {@return the newest entries of the log, the newest first, at most so many; of one house unless it is empty} */
    List<AuditEntry> audit(int most, String house);
}
