package org.splicebook.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.http.HttpResponse;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.splicebook.housefile.HouseFiles;

/** What is wrong with a form stands at the field that caused it, and what was typed stays. */
class FormErrorsIT {
    private static final String PAGE = "/houses/" + Served.ID;
    private static final String BOX = PAGE + "/boxes/bench/edit";
    private static final String MOVES = PAGE + "/drafts/kept/moves";
    private static final String LONG = "a word that was typed";
    private static Served served;

    /**
     * One form filled in wrongly.
     *
     * @param path where it is sent
     * @param field the field that is wrong; empty where it is none
     * @param words what is said of it
     * @param stays what was typed and must stand on the page again
     * @param fields what is sent: name, value, name, value
     */
    private record Sending(String path, String field, String words, String stays, List<String> fields) {
        String[] sent() {
            return fields.toArray(String[]::new);
        }

        @Override
        public String toString() {
            return path + " " + field + " " + fields;
        }
    }

    @BeforeAll
    static void start() {
        served = Served.answering();
        served.store.put(HouseFiles.parse("a", Served.ALDER_ROW).get(), 0, "me", "new");
        assertThat(served.post(PAGE + "/drafts", "name", "kept", "reason", "").statusCode())
                .isEqualTo(303);
    }

    @AfterAll
    static void stop() {
        served.close();
    }

    private static Sending of(String path, String field, String words, String stays, String... fields) {
        return new Sending(path, field, words, stays, List.of(fields));
    }

