package org.splicebook.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.URLEncoder;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.record.Sighting;
import org.splicebook.wiring.Derivation;

class ReadingsPagesIT {
    private static final String PAGE = "/houses/" + Served.ID + "/readings";
    private Served served;

    @BeforeEach
    void start() {
        served = Served.answering();
        served.store.put(HouseFiles.parse("a", Served.ALDER_ROW).get(), 0, "me", "new");
    }

    @AfterEach
    void stop() {
        served.close();
    }

    /** What a browser would send of the page as it is, with these fields filled in. */
    private Map<String, String> filled(String... fields) {
        Map<String, String> all = new LinkedHashMap<>();
        Matcher m = Pattern.compile("<input [^>]*name=\"([^\"]+)\" value=\"([^\"]*)\"")
                .matcher(served.get(PAGE).body());
        while (m.find()) {
            all.put(m.group(1), m.group(2));
        }
        for (int i = 0; i < fields.length; i += 2) {
            all.put(fields[i], fields[i + 1]);
        }
        return all;
    }

    private HttpResponse<String> send(Map<String, String> fields) {
        String body = fields.entrySet().stream()
                .map(e -> URLEncoder.encode(e.getKey(), StandardCharsets.UTF_8) + "="
                        + URLEncoder.encode(e.getValue(), StandardCharsets.UTF_8))
                .collect(Collectors.joining("&"));
        return served.send(
                "POST", PAGE, body, "Content-Type", "application/x-www-form-urlencoded", "Origin", served.server.url());
    }

    private List<Sighting> added() {
        return served.store.sightings(Served.ID).stream()
                .filter(s -> s.id().startsWith("r"))
                .toList();
    }

    @Test
    void everyLoadPointHasItsLine() {
        String page = served.get(PAGE).body();
        Derivation.derive(served.store.findHouse(Served.ID).orElseThrow().house())
                .loadPoints()
                .forEach(l -> assertThat(page).contains("name=\"" + l.id() + "/during\""));
        assertThat(page).contains("hot to neutral, V", "hot-1 to hot-2, V");
        assertThat(served.get(PAGE + "?place=bath").body())
                .contains("bath-gf/volts1")
                .doesNotContain("bench-1.top/volts1");
    }

    @Test
    void sheetIsRecordedWithTheInstrumentOfEachReadingAndOnlyOnce() {
        Map<String, String> sheet = filled(
                "date", "2026-04-02",
                "by", "R.",
                "bench-1.top/volts1", "119 V",
                "bench-1.top/volts2", "118 V",
                "bench-1.top/off", "main.1",
                "bench-1.top/before", "lit",
                "bench-1.top/during", "not lit",
                "bench-1.top/after", "lit",
                "bench-1.top/lamp", "radio",
                "heater/volts1", "238 V",
                "heater/meter", "two-pole tester");
        var stored = send(sheet);
        assertThat(stored.statusCode()).as(stored.body()).isEqualTo(303);
        assertThat(stored.headers().firstValue("Location").orElse("")).endsWith("recorded=4");
        assertThat(added())
                .extracting(Sighting::instrument)
                .containsExactlyInAnyOrder("meter", "meter", "radio", "two-pole tester");
        assertThat(added()).allMatch(s -> s.date().equals("2026-04-02") && "R.".equals(s.by()));
        assertThat(added())
                .anyMatch(s -> s.withOff().equals(List.of("main.1"))
                        && s.seen() instanceof Sighting.Lit lit
                        && lit.read() == Sighting.Reading.NOT_LIT
                        && lit.after() == Sighting.Reading.LIT);
        assertThat(added())
                .anyMatch(s -> s.seen() instanceof Sighting.Volts v
                        && v.from().equals("heater.hot-1")
                        && v.to().equals("heater.hot-2"));

        assertThat(send(sheet).statusCode()).isEqualTo(303);
        assertThat(added()).as("sent twice").hasSize(4);
    }

    @Test
    void whatIsWrongStandsAtItsFieldAndNothingIsStored() {
        var wrong = send(filled(
                "bench-1.top/volts1", "119 V",
                "bench-1.top/volts2", "many",
                "bath-gf/off", "main.99",
                "bath-gf/during", "lit",
                "door-1.top/before", "lit"));
        assertThat(wrong.statusCode()).isEqualTo(422);
        assertThat(wrong.body())
                .contains("Nothing was stored", "bench-1.top, volts2: ", "bath-gf, off: ", "door-1.top, during: ")
                .contains("value=\"119 V\"", "value=\"many\"");
        assertThat(wrong.body())
                .as("at the field itself")
                .containsPattern(
                        "class=\"wrong\" id=\"[^\"]+\">[^<]*99[^<]*</strong>\\s*<input id=\"f0-bath-gf_2foff\" name=\"bath-gf/off\"");
        assertThat(added()).isEmpty();
        assertThat(send(filled()).statusCode()).as("nothing filled in").isEqualTo(422);
        assertThat(send(filled("date", "yesterday", "bench-1.top/volts1", "1 V"))
                        .body())
                .containsPattern(
                        "class=\"wrong\" id=\"[^\"]+\">[^<]*yesterday[^<]*</strong>\\s*<input id=\"f0-date\" name=\"date\"");
    }
}
