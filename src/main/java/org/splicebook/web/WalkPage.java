package org.splicebook.web;

import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.http.Context;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.Base64;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.splicebook.answer.Answer;
import org.splicebook.answer.Row;
import org.splicebook.render.Json;
import org.splicebook.store.HouseStore;

/**
 * The page to walk a pass by, on a phone: one load point at a time. All that it needs comes with it at once, and the browser may keep it, so
 * that it comes back after a lost network and a discarded tab; what is entered is kept in the browser until it is sent.
 */
final class WalkPage {
    private static final String TEMPLATE = Resources.text("walk.html");
    private static final String SCRIPT = Resources.text("walk.js");
    private static final String STYLE = Resources.text("walk.css");
    private static final String POLICY = "default-src 'none'; script-src '" + hash(SCRIPT) + "'; style-src '"
            + hash(STYLE) + "'; connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'";

    private final HouseStore store;

    WalkPage(HouseStore store) {
        this.store = store;
    }

    List<Route> routes() {
        return List.of(Route.get("/houses/{house}/walk", this::walk));
    }

    private void walk(Context ctx) {
        String house = Api.house(ctx);
        Map<String, String> asked = new LinkedHashMap<>();
        ctx.queryParamMap().forEach((name, values) -> {
            if (!name.equals("at")) {
                asked.put(name, String.join(",", values));
            }
        });
        Answer pass = (Answer) store.ask("survey-pass", house, asked).get();
        ctx.header("Content-Security-Policy", POLICY);
        if (ctx.queryParam("at") != null) {
            ctx.header("Cache-Control", "private, max-age=86400");
        }
        ctx.html(TEMPLATE.replace("@STYLE@", STYLE)
                .replace("@SCRIPT@", SCRIPT)
                .replace("@DATA@", Json.text(data(house, pass)).replace("<", "\\u003c")));
    }

    /** What the script needs of the pass. */
    private static ObjectNode data(String house, Answer pass) {
        ObjectNode data = Json.object();
        data.put("house", house);
        data.put("name", pass.heading().houseName());
        data.put("outcome", pass.outcome());
        data.put("send", Api.BASE + "/houses/" + new Paths(house).base().substring("/houses/".length()) + "/sightings");
        List<Row> rows = pass.rows();
        data.put(
                "pass",
                rows.isEmpty() ? "" : Objects.toString(rows.get(0).columns().get("pass")));
        List<String> off = new ArrayList<>();
        if (!rows.isEmpty() && rows.get(0).columns().get("off") instanceof List<?> list) {
            list.forEach(o -> off.add(o.toString()));
        }
        data.set("off", Json.tree(off));
        data.set("points", Json.list(rows, r -> {
            ObjectNode point = Json.object();
            point.put("id", r.subject());
            point.put("place", Objects.toString(r.columns().get("place")));
            return point;
        }));
        data.set("sections", Json.list(pass.sections(), s -> {
            ObjectNode section = Json.object();
            section.put("title", s.title());
            section.set("lines", Json.tree(s.lines()));
            return section;
        }));
        data.set("cautions", Json.tree(pass.cautions()));
        return data;
    }

    private static String hash(String text) {
        try {
            byte[] digest = MessageDigest.getInstance("SHA-256").digest(text.getBytes(StandardCharsets.UTF_8));
            return "sha256-" + Base64.getEncoder().encodeToString(digest);
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException(e);
        }
    }
}
