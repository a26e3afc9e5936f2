package org.splicebook.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.splicebook.drafts.DraftDesk;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.record.Draft;
import org.splicebook.record.Move;
import org.splicebook.store.KeptDraft;
import org.splicebook.web.view.Link;
import org.splicebook.web.view.Section;
import org.splicebook.wiring.Derivation;

class PagesIT {
    private static final String PAGE = "/houses/" + Served.ID;
    private static Served served;

    @BeforeAll
    static void start() {
        served = Served.answering();
        String hostile =
                Served.ALDER_ROW.replace("name: 14 Alder Row, rear flat", "name: \"<script>alert(1)</script>\\\"'&\"");
        served.store.put(HouseFiles.parse("a", hostile).get(), 0, "me", "new");
        List<Move> moves = List.of(new Move.Cap("bench", "K1.black"), new Move.Remark("K2", "white", "black"));
        KeptDraft unused = new DraftDesk(served.store)
                .save(new Draft("hall", Served.ID, null, "<script>alert(1)</script>", moves), 0, "me");
    }

    @AfterAll
    static void stop() {
        served.close();
    }

    @Test
    void startPageLinksHousesQuestionsAndTheApi() {
        assertThat(served.get("/").body())
                .contains("href=\"/houses/alder-row-14b\"", "action=\"/questions/all-houses\"", "href=\"/api\"");
    }

    @Test
    void nameOfAHouseIsShownAndNeverRun() {
        for (String path : new String[] {
            "/", PAGE, PAGE + "/questions/goes-off?breaker=%3Cscript%3Ealert(1)", PAGE + "/questions/%3Cscript%3Ealert"
        }) {
            assertThat(served.get(path).body()).as(path).doesNotContain("<script>alert");
        }
        assertThat(served.get(PAGE).body()).contains("&lt;script&gt;alert(1)&lt;/script&gt;\"'&amp;");
    }

    @Test
    void answerPageHasReasonsAssumptionsAndCautions() {
        assertThat(served.get(PAGE + "/questions/goes-off?breaker=main.6").body())
                .containsSubsequence(
                        "1 shown, 1 possible", "wire K1.black", "No tap is buried", "Before a hand goes near a wire");
    }

    /** From the start page on: whatever a page leads to is there, is whole, and escapes what comes from the record. */
    @Test
    void everyLinkOfEveryPageLeadsToAWholePage() throws Exception {
        Set<String> seen = new LinkedHashSet<>(Set.of("/"));
        Deque<String> next = new ArrayDeque<>(seen);
        Pattern link = Pattern.compile("href=\"([^\"]+)\"");
        while (!next.isEmpty()) {
            String path = next.remove();
            var answer = served.get(path);
            boolean inGraphOnly = path.matches(".*/questions/(what-goes-off|way-back)[?].*");
            assertThat(answer.statusCode()).as(path).isEqualTo(inGraphOnly ? 404 : 200);
            if (inGraphOnly) {
                continue;
            }
            String type = answer.headers().firstValue("Content-Type").orElse("");
            if (!type.startsWith("text/html") || path.equals("/api")) {
                continue;
            }
            String page = answer.body();
            assertThat(page).as(path).contains("<h1>", "</html>").doesNotContain("<script>alert", "style=\"");
            int ids = page.split(" id=\"main\"", -1).length - 1;
            assertThat(ids).as(path).isEqualTo(1);
            Matcher m = link.matcher(page);
            while (m.find()) {
                String to = m.group(1).replace("&amp;", "&");
                if (!to.startsWith("#") && seen.add(to)) {
                    next.add(to);
                }
            }
        }
        assertThat(seen)
                .contains(
                        PAGE + "/boxes/bench",
                        PAGE + "/points/bench-1.top",
                        PAGE + "/panels/main",
                        PAGE + "/questions/shut-off?box=bench",
                        PAGE + "/findings",
                        PAGE + "/drafts/hall",
                        PAGE + "/drafts/hall/moves?in=bench",
                        PAGE + "/look");
        assertThat(seen).anyMatch(p -> p.startsWith(PAGE + "/breakers/main.2%2B4"));
    }

