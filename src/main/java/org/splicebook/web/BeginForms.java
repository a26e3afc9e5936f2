package org.splicebook.web;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.splicebook.housefile.Kinds;
import org.splicebook.record.House;
import org.splicebook.record.OvercurrentType;
import org.splicebook.record.Panel;
import org.splicebook.record.PlaceKind;
import org.splicebook.record.SourceSystem;
import org.splicebook.store.StoredHouse;
import org.splicebook.web.view.Entry;
import org.splicebook.web.view.Input;

/** The forms by which a record is begun; {@link BeginPages} reads what they say. */
final class BeginForms {
    private static final List<String> AMPERES = List.of("15", "20", "30", "40", "50");
    private static final List<String> FIRST_KINDS = List.of(
            "duplex-receptacle", "luminaire", "single-receptacle", "ground-fault-receptacle", "fan", "smoke-alarm");

    private BeginForms() {}

    /** {@return the forms of a step} */
    static List<Entry> entries(StoredHouse stored, Beginning.Kind kind) {
        House house = stored.house();
        return switch (kind) {
            case PANEL -> List.of(panelEntry(stored));
            case ROOMS -> List.of(roomsEntry(stored));
            case BREAKERS -> house.panels().isEmpty() ? List.of() : breakerEntries(stored);
            case POINTS -> List.of(pointEntry(stored));
            case BOX -> List.of(NewBoxPage.entry(stored, Map.of()));
        };
    }

    private static Entry entry(
            StoredHouse stored, Beginning.Kind kind, String what, String words, List<Input> inputs, String button) {
        List<Input> all = new ArrayList<>(List.of(
                Input.hidden(Sent.REVISION, String.valueOf(stored.revision().number())),
                Input.hidden(BeginPages.STEP, kind.word()),
                Input.hidden("what", what)));
        all.addAll(inputs);
        return new Entry(BeginPages.address(stored.house().id()), words, all, button);
    }

    private static Input text(String name, String label, String value, String meaning, boolean needed) {
        return Input.typed(Input.Kind.TEXT, name, label, value, meaning, needed);
    }

    private static Entry panelEntry(StoredHouse stored) {
        House house = stored.house();
        Panel panel = house.panels().values().stream().findFirst().orElse(null);
        var source = house.sources().get("service");
        var place =
                panel == null || panel.place() == null ? null : house.places().get(panel.place());
        List<Input.Choice> systems = Arrays.stream(SourceSystem.values())
                .map(s -> new Input.Choice(s.word(), s.word()))
                .toList();
        return entry(
                stored,
                Beginning.Kind.PANEL,
                "",
                "What stands on it and on its main; what is not known stays empty",
                List.of(
                        text("name", "Name of the panel", panel == null ? "main" : panel.name(), "", true),
                        text(
                                "spaces",
                                "Spaces for breakers or fuses",
                                panel == null || panel.spaces() == null ? "" : String.valueOf(panel.spaces()),
                                "how many, taken or not",
                                false),
                        Input.chosen(
                                Input.Kind.ONE,
                                "main",
                                "Its main is",
                                panel == null || panel.main() == null ? "" : fuses(panel) ? "fuses" : "breaker",
                                "",
                                List.of(
                                        new Input.Choice("breaker", "A breaker"),
                                        new Input.Choice("fuses", "Fuses"),
                                        new Input.Choice("", "None, or not known"))),
                        Input.chosen(
                                Input.Kind.LIST,
                                "system",
                                "Service",
                                source == null || source.system() == null
                                        ? SourceSystem.SPLIT_PHASE_120_240.word()
                                        : source.system().word(),
                                "volts, as the utility says",
                                systems),
                        text(
                                "rating",
                                "Service rating",
                                source == null || source.rating() == null
                                        ? ""
                                        : source.rating().said(),
                                "as on the main: 100 A",
                                false),
                        text("panel-place", "Where it hangs", place == null ? "" : place.said(), "a room", false)),
                "Record the panel");
    }

