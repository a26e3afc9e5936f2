package org.splicebook.web;

import io.javalin.http.Context;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.render.Json;
import org.splicebook.render.QuestionJson;
import org.splicebook.render.ReplyJson;
import org.splicebook.store.HouseStore;

/** Questions and their replies. */
final class QuestionApi {
    private final HouseStore store;

    QuestionApi(HouseStore store) {
        this.store = store;
    }

    List<Route> routes() {
        return List.of(
                Route.get(Api.BASE + "/questions", this::list),
                Route.get(Api.BASE + "/questions/{question}", ctx -> ask(ctx, "")),
                Route.get(Api.BASE + "/houses/{house}/questions/{question}", ctx -> ask(ctx, Api.house(ctx))),
                Route.get(Api.BASE + "/houses/{house}/shut-off", ctx -> ask(ctx, "shut-off", Api.house(ctx))),
                Route.get(Api.BASE + "/houses/{house}/dark", ctx -> ask(ctx, "dark", Api.house(ctx))));
    }

    private void list(Context ctx) {
        Api.json(ctx, Json.list(store.questions(), QuestionJson::write));
    }

    private void ask(Context ctx, String house) {
        ask(ctx, ctx.pathParam("question"), house);
    }

    private void ask(Context ctx, String question, String house) {
        Api.json(
                ctx, ReplyJson.write(store.ask(question, house, parameters(ctx)).get()));
    }

    /** {@return the query's parameters, each given once} */
    static Map<String, String> parameters(Context ctx) {
        Map<String, String> parameters = new LinkedHashMap<>();
        ctx.queryParamMap().forEach((name, values) -> {
            if (values.size() != 1) {
                throw new ProblemException(Problem.error(
                        ProblemKind.DUPLICATE,
                        Where.field(name),
                        "The parameter is given " + values.size() + " times.",
                        "Give it once."));
            }
            parameters.put(name, values.get(0));
        });
        return parameters;
    }
}
