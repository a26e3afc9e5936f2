package org.splicebook.web;

import io.javalin.http.Context;
import java.io.IOException;
import java.util.List;
import org.splicebook.record.House;
import org.splicebook.render.DemandJson;
import org.splicebook.store.HouseStore;

/** What a house demands of its service, with what the body says beside its record. */
final class DemandApi {
    private final HouseStore store;
    private final int largestBody;

    DemandApi(HouseStore store, int largestBody) {
        this.store = store;
        this.largestBody = largestBody;
    }

    List<Route> routes() {
        return List.of(Route.post(Api.BASE + "/houses/{house}/demand", this::demand));
    }

    private void demand(Context ctx) throws IOException {
        House house = store.findHouse(Api.house(ctx))
                .orElseThrow(() -> Api.notFound(ctx))
                .house();
        Api.json(ctx, DemandJson.write(house.id(), new DemandBody(Body.text(ctx, largestBody)).study(house)));
    }
}
