package org.splicebook.web;

import com.fasterxml.jackson.databind.JsonNode;
import io.javalin.http.Context;
import java.io.IOException;
import java.time.DateTimeException;
import java.time.Duration;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.splicebook.people.Grant;
import org.splicebook.people.Registry;
import org.splicebook.people.Role;
import org.splicebook.people.User;
import org.splicebook.people.Visitors;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.problem.Where;
import org.splicebook.render.Json;

/** People: users, tokens, invitations, the log; and who one is oneself. */
final class PeopleApi {
    private static final int MOST_ENTRIES = 200;

    private final Registry registry;
    private final int largestBody;

    PeopleApi(Registry registry, int largestBody) {
        this.registry = registry;
        this.largestBody = largestBody;
    }

    List<Route> routes() {
        return List.of(
                Route.get(Api.BASE + "/me", ctx -> Api.json(ctx, PeopleJson.write(Visitors.now()))),
                Route.get(Api.BASE + "/users", ctx -> Api.json(ctx, Json.list(registry.users(), PeopleJson::write))),
                Route.put(Api.BASE + "/users/{user}", this::putUser),
                Route.delete(
                        Api.BASE + "/users/{user}",
                        ctx -> Api.json(
                                ctx,
                                PeopleJson.write(registry.removeUser(ctx.pathParam("user"))
                                        .get()))),
                Route.get(Api.BASE + "/tokens", ctx -> Api.json(ctx, Json.list(registry.tokens(), PeopleJson::write))),
                Route.post(Api.BASE + "/tokens", this::addToken),
                Route.delete(
                        Api.BASE + "/tokens/{token}",
                        ctx -> Api.json(
                                ctx,
                                PeopleJson.write(registry.removeToken(ctx.pathParam("token"))
                                        .get()))),
                Route.get(
                        Api.BASE + "/invitations",
                        ctx -> Api.json(ctx, Json.list(registry.invitations(), PeopleJson::write))),
                Route.post(Api.BASE + "/invitations", this::invite),
                Route.delete(
                        Api.BASE + "/invitations/{invitation}",
                        ctx -> Api.json(
                                ctx,
                                PeopleJson.write(registry.removeInvitation(ctx.pathParam("invitation"))
                                        .get()))),
                Route.get(Api.BASE + "/audit", this::audit));
    }

    private JsonNode body(Context ctx) throws IOException {
        return Json.read(Body.text(ctx, largestBody));
    }

    /** Adds a user, or changes what is said of one. */
    private void putUser(Context ctx) throws IOException {
        JsonNode body = body(ctx);
        String name = ctx.pathParam("user");
        boolean isThere = registry.users().stream().anyMatch(u -> u.name().equals(name));
        String password = body.path("password").asText("");
        List<Grant> grants = PeopleJson.grants(body.path("roles"));
        if (!isThere) {
            User made = registry.addUser(name, password, grants).get();
            ctx.status(201);
            Api.json(ctx, PeopleJson.write(made));
            return;
        }
        if (!body.has("password") && !body.has("roles")) {
            throw wrong(
                    ProblemKind.MISSING, "roles", "Neither a password nor roles are said.", "Say what is to change.");
        }
        if (body.has("password")) {
            registry.setPassword(name, password).get();
        }
        Result<User> changed = body.has("roles")
                ? registry.setGrants(name, grants)
                : Result.ok(registry.users().stream()
                        .filter(u -> u.name().equals(name))
                        .findFirst()
                        .orElseThrow(
                                () -> Failures.failure(ProblemKind.NOT_FOUND, "There is no user " + name + ".", "")));
        Api.json(ctx, PeopleJson.write(changed.get()));
    }

    private void addToken(Context ctx) throws IOException {
        JsonNode body = body(ctx);
        String most = body.path("atMost").asText(Role.MANAGER.word());
        Role role = Role.of(most)
                .orElseThrow(() -> wrong(
                        ProblemKind.BAD_VALUE,
                        "atMost",
                        "'" + most + "' is not a role.",
                        "Say reader, recorder or manager."));
        ctx.status(201);
        Api.json(
                ctx,
                PeopleJson.write(registry.addToken(
                                body.path("user").asText(""),
                                body.path("label").asText(""),
                                role,
                                body.has("lasting") ? lasting(body) : null)
                        .get()));
    }

    private void invite(Context ctx) throws IOException {
        JsonNode body = body(ctx);
        Grant grant = Grant.parse(body.path("role").asText("")).get();
        ctx.status(201);
        Api.json(
                ctx,
                PeopleJson.write(registry.invite(
                                body.path("label").asText(""),
                                grant,
                                lasting(body),
                                body.path("once").asBoolean(false))
                        .get()));
    }

    private static Duration lasting(JsonNode body) {
        String said = body.path("lasting").asText("");
        try {
            return Duration.parse(said);
        } catch (DateTimeException e) {
            throw wrong(
                    ProblemKind.BAD_VALUE,
                    "lasting",
                    "'" + said + "' is not a time.",
                    "Write PT15M for 15 minutes, P7D for seven days.");
        }
    }

    private void audit(Context ctx) {
        @Nullable String most = ctx.queryParam("most");
        String house = Objects.requireNonNullElse(ctx.queryParam("house"), "");
        if (most != null && !most.matches("[1-9][0-9]{0,4}")) {
            throw wrong(ProblemKind.BAD_VALUE, "most", "'" + most + "' is not a number of entries.", "Say 1 to 10000.");
        }
        Api.json(
                ctx,
                Json.list(
                        registry.audit(most == null ? MOST_ENTRIES : Integer.parseInt(most), house),
                        PeopleJson::write));
    }

    private static ProblemException wrong(ProblemKind kind, String field, String message, String cure) {
        return new ProblemException(Problem.error(kind, Where.field(field), message, cure));
    }
}
