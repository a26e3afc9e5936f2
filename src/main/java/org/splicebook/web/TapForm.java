package org.splicebook.web;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.splicebook.problem.ProblemKind;
import org.splicebook.record.Box;
import org.splicebook.record.House;
import org.splicebook.record.Joint;
import org.splicebook.record.Move;
import org.splicebook.rewire.TakenApart;
import org.splicebook.web.view.Entry;
import org.splicebook.web.view.Input;

/** The joints of a box, put right by tapping: first what is meant, then what is so. */
final class TapForm {
    /** What the form is told apart by from others of its page. */
    static final String WHAT = "tap";

    static final String ENDS = "ends";
    static final String DEED = "do";
    static final String TO = "to";
    static final String BY = "by";

    /** Whatever is wrong with the moves that it stands for is wrong with what was tapped. */
    static final Map<String, String> FIELDS = Map.of("moves.*", ENDS);

    private static final List<Joint.By> CONNECTORS =
            List.of(Joint.By.TWIST_ON, Joint.By.LEVER, Joint.By.PUSH_IN, Joint.By.CRIMP, Joint.By.OTHER);

    private TapForm() {}

    /** {@return the fields; the ends are those of the box, each with what it is joined to} */
    static List<Input> inputs(List<Input.Choice> ends) {
        List<Input.Choice> to = new ArrayList<>(List.of(new Input.Choice("", "choose")));
        to.addAll(ends);
        List<Input.Choice> by = CONNECTORS.stream()
                .map(c -> new Input.Choice(c.word(), c.word()))
                .toList();
        return List.of(
                Input.chosen(Input.Kind.TAP, ENDS, "Wires and terminals", "", "tap all that are meant", ends),
                optional(Input.chosen(
                        Input.Kind.LIST,
                        BY,
                        "If joined, by",
                        Joint.By.TWIST_ON.word(),
                        "a terminal gets a pigtail",
                        by)),
                optional(Input.chosen(
                        Input.Kind.LIST, TO, "If they go to one thing, to", "", "a screw, or its joint", to)));
    }

    private static Input optional(Input i) {
        return new Input(i.name(), i.kind(), i.label(), i.value(), i.meaning(), false, i.choices(), i.wrong());
    }

    /** {@return what can be done with what is tapped} */
    static List<Entry.Button> buttons() {
        return List.of(
                new Entry.Button(DEED, "join", "Join these"),
                new Entry.Button(DEED, "to", "They go there"),
                new Entry.Button(DEED, "cap", "Cap each"),
                new Entry.Button(DEED, "apart", "Take apart"));
    }

    /**
     * {@return the house after it}
     *
     * @param deed the value of the button
     * @param ends what was tapped
     * @param to where it goes, if it goes
     * @param by the connector, if it is joined
     */
    static House done(House house, Box box, String deed, List<String> ends, String to, String by) {
        if (ends.isEmpty()) {
            throw Failures.failure(
                    ENDS, ProblemKind.MISSING, "Nothing is tapped.", "Tap the wires and terminals first.");
        }
        String in = box.name();
        return switch (deed) {
            case "join" -> BoxPages.entered(house, List.of(new Move.Splice(in, ends, connector(by))));
            case "cap" ->
                BoxPages.entered(
                        house,
                        ends.stream().map(e -> (Move) new Move.Cap(in, e)).toList());
            case "to" -> {
                if (to.isEmpty()) {
                    throw Failures.failure(
                            TO, ProblemKind.MISSING, "It is not said where they go.", "Choose a terminal or a wire.");
                }
                yield BoxPages.entered(
                        house,
                        ends.stream().map(e -> (Move) new Move.Shift(in, e, to)).toList());
            }
            case "apart" -> TakenApart.of(house, in, ends).get();
            default ->
                throw Failures.failure(
                        ProblemKind.BAD_VALUE, "It was not said what is done with them.", "Use a button of the page.");
        };
    }

    /** {@return why the record changes, in a few words} */
    static String why(String deed) {
        return switch (deed) {
            case "join" -> "Wires joined, seen in";
            case "cap" -> "Capped wires seen in";
            case "apart" -> "No longer recorded as joined, in";
            default -> "Wires seen in";
        };
    }

    private static Joint.@Nullable By connector(String word) {
        return Stream.of(Joint.By.values())
                .filter(b -> b.word().equals(word))
                .findFirst()
                .orElse(null);
    }
}
