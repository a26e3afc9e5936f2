package org.splicebook.web;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.splicebook.housefile.HouseFiles;

class PagesIT {
    private static final String PAGE = "/houses/" + Served.ID;
    private static Served served;

    @BeforeAll
    static void start() {
        served = new Served();
        String hostile =
                Served.ALDER_ROW.replace("name: 14 Alder Row, rear flat", "name: \"<script>alert(1)</script>\\\"'&\"");
        served.store.put(HouseFiles.parse("a", hostile).get(), 0, "me", "new");
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
        assertThat(served.get(PAGE).body()).contains("&lt;script&gt;alert(1)&lt;/script&gt;&quot;&#39;&amp;");
    }

    @Test
    void answerPageHasReasonsAssumptionsAndCautions() {
        assertThat(served.get(PAGE + "/questions/goes-off?breaker=main.6").body())
                .containsSubsequence(
                        "1 shown, 1 possible", "wire K1.black", "No tap is buried", "Before a hand goes near a wire");
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
