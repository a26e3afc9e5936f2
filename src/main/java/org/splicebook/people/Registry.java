package org.splicebook.people;

import java.time.Duration;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.splicebook.problem.Result;

/** What can be done about people, by who may: here, or at a running server. Hashes are not told. */
public interface Registry extends AutoCloseable {
    /** {@return all users, by name} */
    List<User> users();

    /** Adds a user; {@return them} */
    Result<User> addUser(String name, String password, List<Grant> grants);

    /** Gives a user another password and ends their sessions; {@return them} */
    Result<User> setPassword(String name, String password);

    /** Gives a user other roles; {@return them} */
    Result<User> setGrants(String name, List<Grant> grants);

    /** Takes a user away, with tokens and sessions; {@return them} */
    Result<User> removeUser(String name);

    /** {@return all tokens, oldest first} */
    List<Token> tokens();

    /**
     * Makes a token.
     *
     * @param user whose
     * @param label what for
     * @param atMost the highest role it has
     * @param lasting how long it lasts; null for until it is taken away
     */
    Result<Issued> addToken(String user, String label, Role atMost, @Nullable Duration lasting);

    /** Takes a token away; {@return it} */
    Result<Token> removeToken(String id);

    /** {@return all invitations, oldest first} */
    List<Invitation> invitations();

    /**
     * Makes an invitation.
     *
     * @param label whom for
     * @param grant what they may do; never more than recording
     * @param lasting how long it lasts
     * @param once whether only the first who comes gets in
     */
    Result<Issued> invite(String label, Grant grant, Duration lasting, boolean once);

    /** Takes an invitation away and ends the sessions that came by it; {@return it} */
    Result<Invitation> removeInvitation(String id);

    /** {@return the newest entries of the log, the newest first, at most so many; of one house unless it is empty} */
    List<AuditEntry> audit(int most, String house);

    @Override
    void close();
}
