package org.splicebook.web;

import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.http.Context;
import java.io.IOException;
import java.util.List;
import org.splicebook.record.House;
import org.splicebook.record.Sighting;
import org.splicebook.render.Json;
import org.splicebook.store.HouseStore;

/** Sightings: read and appended, never changed. */
final class SightingApi {
    private static final String PATH = Api.BASE + "/houses/{house}/sightings";

    private final HouseStore store;
    private final int largestBody;

    SightingApi(HouseStore store, int largestBody) {
        this.store = store;
        this.largestBody = largestBody;
    }

    List<Route> routes() {
        return List.of(Route.get(PATH, this::list), Route.post(PATH, this::append));
    }

    private void list(Context ctx) {
        House house = house(ctx);
        Api.json(ctx, HouseText.write(house, store.sightings(house.id())));
    }

    private void append(Context ctx) throws IOException {
        House house = house(ctx);
        List<Sighting> sightings =
                HouseText.parse(house, Body.text(ctx, largestBody)).get();
        int fresh = store.appendSightings(house.id(), sightings).get();
        ObjectNode answer = Json.object();
        answer.put("received", sightings.size());
        answer.put("new", fresh);
        Api.json(ctx, answer);
    }

    private House house(Context ctx) {
        return store.findHouse(Api.house(ctx))
                .orElseThrow(() -> Api.notFound(ctx))
                .house();
    }
}
