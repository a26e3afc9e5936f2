package org.splicebook.render;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import java.util.Locale;
import org.splicebook.answer.Caution;
import org.splicebook.answer.Leads;
import org.splicebook.record.House;
import org.splicebook.rules.Finding;
import org.splicebook.rules.Pack;

/** Findings as JSON. */
public final class FindingsJson {
    private FindingsJson() {}

    /** {@return findings of a house} */
    public static ObjectNode write(House house, Pack pack, List<Finding> all) {
        ObjectNode o = Json.object().put("house", house.id()).put("pack", pack.id());
        o.set("findings", Json.list(all, FindingsJson::finding));
        o.set("cautions", Json.tree(Caution.forWhat(Leads.TO_A_WIRE)));
        return o;
    }

    private static ObjectNode finding(Finding f) {
        ObjectNode o = Json.object().put("rule", f.rule()).put("title", f.title());
        o.put("severity", f.severity().word()).put("certainty", f.certainty().word());
        o.put("subject", f.subject()).put("said", f.said());
        o.put("place", f.place()).put("breaker", f.breaker());
        o.set("outlets", Json.tree(f.outlets()));
        o.set("boxes", Json.tree(f.boxes()));
        o.put("basis", f.basis().word());
        o.put("hazard", f.judged().hazard());
        o.put(
                "when-built",
                f.judged().whenBuilt().name().toLowerCase(Locale.ROOT).replace('_', '-'));
        o.put("new-work", f.judged().newWork());
        o.put("article", f.article()).put("mark", f.mark());
        return o.put("cure", f.cure()).put("licensed", f.licensed());
    }
}
