package org.splicebook.web;

import io.javalin.http.Context;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.splicebook.problem.ProblemKind;
import org.splicebook.store.HouseStore;
import org.splicebook.store.StoredHouse;
import org.splicebook.visits.Residents;
import org.splicebook.visits.VisitKinds;
import org.splicebook.web.view.EditPage;
import org.splicebook.web.view.Entry;
import org.splicebook.web.view.Input;
import org.splicebook.web.view.Link;
import org.splicebook.web.view.Section;
import org.splicebook.web.view.Wrong;

/** Who lives in a house, as far as work has to know it; erased for good. */
final class ResidentPages {
    private static final String PATH = "/houses/{house}/residents";
    private static final String KEY = "key";

    private final HouseStore store;

    ResidentPages(HouseStore store) {
        this.store = store;
    }

    List<Route> routes() {
        return List.of(
                Route.get(PATH, ctx -> ctx.html(page(Sent.house(store, ctx), Map.of(), Wrong.NONE))),
                Route.post(PATH, this::keep),
                Route.post(PATH + "/erased", this::erase));
    }

    private void keep(Context ctx) {
        StoredHouse stored = Sent.house(store, ctx);
        Map<String, String> said = new LinkedHashMap<>();
        VisitKinds.resident().forEach(f -> said.put(f.name(), Sent.field(ctx, f.name())));
        Map<String, String> shown = new LinkedHashMap<>(said);
        shown.put(KEY, Sent.field(ctx, KEY));
        Sent.attempt(
                ctx,
                () -> {
                    new Residents(store)
                            .keep(
                                    stored.house().id(),
                                    Sent.field(ctx, KEY),
                                    said,
                                    Instant.now(),
                                    VisitApi.atThePages());
                    return new Paths(stored.house().id()).base() + "/residents";
                },
                wrong -> page(stored, shown, wrong));
    }

    private void erase(Context ctx) {
        StoredHouse stored = Sent.house(store, ctx);
        Sent.attempt(
                ctx,
                () -> {
                    if (!new Residents(store).erase(stored.house().id(), Sent.field(ctx, KEY))) {
                        throw Failures.failure(ProblemKind.NOT_FOUND, "There is nobody of that key.", "Choose one.");
                    }
                    return new Paths(stored.house().id()).base() + "/residents";
                },
                wrong -> page(stored, Map.of(), wrong));
    }

    private String page(StoredHouse stored, Map<String, String> said, Wrong wrong) {
        String base = new Paths(stored.house().id()).base() + "/residents";
        List<Residents.Resident> all = new Residents(store).list(stored.house().id());
        List<Input> inputs = new ArrayList<>(List.of(Input.typed(
                Input.Kind.TEXT,
                KEY,
                "Key",
                said.getOrDefault(KEY, "resident-" + (all.size() + 1)),
                "what it is kept under; one that is there is kept anew",
                true)));
        VisitKinds.resident().forEach(f -> inputs.add(VisitPages.input(f, said.getOrDefault(f.name(), ""))));
        List<Entry> entries =
                new ArrayList<>(List.of(new Entry(base, "Keep what work has to know", inputs, "Keep it")));
        List<Section> sections = new ArrayList<>();
        if (!all.isEmpty()) {
            entries.add(new Entry(
                    base + "/erased",
                    "Erase one; nothing of it is kept anywhere in the store but in archives that were made with residents",
                    List.of(Input.chosen(
                            Input.Kind.LIST,
                            KEY,
                            "Whom",
                            all.get(0).key(),
                            "",
                            all.stream()
                                    .map(r -> new Input.Choice(r.key(), r.key() + ", " + r.value("name")))
                                    .toList())),
                    "Erase"));
            all.forEach(r -> {
                List<Link> lines = new ArrayList<>();
                VisitKinds.resident().stream()
                        .filter(f -> !r.value(f.name()).isEmpty())
                        .forEach(f -> lines.add(Link.words(f.label() + ": " + r.value(f.name()))));
                sections.add(new Section(r.key(), "", lines));
            });
        }
        return Sent.page(
                stored,
                new EditPage(
                        "Residents",
                        "Personal: for managers alone, each look is logged, in no revision. To others only that somebody depends on power is"
                                + " told. Keep no more than the work needs, and ask first.",
                        wrong,
                        entries,
                        sections,
                        List.of()));
    }
}