    private static Entry roomsEntry(StoredHouse stored) {
        Map<String, ?> there = stored.house().places();
        List<Input.Choice> usual = Arrays.stream(PlaceKind.values())
                .filter(k -> k != PlaceKind.OTHER && k != PlaceKind.COMMON && !there.containsKey(k.word()))
                .map(k -> new Input.Choice(k.word(), said(k.word())))
                .toList();
        return entry(
                stored,
                Beginning.Kind.ROOMS,
                "",
                "Which rooms are there?",
                List.of(
                        Input.chosen(Input.Kind.TAP, "usual", "One of each", "", "tap those that there are", usual),
                        Input.typed(
                                Input.Kind.AREA,
                                "rooms",
                                "And those",
                                "",
                                "one a line: North bedroom; or name and kind: Den, living",
                                false)),
                "Record the rooms");
    }

    private static List<Entry> breakerEntries(StoredHouse stored) {
        House house = stored.house();
        List<Input.Choice> panels = house.panels().keySet().stream()
                .map(p -> new Input.Choice(p, p))
                .toList();
        Input panel = panels.size() == 1
                ? Input.hidden("panel", panels.get(0).value())
                : Input.chosen(Input.Kind.LIST, "panel", "Panel", panels.get(0).value(), "", panels);
        List<Input.Choice> amperes =
                AMPERES.stream().map(a -> new Input.Choice(a, a + " A")).toList();
        return List.of(
                entry(
                        stored,
                        Beginning.Kind.BREAKERS,
                        "one",
                        "One breaker or fuse, as it sits in the panel; leave the covers on",
                        List.of(
                                panel,
                                text(
                                        "space",
                                        "Space",
                                        "",
                                        "4; 1+3 for one with two poles; 5a for half of a tandem",
                                        true),
                                Input.chosen(
                                        Input.Kind.ONE, "amperes", "Rating", "", "on its lever", withOther(amperes)),
                                text("label", "What the directory says", "", "as it is written, right or wrong", false),
                                Input.chosen(
                                        Input.Kind.SOME,
                                        "protects",
                                        "With a test button, against",
                                        "",
                                        "as it says on it",
                                        List.of(
                                                new Input.Choice("ground-fault", "ground faults"),
                                                new Input.Choice("arc-fault", "arc faults")))),
                        "Add it"),
                entry(
                        stored,
                        Beginning.Kind.BREAKERS,
                        BeginPages.SEVERAL,
                        "Or several at once",
                        List.of(
                                panel,
                                Input.typed(
                                        Input.Kind.AREA,
                                        "breakers",
                                        "Breakers",
                                        "",
                                        "one a line: space, amperes, what the directory says: 1+3 40 Range",
                                        true)),
                        "Add them"),
                entry(
                        stored,
                        Beginning.Kind.BREAKERS,
                        BeginPages.ALL,
                        "Every space was looked at, and no other breaker is in it. Answers exclude things on the strength of it",
                        List.of(panel),
                        "That is all of them"));
    }

    private static List<Input.Choice> withOther(List<Input.Choice> amperes) {
        List<Input.Choice> all = new ArrayList<>(amperes);
        all.add(new Input.Choice("", "Another, or not legible"));
        return all;
    }

    private static Entry pointEntry(StoredHouse stored) {
        House house = stored.house();
        List<Input.Choice> places = new ArrayList<>();
        house.places().values().forEach(p -> places.add(new Input.Choice(p.name(), p.said())));
        List<Input.Choice> kinds = FIRST_KINDS.stream()
                .map(k -> new Input.Choice(
                        k, Objects.requireNonNull(Kinds.standard().get(k)).title()))
                .toList();
        return entry(
                stored,
                Beginning.Kind.POINTS,
                "",
                "One receptacle, light or other thing that has power, as it is seen from the room; its box stays closed",
                List.of(
                        Input.chosen(Input.Kind.LIST, "place", "Room", "", "", places),
                        Input.chosen(Input.Kind.ONE, "kind", "It is", "", "", kinds),
                        text("name", "Name of its box", "", "for example den-window; room and number if empty", false)),
                "Add it");
    }

    /** {@return a kind of room as people write it} */
    static String said(String kind) {
        return Character.toUpperCase(kind.charAt(0)) + kind.substring(1).replace('-', ' ');
    }

    /** {@return whether what a panel has are fuses, as its main says} */
    static boolean fuses(Panel panel) {
        return panel.main() != null && panel.main().type() == OvercurrentType.FUSE;
    }
}