    @Test
    void cardOfALoadPointTellsWhatFeedsItAndWhatIsNotShown() {
        assertThat(served.get(PAGE + "/points/bench-1.top").body())
                .contains("Fed by main.", "as recorded", "Protected by", "<svg", "Before a hand goes near a wire");
        assertThat(served.get(PAGE + "/points/none").statusCode()).isEqualTo(404);
    }

    @Test
    void sightingIsAskedForWithTheBreakersThatMayFeedTheLoadPointFirst() {
        String point = "bench-1.top";
        var feeds = Cards.feeds(
                Derivation.derive(
                                served.store.findHouse(Served.ID).orElseThrow().house())
                        .loadPoints()
                        .stream()
                        .filter(p -> p.id().equals(point))
                        .findFirst()
                        .orElseThrow());
        String page = served.get(PAGE + "/sight?at=" + point).body();
        List<String> offered = Pattern.compile("name=\"with-off\" value=\"([^\"]+)\"")
                .matcher(page)
                .results()
                .map(r -> r.group(1))
                .toList();
        assertThat(offered.subList(0, feeds.size())).containsExactlyInAnyOrderElementsOf(feeds.keySet());
        assertThat(offered).as("every breaker can still be told, once").doesNotHaveDuplicates();
        assertThat(offered)
                .hasSameSizeAs(Pattern.compile("name=\"with-off\"")
                        .matcher(served.get(PAGE + "/sight").body())
                        .results()
                        .toList());
    }

    @Test
    void longListIsFoldedAndNothingOfItLeftOut() {
        List<Link> many =
                IntStream.range(0, 40).mapToObj(i -> Link.words("thing " + i)).toList();
        Section s = new Section("Things", "", many);
        assertThat(s.first()).hasSize(8);
        assertThat(Stream.concat(s.first().stream(), s.rest().stream())).containsExactlyElementsOf(many);
        assertThat(new Section("Things", "", many.subList(0, 14)).rest()).isEmpty();
    }

    /** What it brings along is all that it needs: the browser asks nobody else, and may keep it. */
    @Test
    void walkOfAPassIsOnePageThatTheBrowserMayKeep() {
        var page = served.get(PAGE + "/walk?at=1");
        assertThat(page.headers().firstValue("Cache-Control"))
                .hasValueSatisfying(v -> assertThat(v).contains("max-age"));
        assertThat(page.headers().firstValue("Content-Security-Policy"))
                .hasValueSatisfying(
                        v -> assertThat(v).contains("script-src 'sha256-").doesNotContain("unsafe"));
        assertThat(page.body()).contains("bench-1.top").doesNotContain("src=", "href=", "@DATA@");
        assertThat(served.get(PAGE + "/walk").headers().firstValue("Cache-Control"))
                .hasValue("no-store");
    }

    @Test
    void searchFindsByEveryWordOfNameRoomAndDirectory() {
        assertThat(served.get(PAGE + "/search?q=bench+load").body()).contains("/points/bench-1.top");
        assertThat(served.get(PAGE + "/search?q=zzz").body()).contains("Nothing of that name");
        assertThat(served.get(PAGE + "/search?q=%22%3E%3Cscript%3Ealert(1)").body())
                .doesNotContain("<script>alert");
    }

    @Test
    void failureIsAPageToo() {
        var answer = served.get("/houses/none");
        assertThat(answer.statusCode()).isEqualTo(404);
        assertThat(answer.headers().firstValue("Content-Type").orElse("")).startsWith("text/html");
        assertThat(answer.body()).contains("There is no house");
    }

    @Test
    void pagesNameNoOtherHost() {
        for (String path : new String[] {"/", "/api", "/assets/style.css", "/assets/api.js", PAGE}) {
            assertThat(served.get(path).statusCode()).isEqualTo(200);
            assertThat(served.get(path).body()).as(path).doesNotContain("http://", "https://");
        }
    }
}
