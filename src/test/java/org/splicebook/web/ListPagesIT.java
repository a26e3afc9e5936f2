package org.splicebook.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.URLEncoder;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

class ListPagesIT {
    private static final String PAGE = "/houses/" + Served.ID + "/lists";
    private static final String LIST = "Ckt,Serves,Amps\n9,\"Porch & <b>gate</b>\",15\n";
    private Served served;

    @BeforeEach
    void start() {
        served = Served.answering();
        assertThat(served.putNew(Served.ALDER_ROW).statusCode()).isEqualTo(201);
    }

    @AfterEach
    void stop() {
        served.close();
    }

    private HttpResponse<String> form(String list, String more) {
        return served.send(
                "POST",
                PAGE,
                "kind=panel-schedule&panel=main&list=" + URLEncoder.encode(list, StandardCharsets.UTF_8) + more,
                "Content-Type",
                "application/x-www-form-urlencoded",
                "Origin",
                served.server.url());
    }

    private int revisions() {
        return served.store.revisions(Served.ID).size();
    }

    @Test
    void aListIsLookedAtFirstAndThenStored() {
        assertThat(served.get(PAGE).body()).contains("XLSX", "Look at it");
        HttpResponse<String> look = form(LIST, "");
        assertThat(look.statusCode()).as(look.body()).isEqualTo(200);
        assertThat(look.body())
                .contains("main.9 is new: 15 A", "found under Serves", "Store it", "&lt;b>gate")
                .doesNotContain("<b>gate");
        assertThat(revisions()).isEqualTo(1);
        HttpResponse<String> stored = form(LIST, "&step=store&revision=1");
        assertThat(stored.statusCode()).as(stored.body()).isEqualTo(303);
        assertThat(served.store
                        .findHouse(Served.ID)
                        .orElseThrow()
                        .house()
                        .panels()
                        .get("main")
                        .breakers()
                        .get("9"))
                .satisfies(b -> assertThat(b.label()).isEqualTo("Porch & <b>gate</b>"));
        assertThat(form(LIST.replace("9", "10"), "&step=store&revision=1").statusCode())
                .as("made from an older revision")
                .isEqualTo(412);
    }

    @Test
    void whatIsWrongIsToldByCellAndNothingIsStored() {
        HttpResponse<String> look = form(LIST.replace("15", "many"), "&step=store&revision=1");
        assertThat(look.statusCode()).isEqualTo(422);
        assertThat(look.body()).contains("C2", "is no rating", "Nothing was stored");
        assertThat(form("", "").body()).contains("No list came along");
        assertThat(revisions()).isEqualTo(1);
    }

    @Test
    void theApiLooksAndStores() {
        String path = Served.HOUSE + "/lists/panel-schedule";
        String body = "{\"text\": \"Ckt,Serves,Amps\\n9,Porch,15\\n\", \"panel\": \"main\"%s}";
        HttpResponse<String> look = served.send("POST", path, body.formatted(""), "Content-Type", "application/json");
        assertThat(look.statusCode()).as(look.body()).isEqualTo(200);
        assertThat(look.body()).contains("main.9 is new");
        assertThat(revisions()).isEqualTo(1);
        assertThat(served.send("POST", path, body.formatted(", \"revision\": 1"), "Content-Type", "application/json")
                        .body())
                .contains("stored");
        assertThat(revisions()).isEqualTo(2);
        assertThat(served.send("POST", path, "{\"file\": \"***\"}", "Content-Type", "application/json")
                        .statusCode())
                .isEqualTo(422);
    }
}
