package org.splicebook.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.http.HttpResponse;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.record.Basis;
import org.splicebook.record.Box;
import org.splicebook.record.Complete;
import org.splicebook.record.House;
import org.splicebook.record.Joint;
import org.splicebook.record.Ref;
import org.splicebook.wiring.Derivation;
import org.splicebook.wiring.Feed;
import org.splicebook.wiring.Wiring;

class EditPagesIT {
    private static final String PAGE = "/houses/" + Served.ID;
    private static final String NEW = Served.ALDER_ROW.replace("14 Alder Row, rear flat", "14 Alder Row, front flat");
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

    private HttpResponse<String> post(String path, String... fields) {
        return served.post(path, fields);
    }

    private long newest() {
        return served.store.findHouse(Served.ID).orElseThrow().revision().number();
    }

    private String name() {
        return served.store.findHouse(Served.ID).orElseThrow().house().said();
    }

    @Test
    void textOfTheRecordIsChangedAndBroughtBack() {
        String page = served.get(PAGE + "/record").body();
        assertThat(page).contains("boxes:", "method=\"post\"", "name=\"revision\" value=\"1\"");

        var stored = post(PAGE + "/record", "revision", "1", "text", NEW, "why", "asked the owner");
        assertThat(stored.statusCode()).isEqualTo(303);
        assertThat(stored.headers().firstValue("Location").orElse("")).isEqualTo(PAGE + "/history?stored=2");
        assertThat(name()).isEqualTo("14 Alder Row, front flat");
        assertThat(served.get(PAGE + "/history").body()).contains("asked the owner", "This is revision 2");

        assertThat(post(PAGE + "/history", "revision", "2", "back-to", "1").statusCode())
                .isEqualTo(303);
        assertThat(newest()).isEqualTo(3);
        assertThat(name()).isEqualTo("14 Alder Row, rear flat");
    }

    @Test
    void wrongTextIsToldByItsLineKeptOnThePageAndNotStored() {
        String wrong = NEW.replaceFirst("cables:", "cabels:");
        int line = (int) wrong.substring(0, wrong.indexOf("cabels:")).lines().count() + 1;
        var answer = post(PAGE + "/record", "revision", "1", "text", wrong, "why", "x");
        assertThat(answer.statusCode()).isEqualTo(422);
        assertThat(answer.body()).contains("Nothing was stored", "Line " + line + " reads: cabels:", "front flat");
        assertThat(newest()).isEqualTo(1);
    }

    @Test
    void whatWasMadeFromAnOlderRevisionIsRefusedAndNotLost() {
        assertThat(post(PAGE + "/record", "revision", "1", "text", NEW, "why", "one")
                        .statusCode())
                .isEqualTo(303);
        var late = post(PAGE + "/record", "revision", "1", "text", NEW.replace("front", "upper"), "why", "two");
        assertThat(late.statusCode()).isIn(409, 412);
        assertThat(late.body()).contains("upper flat", "Nothing was stored");
        assertThat(name()).isEqualTo("14 Alder Row, front flat");
    }

    @Test
    void anotherSitesPageOrAProgramWritesNothingThroughForms() {
        String[] fields = {"revision", "1", "text", NEW, "why", "x"};
        for (String origin : new String[] {"http://elsewhere.test", "null", ""}) {
            assertThat(served.postFrom(origin, PAGE + "/record", fields).statusCode())
                    .as(origin)
                    .isEqualTo(403);
        }
        assertThat(newest()).isEqualTo(1);
        assertThat(served.send(
                                "PUT",
                                Served.HOUSE,
                                "a=b",
                                "Content-Type",
                                "application/x-www-form-urlencoded",
                                "Origin",
                                served.server.url())
                        .statusCode())
                .as("the API takes no forms")
                .isEqualTo(415);
    }

