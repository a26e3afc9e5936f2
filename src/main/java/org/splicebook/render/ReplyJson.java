package org.splicebook.render;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.splicebook.answer.Answer;
import org.splicebook.answer.Caution;
import org.splicebook.answer.Heading;
import org.splicebook.answer.Leads;
import org.splicebook.answer.Listing;
import org.splicebook.answer.Reason;
import org.splicebook.answer.Reply;
import org.splicebook.answer.Row;
import org.splicebook.record.Basis;
import org.splicebook.wiring.ThingKind;

/** A reply as JSON and back. The field names are those of the contract {@code openapi.yaml}. */
public final class ReplyJson {
    private ReplyJson() {}

    /** {@return the reply as a tree} */
    public static ObjectNode write(Reply reply) {
        ObjectNode o = Json.object();
        o.put("type", reply instanceof Answer ? "answer" : "listing");
        heading(o, reply.heading());
        if (reply instanceof Answer a) {
            o.put("outcome", a.outcome());
            o.set("rows", Json.list(a.rows(), ReplyJson::row));
            o.set("sections", Json.list(a.sections(), ReplyJson::section));
            o.set("assumed", Json.tree(a.assumed()));
            o.set("notProven", Json.tree(a.notProven()));
            o.set("wouldSettle", Json.tree(a.wouldSettle()));
            o.set("cautions", Json.tree(a.cautions()));
        } else if (reply instanceof Listing l) {
            o.set("columns", Json.tree(l.columns()));
            o.set("rows", Json.tree(l.rows()));
            o.set("cautions", Json.tree(Caution.forWhat(Leads.TO_A_SWITCH)));
        }
        return o;
    }

    private static void heading(ObjectNode o, Heading h) {
        o.put("question", h.question());
        o.put("words", h.words());
        o.put("house", h.house());
        o.put("houseName", h.houseName());
        o.put("revision", h.revision());
        o.put("stored", h.stored().toString());
        o.set("parameters", Json.tree(h.parameters()));
        o.put("draft", h.draft());
    }

    private static ObjectNode section(Answer.Section s) {
        ObjectNode o = Json.object();
        o.put("title", s.title());
        o.put("inOrder", s.isInOrder());
        o.set("lines", Json.tree(s.lines()));
        return o;
    }

    private static List<Answer.Section> sections(JsonNode list) {
        List<Answer.Section> all = new ArrayList<>();
        list.forEach(s -> all.add(
                new Answer.Section(s.path("title").asText(), s.path("inOrder").asBoolean(), strings(s.path("lines")))));
        return all;
    }

    private static ObjectNode row(Row r) {
        ObjectNode o = Json.object();
        o.put("subject", r.subject());
        o.put("status", r.status().name().toLowerCase(Locale.ROOT));
        o.put("basis", r.basis().word());
        o.set("columns", Json.tree(r.columns()));
        o.set("why", Json.tree(r.why()));
        o.set("ways", Json.list(r.ways(), ReplyJson::way));
        return o;
    }

    static ObjectNode way(Reason r) {
        ObjectNode o = Json.object();
        o.put("about", r.about());
        o.set("steps", Json.list(r.steps(), ReplyJson::step));
        return o;
    }

    private static ObjectNode step(Reason.Step s) {
        ObjectNode o = Json.object();
        o.put("kind", s.kind().name().toLowerCase(Locale.ROOT).replace('_', '-'));
        o.put("name", s.name());
        o.put("box", s.box());
        o.put("cable", s.cable());
        o.put("colour", s.colour());
        o.put("basis", s.basis().word());
        return o;
    }

    /** {@return the reply that the tree holds} */
    public static Reply read(JsonNode o) {
        Heading heading = readHeading(o);
        if ("answer".equals(o.path("type").asText())) {
            List<Row> rows = new ArrayList<>();
            o.path("rows").forEach(r -> rows.add(readRow(r)));
            return new Answer(
                    heading,
                    o.path("outcome").asText(),
                    rows,
                    sections(o.path("sections")),
                    strings(o.path("assumed")),
                    strings(o.path("notProven")),
                    strings(o.path("wouldSettle")),
                    strings(o.path("cautions")));
        }
        List<List<Object>> rows = new ArrayList<>();
        o.path("rows").forEach(r -> {
            List<Object> cells = new ArrayList<>();
            r.forEach(c -> cells.add(Json.plain(c)));
            rows.add(cells);
        });
        return new Listing(heading, strings(o.path("columns")), rows);
    }

    private static Heading readHeading(JsonNode o) {
        Map<String, String> parameters = new LinkedHashMap<>();
        o.path("parameters")
                .properties()
                .forEach(p -> parameters.put(p.getKey(), p.getValue().asText()));
        return new Heading(
                o.path("question").asText(),
                o.path("words").asText(),
                o.path("house").asText(),
                o.path("houseName").asText(),
                o.path("revision").asLong(),
                Instant.parse(o.path("stored").asText()),
                parameters,
                o.path("draft").asBoolean());
    }

    private static Row readRow(JsonNode r) {
        Map<String, Object> columns = new LinkedHashMap<>();
        r.path("columns").properties().forEach(c -> columns.put(c.getKey(), Json.plain(c.getValue())));
        return new Row(
                r.path("subject").asText(),
                Row.Status.valueOf(r.path("status").asText().toUpperCase(Locale.ROOT)),
                basis(r),
                columns,
                strings(r.path("why")),
                ways(r.path("ways")));
    }

    private static List<Reason> ways(JsonNode list) {
        List<Reason> all = new ArrayList<>();
        for (JsonNode w : list) {
            List<Reason.Step> steps = new ArrayList<>();
            for (JsonNode s : w.path("steps")) {
                steps.add(new Reason.Step(
                        ThingKind.valueOf(
                                s.path("kind").asText().toUpperCase(Locale.ROOT).replace('-', '_')),
                        s.path("name").asText(),
                        s.path("box").asText(),
                        s.path("colour").asText(),
                        basis(s)));
            }
            all.add(new Reason(w.path("about").asText(), steps));
        }
        return all;
    }

    private static Basis basis(JsonNode o) {
        return Basis.valueOf(o.path("basis").asText().toUpperCase(Locale.ROOT));
    }

    private static List<String> strings(JsonNode list) {
        List<String> all = new ArrayList<>();
        list.forEach(s -> all.add(s.asText()));
        return all;
    }
}
