package org.splicebook.web;

import io.javalin.http.Context;
import java.io.IOException;
import java.util.List;
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

    private final HouseStore store;
    private final int largestBody;

    FlowApi(HouseStore store, int largestBody) {
        this.store = store;
        this.largestBody = largestBody;
    }

    List<Route> routes() {
        return List.of(
                Route.post(PATH, this::solve),
                Route.post(PATH + "/netlist", this::netlist),
                Route.get(PATH + "/reports", ctx -> Api.json(ctx, FlowReportJson.list())),
                Route.post(PATH + "/reports/{report}", this::report));
    }

    private void solve(Context ctx) throws IOException {
        LoadFlow flow = flow(ctx);
        Api.json(ctx, FlowJson.write(FlowResult.of(flow, body(ctx).state(flow, false))));
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
                FlowReportJson.write(flow.circuit().house(), FlowReport.of(word).orElseThrow(), report));
    }

    private FlowBody body(Context ctx) throws IOException {
        return new FlowBody(Body.text(ctx, largestBody));
    }

    private LoadFlow flow(Context ctx) {
        return LoadFlow.of(store.findHouse(Api.house(ctx))
                .orElseThrow(() -> Api.notFound(ctx))
                .house());
    }
}