    @Test
    void observationSentTwiceIsRecordedOnce() {
        String page = served.get(PAGE + "/sight?at=bench-1.top").body();
        Matcher id = Pattern.compile("name=\"id\" value=\"([^\"]+)\"").matcher(page);
        assertThat(id.find()).isTrue();
        String[] fields = {
            "id",
            id.group(1),
            "date",
            "2026-04-02",
            "at",
            "bench-1.top",
            "with-off",
            "main.6",
            "read",
            "lit",
            "before",
            "lit",
            "after",
            "",
            "instrument",
            "lamp"
        };
        int before = served.store.sightings(Served.ID).size();
        assertThat(post(PAGE + "/sight", fields).statusCode()).isEqualTo(303);
        assertThat(post(PAGE + "/sight", fields).statusCode()).isEqualTo(303);
        assertThat(served.store.sightings(Served.ID)).hasSize(before + 1);
        assertThat(served.get(PAGE + "/points/bench-1.top").body()).contains("2026-04-02");

        fields[5] = "no-such-point";
        fields[1] = "w2";
        var wrong = post(PAGE + "/sight", fields);
        assertThat(wrong.statusCode()).isEqualTo(422);
        assertThat(wrong.body()).contains("no-such-point", "Nothing was stored");
    }

    @Test
    void houseBeginsWithPanelAndRooms() {
        String[] fields = {
            "name",
            "Mill Lane 3",
            "id",
            "",
            "system",
            "split-phase 120/240",
            "rating",
            "100",
            "spaces",
            "20",
            "panel-place",
            "Cellar",
            "breakers",
            "1+3 40 Range\n2 15 Lights",
            "rooms",
            "Kitchen\nDen, living"
        };
        var made = post("/new-house", fields);
        assertThat(made.headers().firstValue("Location").orElse(made.body())).isEqualTo("/houses/mill-lane-3");
        assertThat(served.get("/houses/mill-lane-3").body()).contains("Mill Lane 3", "Kitchen", "Den");
        assertThat(served.get("/houses/mill-lane-3/panels/main").body()).contains("Range");

        fields[1] = "Mill Lane 4";
        fields[13] = "1+3 forty Range\n2 15 Lights\n2 20 Lights";
        fields[15] = "Den, lving";
        var wrong = post("/new-house", fields);
        assertThat(wrong.statusCode()).isEqualTo(422);
        assertThat(wrong.body()).contains("Breakers: Line 1: ", "Breakers: Line 3: ", "Rooms: Line 1: ", "forty Range");
        assertThat(served.get("/houses/mill-lane-4").statusCode()).isEqualTo(404);
    }

    @Test
    void houseFileIsBroughtInAsAFileOrAsText() {
        String file = Served.ALDER_ROW.replaceFirst("house: " + Served.ID, "house: alder-row-15");
        String body = "--x\r\nContent-Disposition: form-data; name=\"file\"; filename=\"a.yaml\"\r\n"
                + "Content-Type: application/yaml\r\n\r\n" + file + "\r\n--x--\r\n";
        var made = served.send(
                "POST",
                "/new-house/file",
                body,
                "Content-Type",
                "multipart/form-data; boundary=x",
                "Origin",
                served.server.url());
        assertThat(made.statusCode()).as(made.body()).isEqualTo(303);
        assertThat(served.get("/houses/alder-row-15").statusCode()).isEqualTo(200);
        assertThat(served.get("/houses/alder-row-15/record.yaml").body()).startsWith("splicebook:");
        var again = post("/new-house/file", "text", file);
        assertThat(again.statusCode()).as("it is there already").isIn(409, 412);
    }

    @Test
    void editIsToldWithItsRevisionAndTakenBackByOneButton() {
        String edit = PAGE + "/boxes/bench/edit";
        House before = served.store.findHouse(Served.ID).orElseThrow().house();
        String to = post(edit, "revision", "1", "what", "device", "device", "lamp-9", "kind", "luminaire")
                .headers()
                .firstValue("Location")
                .orElseThrow();
        assertThat(to).isEqualTo(edit + "?stored=2");
        assertThat(served.get(to).body())
                .contains(
                        "Recorded as revision 2",
                        "A device seen in bench",
                        "action=\"" + PAGE + "/undo\"",
                        "Take it back");
        assertThat(served.get(edit).body()).doesNotContain("Recorded as revision", "Take it back");
        assertThat(served.get(edit + "?stored=99").body()).doesNotContain("Recorded as revision", "Take it back");

        var undone = post(PAGE + "/undo", "revision", "2", "page", edit);
        assertThat(undone.statusCode()).isEqualTo(303);
        assertThat(undone.headers().firstValue("Location")).hasValue(edit + "?stored=3");
        assertThat(newest()).isEqualTo(3);
        assertThat(served.store.findHouse(Served.ID).orElseThrow().house())
                .as("equal to the one before")
                .isEqualTo(before);
        assertThat(served.get(edit + "?stored=3").body()).contains("Took back revision 2: A device seen in bench");

        post(PAGE + "/undo", "revision", "3", "page", edit);
        assertThat(served.store
                        .findHouse(Served.ID)
                        .orElseThrow()
                        .house()
                        .boxes()
                        .get("bench")
                        .devices())
                .as("what was taken back is brought back alike")
                .containsKey("lamp-9");
    }

