package org.splicebook.render;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.splicebook.answer.Caution;
import org.splicebook.answer.Leads;
import org.splicebook.answer.Reason;
import org.splicebook.record.Acceptance;
import org.splicebook.rules.Certainty;
import org.splicebook.rules.Checked;
import org.splicebook.rules.Comparison;
import org.splicebook.rules.Finding;
import org.splicebook.rules.Grouping;
import org.splicebook.rules.Pack;
import org.splicebook.rules.RuleText;

/** Findings as text for people: what the record shows, worst first; what is possible; what has to be known; then the cautions. */
public final class FindingsText {
    /** Stands with every list of findings. */
    public static final String ADVICE =
            "This is advice before an inspection, never an approval. The local code and the inspector decide.";

    private final int width;
    private final List<String> lines = new ArrayList<>();

    private FindingsText(int width) {
        this.width = width;
    }

    /** {@return what a check found, in lines of at most that width} */
    public static String write(Checked checked, Grouping by, int width) {
        FindingsText t = new FindingsText(width);
        List<Finding> open = checked.open();
        t.head(checked);
        t.say(counts(open)
                + (checked.accepted().isEmpty() ? "" : " " + checked.accepted().size() + " accepted."));
        t.say(ADVICE);
        t.changes(checked.pack());
        if (by == Grouping.SEVERITY) {
            t.parts(open);
        } else {
            by.of(checked.house(), open).forEach((group, findings) -> {
                t.say("");
                t.say("== " + group + ": " + counts(findings));
                t.parts(findings);
            });
        }
        t.acceptances(checked);
        t.cautions();
        return t.text();
    }

    /** {@return one finding at length: what was found and how it is known, how it is judged, what would put it right} */
    public static String explain(Checked checked, Finding f, List<String> editions, int width) {
        FindingsText t = new FindingsText(width);
        t.head(checked);
        t.say("");
        t.say(f.severity().word().toUpperCase(Locale.ROOT) + "  " + f.title());
        t.say(f.key());
        t.say("");
        t.say(sure(f.certainty()) + ": " + f.said());
        t.field("About", f.subject() + (f.place() == null ? "" : ", " + f.place()));
        t.field("Circuit", f.breaker() == null ? "" : f.breaker());
        t.field("Outlets", String.join(", ", f.outlets()));
        t.field("Boxes", String.join(", ", f.boxes()));
        t.field("Known", f.basis().word() + " at the weakest");
        t.field("Judged", String.join("; ", f.judged().said()));
        t.field(
                "Article",
                f.article().isEmpty()
                        ? "no code speaks of it"
                        : f.article() + " in " + checked.pack().title());
        t.field("By edition", String.join("; ", editions));
        t.field("Local rules", f.local());
        t.field("Mark", f.mark().isEmpty() ? "" : "The article is given " + f.mark() + ".");
        t.field("Cure", f.cure());
        t.field("By whom", f.licensed() ? "a licensed electrician" : "whoever the local rules let do it");
        if (!f.ways().isEmpty()) {
            t.say("");
            t.say("The way that shows it");
            Reason.say(f.ways()).forEach(t::bullet);
        }
        checked.accepted().stream()
                .filter(a -> a.finding().key().equals(f.key()))
                .forEach(a -> t.say(accepted(a.acceptance())));
        t.cautions();
        return t.text();
    }

    /** {@return two checks beside each other} */
    public static String compare(Checked before, Checked after, int width) {
        FindingsText t = new FindingsText(width);
        Comparison c = Comparison.of(before.all(), after.all());
        t.head(after);
        t.say(c.cured().size() + " cured, " + c.added().size() + " new, "
                + c.changed().size() + " changed, " + c.same().size() + " the same.");
        t.say(ADVICE);
        t.list("Cured", c.cured());
        t.list("New", c.added());
        if (!c.changed().isEmpty()) {
            t.say("");
            t.say("Changed");
            c.changed().forEach(x -> {
                t.bullet(line(x.after()));
                t.under("before: " + sure(x.before().certainty()) + ": "
                        + x.before().said());
            });
        }
        t.cautions();
        return t.text();
    }

    /** What local rules changed is told before what is found, or a rule that is off would be silent. */
    private void changes(Pack pack) {
        if (!pack.changes().isEmpty()) {
            say("");
            say("Changed by local rules");
            pack.changes().forEach(c -> bullet(c.rule() + ": " + c.what() + ". Reason: " + c.reason()));
        }
    }

