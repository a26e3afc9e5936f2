package org.splicebook.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.http.HttpResponse;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.record.Breaker;
import org.splicebook.record.Complete;
import org.splicebook.record.House;
import org.splicebook.record.OvercurrentType;
import org.splicebook.record.Panel;
import org.splicebook.record.PlaceKind;
import org.splicebook.record.Protection;
import org.splicebook.record.SourceSystem;

/** A record is begun step by step, left in the middle, taken up again. */
class BeginPagesIT {
    private static final String HOUSE = "/houses/mill-lane-3";
    private static final String BEGIN = HOUSE + "/begin";
    private Served served;

    @BeforeEach
    void start() {
        served = Served.answering();
    }

    @AfterEach
    void stop() {
        served.close();
    }

    private String to(HttpResponse<String> answer) {
        return answer.headers().firstValue("Location").orElse(answer.body());
    }

    private House now() {
        return served.store.findHouse("mill-lane-3").orElseThrow().house();
    }

    private String newest() {
        return String.valueOf(
                served.store.findHouse("mill-lane-3").orElseThrow().revision().number());
    }

    private HttpResponse<String> step(String step, String... fields) {
        String[] all = new String[fields.length + 4];
        all[0] = "step";
        all[1] = step;
        all[2] = "revision";
        all[3] = newest();
        System.arraycopy(fields, 0, all, 4, fields.length);
        return served.post(BEGIN, all);
    }

    private void begin() {
        assertThat(to(served.post("/new-house", "what", "named", "name", "Mill Lane 3")))
                .isEqualTo(BEGIN);
    }

    private void panel() {
        assertThat(to(step(
                        "panel",
                        "name",
                        "main",
                        "spaces",
                        "12",
                        "main",
                        "breaker",
                        "system",
                        "split-phase 120/240",
                        "rating",
                        "100",
                        "panel-place",
                        "Cellar")))
                .isEqualTo(BEGIN + "?stored=2");
    }

    @Test
    void houseIsBegunStepByStepUpToItsFirstBox() {
        begin();
        assertThat(served.get(HOUSE).body())
                .as("the page of a house that has nothing leads with it")
                .contains("Still missing: the panel; the rooms;", "Next: The panel")
                .containsSubsequence("Go on with the record", "What are you about to do?");
        assertThat(served.get(BEGIN).body()).contains("Step 1 of 5", "nothing recorded yet", "name=\"spaces\"");
        panel();
        Panel main = now().panels().get("main");
        assertThat(main.spaces()).isEqualTo(12);
        assertThat(main.place()).isEqualTo("cellar");
        assertThat(main.main()).satisfies(m -> {
            assertThat(m.type()).isEqualTo(OvercurrentType.BREAKER);
            assertThat(m.rating().said()).isEqualTo("100 A");
        });
        assertThat(now().sources().get("service").system()).isEqualTo(SourceSystem.SPLIT_PHASE_120_240);

        assertThat(served.get(BEGIN + "?step=rooms&stored=2").body())
                .contains("Recorded as revision 2", "value=\"kitchen\"");
        assertThat(to(step("rooms", "usual", "kitchen", "usual", "bathroom", "rooms", "Den, living")))
                .isEqualTo(BEGIN + "?stored=3");
        assertThat(now().places()).containsOnlyKeys("cellar", "kitchen", "bathroom", "den");
        assertThat(now().places().get("bathroom").kind()).isEqualTo(PlaceKind.BATHROOM);

        assertThat(served.get(BEGIN).body())
                .as("taken up where it was left")
                .contains("Step 3 of 5", "leave the covers on");
        assertThat(to(step(
                        "breakers", "what", "one", "panel", "main", "space", "1+3", "amperes", "40", "label", "Range")))
                .isEqualTo(BEGIN + "?step=breakers&stored=4");
        step("breakers", "what", "one", "panel", "main", "space", "2", "amperes", "15", "protects", "arc-fault");
        step("breakers", "what", "several", "panel", "main", "breakers", "4 20 Kitchen\n5 15");
        assertThat(now().panels().get("main").breakers()).containsOnlyKeys("1+3", "2", "4", "5");
        Breaker two = now().panels().get("main").breakers().get("2");
        assertThat(two.protects()).containsExactly(Protection.ARC_FAULT);
        assertThat(served.get(BEGIN + "?step=breakers").body())
                .contains("4 breakers", "nothing recorded of main in 6, 7, 8, 9, 10, 11, 12")
                .doesNotContain("nothing recorded of main in 3");
        assertThat(now().isComplete(now().panels().get("main"), Complete.BREAKERS))
                .as("never by itself")
                .isFalse();
        step("breakers", "what", "all", "panel", "main");
        assertThat(now().isComplete(now().panels().get("main"), Complete.BREAKERS))
                .isTrue();
        assertThat(now().isComplete(now().panels().get("main"), Complete.LANDINGS))
                .isFalse();

        step("points", "place", "kitchen", "kind", "duplex-receptacle");
        assertThat(to(step("points", "place", "kitchen", "kind", "luminaire"))).contains("?step=points");
        assertThat(now().boxes()).containsOnlyKeys("kitchen-1", "kitchen-2");
        House h = now();
        assertThat(h.boxes().values())
                .as("seen from the room: nothing of what is in it is listed")
                .allMatch(b ->
                        b.joints().isEmpty() && !h.isComplete(b, Complete.CABLES) && !h.isComplete(b, Complete.JOINTS));

        String box = served.get(BEGIN).body();
        assertThat(box).contains("Step 5 of 5", "action=\"" + HOUSE + "/new-box\"", "name=\"template\"");
        assertThat(served.get(HOUSE).body()).contains("Next: The first box that is opened");
        served.post(
                HOUSE + "/new-box",
                "revision",
                newest(),
                "name",
                "den-wall",
                "template",
                "end-of-run",
                "kind",
                "duplex-receptacle",
                "in",
                "N1",
                "in-wires",
                "14/2+ground",
                "in-end",
                "main");
        assertThat(served.get(HOUSE).body()).as("there is something of each").doesNotContain("Go on with the record");
    }

