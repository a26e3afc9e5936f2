package org.splicebook.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.URI;
import java.net.URLEncoder;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.splicebook.answer.Dependence;
import org.splicebook.store.HouseStore;
import org.splicebook.store.Papers;
import org.splicebook.visits.Residents;
import org.splicebook.visits.Visit;
import org.splicebook.visits.VisitDesk;

class VisitPagesIT {
    private static final String PAGE = "/houses/" + Served.ID;

    private static HttpResponse<String> form(Served served, String path, String... fields) {
        StringBuilder body = new StringBuilder();
        for (int i = 0; i < fields.length; i += 2) {
            body.append(i == 0 ? "" : "&")
                    .append(fields[i])
                    .append('=')
                    .append(URLEncoder.encode(fields[i + 1], StandardCharsets.UTF_8));
        }
        return served.send(
                "POST",
                path,
                body.toString(),
                "Content-Type",
                "application/x-www-form-urlencoded",
                "Origin",
                served.server.url());
    }

    @Test
    void aVisitGoesItsWayOnThePages() {
        try (Served served = Served.answering()) {
            assertThat(served.putNew(Served.ALDER_ROW).statusCode()).isEqualTo(201);
            HttpResponse<String> begun = form(
                    served,
                    PAGE + "/visits",
                    "said",
                    "half is <b>out</b>",
                    "symptoms",
                    "dead: bench-1.top",
                    "urgent",
                    "no");
            assertThat(begun.statusCode()).as(begun.body()).isEqualTo(303);
            String visit = PAGE + "/visits/visit-1";
            assertThat(begun.headers().firstValue("Location")).contains(visit);
            assertThat(served.get(visit).body())
                    .contains("Reported", "half is &lt;b&gt;out", "Say what may be wrong", "%")
                    .doesNotContain("is <b>out");
            assertThat(form(served, visit, "step", "close", "version", "1").statusCode())
                    .isEqualTo(409);
            assertThat(form(
                                    served,
                                    visit,
                                    "step",
                                    "plan",
                                    "version",
                                    "1",
                                    "who",
                                    "licensed electrician",
                                    "boxes",
                                    "bench")
                            .statusCode())
                    .isEqualTo(303);
            assertThat(form(served, visit, "step", "plan", "version", "1", "who", "licensed electrician")
                            .body())
                    .contains("it has 2");
            assertThat(form(
                                    served,
                                    visit,
                                    "step",
                                    "arrange",
                                    "version",
                                    "2",
                                    "day",
                                    "2026-05-01",
                                    "between",
                                    "9 and 12")
                            .statusCode())
                    .isEqualTo(303);
            assertThat(served.get(visit).body())
                    .contains("notice.pdf?of=visit-1", "shut-off.pdf?of=bench")
                    .contains("What must be off, and who is affected");
            HttpResponse<String> notice = served.get(Served.HOUSE + "/sheets/notice.pdf?of=visit-1");
            assertThat(notice.statusCode()).isEqualTo(200);
            assertThat(notice.body()).startsWith("%PDF");
            assertThat(served.get(Served.HOUSE + "/sheets/visit.pdf?of=visit-1").body())
                    .startsWith("%PDF");
            assertThat(served.get(Served.HOUSE + "/sheets/notice.pdf?of=none").statusCode())
                    .isEqualTo(404);
            assertThat(served.get(PAGE + "/visits").body()).contains("visit-1: half is");
        }
    }

    @Test
    void commandsTakeTheSameStepsOverTheServer() {
        try (Served served = Served.answering()) {
            assertThat(served.putNew(Served.ALDER_ROW).statusCode()).isEqualTo(201);
            HouseStore far = new ServedStore(URI.create(served.server.url()));
            VisitDesk desk = new VisitDesk(far);
            Visit v = desk.take(Served.ID, desk.next(Served.ID), "report", Map.of("said", "out"), 0, "Rowan");
            v = desk.take(Served.ID, v.name(), "begin", Map.of(), v.version(), "Rowan");
            assertThat(new VisitDesk(served.store).find(Served.ID, v.name())).contains(v);
            assertThat(desk.list(Served.ID)).containsExactly(v);
            assertThat(v.steps().get(0).who()).isEqualTo("Rowan");
            Residents residents = new Residents(far);
            residents.keep(Served.ID, "one", Map.of("name", "Robin", "depends", "a pump"), Instant.now(), "Rowan");
            assertThat(residents.list(Served.ID).get(0).value("depends")).isEqualTo("a pump");
            assertThat(far.papers().isMarked(Papers.RESIDENT, Served.ID)).isTrue();
            assertThat(residents.erase(Served.ID, "one")).isTrue();
            assertThat(residents.erase(Served.ID, "one")).isFalse();
            assertThat(served.store.papers().list(Papers.RESIDENT, Served.ID)).isEmpty();
        }
    }

    @Test
    void whoLivesThereIsForManagersAndEachLookIsLogged() {
        try (Closed closed = new Closed()) {
            closed.add("reads", "reader@" + Served.ID);
            closed.add("manages", "manager@" + Served.ID);
            String[] reader = {"Authorization", "Bearer " + closed.token("reads")};
            String[] manager = {"Authorization", "Bearer " + closed.token("manages")};
            String path = Served.HOUSE + "/residents";
            assertThat(closed.send(
                                    "PUT",
                                    path + "/one",
                                    "{\"name\": \"Robin Ash\", \"depends\": \"a pump\"}",
                                    manager[0],
                                    manager[1],
                                    "Content-Type",
                                    "application/json")
                            .statusCode())
                    .isEqualTo(200);
            assertThat(closed.get(path, reader).statusCode()).isEqualTo(403);
            assertThat(closed.get(PAGE + "/residents", reader).body()).doesNotContain("Robin");
            assertThat(closed.get(Served.HOUSE + "/care", reader).body()).contains("true");
            HttpResponse<String> off = closed.get(Served.HOUSE + "/questions/shut-off?box=bench", reader);
            assertThat(off.body()).contains(Dependence.HERE.substring(0, 40)).doesNotContain("Robin", "a pump");
            assertThat(closed.get(Served.HOUSE + "/archive.zip", reader).body()).doesNotContain("Robin");
            assertThat(closed.get(path, manager).body()).contains("Robin Ash");
            assertThat(closed.kept.audit(50, Served.ID))
                    .anyMatch(e -> e.what().equals("residents read") && e.who().equals("manages"))
                    .noneMatch(e -> e.said().contains("Robin"));
            assertThat(closed.send("DELETE", path + "/one", null, reader).statusCode())
                    .isEqualTo(403);
            assertThat(closed.send("DELETE", path + "/one", null, manager).statusCode())
                    .isEqualTo(200);
            assertThat(closed.get(path, manager).body()).doesNotContain("Robin");
        }
    }
}