    private static String sure(Certainty c) {
        return switch (c) {
            case FOUND -> "Found";
            case POSSIBLE -> "Possible";
            case ASKED -> "Asked";
        };
    }

    private static String counts(List<Finding> all) {
        return String.format(
                Locale.ROOT,
                "%d found, %d possible, %d asked.",
                count(all, Certainty.FOUND),
                count(all, Certainty.POSSIBLE),
                count(all, Certainty.ASKED));
    }

    private static long count(List<Finding> all, Certainty c) {
        return all.stream().filter(f -> f.certainty() == c).count();
    }

    private void head(Checked checked) {
        say("Checked by " + checked.pack().title() + ": " + checked.house().said());
    }

    private String text() {
        return String.join("\n", lines) + "\n";
    }

    private void say(String s) {
        lines.addAll(s.isEmpty() ? List.of("") : Lines.wrap(s, width));
    }

    private void bullet(String s) {
        lines.addAll(Lines.bullet(s, width));
    }

    private void under(String s) {
        lines.addAll(Lines.hung("  ", s, width));
    }

    private void field(String name, String value) {
        if (!value.isEmpty()) {
            lines.addAll(Lines.hung(name + ": ", value, width));
        }
    }

    private void cautions() {
        say("");
        say(ReplyText.CAUTIONS);
        Caution.forWhat(Leads.TO_A_WIRE).forEach(this::bullet);
    }

    private void parts(List<Finding> all) {
        part("Found", all, Certainty.FOUND);
        part("Possible: the record does not exclude it", all, Certainty.POSSIBLE);
        part("Asked: what a rule needs to know", all, Certainty.ASKED);
    }

    private void list(String title, List<Finding> all) {
        if (all.isEmpty()) {
            return;
        }
        say("");
        say(title);
        all.forEach(f -> bullet(line(f)));
    }

    private static String line(Finding f) {
        return f.severity().word() + ", " + sure(f.certainty()).toLowerCase(Locale.ROOT) + ": " + f.title() + ", "
                + about(f);
    }

    private static String about(Finding f) {
        return f.subject() + (f.place() == null ? "" : ", " + f.place()) + ": " + f.said();
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
            bullet(about(f));
            boolean last = i + 1 == part.size() || !part.get(i + 1).rule().equals(rule);
            if (last) {
                if (!f.judged().said().isEmpty()) {
                    under(String.join("; ", f.judged().said()) + ".");
                }
                under("Cure: " + f.cure() + (f.licensed() ? " For a licensed electrician." : ""));
                if (!f.local().isEmpty()) {
                    under("By local rules. " + f.local());
                }
                if (!f.mark().isEmpty()) {
                    under("The article is given " + f.mark() + ".");
                }
            }
        }
    }

    private void acceptances(Checked checked) {
        if (!checked.accepted().isEmpty()) {
            say("");
            say("Accepted: found, looked at, and let stand");
            checked.accepted().forEach(a -> {
                bullet(line(a.finding()));
                under(accepted(a.acceptance()));
            });
        }
        checked.returned()
                .forEach(a -> say("Accepted on " + a.date()
                        + " and open again, since the check now says something else: " + a.finding() + "."));
        checked.settled().forEach(a -> say("Accepted on " + a.date() + " and found no more: " + a.finding() + "."));
    }

    private static String accepted(Acceptance a) {
        return "Accepted on " + a.date() + (a.by() == null ? "" : " by " + a.by()) + ": " + a.reason();
    }

    /** {@return in which editions a rule has which article, in words} */
    public static List<String> editions(String rule, List<Pack> packs) {
        List<String> said = new ArrayList<>();
        for (int i = 0; i < packs.size(); i++) {
            int last = i;
            while (last + 1 < packs.size() && article(rule, packs.get(last + 1)).equals(article(rule, packs.get(i)))) {
                last++;
            }
            String years = packs.get(i).edition()
                    + (last == i ? "" : " to " + packs.get(last).edition());
            said.add(years + ": " + article(rule, packs.get(i)));
            i = last;
        }
        return said;
    }

    private static String article(String rule, Pack pack) {
        RuleText text = pack.rules().get(rule);
        return text == null || text.article().isEmpty() ? "none" : text.article();
    }
}
