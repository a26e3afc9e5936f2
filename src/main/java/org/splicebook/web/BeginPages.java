package org.splicebook.web;

import io.javalin.http.Context;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.record.Complete;
import org.splicebook.record.House;
import org.splicebook.record.Panel;
import org.splicebook.store.HouseStore;
import org.splicebook.store.Revision;
import org.splicebook.store.StoredHouse;
import org.splicebook.web.view.EditPage;
import org.splicebook.web.view.Link;
import org.splicebook.web.view.Section;
import org.splicebook.web.view.Wrong;

/** Leads through the beginning of a record, one step at a time; it can be left at any of them and taken up again. */
final class BeginPages {
    private static final String PATH = "/houses/{house}/begin";
    static final String STEP = "step";
    static final String ALL = "all";
    static final String SEVERAL = "several";

    /** What the reader of house files calls it, and the forms do. */
    private static final Map<String, String> FIELDS = fields();

    private final HouseStore store;

    BeginPages(HouseStore store) {
        this.store = store;
    }

    List<Route> routes() {
        return List.of(
                Route.get(PATH, ctx -> {
                    StoredHouse stored = Sent.house(store, ctx);
                    ctx.html(page(stored, step(stored, ctx.queryParam(STEP)), Wrong.NONE));
                }),
                Route.post(PATH, this::add));
    }

    private static Map<String, String> fields() {
        Map<String, String> all = new LinkedHashMap<>();
        all.put("panels\\.[^.]*\\.(breakers|fuses)", "space");
        all.put("panels\\.[^.]*\\.(breakers|fuses)\\.[^.]*", "space");
        all.put("panels\\.[^.]*\\.(breakers|fuses)\\.[^.]*\\.rating", "amperes");
        all.put("panels\\.[^.]*\\.(breakers|fuses).*", "breakers");
        all.put("panels\\.[^.]*\\.main.*", "rating");
        all.put("panels\\.[^.]*\\.place", "panel-place");
        all.put("panels(\\.[^.]*)?", "name");
        all.put("places.*", "rooms");
        all.put(".*\\.add-(box|device)", "name");
        return all;
    }

    /** {@return where a house is begun} */
    static String address(String house) {
        return new Paths(house).base() + "/begin";
    }

    private static Beginning.Step step(StoredHouse stored, String said) {
        Beginning all = Beginning.of(stored.house());
        return all.steps().stream()
                .filter(s -> s.kind().word().equals(said))
                .findFirst()
                .orElse(all.next());
    }

    private void add(Context ctx) {
        StoredHouse stored = Sent.house(store, ctx);
        Beginning.Step step = step(stored, Sent.field(ctx, STEP));
        Sent.attempt(
                ctx,
                FIELDS,
                () -> {
                    House after = after(stored.house(), step.kind(), ctx);
                    Revision made = store.put(
                                    after,
                                    Sent.revision(ctx),
                                    BoxPages.BY_PAGE,
                                    "Begun: " + step.kind().word())
                            .get();
                    boolean hasMore = step.kind() == Beginning.Kind.BREAKERS || step.kind() == Beginning.Kind.POINTS;
                    String next = hasMore ? "?" + STEP + "=" + step.kind().word() : "";
                    return Just.stored(address(after.id()) + next, made);
                },
                wrong -> page(stored, step, wrong));
    }

    private static House after(House house, Beginning.Kind kind, Context ctx) {
        return switch (kind) {
            case PANEL -> HouseText.with(house, whole -> panel(whole, ctx));
            case ROOMS -> HouseText.with(house, whole -> rooms(whole, ctx));
            case BREAKERS -> breakers(house, ctx);
            case POINTS -> point(house, ctx);
            case BOX ->
                throw Failures.failure(
                        ProblemKind.BAD_VALUE, "A box is recorded on its own page.", "Use a button of the page.");
        };
    }

    private static void panel(Map<String, Object> whole, Context ctx) {
        String name = Sent.field(ctx, "name");
        String rating = amperes(Sent.field(ctx, "rating"));
        Map<String, Object> source = HouseText.map(HouseText.map(whole, "sources"), "service");
        source.put("system", Sent.field(ctx, "system"));
        put(source, "rating", rating);
        source.putIfAbsent("bond", name);
        Map<String, Object> panel = HouseText.map(HouseText.map(whole, "panels"), name);
        panel.putIfAbsent("supply", "service");
        put(panel, "spaces", Sent.field(ctx, "spaces"));
        String main = Sent.field(ctx, "main");
        if (!main.isEmpty()) {
            Map<String, Object> is = HouseText.map(panel, "main");
            is.put("kind", main);
            put(is, "rating", rating);
        }
        String place = Sent.field(ctx, "panel-place");
        String key = NewHousePage.key(place);
        if (!key.isEmpty()) {
            HouseText.map(whole, "places").putIfAbsent(key, Map.of("name", place, "kind", NewHousePage.guess(place)));
            panel.put("place", key);
        }
    }

