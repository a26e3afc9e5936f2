package org.splicebook.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.URI;
import java.net.http.HttpResponse;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.housefile.PropertyFiles;
import org.splicebook.property.Properties;
import org.splicebook.record.Property;
import org.splicebook.store.StoredProperty;

class PropertyApiIT {
    private static final String ROW = "/api/v1/properties/alder-row";
    private static Served served;

    @BeforeAll
    static void start() {
        served = new Served();
        for (String file : new String[] {"common.yaml", "unit-14a.yaml", "unit-14b.yaml"}) {
            served.store
                    .put(HouseFiles.parse(file, Properties.text(file)).get(), 0, "Rowan", "")
                    .get();
        }
        HttpResponse<String> put = put(Properties.text("alder-row.yaml"));
        assertThat(put.statusCode()).as(put.body()).isEqualTo(201);
    }

    private static HttpResponse<String> put(String yaml) {
        return served.send("PUT", ROW, yaml, "Content-Type", "application/yaml", "If-None-Match", "*");
    }

    @AfterAll
    static void stop() {
        served.close();
    }

    @Test
    void aPropertyIsGivenBackAsItWasSent() {
        HttpResponse<String> got = served.get(ROW);
        assertThat(PropertyFiles.parse("got", got.body()).get().property())
                .isEqualTo(PropertyFiles.parse("row", Properties.text("alder-row.yaml"))
                        .get()
                        .property());
        assertThat(served.get("/api/v1/properties").body()).contains("\"alder-row\"");
        assertThat(served.get(ROW + "/revisions").body()).contains("\"1-");
        assertThat(put(Properties.text("alder-row.yaml")).statusCode()).isEqualTo(412);
    }

    @Test
    void whoGoesDarkIsAnsweredAndShown() {
        assertThat(served.get(ROW + "/questions/goes-dark?part=common&thing=switch.1%2B3")
                        .body())
                .contains("14b:hall-1", "Test every wire yourself");
        assertThat(served.get(ROW + "/questions").body()).contains("goes-dark", "other-meters");
        assertThat(served.get(ROW + "/questions/goes-dark?part=common").statusCode())
                .isEqualTo(422);
        assertThat(served.get(ROW + "/questions/who").statusCode()).isEqualTo(404);
        assertThat(served.get("/properties/alder-row/questions/goes-dark?part=common&thing=R1")
                        .body())
                .contains("14b:hall-1", "Part by part");
        assertThat(served.get("/properties/alder-row").body())
                .contains("14a (Ground floor)", "/houses/alder-row-14a", "common:to-14a to 14a:riser");
        assertThat(served.get("/").body()).contains("/properties/alder-row");
        assertThat(served.get("/properties/none").statusCode()).isEqualTo(404);
    }

    @Test
    void aLinkToWhatARecordDoesNotHaveIsRefused() {
        String wrong = Properties.text("alder-row.yaml")
                .replace("property: alder-row\n", "property: alder-row\n")
                .replace("point: to-14a", "point: to-14z");
        HttpResponse<String> put = put(wrong);
        assertThat(put.statusCode()).isIn(412, 422);
        HttpResponse<String> other = served.send(
                "PUT",
                "/api/v1/properties/other",
                wrong.replace("property: alder-row\n", "property: other\n"),
                "Content-Type",
                "application/yaml",
                "If-None-Match",
                "*");
        assertThat(other.statusCode()).isEqualTo(422);
        assertThat(other.body()).contains("has no load point to-14z");
    }

    @Test
    void theCommandsStoreOverTheServerIsTheSame() {
        try (ServedStore store = new ServedStore(URI.create(served.server.url()))) {
            StoredProperty found = store.properties().find("alder-row").orElseThrow();
            assertThat(found)
                    .isEqualTo(served.store.properties().find("alder-row").orElseThrow());
            Property named = PropertyFiles.parse(
                            "second",
                            Properties.text("alder-row.yaml").replace("property: alder-row\n", "property: second\n"))
                    .get()
                    .property();
            assertThat(store.properties().put(named, 0, "Rowan", "try").get().number())
                    .isEqualTo(1);
            assertThat(store.properties().put(named, 0, "Rowan", "try").isOk()).isFalse();
            assertThat(store.properties().put(named, 1, "Rowan", "try").get().number())
                    .isEqualTo(2);
            assertThat(store.properties().find("none")).isEmpty();
        }
    }
}
