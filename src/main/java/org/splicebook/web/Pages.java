package org.splicebook.web;

import com.github.benmanes.caffeine.cache.Cache;
import com.github.benmanes.caffeine.cache.Caffeine;
import io.javalin.http.Context;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.splicebook.answer.Caution;
import org.splicebook.answer.Leads;
import org.splicebook.answer.Question;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.render.FindingsText;
import org.splicebook.render.PanelDirectory;
import org.splicebook.render.drawing.Drawing;
import org.splicebook.render.drawing.DrawingKind;
import org.splicebook.render.drawing.Drawings;
import org.splicebook.rules.Acceptances;
import org.splicebook.rules.AsksProtection;
import org.splicebook.rules.Finding;
import org.splicebook.rules.Severity;
import org.splicebook.store.Files;
import org.splicebook.store.HouseStore;
import org.splicebook.store.StoredHouse;
import org.splicebook.web.view.Card;
import org.splicebook.web.view.Form;
import org.splicebook.web.view.HouseBar;
import org.splicebook.web.view.HousePage;
import org.splicebook.web.view.Link;
import org.splicebook.web.view.Section;

/** The pages: houses, one house, a card for each of its things, findings, questions, replies, drawings, the contract to try out. */
final class Pages {
    private static final String HOUSE = "/houses/{house}";
    private static final int MOST_KEPT = 30;
    private static final int FEWEST_FOLDED = 3;
    private static final DateTimeFormatter MINUTE = DateTimeFormatter.ofPattern("yyyy-MM-dd HH:mm", Locale.ROOT);

    private static final String HTMX = Resources.htmx();

    private record Key(String house, long number, String digest) {}

    private final HouseStore store;
    private final Files files;

    /** Revisions never change, so what is kept never goes stale. */
    private final Cache<Key, Look> looks =
            Caffeine.newBuilder().maximumSize(MOST_KEPT).build();

    Pages(HouseStore store, Files files) {
        this.store = store;
        this.files = files;
    }

    List<Route> routes() {
        return List.of(
                Route.get("/", this::start),
                Route.get(HOUSE, this::house),
                Route.get(HOUSE + "/search", this::search),
                Route.get(HOUSE + "/findings", this::findings),
                Route.get(HOUSE + "/findings/{rule}/{subject}", this::finding),
                Route.get(HOUSE + "/drawings/{kind}", this::drawing),
                Route.get(HOUSE + "/questions", this::questions),
                Route.get(HOUSE + "/questions/{question}", ctx -> reply(ctx, Api.house(ctx))),
                Route.get(HOUSE + "/points/{name}", ctx -> card(ctx, "points")),
                Route.get(HOUSE + "/boxes/{name}", ctx -> card(ctx, "boxes")),
                Route.get(HOUSE + "/breakers/{name}", ctx -> card(ctx, "breakers")),
                Route.get(HOUSE + "/cables/{name}", ctx -> card(ctx, "cables")),
                Route.get(HOUSE + "/places/{name}", ctx -> card(ctx, "places")),
                Route.get(HOUSE + "/panels/{name}", ctx -> card(ctx, "panels")),
                Route.get(HOUSE + "/panels/{name}/directory", this::directory),
                Route.get("/questions/{question}", ctx -> reply(ctx, "")),
                Route.get("/api", ctx -> ctx.html(Resources.text("api.html"))),
                Route.get(
                        "/assets/icon.svg",
                        ctx -> ctx.contentType("image/svg+xml").result(Resources.text("icon.svg"))),
                Route.get(
                        "/assets/style.css",
                        ctx -> ctx.contentType("text/css; charset=utf-8").result(Resources.text("style.css"))),
                Route.get(
                        "/assets/htmx.js",
                        ctx -> ctx.header("Cache-Control", "public, max-age=86400")
                                .contentType("text/javascript; charset=utf-8")
                                .result(HTMX)),
                Route.get(
                        "/assets/api.js",
                        ctx -> ctx.contentType("text/javascript; charset=utf-8").result(Resources.text("api.js"))));
    }

    private Look look(Context ctx) {
        StoredHouse stored = store.findHouse(Api.house(ctx)).orElseThrow(() -> Api.notFound(ctx));
        Key key = new Key(
                stored.revision().house(),
                stored.revision().number(),
                stored.revision().digest());
        return Objects.requireNonNull(looks.get(key, k -> Look.of(stored)));
    }

    private Cards cards(Look look) {
        String id = look.house().id();
        return new Cards(look, new Paths(id), store.sightings(id), files);
    }

    private static HouseBar bar(Look look) {
        return Paths.bar(look.stored());
    }

