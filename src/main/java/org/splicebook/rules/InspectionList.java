package org.splicebook.rules;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.splicebook.housefile.PlainYaml;
import org.splicebook.record.Device;
import org.splicebook.record.PlaceKind;

/**
 * What an inspector of rented homes asks for, item by item, answered from a check. An item that nothing is found against is not passed:
 * the record shows nothing, no more.
 *
 * @param title what people call the list
 * @param note what holds for all of it
 * @param mark how sure it is; empty, or in words
 * @param items the items in order
 */
public record InspectionList(String title, String note, String mark, List<Item> items) {
    private static final Map<?, ?> RENTAL = (Map<?, ?>) PlainYaml.strings(Packs.text("rental.yaml"));

    public InspectionList {
        items = List.copyOf(items);
    }

    /** How an item stands by the record. */
    public enum State {
        /** Something is found that fails it. */
        PUT_RIGHT("put right"),
        /** It may fail, or a rule needs to know something. */
        LOOK("look first"),
        /** The record shows nothing against it. */
        NOTHING_SHOWN("nothing shown");

        private final String said;

        State(String said) {
            this.said = said;
        }

        /** {@return the state in words} */
        public String said() {
            return said;
        }
    }

    /**
     * One item.
     *
     * @param title what is asked for
     * @param state how it stands by the record
     * @param findings what the check found of it, worst first
     * @param accepted what was found, looked at and let stand: an inspector finds it all the same
     * @param look what is to be looked at in any case
     */
    public record Item(
            String title, State state, List<Finding> findings, List<Checked.Accepted> accepted, List<String> look) {
        public Item {
            findings = List.copyOf(findings);
            accepted = List.copyOf(accepted);
            look = List.copyOf(look);
        }
    }

    /** {@return the items for rented homes, answered from a check} */
    public static InspectionList forRental(Checked checked) {
        List<Item> items = new ArrayList<>();
        for (Object o : (List<?>) Objects.requireNonNull(RENTAL.get("items"))) {
            items.add(item(checked, (Map<?, ?>) o));
        }
        return new InspectionList(text("title"), text("note"), Mark.said(text("mark")), items);
    }

    /** {@return the rules that some item is answered by} */
    static List<String> rules() {
        return ((List<?>) Objects.requireNonNull(RENTAL.get("items")))
                .stream().flatMap(o -> words((Map<?, ?>) o, "rules").stream()).toList();
    }

    private static Item item(Checked checked, Map<?, ?> of) {
        List<Finding> findings =
                checked.open().stream().filter(f -> isOf(checked, of, f)).toList();
        List<Checked.Accepted> accepted = checked.accepted().stream()
                .filter(a -> isOf(checked, of, a.finding()))
                .toList();
        boolean found = findings.stream().anyMatch(f -> f.certainty() == Certainty.FOUND)
                || accepted.stream().anyMatch(a -> a.finding().certainty() == Certainty.FOUND);
        State state =
                found ? State.PUT_RIGHT : findings.isEmpty() && accepted.isEmpty() ? State.NOTHING_SHOWN : State.LOOK;
        return new Item(String.valueOf(of.get("title")), state, findings, accepted, words(of, "look"));
    }

    /** Whether a finding is of one of an item's rules, in one of its places where it names any, and not let off. */
    private static boolean isOf(Checked checked, Map<?, ?> item, Finding f) {
        List<String> places = words(item, "places");
        PlaceKind kind = kind(checked, f);
        return words(item, "rules").contains(f.rule())
                && (places.isEmpty() || kind == null || places.contains(kind.word()))
                && !isLetOff(checked, words(item, "let-off"), f);
    }

    private static @Nullable PlaceKind kind(Checked checked, Finding f) {
        var place = f.place() == null ? null : checked.house().places().get(f.place());
        return place == null ? null : place.kind();
    }

    private static boolean isLetOff(Checked checked, List<String> loads, Finding f) {
        return checked.house().boxes().values().stream()
                .flatMap(b -> b.devices().values().stream())
                .filter(d -> f.subject().equals(d.name()) || f.subject().startsWith(d.name() + "."))
                .map(Device::load)
                .anyMatch(l -> l != null && loads.contains(l));
    }

    private static String text(String key) {
        return String.valueOf(Objects.requireNonNull(RENTAL.get(key), key));
    }

    private static List<String> words(Map<?, ?> of, String key) {
        return of.get(key) instanceof List<?> list
                ? list.stream().map(String::valueOf).toList()
                : List.of();
    }
}
