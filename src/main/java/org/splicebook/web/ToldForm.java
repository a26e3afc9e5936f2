package org.splicebook.web;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.IntConsumer;
import java.util.function.UnaryOperator;
import org.splicebook.panelplan.TellReader;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.web.view.Input;

/** What a form tells beside a record for a load calculation. Several loads stand in lines of one field, or with a semicolon between. */
final class ToldForm {
    /** The fields, in the order of the form. */
    static final List<String> FIELDS = List.of(
            "add",
            "area",
            "small-appliance",
            "laundry",
            "nameplates",
            "without",
            "rating",
            "all-listed",
            "peak",
            "raise",
            "season");

    private static final Set<String> OF_THE_METER = Set.of("peak", "raise", "season");

    private final UnaryOperator<String> said;
    private final List<Problem> problems = new ArrayList<>();

    /** A form; {@code said} gives what a field holds, empty where it holds nothing. */
    ToldForm(UnaryOperator<String> said) {
        this.said = said;
    }

    /** {@return the fields that hold anything} */
    Map<String, String> held() {
        Map<String, String> held = new LinkedHashMap<>();
        FIELDS.stream()
                .filter(f -> !said.apply(f).isBlank())
                .forEach(f -> held.put(f, said.apply(f).strip()));
        return held;
    }

    /** {@return the fields to fill in} */
    List<Input> inputs(boolean withMeter) {
        List<Input> all = new ArrayList<>();
        all.add(
                area(
                        "add",
                        "Loads to add",
                        "one in a line: ev 48 A; heat pump 5.7 kVA; ev 48 A held to 16 A; tub: appliance 6 kW; dishwasher 1.2 kW at 120 V"));
        all.add(text("area", "Floor area", "by outside dimensions: 1800 ft2 or 168 m2; empty takes the record's"));
        all.add(text("small-appliance", "Small-appliance circuits", "how many, kitchen and dining"));
        all.add(text("laundry", "Laundry circuits", "how many"));
        all.add(area("nameplates", "What plates say", "not written down, one in a line: range=12 kW"));
        all.add(text("without", "Devices to leave out", "those that are replaced, a comma between"));
        all.add(text("rating", "Held against", "100 A; empty takes the record's"));
        all.add(Input.chosen(
                Input.Kind.LIST,
                "all-listed",
                "Are all fixed loads listed?",
                said.apply("all-listed").isBlank() ? "" : "yes",
                "heat, cooling, water heater, pump, tub, range",
                List.of(new Input.Choice("", "Not known"), new Input.Choice("yes", "Yes, there is no other"))));
        if (withMeter) {
            all.add(text("peak", "Greatest demand by the utility", "of a year: 8.4 kW"));
            all.add(text("raise", "Raise long intervals by", "a factor for readings of more than 15 minutes: 1.3"));
            all.add(text(
                    "season", "For 30 days of readings", "ran: the larger of heating and cooling ran; else 9.6 kW"));
        }
        return all.stream()
                .map(i ->
                        new Input(i.name(), i.kind(), i.label(), i.value(), i.meaning(), false, i.choices(), i.wrong()))
                .toList();
    }

    private Input text(String name, String label, String meaning) {
        return Input.typed(Input.Kind.TEXT, name, label, said.apply(name), meaning, false);
    }

    private Input area(String name, String label, String meaning) {
        return Input.typed(Input.Kind.AREA, name, label, said.apply(name), meaning, false);
    }

    /** {@return what is held, carried along unseen} */
    List<Input> hidden() {
        return held().entrySet().stream()
                .map(e -> Input.hidden(e.getKey(), e.getValue()))
                .toList();
    }

    /** {@return what is wrong with the form's shape, after telling a reader what it holds} */
    List<Problem> tell(TellReader reader, boolean withMeter) {
        held().forEach((field, value) -> {
            if (withMeter || !OF_THE_METER.contains(field)) {
                one(reader, field, value);
            }
        });
        return problems;
    }

    private void one(TellReader reader, String field, String value) {
        switch (field) {
            case "add" -> lines(value).forEach(reader::add);
            case "area" -> reader.area(value);
            case "small-appliance" -> number(field, value, reader::smallAppliance);
            case "laundry" -> number(field, value, reader::laundry);
            case "nameplates" -> pairs(field, value, "range=12 kW", problems).forEach(reader::nameplate);
            case "without" ->
                Arrays.stream(value.split("[,;\n]"))
                        .map(String::strip)
                        .filter(s -> !s.isEmpty())
                        .forEach(reader::without);
            case "rating" -> reader.rating(value);
            case "all-listed" -> reader.allListed();
            case "peak" -> reader.peak(value);
            case "raise" -> reader.raise(value);
            default -> reader.season(value);
        }
    }

    private void number(String field, String value, IntConsumer take) {
        if (value.matches("[0-9]{1,3}")) {
            take.accept(Integer.parseInt(value));
        } else {
            problems.add(Problem.error(
                    ProblemKind.BAD_VALUE,
                    Where.field(field),
                    "\"" + value + "\" is no whole number.",
                    "Write for example 2."));
        }
    }

    /** {@return the lines of a field that hold anything} */
    static List<String> lines(String value) {
        return Arrays.stream(value.split("[;\n]"))
                .map(String::strip)
                .filter(s -> !s.isEmpty())
                .toList();
    }

    /** {@return names and what they are, of lines {@code name=value}} */
    static Map<String, String> pairs(String field, String value, String example, List<Problem> problems) {
        Map<String, String> pairs = new LinkedHashMap<>();
        for (String line : lines(value)) {
            int cut = line.indexOf('=');
            if (cut < 1) {
                problems.add(Problem.error(
                        ProblemKind.BAD_VALUE,
                        Where.field(field),
                        "\"" + line + "\" names nothing.",
                        "Write for example " + example + "."));
            } else {
                pairs.put(
                        line.substring(0, cut).strip(), line.substring(cut + 1).strip());
            }
        }
        return pairs;
    }
}
