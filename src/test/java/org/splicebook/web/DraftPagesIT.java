package org.splicebook.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.URLEncoder;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.StringJoiner;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.record.Move;
import org.splicebook.store.DraftState.Status;
import org.splicebook.store.KeptDraft;

/** Drafts on pages: each form of theirs, what it refuses, and that all of it is marked and nothing of the house changes before it is entered. */
class DraftPagesIT {
    private static final String DRAFTS = "/houses/" + Served.ID + "/drafts";
    private static final String HOSTILE = "<script>alert(1)</script>\"'&";
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

    private void done(HttpResponse<String> answer) {
        assertThat(answer.statusCode()).as(answer.body()).isEqualTo(303);
    }

    private KeptDraft draft() {
        return served.store.findDraft(Served.ID, "hall").orElseThrow();
    }

    private long revision() {
        return served.store.findHouse(Served.ID).orElseThrow().revision().number();
    }

    private void begin() {
        done(post(DRAFTS, "name", "hall", "reason", HOSTILE));
    }

    /** Adds a move with the newest version. */
    private HttpResponse<String> add(String... fields) {
        String[] all = new String[fields.length + 2];
        System.arraycopy(fields, 0, all, 0, fields.length);
        all[fields.length] = "version";
        all[fields.length + 1] = String.valueOf(draft().version());
        return post(DRAFTS + "/hall/moves", all);
    }

    @Test
    void aDraftIsBegunComparedAndEnteredStepByStep() {
        begin();
        done(add("in", "bench", "what", "cap", "end", "K1.black"));
        done(add("in", "bench", "what", "move", "end", "K1.black", "to", "bench-1.top.hot"));
        assertThat(draft().draft().moves())
                .containsExactly(
                        new Move.Cap("bench", "K1.black"), new Move.Shift("bench", "K1.black", "bench-1.top.hot"));
        String page = served.get(DRAFTS + "/hall").body();
        assertThat(page)
                .contains(
                        "DRAFT: a proposed change",
                        "Now, as recorded",
                        "After the draft",
                        "<svg",
                        "Boxes and panels to open",
                        "Tests at the end",
                        "Record it as done",
                        "Before a hand goes near a wire")
                .doesNotContain("<script>alert");
        assertThat(revision()).isEqualTo(1);

        String version = String.valueOf(draft().version());
        done(post(DRAFTS + "/hall", "what", "enter", "steps", "1", "by", "Hazel", "version", version));
        assertThat(revision()).isEqualTo(2);
        assertThat(draft().state().status()).isEqualTo(Status.PARTLY_ENTERED);
        assertThat(served.get(DRAFTS + "/hall").body()).contains("1 of 2 moves are entered as done");
        done(post(DRAFTS + "/hall", "what", "enter", "steps", "1", "version", String.valueOf(draft().version())));
        assertThat(draft().state().status()).isEqualTo(Status.ENTERED);
        assertThat(served.get(DRAFTS + "/hall").body())
                .contains("Entered as done, the last of it as revision 3", "DRAFT")
                .doesNotContain("Record it as done");
        assertThat(served.get(DRAFTS).body())
                .contains("entered, 2 of 2 moves done")
                .doesNotContain("<script>alert");
    }

