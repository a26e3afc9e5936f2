package org.splicebook.web;

import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.http.Context;
import java.io.IOException;
import java.util.List;
import org.splicebook.drafts.DraftDesk;
import org.splicebook.loadflow.FlowReport;
import org.splicebook.loadflow.FlowResult;
import org.splicebook.loadflow.LoadCase;
import org.splicebook.loadflow.LoadFlow;
import org.splicebook.loadflow.Report;
import org.splicebook.loadflow.SpiceText;
import org.splicebook.render.FlowJson;
import org.splicebook.render.FlowReportJson;
import org.splicebook.store.HouseStore;

/** Volts and amperes of a house in a state that the body says, reports on it, and the circuit for other simulators. */
final class FlowApi {
    private static final String PATH = Api.BASE + "/houses/{house}/flow";

    private static final String OF_A_DRAFT = Api.BASE + "/houses/{house}/drafts/{draft}/flow";
    private static final String DRAFT = "draft";

    private final HouseStore store;
    private final DraftDesk desk;
    private final int largestBody;

    FlowApi(HouseStore store, int largestBody) {
        this.store = store;
        this.desk = new DraftDesk(store);
        this.largestBody = largestBody;
    }

    List<Route> routes() {
        return List.of(
                Route.post(PATH, this::solve),
                Route.post(PATH + "/netlist", this::netlist),
                Route.get(PATH + "/reports", ctx -> Api.json(ctx, FlowReportJson.list())),
                Route.post(PATH + "/reports/{report}", this::report),
                Route.post(OF_A_DRAFT, this::solve),
                Route.post(OF_A_DRAFT + "/reports/{report}", this::report));
    }

    private void solve(Context ctx) throws IOException {
        LoadFlow flow = flow(ctx);
        Api.json(ctx, marked(ctx, FlowJson.write(FlowResult.of(flow, body(ctx).state(flow, false)))));
    }

    private void netlist(Context ctx) throws IOException {
        LoadFlow flow = flow(ctx);
        LoadCase state = body(ctx).state(flow, false);
        ctx.contentType("text/plain; charset=utf-8")
                .result(SpiceText.of(flow.solve(state).get()));
    }

    private void report(Context ctx) throws IOException {
        LoadFlow flow = flow(ctx);
        FlowBody body = body(ctx);
        String word = ctx.pathParam("report");
        Report<?> report = body.report(flow, word, body.state(flow, true));
        Api.json(
                ctx,
                marked(
                        ctx,
                        FlowReportJson.write(
                                flow.circuit().house(), FlowReport.of(word).orElseThrow(), report)));
    }

    private FlowBody body(Context ctx) throws IOException {
        return new FlowBody(Body.text(ctx, largestBody));
    }

    private static boolean isOfADraft(Context ctx) {
        return ctx.pathParamMap().containsKey(DRAFT);
    }

    private static ObjectNode marked(Context ctx, ObjectNode o) {
        return isOfADraft(ctx) ? o.put(DRAFT, true) : o;
    }

    private LoadFlow flow(Context ctx) {
        String house = Api.house(ctx);
        return LoadFlow.of(
                isOfADraft(ctx)
                        ? desk.compared(desk.find(house, ctx.pathParam(DRAFT)))
                                .drafted()
                                .house()
                        : store.findHouse(house)
                                .orElseThrow(() -> Api.notFound(ctx))
                                .house());
    }
}
