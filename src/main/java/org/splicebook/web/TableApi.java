package org.splicebook.web;

import io.javalin.http.Context;
import java.util.List;
import org.splicebook.answer.Reply;
import org.splicebook.problem.ProblemKind;
import org.splicebook.render.GraphMl;
import org.splicebook.render.TableFile;
import org.splicebook.store.HouseStore;
import org.splicebook.store.StoredHouse;
import org.splicebook.web.view.Link;
import org.splicebook.wiring.Derivation;

/** Replies as files for spreadsheets. */
final class TableApi {
    private final HouseStore store;

    TableApi(HouseStore store) {
        this.store = store;
    }

    List<Route> routes() {
        return List.of(
                Route.get(Api.BASE + "/questions/{question}/table.{form}", ctx -> write(ctx, ask(ctx, ""))),
                Route.get(Api.BASE + "/houses/{house}/house.graphml", this::graph),
                Route.get(
                        Api.BASE + "/houses/{house}/questions/{question}/table.{form}",
                        ctx -> write(ctx, ask(ctx, Api.house(ctx)))),
                Route.get(
                        Api.BASE + "/properties/{property}/questions/{question}/table.{form}",
                        ctx -> write(ctx, PropertyApi.reply(store, ctx))));
    }

    private void graph(Context ctx) {
        StoredHouse stored = Sent.house(store, ctx);
        ctx.contentType("application/graphml+xml")
                .header(
                        "Content-Disposition",
                        "attachment; filename=\"" + stored.house().id() + ".graphml\"")
                .result(GraphMl.of(
                        Derivation.derive(stored.house()), stored.revision().number()));
    }

    private Reply ask(Context ctx, String house) {
        return store.ask(ctx.pathParam("question"), house, QuestionApi.parameters(ctx))
                .get();
    }

    private static void write(Context ctx, Reply reply) {
        String name = reply.heading().question() + "." + ctx.pathParam("form");
        TableFile.Form form = TableFile.Form.of(name)
                .orElseThrow(() -> Failures.failure(
                        ProblemKind.NOT_FOUND,
                        "There is no table of that form.",
                        "There are table.csv and table.xlsx."));
        ctx.contentType(form.type())
                .header("Content-Disposition", "attachment; filename=\"" + name.replaceAll("[^a-z0-9.-]", "") + "\"")
                .result(TableFile.of(reply, form));
    }

    /** {@return links to the tables of a reply, whose question lies there in the API} */
    static List<Link> links(Reply reply, String base) {
        StringBuilder query = new StringBuilder();
        reply.heading()
                .parameters()
                .forEach((name, value) -> query.append(query.isEmpty() ? "?" : "&")
                        .append(Paths.part(name))
                        .append('=')
                        .append(Paths.part(value)));
        String table =
                Api.BASE + base + "/questions/" + Paths.part(reply.heading().question()) + "/table.";
        return List.of(
                new Link(table + "csv" + query, "The rows as CSV", ""),
                new Link(table + "xlsx" + query, "The rows as a spreadsheet", "XLSX"));
    }
}
