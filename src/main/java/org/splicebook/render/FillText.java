package org.splicebook.render;

import java.util.ArrayList;
import java.util.List;
import org.splicebook.answer.Caution;
import org.splicebook.answer.Leads;
import org.splicebook.rules.fill.BoxFill;
import org.splicebook.rules.fill.BoxFills;
import org.splicebook.rules.fill.Room;

/** How full boxes are, as text for people. */
public final class FillText {
    /** Stands beside every count. */
    public static final String ADVICE =
            "This count is advice before an inspection, never an approval: the local code and the inspector decide.";

    private final int width;
    private final List<String> lines = new ArrayList<>();

    private FillText(int width) {
        this.width = width;
    }

    /** {@return one box in full, in lines of at most that width} */
    public static String one(BoxFill f, int width) {
        FillText text = new FillText(width);
        text.say(f.said());
        text.say("Counted by edition " + f.edition() + " (" + f.method() + ")"
                + (f.isPresumed()
                        ? "; that edition is taken to count as the one before it: check the printed code."
                        : "."));
        text.items(f);
        text.bullets("Room in the box, in3", f.parts());
        text.bullets("What would still fit", extras(f));
        text.bullets("What would make room", f.cures());
        text.bullets("What is not known", f.notKnown());
        text.bullets("Assumed", f.assumed());
        text.end();
        return text.text();
    }

    /** {@return boxes, the fullest first, a line each} */
    public static String all(List<BoxFill> fills, int width) {
        FillText text = new FillText(width);
        text.say(counted(fills));
        text.title("Boxes");
        text.lines.addAll(new Table(
                        List.of("box", "verdict", "takes in3", "holds in3"),
                        worstFirst(fills).stream()
                                .map(f -> List.of(
                                        f.box(),
                                        BoxFills.word(f.verdict()),
                                        f.used().said(),
                                        holds(f)))
                                .toList())
                .lines(width));
        text.end();
        return text.text();
    }

    /** {@return what would still fit, a line each} */
    public static List<String> extras(BoxFill f) {
        return f.extras().stream()
                .map(e -> e.say() + ": "
                        + switch (e.answer()) {
                            case YES -> "yes, ";
                            case NO -> "no, ";
                            case NOT_KNOWN -> "not known, ";
                        }
                        + e.used().said() + " in3 in all")
                .toList();
    }

    private static String holds(BoxFill f) {
        Room capacity = f.capacity();
        return capacity == null ? "not known" : capacity.said();
    }

    private static List<BoxFill> worstFirst(List<BoxFill> fills) {
        return fills.stream()
                .sorted(java.util.Comparator.comparing(BoxFill::verdict).thenComparing(BoxFill::box))
                .toList();
    }

    private static String counted(List<BoxFill> fills) {
        if (fills.isEmpty()) {
            return "No box is recorded.";
        }
        return count(fills, BoxFill.Verdict.TOO_FULL) + " too full, "
                + count(fills, BoxFill.Verdict.MAY_BE_TOO_FULL) + " may be, "
                + count(fills, BoxFill.Verdict.VOLUME_NOT_KNOWN) + " of unknown volume, "
                + count(fills, BoxFill.Verdict.FITS) + " with room, of " + fills.size() + " boxes.";
    }

    private static long count(List<BoxFill> fills, BoxFill.Verdict verdict) {
        return fills.stream().filter(f -> f.verdict() == verdict).count();
    }

    private void items(BoxFill f) {
        title("What counts");
        lines.addAll(new Table(
                        List.of("item", "count", "in3", "article"),
                        f.items().stream()
                                .map(i -> List.of(
                                        i.what() + (i.about().isEmpty() ? "" : ": " + String.join(", ", i.about())),
                                        i.count(),
                                        i.room().said(),
                                        i.article() + (i.mark().equals("V") ? "" : " [" + mark(i.mark()) + "]")))
                                .toList())
                .lines(width));
    }

    private static String mark(String mark) {
        return mark.equals("M") ? "from practice" : "unsure";
    }

    private void end() {
        bullets(ReplyText.CAUTIONS, Caution.forWhat(Leads.TO_A_WIRE));
        lines.addAll(Lines.bullet(ADVICE, width));
    }

    private void say(String s) {
        lines.addAll(Lines.wrap(s, width));
    }

    private void title(String s) {
        lines.add("");
        say(s);
    }

    private void bullets(String title, List<String> all) {
        if (!all.isEmpty()) {
            title(title);
            all.forEach(s -> lines.addAll(Lines.bullet(s, width)));
        }
    }

    private String text() {
        return String.join("\n", lines) + "\n";
    }
}
