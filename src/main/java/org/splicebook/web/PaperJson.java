package org.splicebook.web;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.splicebook.render.Json;
import org.splicebook.store.Paper;

/** What is kept beside houses, as the API tells it. */
final class PaperJson {
    private PaperJson() {}

    static ObjectNode write(Paper p) {
        ObjectNode o = Json.object();
        o.put("name", p.name()).put("version", p.version());
        ArrayNode lines = o.putArray("lines");
        p.lines().forEach(l -> {
            ObjectNode line = Json.object();
            line.put("at", l.at().toString()).put("who", l.who());
            line.set("what", Json.read(l.text()));
            lines.add(line);
        });
        return o;
    }

    static Paper read(String kind, String house, JsonNode o) {
        List<Paper.Line> lines = new ArrayList<>();
        o.path("lines")
                .forEach(l -> lines.add(new Paper.Line(
                        Instant.parse(l.path("at").asText()), l.path("who").asText(), Json.text(l.path("what")))));
        return new Paper(kind, house, o.path("name").asText(), lines);
    }

    /** {@return the fields of an object, as text} */
    static Map<String, String> said(JsonNode o) {
        Map<String, String> said = new LinkedHashMap<>();
        o.properties().forEach(e -> said.put(e.getKey(), e.getValue().asText()));
        return said;
    }
}
