package org.splicebook.render;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.splicebook.answer.Caution;
import org.splicebook.answer.Leads;
import org.splicebook.record.House;
import org.splicebook.rules.Certainty;
import org.splicebook.rules.Finding;
import org.splicebook.rules.Pack;

/** Findings as text for people: what the record shows, worst first; what is possible; what has to be known; then the cautions. */
public final class FindingsText {
    private static final String ADVICE =
            "This is advice before an inspection, never an approval. The local code and the inspector decide.";

    private final int width;
    private final List<String> lines = new ArrayList<>();

    private FindingsText(int width) {
        this.width = width;
    }

    /** {@return findings of a house, in lines of at most that width} */
    public static String write(House house, Pack pack, List<Finding> all, int width) {
        FindingsText t = new FindingsText(width);
        t.say("Checked by " + pack.title() + ": " + house.said());
        t.say(String.format(
                Locale.ROOT,
                "%d found, %d possible, %d asked.",
                count(all, Certainty.FOUND),
                count(all, Certainty.POSSIBLE),
                count(all, Certainty.ASKED)));
        t.say(ADVICE);
        t.part("Found", all, Certainty.FOUND);
        t.part("Possible: the record does not exclude it", all, Certainty.POSSIBLE);
        t.part("Asked: what a rule needs to know", all, Certainty.ASKED);
        t.say("");
        t.say(ReplyText.CAUTIONS);
        Caution.forWhat(Leads.TO_A_WIRE).forEach(t::bullet);
        return String.join("\n", t.lines) + "\n";
    }

    private static long count(List<Finding> all, Certainty c) {
        return all.stream().filter(f -> f.certainty() == c).count();
    }

    private void say(String s) {
        lines.addAll(s.isEmpty() ? List.of("") : Lines.wrap(s, width));
    }

    private void bullet(String s) {
        lines.addAll(Lines.bullet(s, width));
    }

    /** One rule after the other, with what it found, then what would put it right. */
    private void part(String title, List<Finding> all, Certainty c) {
        List<Finding> part = all.stream().filter(f -> f.certainty() == c).toList();
        if (part.isEmpty()) {
            return;
        }
        say("");
        say(title);
        String rule = "";
        for (int i = 0; i < part.size(); i++) {
            Finding f = part.get(i);
            if (!f.rule().equals(rule)) {
                rule = f.rule();
                say("");
                say(f.severity().word().toUpperCase(Locale.ROOT) + "  " + f.title()
                        + (f.article().isEmpty() ? "" : " (" + f.article() + ")"));
            }
            bullet(f.subject() + (f.place() == null ? "" : ", " + f.place()) + ": " + f.said());
            boolean last = i + 1 == part.size() || !part.get(i + 1).rule().equals(rule);
            if (last) {
                say("  " + String.join("; ", f.judged().said()) + ".");
                say("  Cure: " + f.cure() + (f.licensed() ? " For a licensed electrician." : ""));
                if (!f.mark().isEmpty()) {
                    say("  The article is given " + f.mark() + ".");
                }
            }
        }
    }
}
