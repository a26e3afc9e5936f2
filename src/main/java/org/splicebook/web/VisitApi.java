package org.splicebook.web;

import com.fasterxml.jackson.databind.JsonNode;
import io.javalin.http.Context;
import java.io.IOException;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import org.splicebook.people.Visitors;
import org.splicebook.problem.ProblemKind;
import org.splicebook.render.Json;
import org.splicebook.store.HouseStore;
import org.splicebook.store.Paper;
import org.splicebook.store.Papers;
import org.splicebook.visits.Residents;
import org.splicebook.visits.VisitDesk;

/** Visits and residents over the API. */
final class VisitApi {
    private static final String VISITS = Api.BASE + "/houses/{house}/visits";
    private static final String RESIDENTS = Api.BASE + "/houses/{house}/residents";

    private final HouseStore store;
    private final int largestBody;

    VisitApi(HouseStore store, int largestBody) {
        this.store = store;
        this.largestBody = largestBody;
    }

    List<Route> routes() {
        return List.of(
                Route.get(VISITS, ctx -> list(ctx, Papers.VISIT)),
                Route.get(VISITS + "/{visit}", ctx -> one(ctx, Papers.VISIT, ctx.pathParam("visit"))),
                Route.post(VISITS + "/{visit}/steps", this::take),
                Route.get(RESIDENTS, ctx -> list(ctx, Papers.RESIDENT)),
                Route.put(RESIDENTS + "/{resident}", this::keep),
                Route.delete(RESIDENTS + "/{resident}", this::erase),
                Route.get(Api.BASE + "/houses/{house}/care", this::care));
    }

    private void list(Context ctx, String kind) {
        String house = Sent.house(store, ctx).house().id();
        Api.json(ctx, Json.list(store.papers().list(kind, house), PaperJson::write));
    }

    private void one(Context ctx, String kind, String name) {
        String house = Sent.house(store, ctx).house().id();
        Paper paper = store.papers().find(kind, house, name).orElseThrow(() -> none(name));
        Api.json(ctx, PaperJson.write(paper));
    }

    private static org.splicebook.problem.ProblemException none(String name) {
        return Failures.failure(ProblemKind.NOT_FOUND, "There is no " + name + " there.", "Look at the list.");
    }

    private void take(Context ctx) throws IOException {
        JsonNode body = Json.read(Body.text(ctx, largestBody));
        String house = Sent.house(store, ctx).house().id();
        String name = ctx.pathParam("visit");
        var unused = new VisitDesk(store)
                .take(
                        house,
                        name,
                        body.path("step").asText(),
                        PaperJson.said(body.path("said")),
                        body.path("version").asLong(),
                        Api.who(ctx));
        one(ctx, Papers.VISIT, name);
    }

    private void keep(Context ctx) throws IOException {
        JsonNode body = Json.read(Body.text(ctx, largestBody));
        String house = Sent.house(store, ctx).house().id();
        new Residents(store).keep(house, ctx.pathParam("resident"), PaperJson.said(body), Instant.now(), Api.who(ctx));
        Api.json(ctx, Json.tree(Map.of("kept", ctx.pathParam("resident"))));
    }

    private void erase(Context ctx) {
        String name = ctx.pathParam("resident");
        if (!new Residents(store).erase(Sent.house(store, ctx).house().id(), name)) {
            throw none(name);
        }
        Api.json(ctx, Json.tree(Map.of("erased", name)));
    }

    /** That somebody depends on power, and not who. */
    private void care(Context ctx) {
        String house = Sent.house(store, ctx).house().id();
        Api.json(ctx, Json.tree(Map.of("depends", store.papers().isMarked(Papers.RESIDENT, house))));
    }

    /** {@return who works at the pages} */
    static String atThePages() {
        return Visitors.now().isOwner()
                ? "someone at the pages"
                : Visitors.now().name();
    }
}
