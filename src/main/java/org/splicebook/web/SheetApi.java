package org.splicebook.web;

import io.javalin.http.Context;
import java.util.List;
import java.util.Objects;
import org.splicebook.store.Files;
import org.splicebook.store.HouseStore;
import org.splicebook.store.StoredHouse;

/** Sheets to print, as PDF. */
final class SheetApi {
    private final HouseStore store;
    private final Files files;

    SheetApi(HouseStore store, Files files) {
        this.store = store;
        this.files = files;
    }

    List<Route> routes() {
        return List.of(Route.get(Api.BASE + "/houses/{house}/sheets/{kind}.pdf", this::print));
    }

    private void print(Context ctx) {
        StoredHouse stored = store.findHouse(Api.house(ctx)).orElseThrow(() -> Api.notFound(ctx));
        byte[] pdf = HouseSheets.pdf(
                store,
                files,
                stored,
                ctx.pathParam("kind"),
                Objects.requireNonNullElse(ctx.queryParam("of"), ""),
                Objects.requireNonNullElse(ctx.queryParam("paper"), "a4"));
        ctx.contentType("application/pdf").result(pdf);
    }
}
