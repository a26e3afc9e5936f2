package org.splicebook.web;

import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.http.Context;
import java.io.IOException;
import java.util.List;
import org.splicebook.housefile.DraftFiles;
import org.splicebook.panelplan.schedule.Scheduler;
import org.splicebook.panelplan.upgrade.Papers;
import org.splicebook.panelplan.upgrade.UpgradePlan;
import org.splicebook.panelplan.upgrade.Upgrades;
import org.splicebook.record.House;
import org.splicebook.render.PlanJson;
import org.splicebook.rules.Packs;
import org.splicebook.store.HouseStore;
import org.splicebook.store.StoredHouse;

/** A plan for a new panel, with its pages and its moves. Nothing is stored. */
final class PlanApi {
    private final HouseStore store;
    private final int largestBody;

    PlanApi(HouseStore store, int largestBody) {
        this.store = store;
        this.largestBody = largestBody;
    }

    List<Route> routes() {
        return List.of(Route.post(Api.BASE + "/houses/{house}/plan", this::plan));
    }

    private void plan(Context ctx) throws IOException {
        StoredHouse stored = store.findHouse(Api.house(ctx)).orElseThrow(() -> Api.notFound(ctx));
        House house = stored.house();
        PlanBody body = new PlanBody(Body.text(ctx, largestBody));
        UpgradePlan plan = Upgrades.plan(
                        house,
                        Packs.of(house),
                        body.wanted(house),
                        stored.revision().number(),
                        Scheduler.Progress.NONE)
                .get();
        ObjectNode told = PlanJson.write(plan, Papers.of(plan, body.prices()));
        Api.json(ctx, told.put("draftFile", DraftFiles.write(plan.draft())));
    }
}
