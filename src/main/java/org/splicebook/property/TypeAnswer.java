package org.splicebook.property;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.splicebook.answer.Answer;
import org.splicebook.answer.Caution;
import org.splicebook.answer.Leads;
import org.splicebook.answer.Reply;
import org.splicebook.answer.Row;
import org.splicebook.housefile.Difference;
import org.splicebook.housefile.HouseDifferences;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.record.Basis;
import org.splicebook.record.Box;
import org.splicebook.record.House;
import org.splicebook.record.Property;

/** A unit against the pattern of its type. What is alike is not known of the unit for that: its own basis counts. */
final class TypeAnswer {
    private TypeAnswer() {}

    static Reply of(Joined joined, PropertyQuestions.Asked asked) {
        String unit = PropertyQuestions.part(joined, asked, "unit");
        Property.Part part = joined.part(unit);
        Property.UnitType type = Optional.ofNullable(part.type())
                .map(t -> joined.property().types().get(t))
                .orElseThrow(() -> wrong(unit + " has no type.", "Give it one in the property: type: two-room."));
        House is = joined.house(unit)
                .orElseThrow(() -> wrong("The record of " + unit + " is not stored.", "Load it first."));
        House pattern = joined.record(type.house())
                .map(s -> s.house())
                .orElseThrow(() -> wrong(
                        "The pattern of the type " + type.name() + ", " + type.house() + ", is not stored.",
                        "Load it first."));
        Set<String> ignored = new HashSet<>(HouseDifferences.ABOUT);
        ignored.addAll(HouseDifferences.OWN);
        ignored.add("complete");
        List<Row> rows = new ArrayList<>();
        for (Difference d : HouseDifferences.between(pattern, is, ignored)) {
            Map<String, Object> columns = new LinkedHashMap<>();
            columns.put("type", d.was());
            columns.put("unit", d.is());
            rows.add(new Row(
                    d.what().isEmpty() ? d.part() : d.part() + ", " + d.what(),
                    Row.Status.SHOWN,
                    basis(is, d.part()),
                    columns,
                    List.of()));
        }
        List<String> boxes = is.boxes().values().stream()
                .filter(b -> b.about().basisOr(is.basis()) == Basis.ASSUMED)
                .map(Box::name)
                .toList();
        List<String> notProven = new ArrayList<>();
        notProven.add("That the unit is as its type where no difference is listed: a type proves nothing of a unit.");
        if (!boxes.isEmpty()) {
            notProven.add(
                    "What is in " + boxes.size() + " boxes of it, which are assumed and were not seen in this unit: "
                            + String.join(", ", boxes) + ".");
        }
        return new Answer(
                asked.heading(),
                rows.isEmpty()
                        ? "The records of " + unit + " and of its type do not differ."
                        : rows.size() + " differences from " + type.name() + ", whose pattern is " + type.house() + ".",
                rows,
                List.of(),
                List.of("Things are compared by their names."),
                notProven,
                List.of(),
                Caution.forWhat(Leads.TO_THE_RECORD));
    }

    /** {@return how the part of the unit in which a difference stands is known} */
    private static Basis basis(House house, String part) {
        String name = part.substring(part.indexOf(' ') + 1);
        if (part.startsWith("box ") && house.boxes().containsKey(name)) {
            return house.boxes().get(name).about().basisOr(house.basis());
        }
        if (part.startsWith("panel ") && house.panels().containsKey(name)) {
            return house.panels().get(name).about().basisOr(house.basis());
        }
        return part.startsWith("cable ") && house.cables().containsKey(name)
                ? house.cables().get(name).about().basisOr(house.basis())
                : house.basis();
    }

    private static ProblemException wrong(String found, String cure) {
        return new ProblemException(Problem.error(ProblemKind.NOT_FOUND, Where.field("unit"), found, cure));
    }
}
