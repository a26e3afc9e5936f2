package org.splicebook.web;

import com.fasterxml.jackson.databind.JsonNode;
import io.javalin.http.Context;
import java.util.List;
import java.util.Objects;
import java.util.stream.Stream;
import org.splicebook.people.Registry;
import org.splicebook.people.Visitors;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.render.Json;
import org.splicebook.store.Files;
import org.splicebook.store.HouseStore;

/** The routes of the API, and what they share. */
final class Api {
    /** Where the API lies. */
    static final String BASE = "/api/v1";

    private Api() {}

    static List<Route> routes(
            HouseStore store, Files files, Registry registry, Watch watch, Searches searches, WebSettings settings) {
        return Stream.of(
                        new HouseApi(store, settings.largestBody()).routes(),
                        new SightingApi(store, settings.largestBody()).routes(),
                        new QuestionApi(store).routes(),
                        new DrawingApi(store).routes(),
                        new SheetApi(store, files).routes(),
                        new DraftApi(store, settings.largestBody()).routes(),
                        new KeptDraftApi(store, files, settings.largestBody()).routes(),
                        new SearchApi(store, searches, settings.largestBody()).routes(),
                        new FlowApi(store, settings.largestBody()).routes(),
                        new DemandApi(store, settings.largestBody()).routes(),
                        new PlanApi(store, settings.largestBody()).routes(),
                        new SubpanelPages(store).api(),
                        new FindingApi(store, settings).routes(),
                        new TableApi(store).routes(),
                        new VisitApi(store, settings.largestBody()).routes(),
                        new ListPages(store, settings.largestBody()).routes(),
                        new ArchivePage(store, files).routes(),
                        new ArchiveBody(store, files).routes(),
                        new TestPages(store, settings.largestBody()).routes(),
                        new ChangePage(store).routes(),
                        new PropertyApi(store, settings.largestBody()).routes(),
                        new PeopleApi(registry, settings.largestBody()).routes(),
                        watch.routes(),
                        new StoreApi(store, settings).routes())
                .flatMap(List::stream)
                .toList();
    }

    static void json(Context ctx, JsonNode tree) {
        ctx.contentType("application/json").result(Json.text(tree));
    }

    static String house(Context ctx) {
        return ctx.pathParam("house");
    }

    /** {@return who writes, as the request says} */
    static String who(Context ctx) {
        return Visitors.now().isOwner()
                ? Objects.requireNonNullElse(ctx.queryParam("who"), "someone on this machine")
                : Visitors.now().name();
    }

    /** {@return why, as the request says} */
    static String why(Context ctx) {
        return Objects.requireNonNullElse(ctx.queryParam("why"), "");
    }

    static ProblemException notFound(Context ctx) {
        return Failures.failure(
                ProblemKind.NOT_FOUND,
                "There is no house '" + house(ctx) + "', or not in that revision.",
                "GET " + BASE + "/houses lists the houses.");
    }
}
