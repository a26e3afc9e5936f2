package org.splicebook.web;

import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.function.UnaryOperator;
import org.splicebook.panelplan.TellReader;
import org.splicebook.panelplan.upgrade.PanelKind;
import org.splicebook.panelplan.upgrade.Prices;
import org.splicebook.panelplan.upgrade.Wanted;
import org.splicebook.panelplan.upgrade.WantedReader;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.problem.Where;
import org.splicebook.record.House;
import org.splicebook.web.view.Input;

/** The form that says what is wanted of a new panel. */
final class PlanForm {
    private static final List<String> OWN = List.of(
            "panel",
            "of",
            "places",
            "lengths",
            "protect",
            "locks",
            "keep",
            "entry",
            "slack",
            "lower",
            "backfeed",
            "prices");

    private final House house;
    private final UnaryOperator<String> said;

    /** A form; {@code said} gives what a field holds, empty where it holds nothing. */
    PlanForm(House house, UnaryOperator<String> said) {
        this.house = house;
        this.said = said;
    }

    /** {@return all that it holds} */
    Map<String, String> held() {
        Map<String, String> held = new LinkedHashMap<>(new ToldForm(said).held());
        OWN.stream().filter(f -> !said.apply(f).isBlank()).forEach(f -> held.put(f, said.apply(f)));
        return held;
    }

    /** {@return the fields to fill in} */
    List<Input> inputs() {
        List<Input> all = new ArrayList<>();
        List<Input.Choice> panels = house.panels().values().stream()
                .filter(p -> p.supply().stream().anyMatch(s -> house.sources().containsKey(s)))
                .map(p -> new Input.Choice(p.name(), p.name()))
                .toList();
        all.add(Input.chosen(
                Input.Kind.LIST,
                "of",
                "The panel that goes",
                or("of", panels.isEmpty() ? "" : panels.get(0).value()),
                "",
                panels));
        all.add(Input.chosen(
                Input.Kind.LIST,
                "panel",
                "The panel that comes",
                or("panel", "200-40"),
                "of no make: rating and spaces",
                PanelKind.all().stream()
                        .map(k -> new Input.Choice(k.word(), k.title()))
                        .toList()));
        all.addAll(new ToldForm(said).inputs(false));
        all.add(area("places", "Places of what is added", "one in a line: ev=garage"));
        all.add(area("lengths", "Lengths of new cables", "one in a line: ev=12 m"));
        all.add(Input.chosen(
                Input.Kind.LIST,
                "protect",
                "Protection",
                or("protect", "needed"),
                "arc-fault and ground-fault breakers",
                List.of(
                        new Input.Choice("needed", "What has it today, and what is new"),
                        new Input.Choice("all", "All that new work would have"))));
        all.add(area(
                "locks", "Circuits with a place of their own", "one in a line: 9=5+7, today's breaker or a new load"));
        all.add(text("keep", "Spaces that stay free", "1, 3"));
        all.add(Input.chosen(
                Input.Kind.LIST,
                "entry",
                "Where cables come in",
                or("entry", "unknown"),
                "a wire that has to go farther than today may be too short",
                List.of(
                        new Input.Choice("unknown", "Not known"),
                        new Input.Choice("top", "At the top"),
                        new Input.Choice("bottom", "At the bottom"))));
        all.add(text("slack", "Wires reach farther than today by", "6 in; empty for nothing"));
        all.add(text("lower", "The new first row is lower by", "2 in; with a minus where it is higher"));
        all.add(text("backfeed", "Solar or a battery feeds back", "continuous amperes: 24 A"));
        all.add(area("prices", "Price list", "one in a line: breaker 20 A; 12.50"));
        return all.stream()
                .map(i ->
                        new Input(i.name(), i.kind(), i.label(), i.value(), i.meaning(), false, i.choices(), i.wrong()))
                .toList();
    }

    private String or(String name, String otherwise) {
        return said.apply(name).isBlank() ? otherwise : said.apply(name);
    }

    private Input text(String name, String label, String meaning) {
        return Input.typed(Input.Kind.TEXT, name, label, said.apply(name), meaning, false);
    }

    private Input area(String name, String label, String meaning) {
        return Input.typed(Input.Kind.AREA, name, label, said.apply(name), meaning, false);
    }

    /** {@return the price list} */
    Result<Prices> prices() {
        return said.apply("prices").isBlank() ? Result.ok(Prices.none()) : Prices.read("prices", said.apply("prices"));
    }

    /**
     * {@return what is wanted}
     *
     * @throws ProblemException with all that is wrong
     */
    Wanted wanted() {
        TellReader loads = new TellReader(house);
        List<Problem> problems = new ArrayList<>(new ToldForm(said).tell(loads, false));
        String of = said.apply("of").strip();
        WantedReader reader = new WantedReader(house, said.apply("panel").strip(), of.isEmpty() ? null : of, loads);
        reader.protect(or("protect", "needed"));
        reader.entry(or("entry", "unknown"));
        pairs("places", "ev=garage", problems).forEach(reader::place);
        pairs("lengths", "ev=12 m", problems).forEach(reader::length);
        pairs("locks", "9=5+7", problems).forEach(reader::lock);
        Map<String, Function<String, Runnable>> one = new LinkedHashMap<>();
        one.put("slack", s -> () -> reader.slack(s));
        one.put("lower", s -> () -> reader.lower(s));
        one.put("backfeed", s -> () -> reader.backfeed(s));
        one.forEach((field, take) -> {
            String value = said.apply(field).strip();
            if (!value.isEmpty()) {
                take.apply(value).run();
            }
        });
        keep(reader, problems);
        reader.year(LocalDate.now(ZoneId.systemDefault()).getYear());
        Result<Wanted> read = reader.read();
        problems.addAll(read.problems());
        problems.addAll(prices().problems());
        if (!problems.isEmpty()) {
            throw new ProblemException(problems);
        }
        return read.get();
    }

    private Map<String, String> pairs(String field, String example, List<Problem> problems) {
        return ToldForm.pairs(field, said.apply(field), example, problems);
    }

    private void keep(WantedReader reader, List<Problem> problems) {
        Arrays.stream(said.apply("keep").split("[,;\\s]+"))
                .filter(s -> !s.isEmpty())
                .forEach(s -> {
                    if (s.matches("[0-9]{1,3}")) {
                        reader.keep(Integer.parseInt(s));
                    } else {
                        problems.add(Problem.error(
                                ProblemKind.BAD_VALUE,
                                Where.field("keep"),
                                "\"" + s + "\" is no space.",
                                "Write numbers with commas between."));
                    }
                });
    }
}
