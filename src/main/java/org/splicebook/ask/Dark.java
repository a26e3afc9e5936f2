package org.splicebook.ask;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.splicebook.answer.Answer;
import org.splicebook.answer.Assumption;
import org.splicebook.answer.Caution;
import org.splicebook.answer.Leads;
import org.splicebook.answer.Row;
import org.splicebook.record.Basis;
import org.splicebook.record.Box;
import org.splicebook.record.House;
import org.splicebook.record.Place;
import org.splicebook.wiring.Sureness;
import org.splicebook.wiring.shutoff.Care;
import org.splicebook.wiring.shutoff.ShutOff;
import org.splicebook.wiring.shutoff.Target;

/** In an emergency, for anyone: which throws, and where, make this room or this house as dark as it can be made. */
final class Dark {
    static final ComputedQuestion QUESTION = ComputedQuestion.answer(
                    "dark", "Emergency: which throws make {place} as dark as it can be made?")
            .with("place", "a place, for example kitchen; left out, the whole house", Dark.HOUSE)
            .columns("where", "open")
            .by(asked -> new Dark(asked).answer());

    private static final String HOUSE = "the house";

    private final Asked asked;
    private final House house;
    private final boolean isWhole;
    private final ShutOff shutOff;

    private Dark(Asked asked) {
        this.asked = asked;
        this.house = asked.house();
        this.isWhole = asked.value("place").equals(HOUSE);
        this.shutOff = asked.shutOff(isWhole ? new Target.Boxes(anyOne()) : new Target.Room(asked.value("place")));
    }

    /** What clears every source is the same for every target. */
    private List<String> anyOne() {
        return Stream.concat(house.panels().keySet().stream(), house.boxes().keySet().stream())
                .limit(1)
                .toList();
    }

    private Answer answer() {
        ShutOffSections sections = new ShutOffSections(house, shutOff);
        List<Row> rows = new ArrayList<>();
        List<ShutOff.Throw> throwing = isWhole ? shutOff.everything() : shutOff.toThrow();
        List<String> said = sections.throwing(throwing);
        for (int i = 0; i < throwing.size(); i++) {
            rows.add(row(throwing.get(i), said.get(i)));
        }
        List<Answer.Section> told = new ArrayList<>();
        told.add(
                new Answer.Section(
                        "First",
                        false,
                        List.of(
                                "Someone is touching something live: do not touch them. Open the throws, then help. Call the emergency number.",
                                "Fire, smoke, water at the panel, or a wire down outside: get everyone out, call the fire service and the utility.")));
        told.add(new Answer.Section("Open, in this order", true, said));
        if (!isWhole) {
            told.add(
                    new Answer.Section("Or everything, which is surer", true, sections.throwing(shutOff.everything())));
        }
        told.add(new Answer.Section("Stays live even then", false, sections.staysLive()));
        told.add(new Answer.Section("As soon as there is time", false, care(sections)));
        return new Answer(
                asked.heading(),
                outcome(throwing.size()),
                rows,
                told,
                List.of(Assumption.NO_BURIED_TAP),
                List.of("That all of it is off then. Take every wire as live until it is tested."),
                List.of(),
                Caution.forWhat(Leads.TO_A_WIRE));
    }

    /** What must not be off for long; the rest can wait in an emergency. */
    private List<String> care(ShutOffSections sections) {
        if (!isWhole) {
            return sections.affected(
                    shutOff.affected().stream().filter(a -> a.care() != null).toList());
        }
        List<ShutOff.Affected> all = new ArrayList<>();
        Devices.all(house).forEach((name, found) -> {
            Care care = Care.of(found.device());
            if (care != null) {
                Box box = found.box();
                all.add(new ShutOff.Affected(name, name, box.name(), box.place(), care, true));
            }
        });
        return sections.affected(all);
    }

    private String outcome(int n) {
        String where = isWhole ? "the house" : place(asked.value("place"));
        return n == 0
                ? "Nothing recorded can be opened to make " + where + " dark. Keep away, and call the utility."
                : n + (n == 1 ? " throw makes " : " throws make ") + where
                        + " as dark as it can be made. It may still not be off everywhere: touch nothing.";
    }

    private String place(String key) {
        Place place = house.places().get(key);
        return place == null ? key : place.said();
    }

    private Row row(ShutOff.Throw t, String said) {
        Map<String, Object> columns = new LinkedHashMap<>();
        columns.put("where", t.place() == null ? "panel " + t.panel() : "panel " + t.panel() + ", " + place(t.place()));
        columns.put("open", t.isMain() ? "the main" : String.join(", ", t.breakers()));
        boolean isShown = t.sureness() != Sureness.MAY;
        Basis basis = house.panels().containsKey(t.panel())
                ? house.panels().get(t.panel()).about().basisOr(house.basis())
                : Basis.ASSUMED;
        String subject = t.isMain() ? "main of " + t.panel() : String.join(" + ", t.breakers());
        return new Row(subject, isShown ? Row.Status.SHOWN : Row.Status.POSSIBLE, basis, columns, List.of(said));
    }
}