    static Stream<Sending> forms() {
        return Stream.of(
                of(
                        "/new-house",
                        "breakers",
                        "no breaker",
                        "Mill Lane",
                        "name",
                        "Mill Lane",
                        "breakers",
                        "x y",
                        "rooms",
                        "Den"),
                of("/new-house", "rooms", "no kind of room", "Mill Lane", "name", "Mill Lane", "rooms", "Den, dn"),
                of("/new-house", "spaces", "many", "Mill Lane", "name", "Mill Lane", "spaces", "many", "rooms", "Den"),
                of(
                        "/new-house",
                        "spaces",
                        "99999999999",
                        "Mill Lane",
                        "name",
                        "Mill Lane",
                        "spaces",
                        "99999999999",
                        "rooms",
                        "Den"),
                of(
                        "/new-house",
                        "rating",
                        "does not fit here",
                        "Mill Lane",
                        "name",
                        "Mill Lane",
                        "rating",
                        "100 ft",
                        "rooms",
                        "Den"),
                of("/new-house", "name", "is not an id", "3", "name", "!!", "rating", "3", "rooms", "Den"),
                of(
                        "/new-house/file",
                        "text",
                        "cabels",
                        "cabels",
                        "text",
                        Served.ALDER_ROW.replace("cables:", "cabels:")),
                of(
                        PAGE + "/record",
                        "text",
                        "cabels",
                        LONG,
                        "revision",
                        "1",
                        "why",
                        LONG,
                        "text",
                        Served.ALDER_ROW.replace("cables:", "cabels:")),
                of(
                        PAGE + "/record",
                        "text",
                        "is of house",
                        LONG,
                        "revision",
                        "1",
                        "why",
                        LONG,
                        "text",
                        Served.ALDER_ROW.replace("house: alder-row-14b", "house: other")),
                of(
                        PAGE + "/new-box",
                        "name",
                        "Den/2",
                        LONG,
                        "revision",
                        "1",
                        "name",
                        "Den/2",
                        "template",
                        "splice-only",
                        "device",
                        LONG,
                        "in",
                        "N1",
                        "in-wires",
                        "14/2",
                        "out",
                        "N2",
                        "out-wires",
                        "14/2"),
                of(
                        PAGE + "/new-box",
                        "name",
                        "bench",
                        LONG,
                        "revision",
                        "1",
                        "name",
                        "bench",
                        "template",
                        "photographed",
                        "device",
                        LONG),
                of(
                        PAGE + "/new-box",
                        "template",
                        "How it is wired",
                        LONG,
                        "revision",
                        "1",
                        "name",
                        "den",
                        "device",
                        LONG),
                of(
                        PAGE + "/new-box",
                        "in",
                        "no name",
                        "den-9",
                        "revision",
                        "1",
                        "name",
                        "den",
                        "template",
                        "end-of-run",
                        "device",
                        "den-9"),
                of(
                        PAGE + "/new-box",
                        "in",
                        "K1",
                        LONG,
                        "revision",
                        "1",
                        "name",
                        "den",
                        "template",
                        "photographed",
                        "in",
                        "K1",
                        "device",
                        LONG),
                of(
                        BOX,
                        "device",
                        "bath-gf",
                        "bath-gf",
                        "revision",
                        "1",
                        "what",
                        "device",
                        "device",
                        "bath-gf",
                        "kind",
                        "luminaire"),
                of(
                        BOX,
                        "device",
                        "lamp 9",
                        "lamp 9",
                        "revision",
                        "1",
                        "what",
                        "device",
                        "device",
                        "lamp 9",
                        "kind",
                        "luminaire"),
                of(
                        BOX,
                        "cable",
                        "K1",
                        "K1",
                        "revision",
                        "1",
                        "what",
                        "cable",
                        "cable",
                        "K1",
                        "wires",
                        "14/2",
                        "other-end",
                        "?"),
                of(BOX, "cable", "K2", "K2", "revision", "1", "what", "found", "cable", "K2"),
                of(BOX, TapForm.ENDS, "Nothing is tapped", "", "revision", "1", "what", "tap", "do", "join"),
                of(
                        BOX,
                        TapForm.ENDS,
                        "fewer than two",
                        "",
                        "revision",
                        "1",
                        "what",
                        "tap",
                        "do",
                        "join",
                        "ends",
                        "K1.black"),
                of(BOX, TapForm.ENDS, "K1 green", "", "revision", "1", "what", "tap", "do", "cap", "ends", "K1.green"),
                of(
                        BOX,
                        TapForm.TO,
                        "where they go",
                        "",
                        "revision",
                        "1",
                        "what",
                        "tap",
                        "do",
                        "to",
                        "ends",
                        "K1.black"),
                of(BOX, TapForm.ENDS, "no joint", "", "revision", "1", "what", "tap", "do", "apart", "ends", "K4.b"),
                of(
                        BOX,
                        "",
                        "revision",
                        "lamp-9",
                        "revision",
                        "99",
                        "what",
                        "device",
                        "device",
                        "lamp-9",
                        "kind",
                        "luminaire"),
                of(BOX.replace("/edit", "/photos"), "photo", "No file", LONG, "revision", "1", "note", LONG),
                of(
                        PAGE + "/sight",
                        "at",
                        "no-such",
                        LONG,
                        "id",
                        "w1",
                        "date",
                        "2026-04-02",
                        "at",
                        "no-such",
                        "with-off",
                        "main.6",
                        "read",
                        "lit",
                        "instrument",
                        "lamp",
                        "note",
                        LONG),
                of(
                        PAGE + "/sight",
                        "with-off",
                        "77",
                        LONG,
                        "id",
                        "w1",
                        "date",
                        "2026-04-02",
                        "at",
                        "bench-1.top",
                        "with-off",
                        "main.77",
                        "read",
                        "lit",
                        "instrument",
                        "lamp",
                        "note",
                        LONG),
                of(
                        PAGE + "/sight",
                        "date",
                        "yesterday",
                        LONG,
                        "id",
                        "w1",
                        "date",
                        "yesterday",
                        "at",
                        "bench-1.top",
                        "with-off",
                        "main.6",
                        "read",
                        "lit",
                        "instrument",
                        "lamp",
                        "note",
                        LONG),
                of(
                        PAGE + "/tests",
                        "device",
                        "Nothing is chosen",
                        LONG,
                        "what",
                        "trip-button",
                        "result",
                        "passed",
                        "note",
                        LONG),
                of(
                        PAGE + "/tests",
                        "date",
                        "yesterday",
                        LONG,
                        "what",
                        "trip-button",
                        "device",
                        "bath-gf",
                        "result",
                        "passed",
                        "date",
                        "yesterday",
                        "note",
                        LONG),
                of(PAGE + "/drafts", "name", "Den 2", LONG, "name", "Den 2", "reason", LONG),
                of(PAGE + "/drafts", "name", "kept", LONG, "name", "kept", "reason", LONG),
                of(
                        MOVES,
                        "name",
                        "K1",
                        "K1",
                        "version",
                        "1",
                        "what",
                        "add-cable",
                        "in",
                        "",
                        "name",
                        "K1",
                        "kind",
                        "NM",
                        "wires",
                        "14/2",
                        "from",
                        "main",
                        "to",
                        "bench"),
                of(
                        MOVES, "wire", "mauve", "mauve", "version", "1", "what", "remark", "in", "", "cable", "K1",
                        "wire", "mauve", "colour", "black"),
                of(
                        MOVES,
                        "ends",
                        "fewer than two",
                        "",
                        "version",
                        "1",
                        "what",
                        "splice",
                        "in",
                        "bench",
                        "ends",
                        "K1.black",
                        "by",
                        "lever"),
                of(
                        MOVES,
                        "name",
                        "bath-gf",
                        "bath-gf",
                        "version",
                        "1",
                        "what",
                        "add-device",
                        "in",
                        "bench",
                        "name",
                        "bath-gf",
                        "kind",
                        "luminaire"),
                of(
                        MOVES,
                        "is",
                        "space",
                        "space one",
                        "version",
                        "1",
                        "what",
                        "add-breaker",
                        "in",
                        "main",
                        "is",
                        "space one"),
                of(
                        MOVES,
                        "rating",
                        "does not fit",
                        "20 ft",
                        "version",
                        "1",
                        "what",
                        "add-breaker",
                        "in",
                        "main",
                        "is",
                        "10",
                        "rating",
                        "20 ft"),
                of(
                        MOVES + "/text",
                        "text",
                        "shift",
                        "shift",
                        "version",
                        "1",
                        "text",
                        "draft: kept\nmoves:\n- {shift: K1.black}\n"),
                of(PAGE + "/drafts/kept", "", "no moves", "", "version", "1", "what", "enter", "steps", "1"),
                of(PAGE + "/look", "wish", "Not a wish", "everything new", "what", "wish", "wish", "everything new"),
                of(PAGE + "/look", "points", "to be protected", "", "what", "protect", "against", "arc-fault"),
                of(PAGE + "/demand", "area", "wide", "wide", "area", "wide"),
                of(PAGE + "/demand", "small-appliance", "few", "few", "small-appliance", "few"),
                of(PAGE + "/demand", "nameplates", "names nothing", "12 kW", "nameplates", "12 kW"),
                of(PAGE + "/plan", "keep", "no space", "one", "panel", "", "keep", "one"),
                of(PAGE + "/plan", "slack", "6 loaves", "6 loaves", "panel", "", "slack", "6 loaves"),
                of(PAGE + "/visits", "said", "not said", "", "said", ""),
                of(PAGE + "/residents", "key", "no key", LONG, "key", "Not A Key", "name", LONG),
                of(PAGE + "/lists", "list", "No list came", "", "kind", "outlets", "list", ""),
                of(
                        "/people",
                        "user",
                        "cannot be",
                        "",
                        "what",
                        "add",
                        "user",
                        "a/b",
                        "roles",
                        "reader",
                        "password",
                        "correct horse battery"),
                of(
                        "/people",
                        "password",
                        "",
                        "rowan",
                        "what",
                        "add",
                        "user",
                        "rowan",
                        "roles",
                        "reader",
                        "password",
                        "short"),
                of(
                        "/people",
                        "roles",
                        "king",
                        "rowan",
                        "what",
                        "add",
                        "user",
                        "rowan",
                        "roles",
                        "king",
                        "password",
                        "correct horse battery"));
    }

