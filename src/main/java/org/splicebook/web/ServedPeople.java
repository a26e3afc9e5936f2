package org.splicebook.web;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.net.URI;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import org.splicebook.people.AuditEntry;
import org.splicebook.people.Grant;
import org.splicebook.people.Invitation;
import org.splicebook.people.Issued;
import org.splicebook.people.Registry;
import org.splicebook.people.Role;
import org.splicebook.people.Token;
import org.splicebook.people.User;
import org.splicebook.problem.Result;
import org.splicebook.render.Json;

/** The people of a running server, reached over its API. */
public final class ServedPeople implements Registry {
    private final Client client;

    /** Speaks to the server at that address; key is what lets the owner of its process in, empty where nobody has to sign in. */
    public ServedPeople(URI server, String key) {
        this.client = new Client(server.resolve(Api.BASE + "/"), key);
    }

    @Override
    public List<User> users() {
        return list("users", PeopleJson::readUser);
    }

    @Override
    public Result<User> addUser(String name, String password, List<Grant> grants) {
        if (users().stream().anyMatch(u -> u.name().equals(name))) {
            return Result.failed(Failures.problem(
                    org.splicebook.problem.ProblemKind.DUPLICATE,
                    "There is a user " + name + " already.",
                    "Choose another name."));
        }
        return putUser(name, password, grants);
    }

    @Override
    public Result<User> setPassword(String name, String password) {
        return known(name) ? putUser(name, password, null) : notThere(name);
    }

    @Override
    public Result<User> setGrants(String name, List<Grant> grants) {
        return known(name) ? putUser(name, null, grants) : notThere(name);
    }

    private boolean known(String name) {
        return users().stream().anyMatch(u -> u.name().equals(name));
    }

    private static Result<User> notThere(String name) {
        return Result.failed(Failures.problem(
                org.splicebook.problem.ProblemKind.NOT_FOUND,
                "There is no user " + name + ".",
                "Look at the list of them."));
    }

    private Result<User> putUser(String name, @Nullable String password, @Nullable List<Grant> grants) {
        ObjectNode body = Json.object();
        if (password != null) {
            body.put("password", password);
        }
        if (grants != null) {
            body.set("roles", Json.tree(PeopleJson.said(grants)));
        }
        return sent("PUT", Client.path("users", name), body, PeopleJson::readUser);
    }

    @Override
    public Result<User> removeUser(String name) {
        return removed(Client.path("users", name), PeopleJson::readUser);
    }

    @Override
    public List<Token> tokens() {
        return list("tokens", PeopleJson::readToken);
    }

    @Override
    public Result<Issued> addToken(String user, String label, Role atMost, @Nullable Duration lasting) {
        ObjectNode body = Json.object();
        body.put("user", user);
        body.put("label", label);
        body.put("atMost", atMost.word());
        if (lasting != null) {
            body.put("lasting", lasting.toString());
        }
        return sent("POST", "tokens", body, PeopleJson::readIssued);
    }

    @Override
    public Result<Token> removeToken(String id) {
        return removed(Client.path("tokens", id), PeopleJson::readToken);
    }

    @Override
    public List<Invitation> invitations() {
        return list("invitations", PeopleJson::readInvitation);
    }

    @Override
    public Result<Issued> invite(String label, Grant grant, Duration lasting, boolean once) {
        ObjectNode body = Json.object();
        body.put("label", label);
        body.put("role", grant.said());
        body.put("lasting", lasting.toString());
        body.put("once", once);
        return sent("POST", "invitations", body, PeopleJson::readIssued);
    }

    @Override
    public Result<Invitation> removeInvitation(String id) {
        return removed(Client.path("invitations", id), PeopleJson::readInvitation);
    }

    @Override
    public List<AuditEntry> audit(int most, String house) {
        String query = Client.query(Map.of("most", String.valueOf(most), "house", house));
        return list("audit" + query, PeopleJson::readEntry);
    }

    private <T> List<T> list(String path, Function<JsonNode, T> each) {
        List<T> all = new ArrayList<>();
        client.send("GET", path, null, "").json().forEach(n -> all.add(each.apply(n)));
        return all;
    }

    private <T> Result<T> sent(String method, String path, ObjectNode body, Function<JsonNode, T> read) {
        return client.result(() -> client.send(method, path, "application/json", Json.text(body)))
                .map(a -> read.apply(a.json()));
    }

    private <T> Result<T> removed(String path, Function<JsonNode, T> read) {
        return client.result(() -> client.send("DELETE", path, null, "")).map(a -> read.apply(a.json()));
    }

    @Override
    public void close() {
        // The server keeps them; nothing here is held open.
    }
}
