package org.splicebook.render;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.Locale;
import org.splicebook.answer.Caution;
import org.splicebook.answer.Leads;
import org.splicebook.record.Acceptance;
import org.splicebook.rules.Checked;
import org.splicebook.rules.Comparison;
import org.splicebook.rules.Finding;
import org.splicebook.rules.Grouping;
import org.splicebook.rules.Pack;

/** Findings as JSON. */
public final class FindingsJson {
    private FindingsJson() {}

    /** {@return what a check found; grouped where it is asked for by place or circuit} */
    public static ObjectNode write(Checked checked, Grouping by) {
        ObjectNode o = head(checked);
        o.put("by", by.word());
        o.set("findings", Json.list(checked.open(), FindingsJson::finding));
        if (by != Grouping.SEVERITY) {
            ObjectNode groups = Json.object();
            by.of(checked.house(), checked.open())
                    .forEach((name, all) -> groups.set(
                            name, Json.tree(all.stream().map(Finding::key).toList())));
            o.set("groups", groups);
        }
        o.set("accepted", Json.list(checked.accepted(), a -> {
            ObjectNode one = finding(a.finding());
            one.set("acceptance", acceptance(a.acceptance()));
            return one;
        }));
        o.set("returned", Json.list(checked.returned(), FindingsJson::acceptance));
        o.set("settled", Json.list(checked.settled(), FindingsJson::acceptance));
        return cautions(o);
    }

    /** {@return one finding at length} */
    public static ObjectNode explain(Checked checked, Finding f) {
        ObjectNode o = head(checked);
        o.set("finding", finding(f));
        checked.accepted().stream()
                .filter(a -> a.finding().key().equals(f.key()))
                .forEach(a -> o.set("acceptance", acceptance(a.acceptance())));
        return cautions(o);
    }

    /** {@return two checks beside each other} */
    public static ObjectNode compare(Checked before, Checked after) {
        Comparison c = Comparison.of(before.all(), after.all());
        ObjectNode o = head(after);
        o.set("cured", Json.list(c.cured(), FindingsJson::finding));
        o.set("new", Json.list(c.added(), FindingsJson::finding));
        o.set("changed", Json.list(c.changed(), x -> {
            ObjectNode one = Json.object();
            one.set("before", finding(x.before()));
            one.set("after", finding(x.after()));
            return one;
        }));
        o.set("same", Json.list(c.same(), FindingsJson::finding));
        return cautions(o);
    }

    private static ObjectNode head(Checked checked) {
        ObjectNode o = Json.object()
                .put("house", checked.house().id())
                .put("pack", checked.pack().id());
        o.set("local-changes", Json.list(checked.pack().changes(), FindingsJson::change));
        return o;
    }

    private static ObjectNode change(Pack.Changed c) {
        return Json.object().put("rule", c.rule()).put("what", c.what()).put("reason", c.reason());
    }

    private static ObjectNode cautions(ObjectNode o) {
        o.set("cautions", Json.tree(Caution.forWhat(Leads.TO_A_WIRE)));
        return o;
    }

    private static ObjectNode acceptance(Acceptance a) {
        return Json.object()
                .put("finding", a.finding())
                .put("certainty", a.certainty())
                .put("said", a.said())
                .put("reason", a.reason())
                .put("by", a.by())
                .put("date", a.date());
    }

    private static ObjectNode finding(Finding f) {
        ObjectNode o = Json.object().put("key", f.key()).put("rule", f.rule()).put("title", f.title());
        o.put("severity", f.severity().word()).put("certainty", f.certainty().word());
        o.put("subject", f.subject()).put("said", f.said());
        o.put("place", f.place()).put("breaker", f.breaker());
        o.set("outlets", Json.tree(f.outlets()));
        o.set("boxes", Json.tree(f.boxes()));
        o.set("ways", Json.list(f.ways(), ReplyJson::way));
        o.put("basis", f.basis().word());
        o.put("hazard", f.judged().hazard());
        o.put(
                "when-built",
                f.judged().whenBuilt().name().toLowerCase(Locale.ROOT).replace('_', '-'));
        o.put("new-work", f.judged().newWork());
        o.put("article", f.article()).put("mark", f.mark());
        return o.put("cure", f.cure()).put("licensed", f.licensed()).put("local", f.local());
    }
}
