package org.splicebook.web;

import io.javalin.http.Context;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.record.House;
import org.splicebook.render.Json;
import org.splicebook.render.drawing.DrawingKind;
import org.splicebook.render.drawing.Drawings;
import org.splicebook.store.HouseStore;
import org.splicebook.wiring.Derivation;

/** Drawings of a house's wiring, as SVG. */
final class DrawingApi {
    static final String SVG = "image/svg+xml; charset=utf-8";
    private static final String PATH = Api.BASE + "/houses/{house}/drawings";

    private final HouseStore store;

    DrawingApi(HouseStore store) {
        this.store = store;
    }

    List<Route> routes() {
        return List.of(Route.get(PATH, DrawingApi::list), Route.get(PATH + "/{kind}", this::draw));
    }

    private static void list(Context ctx) {
        Api.json(
                ctx,
                Json.list(
                        Arrays.asList(DrawingKind.values()),
                        k -> Json.object()
                                .put("kind", k.word())
                                .put("shows", k.shows())
                                .put("of", k.subject())));
    }

    private void draw(Context ctx) {
        DrawingKind kind = kind(ctx.pathParam("kind"));
        String subject = Objects.requireNonNullElse(ctx.queryParam("of"), "");
        String svg = Drawings.of(kind, Derivation.derive(house(ctx)), subject).svg();
        ctx.contentType(SVG).result(svg);
    }

    /** {@return the kind of drawing of that word} */
    static DrawingKind kind(String word) {
        return DrawingKind.find(word)
                .orElseThrow(() -> new ProblemException(Problem.error(
                        ProblemKind.NOT_FOUND,
                        Where.field("kind"),
                        "'" + word + "' is nothing that can be drawn.",
                        "There are " + DrawingKind.words() + ".")));
    }

    private House house(Context ctx) {
        String revision = ctx.queryParam("revision");
        return (revision == null
                        ? store.findHouse(Api.house(ctx))
                        : store.findRevision(Api.house(ctx), HouseApi.number(revision)))
                .orElseThrow(() -> Api.notFound(ctx))
                .house();
    }
}
