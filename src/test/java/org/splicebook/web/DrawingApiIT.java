package org.splicebook.web;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.net.http.HttpResponse;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.splicebook.render.Json;

class DrawingApiIT {
    private static final String DRAWINGS = Served.HOUSE + "/drawings";
    private static Served served;

    @BeforeAll
    static void start() {
        served = new Served();
        served.putNew(Served.ALDER_ROW);
    }

    @AfterAll
    static void stop() {
        served.close();
    }

    @Test
    void everyKindThatIsListedIsDrawn() {
        JsonNode kinds = Json.read(served.get(DRAWINGS).body());
        assertThat(kinds).hasSize(6);
        HttpResponse<String> house = served.get(DRAWINGS + "/house");
        assertThat(house.statusCode()).as(house.body()).isEqualTo(200);
        assertThat(house.headers().firstValue("Content-Type").orElse("")).startsWith("image/svg+xml");
        assertThat(house.body()).startsWith("<svg").contains("<title>", "<desc>", "test every wire");
        assertThat(served.get(DRAWINGS + "/panel?of=main&revision=1").statusCode())
                .isEqualTo(200);
    }

    @Test
    void whatCannotBeDrawnIsSaidWithWhatCan() {
        assertThat(served.get(DRAWINGS + "/map").body()).contains("circuit, box");
        HttpResponse<String> none = served.get(DRAWINGS + "/box?of=nowhere");
        assertThat(none.statusCode()).isEqualTo(404);
        assertThat(none.body()).contains("nowhere", "a box");
        assertThat(served.get(DRAWINGS + "/house?revision=77").statusCode()).isEqualTo(404);
    }
}