    private void start(Context ctx) {
        List<Link> houses = store.listHouses().stream()
                .map(r -> new Link(new Paths(r.house()).base(), r.name(), "revision " + r.number()))
                .toList();
        List<Form> across = store.questions().stream()
                .filter(Question::acrossHouses)
                .map(q -> form("", q))
                .toList();
        ctx.html(Templates.page(
                "houses",
                Map.of(
                        "houses",
                        houses,
                        "properties",
                        PropertyPages.links(store),
                        "finder",
                        PropertyPages.finder(),
                        "questions",
                        across)));
    }

    private void house(Context ctx) {
        Look look = look(ctx);
        HousePage page = HouseFront.of(look, store.sightings(look.house().id()).size());
        ctx.html(Templates.page("house", Map.of("bar", bar(look), "page", page)));
    }

    /** {@return a moment as people read it, to the minute, in universal time} */
    static String minute(Instant moment) {
        return MINUTE.format(moment.atZone(ZoneOffset.UTC)) + " UTC";
    }

    private void card(Context ctx, String kind) {
        Look look = look(ctx);
        String name = ctx.pathParam("name");
        @Nullable Card card = cards(look).of(kind, name);
        if (card == null) {
            throw noneCalled(look, name);
        }
        ctx.html(Templates.page("card", Map.of("bar", bar(look), "card", card)));
    }

    private void directory(Context ctx) {
        Look look = look(ctx);
        PanelDirectory d = PanelDirectory.of(look.wiring(), ctx.pathParam("name"));
        if (d == null) {
            throw noneCalled(look, ctx.pathParam("name"));
        }
        String stored = look.stored()
                .revision()
                .stored()
                .atZone(ZoneOffset.UTC)
                .toLocalDate()
                .toString();
        Pictured panel =
                Pictured.of(Objects.requireNonNull(look.house().panels().get(d.panel())));
        ctx.html(Templates.page(
                "directory",
                Map.of(
                        "bar",
                        bar(look),
                        "directory",
                        d,
                        "stored",
                        stored,
                        "pictures",
                        panel.pictures(new Paths(look.house().id()), files))));
    }

    private static ProblemException noneCalled(Look look, String name) {
        return Failures.failure(
                ProblemKind.NOT_FOUND,
                "The house " + look.house().id() + " has nothing called " + name + " there.",
                "Search for it by a part of its name.");
    }

    private void search(Context ctx) {
        Look look = look(ctx);
        String words = Objects.requireNonNullElse(ctx.queryParam("q"), "");
        List<Link> found = new Finder(look, new Paths(look.house().id())).search(words);
        listed(
                ctx,
                look,
                "Found by \"" + words + "\"",
                found.isEmpty() ? "Nothing of that name is recorded. Try a part of the name, or the room." : "",
                List.of(new Section("Names", found.size() + " found.", found)),
                List.of());
    }

    private void findings(Context ctx) {
        Look look = look(ctx);
        Cards cards = cards(look);
        Map<Severity, List<Finding>> by = new LinkedHashMap<>();
        look.checked()
                .open()
                .forEach(f ->
                        by.computeIfAbsent(f.severity(), k -> new ArrayList<>()).add(f));
        List<Section> sections = new ArrayList<>();
        if (look.checked().open().stream().anyMatch(f -> AsksProtection.of(f) != null)) {
            sections.add(new Section(
                    "Next",
                    "",
                    List.of(new Link(
                            new Paths(look.house().id()).base() + "/look?place=yes",
                            "Place protective devices for all that asks for them",
                            ""))));
        }
        by.forEach((s, found) -> sections.add(grouped(cards, s, found)));
        listed(
                ctx,
                look,
                "Findings",
                "By " + look.checked().pack().title() + ". " + FindingsText.ADVICE,
                sections,
                Caution.forWhat(Leads.TO_THE_RECORD));
    }

    /** Of one severity: what one rule finds at many things is one line that unfolds. */
    private static Section grouped(Cards cards, Severity severity, List<Finding> found) {
        Map<String, List<Finding>> by = new LinkedHashMap<>();
        found.forEach(f -> by.computeIfAbsent(f.title() + f.certainty(), k -> new ArrayList<>())
                .add(f));
        List<Link> single = new ArrayList<>();
        List<Section> groups = new ArrayList<>();
        by.values().forEach(all -> {
            if (all.size() < FEWEST_FOLDED) {
                all.forEach(f -> single.add(cards.finding(f)));
            } else {
                Finding one = all.get(0);
                groups.add(new Section(
                        one.title(),
                        all.size() + ", " + one.certainty().word(),
                        all.stream()
                                .map(f -> new Link(cards.finding(f).to(), f.subject(), ""))
                                .toList()));
            }
        });
        return new Section(severity.word(), "", single, groups);
    }

