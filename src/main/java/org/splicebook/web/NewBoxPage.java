package org.splicebook.web;

import io.javalin.http.Context;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.stream.Collectors;
import org.splicebook.answer.Caution;
import org.splicebook.answer.Leads;
import org.splicebook.housefile.Kinds;
import org.splicebook.problem.ProblemKind;
import org.splicebook.record.Box;
import org.splicebook.record.Cable;
import org.splicebook.record.House;
import org.splicebook.record.Photo;
import org.splicebook.store.Document;
import org.splicebook.store.Files;
import org.splicebook.store.HouseStore;
import org.splicebook.store.StoredHouse;
import org.splicebook.web.view.EditPage;
import org.splicebook.web.view.Entry;
import org.splicebook.web.view.Input;
import org.splicebook.web.view.Wrong;

/** Begins a box that was just opened with how it is wired; {@link BoxPages} then corrects it. */
final class NewBoxPage {
    private static final int MOST_NAMED = 8;
    private static final String NEW = "/houses/{house}/new-box";

    private final HouseStore store;
    private final Files files;

    NewBoxPage(HouseStore store, Files files) {
        this.store = store;
        this.files = files;
    }

    List<Route> routes() {
        return List.of(
                Route.get(NEW, ctx -> ctx.html(page(Sent.house(store, ctx), first(ctx), Wrong.NONE))),
                Route.post(NEW, this::begin));
    }

    private static Map<String, String> first(Context ctx) {
        return Map.of("place", Objects.requireNonNullElse(ctx.queryParam("place"), ""));
    }

    private void begin(Context ctx) {
        StoredHouse stored = Sent.house(store, ctx);
        Map<String, String> said = new LinkedHashMap<>();
        ctx.formParamMap().forEach((k, v) -> said.put(k, String.join(",", v).strip()));
        Sent.attempt(
                ctx,
                MoveFields.FIELDS,
                () -> {
                    House after = begun(stored.house(), said);
                    String name = said.getOrDefault("name", "");
                    if (Sent.bytes(ctx, "photo", 0).length > 0) {
                        boolean isDocument = Document.isPdf(Sent.bytes(ctx, "photo", Document.MOST_BYTES));
                        Photo photo = PhotoPages.keep(ctx, files, "");
                        Box box = Objects.requireNonNull(after.boxes().get(name));
                        after = PhotoPages.changed(
                                after,
                                box,
                                "",
                                about -> isDocument
                                        ? about.withDocuments(List.of(photo))
                                        : about.withPhotos(List.of(photo)));
                    }
                    return BoxPages.put(store, after, Sent.revision(ctx), name, "Opened box");
                },
                wrong -> page(stored, said, wrong));
    }

    /** {@return the house with the new box, its device, its cables and their joints} */
    private static House begun(House house, Map<String, String> said) {
        String name = said.getOrDefault("name", "");
        BoxTemplate template = BoxTemplate.ALL.get(said.getOrDefault("template", ""));
        if (template == null) {
            throw Failures.failure(
                    "template",
                    ProblemKind.MISSING,
                    "How it is wired was not said.",
                    "Choose one; it can be corrected.");
        }
        List<Map<String, Object>> first = new ArrayList<>();
        String place = said.getOrDefault("place", "");
        // Said at the box, or a house whose boxes are wholly listed by default would exclude what nobody looked at.
        Map<String, Object> box = new LinkedHashMap<>(Map.of("complete", List.of()));
        if (!place.isEmpty()) {
            box.put("place", place);
        }
        first.add(Map.of("add-box", name, "as", box));
        String device = said.getOrDefault("device", "");
        device = device.isEmpty() ? name + "-1" : device;
        if (!template.kinds().isEmpty()) {
            String wanted = said.getOrDefault("kind", "");
            String kind = template.kinds().contains(wanted)
                    ? wanted
                    : template.kinds().get(0);
            first.add(Map.of("add-device", device, "in", name, "as", Map.of("kind", kind)));
        }
        House after = entered(house, first);
        List<Map<String, Object>> then = new ArrayList<>();
        Map<String, BoxTemplate.NewCable> cables = new LinkedHashMap<>();
        for (String which : List.of("in", "out")) {
            String cable = said.getOrDefault(which, "");
            if (cable.isEmpty() && template.needs(which)) {
                throw Failures.failure(
                        which,
                        ProblemKind.MISSING,
                        "The cable " + (which.equals("in") ? "towards the panel" : "that goes on") + " has no name.",
                        "Give it one, for example K12, and write it on its sheath.");
            }
            Cable known = house.cables().get(cable);
            if (known != null) {
                after = LostCables.found(after, cable, name);
                cables.put(which, new BoxTemplate.NewCable(cable, hasGround(known)));
            } else if (!cable.isEmpty()) {
                String wires = said.getOrDefault(which + "-wires", "");
                String other = said.getOrDefault(which + "-end", BoxPages.UNKNOWN_END);
                cables.put(which, new BoxTemplate.NewCable(cable, wires.endsWith("+ground")));
                then.add(Map.of(
                        "add-cable", cable, "as", Map.of("kind", "NM", "wires", wires, "ends", List.of(other, name))));
            }
        }
        then.addAll(template.joints(name, device, cables));
        return entered(after, then);
    }

