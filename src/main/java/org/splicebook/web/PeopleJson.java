package org.splicebook.web;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.splicebook.people.AuditEntry;
import org.splicebook.people.Grant;
import org.splicebook.people.Invitation;
import org.splicebook.people.Issued;
import org.splicebook.people.Role;
import org.splicebook.people.Token;
import org.splicebook.people.User;
import org.splicebook.people.Visitor;
import org.splicebook.render.Json;

/** People, as JSON and back. No hash is ever told. */
final class PeopleJson {
    private PeopleJson() {}

    static ObjectNode write(User u) {
        ObjectNode o = Json.object();
        o.put("name", u.name());
        o.set("roles", Json.tree(said(u.grants())));
        o.put("made", u.made().toString());
        put(o, "lockedUntil", u.lockedUntil());
        return o;
    }

    static User readUser(JsonNode o) {
        return new User(
                o.path("name").asText(),
                "",
                grants(o.path("roles")),
                Instant.parse(o.path("made").asText()),
                moment(o.path("lockedUntil")));
    }

    static ObjectNode write(Token t) {
        ObjectNode o = Json.object();
        o.put("id", t.id());
        o.put("user", t.user());
        o.put("label", t.label());
        o.put("atMost", t.atMost().word());
        o.put("made", t.made().toString());
        put(o, "expires", t.expires());
        return o;
    }

    static Token readToken(JsonNode o) {
        return new Token(
                o.path("id").asText(),
                "",
                o.path("user").asText(),
                o.path("label").asText(),
                Role.of(o.path("atMost").asText()).orElse(Role.READER),
                Instant.parse(o.path("made").asText()),
                moment(o.path("expires")));
    }

    static ObjectNode write(Invitation i) {
        ObjectNode o = Json.object();
        o.put("id", i.id());
        o.put("label", i.label());
        o.put("role", i.grant().said());
        o.put("made", i.made().toString());
        o.put("expires", i.expires().toString());
        o.put("once", i.once());
        o.put("used", i.used());
        return o;
    }

    static Invitation readInvitation(JsonNode o) {
        return new Invitation(
                o.path("id").asText(),
                "",
                o.path("label").asText(),
                Grant.parse(o.path("role").asText()).get(),
                Instant.parse(o.path("made").asText()),
                Instant.parse(o.path("expires").asText()),
                o.path("once").asBoolean(),
                o.path("used").asBoolean());
    }

    static ObjectNode write(Issued i) {
        ObjectNode o = Json.object();
        o.put("id", i.id());
        o.put("secret", i.secret());
        put(o, "expires", i.expires());
        return o;
    }

    static Issued readIssued(JsonNode o) {
        return new Issued(o.path("id").asText(), o.path("secret").asText(), moment(o.path("expires")));
    }

    static ObjectNode write(AuditEntry e) {
        ObjectNode o = Json.object();
        o.put("at", e.at().toString());
        o.put("who", e.who());
        o.put("way", e.way().name().toLowerCase(java.util.Locale.ROOT));
        o.put("what", e.what());
        o.put("house", e.house());
        o.put("said", e.said());
        o.put("from", e.from());
        return o;
    }

    static AuditEntry readEntry(JsonNode o) {
        return new AuditEntry(
                Instant.parse(o.path("at").asText()),
                o.path("who").asText(),
                Visitor.Way.valueOf(o.path("way").asText().toUpperCase(java.util.Locale.ROOT)),
                o.path("what").asText(),
                o.path("house").asText(),
                o.path("said").asText(),
                o.path("from").asText());
    }

    static ObjectNode write(Visitor v) {
        ObjectNode o = Json.object();
        o.put("name", v.name());
        o.put("way", v.way().name().toLowerCase(java.util.Locale.ROOT));
        o.set("roles", Json.tree(said(v.grants())));
        o.put("csrf", v.csrf());
        return o;
    }

    /** {@return roles as they are written, each read} */
    static List<Grant> grants(JsonNode list) {
        List<Grant> grants = new ArrayList<>();
        list.forEach(g -> grants.add(Grant.parse(g.asText()).get()));
        return grants;
    }

    static List<String> said(List<Grant> grants) {
        return grants.stream().map(Grant::said).toList();
    }

    private static void put(ObjectNode o, String name, @Nullable Instant moment) {
        if (moment != null) {
            o.put(name, moment.toString());
        }
    }

    private static @Nullable Instant moment(JsonNode said) {
        return said.isTextual() ? Instant.parse(said.asText()) : null;
    }
}