    private void finding(Context ctx) {
        Look look = look(ctx);
        Finding f = Acceptances.find(look.checked(), ctx.pathParam("rule") + "/" + ctx.pathParam("subject"))
                .get();
        Cards cards = cards(look);
        Paths paths = new Paths(look.house().id());
        List<Section> sections = new ArrayList<>();
        sections.add(words("How bad", f.severity().word() + ", " + f.certainty().word()));
        sections.add(words("Judged", String.join("; ", f.judged().said())));
        sections.add(words("Article", f.article() + (f.mark().isEmpty() ? "" : " (" + f.mark() + ")")));
        sections.add(words("Cure", f.cure() + (f.licensed() ? " This needs a licensed person." : "")));
        sections.add(new Section(
                "Load points",
                "",
                f.outlets().stream()
                        .map(o -> look.points().containsKey(o)
                                ? cards.line(
                                        Objects.requireNonNull(look.points().get(o)))
                                : Link.words(o))
                        .toList()));
        sections.add(new Section(
                "Boxes and panels",
                "",
                f.boxes().stream()
                        .map(b -> look.house().panels().containsKey(b) ? paths.panel(b) : paths.box(b))
                        .toList()));
        sections.add(new Section(
                "Change",
                "",
                AsksProtection.of(f) == null
                        ? List.of(cure(paths, f))
                        : List.of(
                                cure(paths, f),
                                new Link(
                                        paths.base() + "/look?place=yes",
                                        "Place protective devices for all that asks for them",
                                        ""))));
        sections.removeIf(s -> s.items().isEmpty());
        listed(ctx, look, f.title() + ", " + f.subject(), f.said(), sections, Caution.forWhat(Leads.TO_THE_RECORD));
    }

    private static Link cure(Paths paths, Finding f) {
        return new Link(paths.base() + "/look?cure=" + Paths.part(f.key()), "Look for a change that cures it", "");
    }

    private static Section words(String title, String words) {
        return new Section(title, "", words.isBlank() ? List.of() : List.of(Link.words(words)));
    }

    private static void listed(
            Context ctx, Look look, String title, String lead, List<Section> sections, List<String> cautions) {
        ctx.html(Templates.page(
                "listed",
                Map.of("title", title, "bar", bar(look), "lead", lead, "sections", sections, "cautions", cautions)));
    }

    private void drawing(Context ctx) {
        Look look = look(ctx);
        DrawingKind kind = DrawingApi.kind(ctx.pathParam("kind"));
        Drawing d = Drawings.of(kind, look.wiring(), Objects.requireNonNullElse(ctx.queryParam("of"), ""));
        ctx.html(Templates.page("picture", Map.of("title", d.title(), "bar", bar(look), "svg", d.svg())));
    }

    private void questions(Context ctx) {
        Look look = look(ctx);
        String base = new Paths(look.house().id()).base();
        List<Form> forms = store.questions().stream()
                .filter(q -> !q.acrossHouses())
                .map(q -> form(base, q))
                .toList();
        ctx.html(Templates.page("questions", Map.of("bar", bar(look), "mark", "", "forms", forms)));
    }

    /** {@return the form of a question; base is the address of what it is asked of} */
    static Form form(String base, Question q) {
        return new Form(
                base + "/questions/" + Paths.part(q.id()),
                q.words(),
                q.parameters().stream()
                        .map(p -> new Form.Field(
                                p.name(),
                                p.name(),
                                p.otherwise(),
                                p.meaning(),
                                p.otherwise().isEmpty(),
                                List.of()))
                        .toList(),
                "Ask");
    }

    private void reply(Context ctx, String house) {
        String question = ctx.pathParam("question");
        Map<String, String> asked = QuestionApi.parameters(ctx);
        var reply = store.ask(question, house, asked).get();
        Map<String, Object> parameters = new LinkedHashMap<>();
        if (house.isEmpty()) {
            parameters.put("bar", null);
            parameters.put("reply", ReplyPage.of(reply));
        } else {
            Look look = look(ctx);
            Finder names = new Finder(look, new Paths(house));
            parameters.put("bar", bar(look));
            parameters.put("reply", ReplyPage.of(reply, names.after(question, asked), names::address));
        }
        parameters.put("tables", TableApi.links(reply, house.isEmpty() ? "" : "/houses/" + Paths.part(house)));
        ctx.html(Templates.page("reply", parameters));
    }
}
