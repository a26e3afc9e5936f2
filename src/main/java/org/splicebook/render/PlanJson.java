package org.splicebook.render;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import org.splicebook.answer.Caution;
import org.splicebook.answer.Leads;
import org.splicebook.panelplan.schedule.PlacedUnit;
import org.splicebook.panelplan.upgrade.Circuit;
import org.splicebook.panelplan.upgrade.Page;
import org.splicebook.panelplan.upgrade.UpgradePlan;
import org.splicebook.record.Protection;

/** A plan for a new panel as JSON. */
public final class PlanJson {
    private PlanJson() {}

    /** {@return a plan with its pages} */
    public static ObjectNode write(UpgradePlan plan, List<Page> pages) {
        ObjectNode o = Json.object()
                .put("house", plan.before().id())
                .put("panel", plan.was().name())
                .put("kind", plan.wanted().kind().word())
                .put("draft", true)
                .put("proved", plan.schedule().isProved());
        o.set(
                "goals",
                Json.list(
                        plan.schedule().stages(),
                        s -> Json.object()
                                .put(
                                        "goal",
                                        s.goal()
                                                .name()
                                                .toLowerCase(java.util.Locale.ROOT)
                                                .replace('_', '-'))
                                .put("value", s.value())
                                .put("bound", s.bound())
                                .put("proved", s.isProved())));
        o.set(
                "circuits",
                Json.list(plan.circuits(), c -> circuit(c, plan.schedule().of(c.name()))));
        o.set("legs", legs(plan));
        o.set(
                "demands",
                Json.list(
                        plan.demands(),
                        d -> Json.object()
                                .put("method", d.method().word())
                                .put("reading", d.reading())
                                .put("edition", d.edition())
                                .put("va", d.va())
                                .put("amps", d.amps())
                                .put("outcome", d.verdict().word())));
        o.set(
                "cured",
                Json.tree(plan.findings().cured().stream().map(f -> f.key()).toList()));
        o.set(
                "new",
                Json.tree(plan.findings().added().stream().map(f -> f.key()).toList()));
        o.set("asked", Json.tree(plan.asked()));
        o.set("first", Json.tree(plan.separate()));
        o.set("assumed", Json.tree(plan.assumed()));
        o.set("pages", Json.list(pages, PlanJson::page));
        o.set("cautions", Json.tree(Caution.forWhat(Leads.TO_A_WIRE)));
        return o;
    }

    private static ObjectNode circuit(Circuit c, PlacedUnit placed) {
        ObjectNode o = Json.object()
                .put("breaker", placed.key())
                .put("amperes", c.amperes())
                .put("label", c.label())
                .put("new", c.isNew());
        o.set("was", Json.tree(c.was()));
        o.set("protects", Json.tree(c.protects().stream().map(Protection::word).toList()));
        ArrayNode poles = o.putArray("poles");
        for (int i = 0; i < c.poles().size(); i++) {
            ObjectNode pole = poles.addObject()
                    .put("space", placed.space(i))
                    .put("was", c.poles().get(i).terminal())
                    .put("va", c.poles().get(i).va());
            pole.set("wires", Json.tree(c.poles().get(i).wires()));
        }
        o.set("why", Json.tree(c.why()));
        return o;
    }

    private static ArrayNode legs(UpgradePlan plan) {
        ArrayNode legs = Json.list(List.<String>of(), x -> Json.object());
        for (int i = 0; i < plan.legsAfter().size(); i++) {
            legs.addObject()
                    .put(
                            "before",
                            i < plan.legsBefore().size() ? plan.legsBefore().get(i) : 0)
                    .put("after", plan.legsAfter().get(i));
        }
        return legs;
    }

    static ObjectNode page(Page p) {
        ObjectNode o = Json.object().put("id", p.id()).put("title", p.title());
        o.set("columns", Json.tree(p.columns()));
        o.set("rows", Json.tree(p.rows()));
        o.set("notes", Json.tree(p.notes()));
        return o;
    }
}