    @ParameterizedTest
    @MethodSource("forms")
    void whatIsWrongStandsAtItsFieldAndWhatWasTypedStays(Sending s) {
        HttpResponse<String> answer = served.post(s.path(), s.sent());
        String page = answer.body();
        assertThat(answer.statusCode()).as(page).isBetween(400, 499);
        assertThat(page).contains("Nothing was stored", "role=\"alert\"", s.stays());
        if (s.field().isEmpty()) {
            assertThat(page).contains(s.words()).doesNotContain("aria-invalid=\"true\"", "class=\"wrong\"");
            return;
        }
        Matcher at = Pattern.compile("<strong class=\"wrong\" id=\"((f\\d+-[^\"]+)-wrong)\">([^<]+)</strong>")
                .matcher(page);
        boolean isFound = false;
        while (at.find()) {
            isFound |= at.group(2).replaceFirst("f\\d+-", "").equals(s.field())
                    && at.group(3).contains(s.words());
            assertThat(page)
                    .as("it is tied to its field, and the top leads there")
                    .contains(
                            "aria-describedby=\"" + at.group(1) + "\"",
                            "id=\"" + at.group(2) + "\"",
                            "href=\"#" + at.group(2) + "\"");
        }
        assertThat(isFound).as("at %s: %s", s.field(), page).isTrue();
        assertThat(page).contains("aria-invalid=\"true\"");
        assertThat(page.split(" autofocus", -1)).as("one thing has the focus").hasSize(2);
    }

    @Test
    void nothingWasStoredByAnyOfThem() {
        forms().forEach(s -> served.post(s.path(), s.sent()));
        assertThat(served.store.findHouse(Served.ID).orElseThrow().revision().number())
                .isEqualTo(1);
        assertThat(served.store.listHouses()).hasSize(1);
        assertThat(served.store.drafts(Served.ID)).hasSize(1);
        assertThat(served.get(PAGE + "/drafts/kept/moves").body()).contains("No moves yet");
    }

    @Test
    void aFormAtFirstSaysNothingWrong() {
        for (String path : List.of("/new-house", BOX, PAGE + "/new-box", PAGE + "/sight", PAGE + "/tests", MOVES)) {
            assertThat(served.get(path).body())
                    .as(path)
                    .doesNotContain("aria-invalid", "class=\"wrong\"", "autofocus", "Nothing was stored");
        }
    }

    @Test
    void passwordsAreNeverShownAgain() {
        assertThat(served.post(
                                "/people",
                                "what",
                                "add",
                                "user",
                                "a/b",
                                "roles",
                                "reader",
                                "password",
                                "correct horse 9")
                        .body())
                .doesNotContain("correct horse 9");
    }
}
