package org.splicebook.web;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.time.Instant;
import org.splicebook.render.Json;
import org.splicebook.store.Health;
import org.splicebook.store.Revision;
import org.splicebook.store.VerifyReport;

/** What the store says of itself, as JSON and back. */
final class RevisionJson {
    /** How a server says that it is one of this program. */
    static final String PROGRAM = "splicebook";

    private RevisionJson() {}

    static ObjectNode write(Revision r) {
        ObjectNode o = Json.object();
        o.put("house", r.house());
        o.put("name", r.name());
        o.put("revision", r.number());
        o.put("stored", r.stored().toString());
        o.put("who", r.who());
        o.put("why", r.why());
        o.put("deleted", r.deleted());
        o.put("digest", r.digest());
        o.put("etag", Tags.of(r));
        return o;
    }

    static Revision read(JsonNode o) {
        return new Revision(
                o.path("house").asText(),
                o.path("name").asText(),
                o.path("revision").asLong(),
                Instant.parse(o.path("stored").asText()),
                o.path("who").asText(),
                o.path("why").asText(),
                o.path("deleted").asBoolean(),
                o.path("digest").asText());
    }

    static ObjectNode write(Health h, String version) {
        ObjectNode o = Json.object();
        o.put("program", PROGRAM);
        o.put("version", version);
        o.put("up", h.up());
        o.put("store", h.kind());
        o.put("storeVersion", h.version());
        o.put("houses", h.houses());
        o.put("roundTripMicros", h.roundTripMicros());
        o.put("wrong", h.wrong());
        return o;
    }

    static Health readHealth(JsonNode o) {
        return new Health(
                o.path("up").asBoolean(),
                o.path("store").asText(),
                o.path("storeVersion").asText(),
                o.path("houses").asLong(),
                o.path("roundTripMicros").asLong(),
                o.path("wrong").asText());
    }

    static ObjectNode write(VerifyReport v) {
        ObjectNode o = Json.object();
        o.put("houses", v.houses());
        o.put("clean", v.clean());
        o.set("differences", Json.tree(v.differences()));
        o.set("rebuilt", Json.tree(v.rebuilt()));
        return o;
    }
}
