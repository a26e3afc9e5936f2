package org.splicebook.ask;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.splicebook.answer.Answer;
import org.splicebook.answer.Row;
import org.splicebook.problem.ProblemKind;
import org.splicebook.record.Box;
import org.splicebook.rules.fill.BoxFill;
import org.splicebook.rules.fill.BoxFills;
import org.splicebook.rules.fill.FillItem;

/** How full is a box, and what would still fit? */
final class Fill {
    private static final String AS_RECORDED = "as recorded";

    static final ComputedQuestion QUESTION = ComputedQuestion.answer(
                    "fill", "How full is {box}, and what would still fit, by the count of edition {edition}?")
            .with("box", "a box, for example stair-head")
            .with("edition", "the year of the edition to count by, for example 2017", AS_RECORDED)
            .columns("count", "in3", "article", "of")
            .by(asked -> new Fill(asked).answer());

    private final Asked asked;

    private Fill(Asked asked) {
        this.asked = asked;
    }

    private Answer answer() {
        Box box = asked.house().boxes().get(asked.value("box"));
        if (box == null) {
            throw Asked.wrong(
                    ProblemKind.BAD_VALUE,
                    "box",
                    asked.value("box") + " is a panel.",
                    "Panels are not counted so: their room is given by their make.");
        }
        BoxFill fill = BoxFills.of(asked.wiring(), box, edition());
        List<Row> rows = fill.items().stream().map(i -> row(i, fill)).toList();
        return asked.answer(fill.said(), rows, fill.notKnown(), settle(fill))
                .withSections(List.of(
                        new Answer.Section("Counted", false, counted(fill)),
                        new Answer.Section("Room in the box, in3", false, fill.parts()),
                        new Answer.Section("What would still fit", false, extras(fill)),
                        new Answer.Section("What would make room", false, fill.cures()),
                        new Answer.Section("Taken to be so", false, fill.assumed())));
    }

    private int edition() {
        String said = asked.value("edition");
        if (said.equals(AS_RECORDED)) {
            return BoxFills.edition(asked.house());
        }
        if (!said.matches("(19|20)[0-9]{2}")) {
            throw Asked.wrong(
                    ProblemKind.BAD_VALUE,
                    "edition",
                    said + " is no year.",
                    "Give the year of an edition, for example 2017.");
        }
        return Integer.parseInt(said);
    }

    private static Row row(FillItem i, BoxFill fill) {
        Map<String, Object> columns = new LinkedHashMap<>();
        columns.put("count", i.count());
        columns.put("in3", i.room().said());
        columns.put("article", i.article());
        columns.put("of", i.about());
        return new Row(
                i.what(),
                i.room().isExact() ? Row.Status.SHOWN : Row.Status.POSSIBLE,
                fill.basis(),
                columns,
                List.of());
    }

    private static List<String> counted(BoxFill fill) {
        List<String> all = new ArrayList<>();
        all.add("By edition " + fill.edition() + " (" + fill.method() + ").");
        if (fill.isPresumed()) {
            all.add("That edition is taken to count as the one before it: check the printed code.");
        }
        all.add("Advice before an inspection, never an approval.");
        return all;
    }

    private static List<String> extras(BoxFill fill) {
        return fill.extras().stream()
                .map(e -> e.say() + ": "
                        + switch (e.answer()) {
                            case YES -> "yes";
                            case NO -> "no";
                            case NOT_KNOWN -> "not known";
                        }
                        + ", " + e.used().said() + " in3 in all")
                .toList();
    }

    private static List<String> settle(BoxFill fill) {
        return fill.notKnown().isEmpty()
                ? List.of()
                : List.of(
                        "Open the box, once what may reach it is off, locked and tested: read its mark, look for clamps, count what enters.");
    }
}