    @Test
    void whatSomebodyElseStoredSinceIsNotTakenBackWithIt() {
        String edit = PAGE + "/boxes/bench/edit";
        post(edit, "revision", "1", "what", "device", "device", "lamp-9", "kind", "luminaire");
        post(PAGE + "/record", "revision", "2", "text", NEW, "why", "asked the owner");
        assertThat(served.get(edit + "?stored=2").body())
                .contains("Recorded as revision 2", "Somebody recorded more since", "asked the owner")
                .doesNotContain("Take it back");
        var late = post(PAGE + "/undo", "revision", "2", "page", edit);
        assertThat(late.statusCode()).isEqualTo(409);
        assertThat(late.body()).contains("Nothing was stored", "Revision 2 is not taken back", "Bring it back");
        assertThat(newest()).isEqualTo(3);
        assertThat(post(PAGE + "/undo", "revision", "1", "page", edit).statusCode())
                .isEqualTo(409);
    }

    @Test
    void whereTheBoxGoesWithWhatIsTakenBackItsHouseIsShown() {
        String to = post(PAGE + "/new-box", "revision", "1", "name", "den", "template", "photographed")
                .headers()
                .firstValue("Location")
                .orElseThrow();
        assertThat(to).isEqualTo(PAGE + "/boxes/den/edit?stored=2");
        assertThat(post(PAGE + "/undo", "revision", "2", "page", PAGE + "/boxes/den/edit")
                        .headers()
                        .firstValue("Location"))
                .hasValue(PAGE + "?stored=3");
        assertThat(post(PAGE + "/undo", "revision", "3", "page", "https://elsewhere.test/")
                        .headers()
                        .firstValue("Location"))
                .as("it leads nowhere else")
                .hasValue(PAGE + "?stored=4");
        assertThat(served.get("/houses/" + Served.ID + "?stored=1").body())
                .as("the first revision has none before it")
                .doesNotContain("Take it back");
        assertThat(post(
                                "/new-house",
                                "name",
                                "Mill Lane 5",
                                "system",
                                "split-phase 120/240",
                                "breakers",
                                "",
                                "rooms",
                                "Den")
                        .statusCode())
                .isEqualTo(303);
        assertThat(post("/houses/mill-lane-5/undo", "revision", "1", "page", "/")
                        .statusCode())
                .isEqualTo(409);
    }

    private Wiring wiring() {
        return Derivation.derive(served.store.findHouse(Served.ID).orElseThrow().house());
    }

