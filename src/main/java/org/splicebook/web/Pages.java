package org.splicebook.web;

import io.javalin.http.Context;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.util.List;
import org.splicebook.answer.Question;
import org.splicebook.answer.Reply;
import org.splicebook.problem.Problem;
import org.splicebook.store.HouseStore;
import org.splicebook.store.Revision;

/** The few pages: where to begin, a house with its questions, a reply, and the contract to try out. */
final class Pages {
    private static final String JOB = """
            <p>Someone is about to touch the wiring of an older home. Before a cover comes off they must know what every wire
            behind it belongs to: which breaker feeds it, where its neutral returns, which protective device it relies on, what
            else goes off with it and what stays live. Splicebook keeps what was seen, tested and read on labels, and answers
            from that, with its reasons.</p>
            """;

    private final HouseStore store;

    Pages(HouseStore store) {
        this.store = store;
    }

    List<Route> routes() {
        return List.of(
                Route.get("/", this::start),
                Route.get("/houses/{house}", this::house),
                Route.get("/houses/{house}/questions/{question}", ctx -> reply(ctx, Api.house(ctx))),
                Route.get("/questions/{question}", ctx -> reply(ctx, "")),
                Route.get("/api", ctx -> ctx.html(Resources.text("api.html"))),
                Route.get(
                        "/assets/style.css",
                        ctx -> ctx.contentType("text/css; charset=utf-8").result(Resources.text("style.css"))),
                Route.get(
                        "/assets/api.js",
                        ctx -> ctx.contentType("text/javascript; charset=utf-8").result(Resources.text("api.js"))));
    }

    private void start(Context ctx) {
        List<Revision> houses = store.listHouses();
        String listed = houses.isEmpty()
                ? "<p>No house is stored yet. The command <code>load</code> stores one from a house file.</p>"
                : "<ul>"
                        + Html.each(
                                houses,
                                r -> "<li>" + link("/houses/" + path(r.house()), r.name()) + ", revision " + r.number()
                                        + "</li>")
                        + "</ul>";
        List<Question> across =
                store.questions().stream().filter(Question::acrossHouses).toList();
        ctx.html(Html.page(
                "Splicebook",
                JOB + "<h2>Houses</h2>\n" + listed + "\n" + questions("Questions across houses", "", across)
                        + "<h2>For programs</h2>\n<p>" + link("/api", "The API, to read and to try") + "</p>"));
    }

    private void house(Context ctx) {
        String id = Api.house(ctx);
        Revision r = store.findHouse(id).orElseThrow(() -> Api.notFound(ctx)).revision();
        List<Question> own =
                store.questions().stream().filter(q -> !q.acrossHouses()).toList();
        ctx.html(Html.page(
                r.name(),
                "<p>House <code>" + Html.text(id) + "</code>, revision " + r.number() + ", stored "
                        + Html.text(r.stored()) + ".</p>" + questions("Questions", "/houses/" + path(id), own)));
    }

    private static String questions(String title, String base, List<Question> questions) {
        return questions.isEmpty()
                ? ""
                : "<h2>" + title + "</h2>\n" + Html.each(questions, q -> form(base + "/questions/" + path(q.id()), q));
    }

    private static String form(String action, Question q) {
        String fields = Html.each(
                q.parameters(),
                p -> "<label>" + Html.text(p.name()) + " <input name=\"" + Html.text(p.name())
                        + "\" value=\"" + Html.text(p.otherwise()) + "\""
                        + (p.otherwise().isEmpty() ? " required" : "") + "> <small>"
                        + Html.text(p.meaning()) + "</small></label>");
        return "<form action=\"" + Html.text(action) + "\"><p>" + Html.text(q.words()) + "</p>" + fields
                + "<button>Ask</button></form>";
    }

    private void reply(Context ctx, String house) {
        Reply reply = store.ask(ctx.pathParam("question"), house, QuestionApi.parameters(ctx))
                .get();
        ctx.html(ReplyPage.write(reply));
    }

    /** {@return a page that says what went wrong} */
    static String failed(List<Problem> problems) {
        return Html.page(
                "That did not work",
                Html.list("Why", problems.stream().map(Problem::said).toList()));
    }

    private static String link(String to, String words) {
        return "<a href=\"" + Html.text(to) + "\">" + Html.text(words) + "</a>";
    }

    private static String path(String segment) {
        return URLEncoder.encode(segment, StandardCharsets.UTF_8).replace("+", "%20");
    }
}
