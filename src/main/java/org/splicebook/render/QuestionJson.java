package org.splicebook.render;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.splicebook.answer.Question;

/** A question as JSON and back. */
public final class QuestionJson {
    private QuestionJson() {}

    /** {@return the question as a tree} */
    public static ObjectNode write(Question q) {
        ObjectNode o = Json.object();
        o.put("id", q.id());
        o.put("words", q.words());
        o.set("parameters", Json.list(q.parameters(), QuestionJson::parameter));
        o.set("columns", Json.tree(q.columns()));
        o.put("kind", q.kind().name().toLowerCase(Locale.ROOT));
        o.put("acrossHouses", q.acrossHouses());
        o.put("origin", q.origin());
        return o;
    }

    private static ObjectNode parameter(Question.Parameter p) {
        ObjectNode o = Json.object();
        o.put("name", p.name());
        o.put("meaning", p.meaning());
        o.put("otherwise", p.otherwise());
        return o;
    }

    /** {@return the question that the tree holds} */
    public static Question read(JsonNode o) {
        List<Question.Parameter> parameters = new ArrayList<>();
        o.path("parameters")
                .forEach(p -> parameters.add(new Question.Parameter(
                        p.path("name").asText(),
                        p.path("meaning").asText(),
                        p.path("otherwise").asText())));
        List<String> columns = new ArrayList<>();
        o.path("columns").forEach(c -> columns.add(c.asText()));
        return new Question(
                o.path("id").asText(),
                o.path("words").asText(),
                parameters,
                columns,
                Question.Kind.valueOf(o.path("kind").asText().toUpperCase(Locale.ROOT)),
                o.path("acrossHouses").asBoolean(),
                o.path("origin").asText());
    }
}