    /** Whatever the template: its joints count as seen, nothing as wholly listed, and each can be corrected. */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "end-of-run",
                "feed-through-on-screws",
                "feed-through-with-pigtails",
                "switch-fed-first",
                "switch-loop",
                "three-way-fed",
                "three-way-at-the-light",
                "splice-only"
            })
    void boxIsBegunFromATemplateAndCorrectedWireByWire(String template) {
        assertThat(served.get(PAGE + "/new-box").body()).contains("value=\"" + template + "\"");
        boolean isThree = template.startsWith("three-way");
        var made = post(
                PAGE + "/new-box",
                "revision",
                "1",
                "name",
                "den",
                "template",
                template,
                "kind",
                "duplex-receptacle",
                "in",
                "N1",
                "in-wires",
                isThree ? "14/3+ground" : "14/2+ground",
                "in-end",
                "main",
                "out",
                "N2",
                "out-wires",
                isThree ? "14/3" : "14/2",
                "out-end",
                "?");
        assertThat(made.headers().firstValue("Location").orElse(made.body()))
                .isEqualTo(PAGE + "/boxes/den/edit?stored=2");
        assertThat(newest()).isEqualTo(2);
        String page = served.get(PAGE + "/boxes/den/edit").body();
        assertThat(page).contains("value=\"N1.black\"", "Joined now");
        Box den =
                served.store.findHouse(Served.ID).orElseThrow().house().boxes().get("den");
        assertThat(den.joints())
                .as("as somebody saw it")
                .isNotEmpty()
                .allMatch(j -> j.about().basis() == Basis.SEEN);
        assertThat(wiring().house().isComplete(den, Complete.JOINTS))
                .as("never by itself")
                .isFalse();

        assertThat(post(PAGE + "/boxes/den/edit", "revision", "2", "what", "tap", "do", "cap", "ends", "N1.white")
                        .statusCode())
                .isEqualTo(303);
        assertThat(served.store
                        .findHouse(Served.ID)
                        .orElseThrow()
                        .house()
                        .boxes()
                        .get("den")
                        .joints())
                .anyMatch(j ->
                        j.members().size() == 1 && j.members().get(0).said().equals("N1.white"));
        assertThat(post(PAGE + "/boxes/den/edit", "revision", "2", "what", "tap", "do", "cap", "ends", "N1.black")
                        .statusCode())
                .as("made from an older revision")
                .isIn(409, 412);
    }

    @Test
    void boxIsEditedWireByWire() {
        String edit = PAGE + "/boxes/bench/edit";
        assertThat(post(edit, "revision", "1", "what", "device", "device", "lamp-9", "kind", "luminaire")
                        .statusCode())
                .isEqualTo(303);
        assertThat(post(edit, "revision", "2", "what", "cable", "cable", "N9", "wires", "14/2", "other-end", "?")
                        .statusCode())
                .isEqualTo(303);
        assertThat(post(edit, "revision", "3", "what", "tap", "do", "to", "ends", "N9.black", "to", "lamp-9.hot")
                        .statusCode())
                .isEqualTo(303);
        assertThat(served.get(edit).body()).contains("N9.black, with lamp-9.hot</option>");
        assertThat(post(edit, "revision", "4", "what", "complete", "complete", "cables")
                        .statusCode())
                .isEqualTo(303);
        House h = served.store.findHouse(Served.ID).orElseThrow().house();
        assertThat(h.isComplete(h.boxes().get("bench"), Complete.CABLES)).isTrue();
        assertThat(h.isComplete(h.boxes().get("bench"), Complete.JOINTS)).isFalse();
        var wrong = post(edit, "revision", "5", "what", "tap", "do", "to", "ends", "N9.green", "to", "lamp-9.hot");
        assertThat(wrong.statusCode()).isEqualTo(422);
        assertThat(wrong.body()).contains("Nothing was stored", "green");
        assertThat(newest()).isEqualTo(5);
    }

    private List<List<String>> joints(String box) {
        return served.store.findHouse(Served.ID).orElseThrow().house().boxes().get(box).joints().stream()
                .map(j -> j.members().stream().map(Ref::said).toList())
                .toList();
    }

    @Test
    void whatIsTappedTogetherIsOneJointByItself() {
        String edit = PAGE + "/boxes/stair-foot/edit";
        assertThat(served.get(edit).body())
                .contains("value=\"K2.black\"", "with foot.common", "<svg", "Join these", "Take apart", "Cap each");
        post(edit, "revision", "1", "what", "tap", "do", "join", "by", "lever", "ends", "K2.black", "ends", "K3.black");
        Box foot =
                served.store.findHouse(Served.ID).orElseThrow().house().boxes().get("stair-foot");
        assertThat(joints("stair-foot"))
                .as("they alone; the screws that they left hold nothing")
                .contains(List.of("K2.black", "K3.black"), List.of("foot.common"), List.of("foot.traveler-1"));
        assertThat(foot.joints())
                .filteredOn(j ->
                        j.members().size() == 2 && j.members().get(0).said().equals("K2.black"))
                .singleElement()
                .satisfies(j -> {
                    assertThat(j.by()).isEqualTo(Joint.By.LEVER);
                    assertThat(j.about().basis()).isEqualTo(Basis.SEEN);
                });
        assertThat(served.get(edit + "?stored=2").body())
                .as("the drawing shows it")
                .contains("Wires joined, seen in stair-foot", "K2.black", "K3.black");
    }

    /** What was said to be joined and is not: nothing may follow from it any more, least of all that it is closed. */
    @Test
    void whatIsTakenApartMayTouchAnythingAgain() {
        String edit = PAGE + "/boxes/stair-foot/edit";
        House before = served.store.findHouse(Served.ID).orElseThrow().house();
        assertThat(before.isComplete(before.boxes().get("stair-foot"), Complete.JOINTS))
                .isTrue();
        post(edit, "revision", "1", "what", "tap", "do", "apart", "ends", "K2.white");
        House after = served.store.findHouse(Served.ID).orElseThrow().house();
        assertThat(joints("stair-foot"))
                .as("neither it nor what it was joined to counts as seen capped")
                .noneMatch(j -> j.contains("K2.white") || j.contains("K3.white"))
                .hasSize(3);
        assertThat(after.isComplete(after.boxes().get("stair-foot"), Complete.JOINTS))
                .isFalse();
        assertThat(after.isComplete(after.boxes().get("stair-foot"), Complete.CABLES))
                .isTrue();

        String bench = PAGE + "/boxes/bench/edit";
        post(bench, "revision", "2", "what", "tap", "do", "apart", "ends", "K4.n");
        assertThat(joints("bench"))
                .as("the others of a joint of three stay together")
                .contains(List.of("K1.white", "bench-1.top.neutral"));
    }

    @Test
    void whatHangsOnTheCableOfATemplateIsFedThroughIt() {
        post(
                PAGE + "/new-box",
                "revision",
                "1",
                "name",
                "den",
                "template",
                "end-of-run",
                "kind",
                "luminaire",
                "in",
                "N1",
                "in-wires",
                "14/2",
                "in-end",
                "bench");
        String edit = PAGE + "/boxes/bench/edit";
        post(edit, "revision", "2", "what", "tap", "do", "to", "ends", "N1.black", "to", "bench-1.top.hot");
        assertThat(wiring().loadPoints())
                .filteredOn(l -> l.id().equals("den-1"))
                .singleElement()
                .satisfies(l -> assertThat(l.feeds()).extracting(Feed::breaker).isNotEmpty());
    }

    /** K4 comes from the bench, and nobody had found where it goes. */
    @Test
    void lostEndOfACableIsFoundInAnOldBoxOrInANewOne() {
        String edit = PAGE + "/boxes/bath-vanity/edit";
        assertThat(served.get(edit).body()).contains("nobody had found, ends in it", "K4, from bench");
        assertThat(post(edit, "revision", "1", "what", "found", "cable", "K4").statusCode())
                .isEqualTo(303);
        assertThat(served.get(edit).body()).contains("value=\"K4.a\"");
        post(edit, "revision", "2", "what", "tap", "do", "to", "ends", "K4.b", "to", "bath-gf.line.hot");
        assertThat(served.store
                        .findHouse(Served.ID)
                        .orElseThrow()
                        .house()
                        .cables()
                        .get("K4")
                        .ends())
                .extracting(e -> e.boxOrNull())
                .containsExactly("bench", "bath-vanity");
        var again = post(edit, "revision", "3", "what", "found", "cable", "K2");
        assertThat(again.statusCode()).isEqualTo(409);
        assertThat(again.body()).contains("both its ends");

        post(PAGE + "/history", "revision", "3", "back-to", "1");
        String[] box = {
            "revision", "4", "name", "den", "template", "splice-only", "in", "K1", "out", "N2", "out-wires", "14/2"
        };
        var known = post(PAGE + "/new-box", box);
        assertThat(known.statusCode()).as("K1 has both its ends").isEqualTo(409);
        box[7] = "W2";
        box[5] = "photographed";
        var made = post(PAGE + "/new-box", box);
        assertThat(made.statusCode()).as(made.body()).isEqualTo(303);
        House h = served.store.findHouse(Served.ID).orElseThrow().house();
        assertThat(h.cables().get("W2").ends()).extracting(e -> e.boxOrNull()).containsExactly("attic-splice", "den");
        assertThat(h.cables()).containsKey("N2");
    }
}