    @Test
    void whatIsWrongStandsAtItsFieldAndNothingIsStored() {
        begin();
        String[][] wrong = {
            {"panel", "spaces", "name", "main", "spaces", "lots", "system", "split-phase 120/240"},
            {"panel", "rating", "name", "main", "rating", "7 ft", "system", "split-phase 120/240"},
            {"panel", "name", "name", "the one", "system", "split-phase 120/240"},
            {"rooms", "usual", "rooms", ""},
            {"rooms", "rooms", "rooms", "Den, dn"},
        };
        for (String[] w : wrong) {
            isWrong(w);
        }
        assertThat(newest()).isEqualTo("1");
        panel();
        step("rooms", "usual", "kitchen");
        step("breakers", "what", "one", "panel", "main", "space", "2", "amperes", "15");
        String before = newest();
        String[][] later = {
            {"rooms", "rooms", "rooms", "Kitchen"},
            {"breakers", "space", "what", "one", "panel", "main", "space", "2", "amperes", "20"},
            {"breakers", "space", "what", "one", "panel", "main", "space", "two", "amperes", "20"},
            {"breakers", "breakers", "what", "several", "panel", "main", "breakers", "4 many"},
            {"points", "name", "place", "kitchen", "kind", "luminaire", "name", "a/b"},
        };
        for (String[] w : later) {
            isWrong(w);
        }
        assertThat(newest()).isEqualTo(before);
    }

    private void isWrong(String... w) {
        String[] fields = new String[w.length - 2];
        System.arraycopy(w, 2, fields, 0, fields.length);
        HttpResponse<String> answer = step(w[0], fields);
        assertThat(answer.statusCode()).as(String.join(" ", w)).isBetween(400, 499);
        assertThat(answer.body())
                .as(String.join(" ", w))
                .contains("Nothing was stored")
                .containsPattern("class=\"wrong\" id=\"f\\d+-" + w[1] + "-wrong\"");
    }

    @Test
    void panelOfFusesGetsFuses() {
        begin();
        step("panel", "name", "main", "spaces", "4", "main", "fuses", "system", "split-phase 120/240", "rating", "60");
        step("breakers", "what", "one", "panel", "main", "space", "1", "amperes", "15", "label", "Lights");
        assertThat(now().panels().get("main").breakers().get("1").type()).isEqualTo(OvercurrentType.FUSE);
        assertThat(served.get(HOUSE).statusCode()).isEqualTo(200);
    }

    @Test
    void nameThatIsTakenIsToldAtItsField() {
        begin();
        HttpResponse<String> again = served.post("/new-house", "what", "named", "name", "Mill Lane 3");
        assertThat(again.statusCode()).isEqualTo(409);
        assertThat(again.body()).contains("There is a house mill-lane-3 already", "id=\"f0-name-wrong\"");
    }

    @Test
    void houseThatIsRecordedIsNotAskedToBegin() {
        served.store.put(HouseFiles.parse("a", Served.ALDER_ROW).get(), 0, "me", "new");
        assertThat(served.get("/houses/" + Served.ID).body()).doesNotContain("Go on with the record", "Still missing");
    }
}