    private static void rooms(Map<String, Object> whole, Context ctx) {
        List<Problem> problems = new ArrayList<>();
        Map<String, Object> fresh = new LinkedHashMap<>();
        ctx.formParams("usual").forEach(k -> fresh.put(k, Map.of("name", BeginForms.said(k), "kind", k)));
        fresh.putAll(NewHousePage.rooms(Sent.field(ctx, "rooms"), problems));
        if (!problems.isEmpty()) {
            throw new ProblemException(problems);
        }
        if (fresh.isEmpty()) {
            throw Failures.failure("usual", ProblemKind.MISSING, "No room is chosen.", "Choose some, or write them.");
        }
        Map<String, Object> places = HouseText.map(whole, "places");
        fresh.forEach((key, place) -> {
            if (places.putIfAbsent(key, place) != null) {
                throw Failures.failure(
                        "rooms", ProblemKind.DUPLICATE, "There is a room " + key + " already.", "Name it otherwise.");
            }
        });
    }

    private static House breakers(House house, Context ctx) {
        String name = Sent.field(ctx, "panel");
        Panel panel = house.panels().get(name);
        if (panel == null) {
            throw Failures.failure(
                    "panel", ProblemKind.DANGLING_NAME, "There is no panel " + name + ".", "Record the panel first.");
        }
        String what = Sent.field(ctx, "what");
        if (what.equals(ALL)) {
            Map<String, Panel> panels = new LinkedHashMap<>(house.panels());
            List<Complete> listed = new ArrayList<>(panel.complete() == null ? house.complete() : panel.complete());
            listed.add(Complete.BREAKERS);
            panels.put(name, panel.withJoints(panel.joints(), java.util.Set.copyOf(listed)));
            return house.withParts(panels, house.cables(), house.boxes());
        }
        List<Problem> problems = new ArrayList<>();
        Map<String, Object> fresh = new LinkedHashMap<>();
        if (what.equals(SEVERAL)) {
            fresh.putAll(NewHousePage.breakers(Sent.field(ctx, "breakers"), problems));
        } else {
            Map<String, Object> breaker = new LinkedHashMap<>();
            put(breaker, "rating", amperes(Sent.field(ctx, "amperes")));
            put(breaker, "label", Sent.field(ctx, "label"));
            List<String> protects = ctx.formParams("protects");
            if (!protects.isEmpty()) {
                breaker.put("protects", protects);
            }
            fresh.put(Sent.field(ctx, "space"), breaker);
        }
        fresh.keySet().stream()
                .filter(panel.breakers()::containsKey)
                .forEach(k -> problems.add(Failures.failure(
                                what.equals(SEVERAL) ? "breakers" : "space",
                                ProblemKind.DUPLICATE,
                                "There is a breaker " + k + " already.",
                                "Look at what the panel has below; its text is changed in the record.")
                        .problems()
                        .get(0)));
        if (!problems.isEmpty()) {
            throw new ProblemException(problems);
        }
        return HouseText.with(
                house,
                whole -> HouseText.map(
                                HouseText.map(HouseText.map(whole, "panels"), name),
                                BeginForms.fuses(panel) ? "fuses" : "breakers")
                        .putAll(fresh));
    }

    private static House point(House house, Context ctx) {
        String place = Sent.field(ctx, "place");
        String typed = Sent.field(ctx, "name");
        int n = 1;
        while (house.boxes().containsKey(place + "-" + n)) {
            n++;
        }
        String name = typed.isEmpty() ? place + "-" + n : typed;
        Map<String, Object> box = new LinkedHashMap<>(Map.of("complete", List.of()));
        put(box, "place", place);
        List<Map<String, Object>> moves = List.of(
                Map.of("add-box", name, "as", box),
                Map.of("add-device", name + "-1", "in", name, "as", Map.of("kind", Sent.field(ctx, "kind"))));
        return BoxPages.entered(house, BoxPages.moves(house, moves));
    }

    private static String amperes(String said) {
        return said.replaceAll("^(\\d+)$", "$1 A");
    }

    private static void put(Map<String, Object> map, String key, String value) {
        if (!value.isEmpty()) {
            map.put(key, value);
        }
    }

    private static String page(StoredHouse stored, Beginning.Step step, Wrong wrong) {
        House house = stored.house();
        Beginning all = Beginning.of(house);
        String base = address(house.id());
        List<Link> far = new ArrayList<>();
        all.steps()
                .forEach(s -> far.add(new Link(
                        base + "?" + STEP + "=" + s.kind().word(),
                        all.number(s.kind()) + ". " + s.kind().title(),
                        s.said())));
        List<Link> next = new ArrayList<>();
        Beginning.Step after = all.after(step.kind());
        if (after.kind() != step.kind()) {
            next.add(new Link(
                    base + "?" + STEP + "=" + after.kind().word(),
                    "Next: " + after.kind().title(),
                    ""));
        }
        next.add(new Link(new Paths(house.id()).base(), "Leave it here", "it can be taken up again"));
        return Sent.page(
                stored,
                new EditPage(
                        step.kind().title(),
                        "Step " + all.number(step.kind()) + " of " + all.steps().size() + ". Recorded so far: "
                                + step.said() + ".",
                        wrong,
                        BeginForms.entries(stored, step.kind()),
                        List.of(
                                new Section("Go on", "", next),
                                new Section("How far it is", "", far),
                                new Section("In the panel", "", breakers(house, step.kind()))),
                        List.of()));
    }

    private static List<Link> breakers(House house, Beginning.Kind kind) {
        return kind != Beginning.Kind.BREAKERS
                ? List.of()
                : house.panels().values().stream()
                        .flatMap(p -> p.breakers().values().stream()
                                .map(b -> new Paths(house.id())
                                        .breaker(p.name() + "." + b.key(), Objects.requireNonNullElse(b.label(), ""))))
                        .toList();
    }
}
