package org.splicebook.render;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.splicebook.answer.Answer;
import org.splicebook.answer.Assumption;
import org.splicebook.answer.Caution;
import org.splicebook.answer.Heading;
import org.splicebook.answer.Leads;
import org.splicebook.answer.Listing;
import org.splicebook.answer.Reply;
import org.splicebook.answer.Row;
import org.splicebook.record.Basis;

class ReplyTextTest {
    private static final Heading HEADING = new Heading(
            "goes-off",
            "What should be off when main.6 is opened?",
            "alder-row-14b",
            "14 Alder Row, rear flat",
            3,
            Instant.parse("2026-03-15T09:00:00Z"),
            Map.of("breaker", "main.6"),
            false);

    private static Answer answer(List<Row> rows) {
        return new Answer(
                HEADING,
                rows,
                List.of(Assumption.NO_BURIED_TAP),
                List.of("That no other breaker feeds the bath."),
                List.of("Plug a lamp into bath-gf and open main.6."),
                Caution.forWhat(Leads.TO_A_WIRE));
    }

    private static final Row BATH = new Row(
            "bath-gf",
            Row.Status.SHOWN,
            Basis.TESTED,
            Map.of("place", "Bath, with a long name that has to wrap somewhere on a narrow screen"),
            List.of("terminal bath-gf.line.hot (tested)", "wire K6.black (seen)"));
    private static final Row DOOR =
            new Row("door-1.top", Row.Status.POSSIBLE, Basis.ASSUMED, Map.of("place", "North bedroom"), List.of());

    @Test
    void outcomeComesBeforeReasonsAndReasonsBeforeCautions() {
        String text = ReplyText.write(answer(List.of(BATH, DOOR)), 80);
        assertThat(text)
                .containsSubsequence(
                        "What should be off when main.6 is opened?",
                        "14 Alder Row, rear flat (alder-row-14b), revision 3 of 2026-03-15",
                        "1 shown, 1 possible, 0 excluded.",
                        "Shown by the record",
                        "bath-gf",
                        "Possible: neither shown nor excluded",
                        "door-1.top",
                        "Why",
                        "1. terminal bath-gf.line.hot",
                        "2. wire K6.black",
                        "Assumed",
                        Assumption.NO_BURIED_TAP,
                        "Not proven",
                        "What would settle it",
                        "Before a hand goes near a wire",
                        "prove the tester");
    }

    @ParameterizedTest
    @ValueSource(ints = {20, 32, 40, 60, 80, 120})
    void noLineIsWiderThanTheScreen(int width) {
        List<List<Object>> cells = List.of(List.of("alder-row-14b", 3, List.of("main", "garage-sub"), true));
        for (Reply reply : List.of(
                answer(List.of(BATH, DOOR)),
                new Listing(HEADING, List.of("house", "revision", "panels of it", "has a very old range"), cells))) {
            assertThat(ReplyText.write(reply, width).lines().toList())
                    .allSatisfy(line -> assertThat(line.length()).isLessThanOrEqualTo(width));
        }
    }

    @Test
    void nothingShownIsNotSaidToBeNothingThere() {
        assertThat(ReplyText.write(answer(List.of()), 80)).contains("does not mean that nothing is there");
    }

    @Test
    void noCautionCallsAnythingDeadOrOff() {
        assertThat(Caution.forWhat(Leads.TO_A_WIRE))
                .allSatisfy(c -> assertThat(c.toLowerCase(Locale.ROOT))
                        .doesNotContain("is off")
                        .doesNotContain("dead"));
    }

    @Test
    void listingsThatLeadToABreakerCarryCautions() {
        Listing listing = new Listing(HEADING, List.of("breaker"), List.of(List.of("main.6")));
        assertThat(ReplyText.write(listing, 80)).contains("1 row.", "labels can be wrong");
    }

    @Test
    void muchThatIsExcludedIsToldByNameAlone() {
        List<Row> many = IntStream.range(0, 40)
                .mapToObj(
                        i -> new Row("lamp-" + i, Row.Status.EXCLUDED, Basis.SEEN, Map.of("place", "Attic"), List.of()))
                .toList();
        String text = ReplyText.write(answer(many), 80);
        assertThat(text).contains("0 shown, 0 possible, 40 excluded.", "lamp-0, lamp-1,", "lamp-39.");
        assertThat(text).doesNotContain("Attic");
    }

    @Test
    void whatManyRowsSayAlikeAtLengthIsSaidOnceAboveThem() {
        String off = "main.9, main.12, main.19, main.20, main.21";
        List<Row> rows = IntStream.range(0, 4)
                .mapToObj(i -> new Row(
                        "lamp-" + i, Row.Status.SHOWN, Basis.SEEN, Map.of("off", off, "place", "Room " + i), List.of()))
                .toList();
        String text = ReplyText.write(answer(rows), 80);
        assertThat(text).containsOnlyOnce("off: " + off).contains("Room 0", "Room 3");
        assertThat(ReplyText.write(answer(rows.subList(0, 3)), 80)).doesNotContain("off: ");
    }

    @Test
    void boxToTickStaysWithItsName() {
        Answer walk = answer(List.of())
                .withSections(List.of(new Answer.Section(
                        "Walk", false, List.of("bath-fan [ ] ".repeat(9).trim()))));
        assertThat(ReplyText.write(walk, 40).lines().toList())
                .noneMatch(line -> line.endsWith("[") || line.trim().startsWith("["));
    }

    @Test
    void draftsAreMarked() {
        Heading h = new Heading("q", "Q?", "h", "H", 1, Instant.EPOCH, Map.of(), true);
        assertThat(ReplyText.write(new Listing(h, List.of("a"), List.of()), 80)).contains("DRAFT");
    }

    @Test
    void labelCannotSteerTheTerminal() {
        Row row = new Row("lamp\u001b[2J\u202e", Row.Status.SHOWN, Basis.SEEN, Map.of(), List.of("x\u0007"));
        assertThat(ReplyText.write(answer(List.of(row)), 80)).doesNotContain("\u001b", "\u0007", "\u202e");
    }

    @Test
    void replyComesBackFromJsonAsItWas() {
        List<List<Object>> cells = List.of(List.of("alder-row-14b", 3, List.of("main", "garage-sub"), true));
        for (Reply reply :
                List.of(answer(List.of(BATH, DOOR)), new Listing(HEADING, List.of("a", "b", "c", "d"), cells))) {
            String json = Json.text(ReplyJson.write(reply));
            assertThat(ReplyJson.read(Json.read(json))).isEqualTo(reply);
        }
    }
}
