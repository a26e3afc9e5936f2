package org.splicebook.web;

import io.javalin.http.Context;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.UUID;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.splicebook.answer.Caution;
import org.splicebook.answer.Leads;
import org.splicebook.housefile.SightingLine;
import org.splicebook.record.House;
import org.splicebook.record.Sighting;
import org.splicebook.store.HouseStore;
import org.splicebook.store.StoredHouse;
import org.splicebook.web.view.EditPage;
import org.splicebook.web.view.Entry;
import org.splicebook.web.view.Input;
import org.splicebook.web.view.Wrong;
import org.splicebook.wiring.Derivation;
import org.splicebook.wiring.LoadPointWiring;
import org.splicebook.wiring.Sureness;

/** Records what was observed at one load point with breakers off: lit, not lit, or not tried. */
final class SightPage {
    private static final List<Input.Choice> READ = List.of(
            new Input.Choice("lit", "Lit"),
            new Input.Choice("not lit", "Not lit"),
            new Input.Choice("not tried", "Not tried"));
    private static final List<Input.Choice> AROUND = List.of(
            new Input.Choice("", "Not looked at"),
            new Input.Choice("lit", "Lit"),
            new Input.Choice("not lit", "Not lit"));

    private static final int MOST_LIKELY = 8;

    private final HouseStore store;

    SightPage(HouseStore store) {
        this.store = store;
    }

    List<Route> routes() {
        return List.of(Route.get("/houses/{house}/sight", this::show), Route.post("/houses/{house}/sight", this::add));
    }

    private void show(Context ctx) {
        StoredHouse stored = Sent.house(store, ctx);
        Map<String, String> first = new LinkedHashMap<>();
        first.put("at", Objects.requireNonNullElse(ctx.queryParam("at"), ""));
        first.put("with-off", Objects.requireNonNullElse(ctx.queryParam("with-off"), ""));
        // Chosen when the page is made, so that sending it twice records it once.
        first.put("id", "w" + UUID.randomUUID().toString().substring(0, 13));
        first.put("date", LocalDate.now(ZoneId.systemDefault()).toString());
        first.put("instrument", "lamp");
        ctx.html(page(stored, first, Wrong.NONE));
    }

    private void add(Context ctx) {
        StoredHouse stored = Sent.house(store, ctx);
        Map<String, String> said = new LinkedHashMap<>();
        for (String name : List.of("id", "date", "at", "read", "before", "after", "instrument", "by", "note")) {
            if (!Sent.field(ctx, name).isEmpty()) {
                said.put(name, Sent.field(ctx, name));
            }
        }
        if (!ctx.formParams("with-off").isEmpty()) {
            said.put("with-off", String.join(",", ctx.formParams("with-off")));
        }
        Sent.attempt(
                ctx,
                () -> {
                    Sighting sighting = SightingLine.parse(stored.house(), said).get();
                    int unused = store.appendSightings(stored.house().id(), List.of(sighting))
                            .get();
                    return new Paths(stored.house().id()).of("points", said.getOrDefault("at", ""));
                },
                wrong -> page(stored, said, wrong));
    }

    /** The breakers that may feed the load point first, for those are thrown; the others behind them, for they may be off too. */
    private static List<Input> breakers(House house, List<LoadPointWiring> points, Map<String, String> said) {
        Map<String, Sureness> feeds = points.stream()
                .filter(p -> p.id().equals(said.getOrDefault("at", "")))
                .findFirst()
                .map(Cards::feeds)
                .orElse(Map.of());
        boolean all = feeds.size() <= MOST_LIKELY;
        List<Input.Choice> likely = new ArrayList<>();
        List<Input.Choice> others = new ArrayList<>();
        house.panels()
                .values()
                .forEach(p -> p.breakers().values().forEach(b -> {
                    String name = p.name() + "." + b.key();
                    Sureness feed = feeds.get(name);
                    (feed != null && (all || feed != Sureness.MAY) ? likely : others)
                            .add(new Input.Choice(name, name, b.label() == null ? "" : b.label()));
                }));
        String off = said.getOrDefault("with-off", "");
        Input rest = Input.chosen(
                Input.Kind.SOME,
                "with-off",
                likely.isEmpty() ? "Off meanwhile" : "Other breakers off meanwhile",
                chosen(off, others),
                "every breaker that was off",
                others);
        return likely.isEmpty()
                ? List.of(rest)
                : List.of(
                        Input.chosen(
                                Input.Kind.SOME,
                                "with-off",
                                "Off meanwhile",
                                chosen(off, likely),
                                feeds.containsValue(Sureness.MAY) && all
                                        ? "what may feed it, as recorded"
                                        : "what feeds it, as recorded",
                                likely),
                        rest);
    }

    /** {@return those of what was sent that stand in this list} */
    private static String chosen(String sent, List<Input.Choice> among) {
        return Stream.of(sent.split(","))
                .filter(s -> among.stream().anyMatch(c -> c.value().equals(s)))
                .collect(Collectors.joining(","));
    }

    private static String page(StoredHouse stored, Map<String, String> said, Wrong wrong) {
        House house = stored.house();
        List<LoadPointWiring> points = Derivation.derive(house).loadPoints();
        List<Input> inputs = new ArrayList<>(List.of(
                Input.hidden("id", said.getOrDefault("id", "")),
                Input.chosen(
                        Input.Kind.LIST,
                        "at",
                        "Load point",
                        said.getOrDefault("at", ""),
                        "",
                        points.stream()
                                .map(p -> new Input.Choice(p.id(), p.id()))
                                .toList())));
        inputs.addAll(breakers(house, points, said));
        inputs.addAll(List.of(
                Input.chosen(Input.Kind.ONE, "read", "Then it was", said.getOrDefault("read", ""), "", READ),
                Input.chosen(
                        Input.Kind.ONE,
                        "before",
                        "Before they went off it was",
                        said.getOrDefault("before", ""),
                        "without before and after, a reading proves less",
                        AROUND),
                Input.chosen(
                        Input.Kind.ONE,
                        "after",
                        "When they were on again it was",
                        said.getOrDefault("after", ""),
                        "",
                        AROUND),
                Input.typed(
                        Input.Kind.TEXT,
                        "instrument",
                        "Looked at with",
                        said.getOrDefault("instrument", ""),
                        "lamp, meter, two-pole tester",
                        true),
                Input.typed(Input.Kind.TEXT, "date", "Day", said.getOrDefault("date", ""), "", true),
                Input.typed(Input.Kind.TEXT, "by", "Who looked", said.getOrDefault("by", ""), "", false),
                Input.typed(Input.Kind.TEXT, "note", "Note", said.getOrDefault("note", ""), "", false)));
        return Sent.page(
                stored,
                new EditPage(
                        "Record what was observed",
                        "One load point, with those breakers off. Only what is named counts as looked at.",
                        wrong,
                        List.of(new Entry(new Paths(house.id()).base() + "/sight", "What was seen", inputs, "Record it")
                                .inPlace()),
                        List.of(),
                        Caution.forWhat(Leads.TO_A_SWITCH)));
    }
}