    private static boolean hasGround(Cable c) {
        return c.wires().stream().anyMatch(w -> w.name().equals("bare"));
    }

    private static House entered(House house, List<Map<String, Object>> said) {
        if (said.isEmpty()) {
            return house;
        }
        return BoxPages.entered(house, BoxPages.moves(house, said));
    }

    /** {@return the form} */
    static Entry entry(StoredHouse stored, Map<String, String> said) {
        House house = stored.house();
        List<Input.Choice> places = new ArrayList<>(List.of(new Input.Choice("", "not said")));
        house.places().values().forEach(p -> places.add(new Input.Choice(p.name(), p.said())));
        List<Input.Choice> templates = new ArrayList<>();
        Set<String> kinds = new LinkedHashSet<>();
        BoxTemplate.ALL.forEach((id, t) -> {
            templates.add(new Input.Choice(id, t.words()));
            kinds.addAll(t.kinds());
        });
        List<Input.Choice> devices = kinds.stream()
                .map(k -> new Input.Choice(
                        k, Objects.requireNonNull(Kinds.standard().get(k)).title()))
                .toList();
        List<Input> inputs = new ArrayList<>(List.of(
                Input.hidden(
                        Sent.REVISION,
                        said.getOrDefault(
                                Sent.REVISION, String.valueOf(stored.revision().number()))),
                PhotoPages.input("JPEG or PNG; choose it again if this page comes back"),
                typed(said, "name", "Name of the box", "for example hall-switches", true),
                Input.chosen(Input.Kind.LIST, "place", "Where it is", said.getOrDefault("place", ""), "", places),
                Input.chosen(Input.Kind.ONE, "template", "Wired as", said.getOrDefault("template", ""), "", templates),
                Input.chosen(
                        Input.Kind.LIST,
                        "kind",
                        "Device",
                        said.getOrDefault("kind", ""),
                        "a switch where it is wired as one",
                        devices),
                typed(said, "device", "Name of the device", "name of the box and -1 if empty", false)));
        String known = LostCables.of(house, "").stream()
                .limit(MOST_NAMED)
                .map(Cable::name)
                .collect(Collectors.joining(", "));
        String lost = known.isEmpty() ? "" : "; or one whose end was not found: " + known;
        for (String which : List.of("in", "out")) {
            boolean isIn = which.equals("in");
            inputs.add(typed(
                    said,
                    which,
                    isIn ? "Cable towards the panel" : "Cable that goes on",
                    isIn ? "a new name, to be written on its sheath" + lost : "where one does" + lost,
                    false));
            inputs.add(Input.chosen(
                    Input.Kind.LIST,
                    which + "-wires",
                    "Its wires",
                    said.getOrDefault(which + "-wires", ""),
                    "",
                    BoxPages.choices(BoxPages.WIRES)));
            inputs.add(Input.chosen(
                    Input.Kind.LIST,
                    which + "-end",
                    "Its other end",
                    said.getOrDefault(which + "-end", BoxPages.UNKNOWN_END),
                    "",
                    BoxPages.others(house)));
        }
        return new Entry(new Paths(house.id()).base() + "/new-box", "What was seen", inputs, "Record it");
    }

    private static String page(StoredHouse stored, Map<String, String> said, Wrong wrong) {
        return Sent.page(
                stored,
                new EditPage(
                        "A box just opened",
                        "Begin with how it is wired; the next page corrects it wire by wire.",
                        wrong,
                        List.of(entry(stored, said)),
                        List.of(),
                        Caution.forWhat(Leads.TO_A_WIRE)));
    }

    private static Input typed(Map<String, String> said, String name, String label, String meaning, boolean needed) {
        return Input.typed(Input.Kind.TEXT, name, label, said.getOrDefault(name, ""), meaning, needed);
    }
}