    @Test
    void aMoveIsTakenOutAndADraftIsWithdrawnAndTakenUp() {
        begin();
        done(add("in", "bench", "what", "cap", "end", "K1.black"));
        done(add("in", "bench", "what", "cap", "end", "K1.red"));
        done(post(DRAFTS + "/hall", "what", "remove", "move", "0", "version", "3"));
        assertThat(draft().draft().moves()).containsExactly(new Move.Cap("bench", "K1.red"));
        assertThat(post(DRAFTS + "/hall", "what", "remove", "move", "7", "version", "4")
                        .statusCode())
                .isEqualTo(422);
        done(post(DRAFTS + "/hall", "what", "withdraw", "version", "4"));
        assertThat(draft().state().status()).isEqualTo(Status.WITHDRAWN);
        assertThat(served.get(DRAFTS + "/hall").body()).contains("Take it up again");
        done(post(DRAFTS + "/hall", "what", "take-up", "version", "5"));
        assertThat(draft().state().status()).isEqualTo(Status.OPEN);
        assertThat(revision()).isEqualTo(1);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "bench|what=splice&ends=K1.black&ends=K1.red|splice",
                "bench|what=pigtail&end=bench-1.top.hot|pigtail",
                "bench|what=tab&device=bench-1&tab=hot&is=in|tab",
                "bench|what=device&device=bench-1&kind=ground-fault-receptacle&terminals=top.hot=line.hot, bottom.hot=load.hot, top.neutral=line.neutral, bottom.neutral=load.neutral|device",
                "bench|what=retire-device&device=bench-1|retire-device",
                "bench|what=add-device&name=bench-9&kind=luminaire|add-device",
                "bath-vanity|what=swap&device=bath-gf|swap-line-and-load",
                "main|what=move&end=K1.black&to=3|move",
                "main|what=breaker&was=1&was=3&is=&rating=15 A&protects=ground-fault|was",
                "main|what=retire-breaker&was=8|was",
                "main|what=add-breaker&is=10&rating=20 A|is: 10",
                "main|what=replace-panel&spaces=24&rating=125 A&main=100 A&bonded=yes&landings=6=10, 8=6|replace-panel",
                "|what=change-source&source=service&system=&rating=100 A|change-source",
                "main|what=untie&spaces=1&spaces=3|untie",
                "|what=add-cable&name=N7&wires=14/2&from=main&to=bench&length=9 m|add-cable",
                "|what=retire-cable&cable=K2|retire-cable",
                "|what=remark&cable=K1&wire=white&colour=black|remark",
                "|what=add-box&name=den&place=bedroom|add-box",
            })
    void everyFormAddsItsMove(String in, String fields, String key) {
        begin();
        String body =
                fields.replace(" ", "%20").replaceAll("=(?=[a-z.]*=)", "=") + "&version=1&in=" + (in == null ? "" : in);
        HttpResponse<String> answer = served.send(
                "POST",
                DRAFTS + "/hall/moves",
                encodedValues(body),
                "Content-Type",
                "application/x-www-form-urlencoded",
                "Origin",
                served.server.url());
        done(answer);
        assertThat(draft().draft().moves()).hasSize(1);
        assertThat(served.get(DRAFTS + "/hall/moves.yaml").body()).contains(key);
        String where = answer.headers().firstValue("Location").orElse("");
        assertThat(served.get(where).statusCode()).isEqualTo(200);
        assertThat(served.get(DRAFTS + "/hall").body()).contains("DRAFT: a proposed change");
    }

    /** Only the first = of each field separates. */
    private static String encodedValues(String body) {
        StringJoiner all = new StringJoiner("&");
        for (String field : body.split("&", -1)) {
            int eq = field.indexOf('=');
            all.add(field.substring(0, eq) + "="
                    + URLEncoder.encode(field.substring(eq + 1).replace("%20", " "), StandardCharsets.UTF_8));
        }
        return all.toString();
    }

    @Test
    void whatCannotBeDoneIsToldOnThePageAndNothingIsKept() {
        begin();
        var wrong = add("in", "bench", "what", "cap", "end", HOSTILE);
        assertThat(wrong.statusCode()).isEqualTo(422);
        assertThat(wrong.body()).contains("Nothing was stored", "DRAFT").doesNotContain("<script>alert");
        assertThat(draft().version()).isEqualTo(1);
        done(add("in", "bench", "what", "cap", "end", "K1.black"));
        var stale = post(DRAFTS + "/hall/moves", "in", "bench", "what", "cap", "end", "K1.red", "version", "1");
        assertThat(stale.statusCode()).isEqualTo(412);
        assertThat(draft().draft().moves()).hasSize(1);
        for (String name : List.of("told", "Two words", HOSTILE, "../up")) {
            var refused = post(DRAFTS, "name", name);
            assertThat(refused.statusCode()).as(name).isEqualTo(422);
            assertThat(refused.body()).contains("Nothing was stored").doesNotContain("<script>alert");
        }
        assertThat(post(DRAFTS, "name", "hall").statusCode()).isEqualTo(409);
        assertThat(served.get(DRAFTS + "/none").statusCode()).isEqualTo(404);
        assertThat(served.get(DRAFTS + "/hall/moves?in=none").statusCode()).isEqualTo(404);
        assertThat(served.get(DRAFTS + "/hall/drawings/box?of=none").statusCode())
                .isEqualTo(404);
    }

    @Test
    void theWholeDraftIsWrittenAsText() {
        begin();
        String page = served.get(DRAFTS + "/hall/moves/text").body();
        assertThat(page).contains("draft: hall").doesNotContain("<script>alert");
        String text = "draft: hall\nmoves:\n  - {cap: K1.black, in: bench}\n";
        done(post(DRAFTS + "/hall/moves/text", "text", text, "version", "1"));
        assertThat(draft().draft().moves()).hasSize(1);
        var wrong = post(DRAFTS + "/hall/moves/text", "text", text.replace("cap:", "cup:"), "version", "2");
        assertThat(wrong.statusCode()).isEqualTo(422);
        assertThat(wrong.body()).contains("line:3", "cup: K1.black");
        assertThat(post(DRAFTS + "/hall/moves/text", "text", text.replace("hall", "other"), "version", "2")
                        .statusCode())
                .isEqualTo(422);
        assertThat(draft().version()).isEqualTo(2);
    }

    @Test
    void whatTheHouseHasMovedOnFromIsToldThenCarriedOver() {
        begin();
        done(add("in", "bench", "what", "cap", "end", "K1.black"));
        String changed = Served.ALDER_ROW.replace("[K1.red, bench-1.bottom.hot]", "[K1.red]");
        assertThat(changed).isNotEqualTo(Served.ALDER_ROW);
        served.store.put(HouseFiles.parse("a", changed).get(), 1, "me", "").get();
        assertThat(served.get(DRAFTS + "/hall").body())
                .contains("Recorded otherwise since revision 1: bench", "Carry it over although")
                .doesNotContain("Record it as done");
        assertThat(post(DRAFTS + "/hall", "what", "enter", "steps", "1", "version", "2")
                        .statusCode())
                .isEqualTo(409);
        done(post(DRAFTS + "/hall", "what", "carry-over", "version", "2"));
        assertThat(draft().state().base()).isEqualTo(2);
        assertThat(served.get(DRAFTS + "/hall").body()).contains("Record it as done");
    }

    @Test
    void questionsAreAskedOfTheDraftAndMarked() {
        begin();
        assertThat(served.get(DRAFTS + "/hall/questions").body())
                .contains("DRAFT: a proposed", "/hall/questions/shut-off");
        assertThat(served.get(DRAFTS + "/hall/questions/goes-off?breaker=main.6")
                        .body())
                .contains("DRAFT: a proposed");
        assertThat(served.get(DRAFTS + "/hall/questions/shut-off?box=bench").body())
                .contains("DRAFT: a proposed");
    }

    @Test
    void otherSitesCannotWrite() {
        begin();
        String[][] writes = {
            {DRAFTS, "name", "other"},
            {DRAFTS + "/hall", "what", "withdraw", "version", "1"},
            {DRAFTS + "/hall/moves", "what", "cap", "in", "bench", "end", "K1.black", "version", "1"},
            {DRAFTS + "/hall/moves/text", "text", "draft: hall", "version", "1"},
            {"/houses/" + Served.ID + "/look", "what", "cure", "cure", "x"},
        };
        for (String[] w : writes) {
            String[] fields = java.util.Arrays.copyOfRange(w, 1, w.length);
            assertThat(served.postFrom("", w[0], fields).statusCode()).as(w[0]).isEqualTo(403);
            assertThat(served.postFrom("http://elsewhere.test", w[0], fields).statusCode())
                    .as(w[0])
                    .isEqualTo(403);
        }
        assertThat(draft().version()).isEqualTo(1);
        assertThat(served.store.drafts(Served.ID)).hasSize(1);
    }

    @Test
    void aChangeIsLookedForTellsHowFarItIsAndIsKeptAsADraft() throws InterruptedException {
        String look = "/houses/" + Served.ID + "/look";
        String page = served.get(look).body();
        Matcher finding = Pattern.compile("<option value=\"([^\"]+/[^\"]+)\"").matcher(page);
        assertThat(finding.find()).as(page).isTrue();
        assertThat(post(look, "what", "protect", "against", "ground-fault").statusCode())
                .isEqualTo(422);
        var begun = post(look, "what", "protect", "against", "ground-fault", "points", "bench-1.top");
        done(begun);
        String at = begun.headers().firstValue("Location").orElseThrow();
        assertThat(served.get(at).body()).contains("DRAFT: a proposed");
        String found = "";
        for (int i = 0; i < 600 && (found.isEmpty() || found.contains("http-equiv=\"refresh\"")); i++) {
            Thread.sleep(100);
            if (i == 100) {
                done(post(at, "what", "end"));
            }
            found = served.get(at).body();
        }
        assertThat(found).contains("changes were judged").doesNotContain("http-equiv=\"refresh\"");
        assertThat(post(at, "what", "keep", "number", "99", "name", "x").statusCode())
                .isEqualTo(404);
        if (found.contains("Keep it as a draft")) {
            done(post(at, "what", "keep", "number", "1", "name", "hall"));
            assertThat(draft().draft().moves()).isNotEmpty();
            assertThat(served.get(DRAFTS + "/hall").body()).contains("DRAFT: a proposed");
        }
        assertThat(served.get(look + "/none").statusCode()).isEqualTo(404);
        assertThat(revision()).isEqualTo(1);
    }
}
