package org.splicebook.web;

import io.javalin.http.Context;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import org.splicebook.answer.Caution;
import org.splicebook.answer.Leads;
import org.splicebook.housefile.Difference;
import org.splicebook.housefile.HouseDifferences;
import org.splicebook.render.Json;
import org.splicebook.store.HouseStore;
import org.splicebook.store.Revision;
import org.splicebook.store.StoredHouse;
import org.splicebook.web.view.Link;
import org.splicebook.web.view.Section;

/** In what two revisions of a house differ, box by box. */
final class ChangePage {
    private final HouseStore store;

    ChangePage(HouseStore store) {
        this.store = store;
    }

    List<Route> routes() {
        return List.of(Route.get(Api.BASE + "/houses/{house}/changes", this::json));
    }

    List<Route> pages() {
        return List.of(Route.get("/houses/{house}/changes", this::show));
    }

    /** The two, and in what they differ. */
    private record Compared(StoredHouse was, StoredHouse is, List<Difference> differences) {}

    private Compared compare(Context ctx) {
        StoredHouse newest = store.findHouse(Api.house(ctx)).orElseThrow(() -> Api.notFound(ctx));
        String to = Objects.requireNonNullElse(ctx.queryParam("to"), "");
        StoredHouse is = to.isEmpty() ? newest : revision(ctx, HouseApi.number(to));
        String from = Objects.requireNonNullElse(ctx.queryParam("from"), "");
        long before = from.isEmpty() ? Math.max(1, is.revision().number() - 1) : HouseApi.number(from);
        StoredHouse was = revision(ctx, before);
        return new Compared(was, is, HouseDifferences.between(was.house(), is.house(), Set.of()));
    }

    private StoredHouse revision(Context ctx, long number) {
        return store.findRevision(Api.house(ctx), number).orElseThrow(() -> Api.notFound(ctx));
    }

    private void json(Context ctx) {
        Compared c = compare(ctx);
        var o = Json.object();
        o.put("house", Api.house(ctx));
        o.put("from", c.was().revision().number());
        o.put("to", c.is().revision().number());
        o.set(
                "differences",
                Json.list(
                        c.differences(),
                        d -> Json.tree(Map.of(
                                "part", d.part(), "what", d.what(), "was", d.was(), "is", d.is(), "said", d.said()))));
        Api.json(ctx, o);
    }

    private void show(Context ctx) {
        Compared c = compare(ctx);
        Paths paths = new Paths(c.is().house().id());
        Map<String, List<Link>> byPart = new LinkedHashMap<>();
        c.differences()
                .forEach(d ->
                        byPart.computeIfAbsent(d.part(), k -> new ArrayList<>()).add(Link.words(words(d))));
        List<Section> sections = new ArrayList<>();
        byPart.forEach((part, links) -> sections.add(new Section(title(part), "", links)));
        Revision from = c.was().revision();
        Revision to = c.is().revision();
        sections.add(new Section(
                "What follows from it",
                "",
                List.of(
                        new Link(
                                paths.base() + "/questions/differences?from=" + from.number() + "&to=" + to.number(),
                                "What is fed, protected and returned otherwise, and what must be tested again",
                                ""),
                        new Link(paths.base() + "/history", "History and undo", ""))));
        String lead = c.differences().isEmpty()
                ? "Nothing differs."
                : "Revision " + to.number() + " by " + to.who() + " on " + Pages.minute(to.stored())
                        + (to.why().isBlank() ? "" : ", " + to.why()) + ", beside revision " + from.number() + ".";
        ctx.html(Templates.page(
                "listed",
                Map.of(
                        "title",
                        "What changed from revision " + from.number() + " to " + to.number(),
                        "bar",
                        Paths.bar(c.is()),
                        "lead",
                        lead,
                        "sections",
                        sections,
                        "cautions",
                        Caution.forWhat(Leads.TO_THE_RECORD))));
    }

    private static String title(String part) {
        return part.substring(0, 1).toUpperCase(java.util.Locale.ROOT) + part.substring(1);
    }

    private static String words(Difference d) {
        String what = d.what().isEmpty() ? "" : d.what() + ": ";
        if (d.was().isEmpty()) {
            return what + "new" + (d.is().isBlank() ? "" : ": " + d.is());
        }
        return d.is().isEmpty() ? what + "no longer there: " + d.was() : what + "was " + d.was() + ", is " + d.is();
    }
}
