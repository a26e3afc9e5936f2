package org.splicebook.web;

import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.AriaRole;
import java.nio.file.Path;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.record.House;
import org.splicebook.record.Move;
import org.splicebook.rewire.Moves;
import org.splicebook.store.DraftState.Status;
import org.splicebook.store.KeptDraft;

/** A change walked in a browser: placed or made by hand, compared, entered step by step, carried over with what conflicts. */
class DraftWalksIT {
    private static final int PHONE = 390;
    private static final int DESK = 1280;
    private static final int LONGEST_MILLIS = 240_000;
    private static Chromium chromium;
    private static Served served;
    private static House sample;

    @BeforeAll
    static void start() {
        chromium = Chromium.start();
        served = Served.answering();
        sample = HouseFiles.read(Path.of("sample-house")).get();
    }

    @AfterAll
    static void stop() {
        if (chromium != null) {
            chromium.close();
            served.close();
        }
    }

    private static Screen screen(String walk, int width) {
        return Screen.open(chromium.browser, served.server.url(), walk, width, true);
    }

    private static void comes(Screen s, String words) {
        s.page.getByText(words).first().waitFor(new Locator.WaitForOptions().setTimeout(LONGEST_MILLIS));
    }

    private static Locator form(Screen s, String words) {
        return s.page.locator("form", new Page.LocatorOptions().setHasText(words));
    }

    @ParameterizedTest
    @ValueSource(ints = {PHONE, DESK})
    void protectionIsPlacedComparedEnteredStepByStepAndCarriedOver(int width) {
        String id = "placed-" + width;
        served.store.put(sample.withId(id), 0, "me", "new");
        try (Screen s = screen("placement", width)) {
            s.to("/houses/" + id + "/findings").follow("Place protective devices for all that asks for them");
            s.look("ask").says("Protective devices are to be placed");
            Locator place = form(s, "Protective devices are to be placed");
            place.locator("input[value=arc-fault]").uncheck();
            place.getByRole(AriaRole.BUTTON).click();
            s.picture("placement-looking-" + width);
            comes(s, "are covered by");
            s.look("placed").says("DRAFT", "Why main.14", "Boxes and panels to open", "Not, though it would cost");
            Locator keep = form(s, "Keep placement as a draft");
            keep.getByLabel("Name").fill("kitchen");
            keep.getByRole(AriaRole.BUTTON).click();
            comes(s, "Load points that change");
            s.look("comparison").says("Now, as recorded", "After the draft", "ground-fault by main.14", "To buy");

            Locator done = form(s, "It was done");
            done.getByLabel("Done").selectOption("2");
            done.getByLabel("Who did it").fill("Hazel");
            done.getByRole(AriaRole.BUTTON).click();
            comes(s, "2 of ");
            s.look("half-way").says("moves are entered as done; what follows is what is left");
            assertThat(now(id).panels().get("main").breakers().get("1+3").protects())
                    .as("the house stands half-way")
                    .isNotEmpty();

            // Somebody records the washer's box meanwhile.
            House seen =
                    Moves.apply(now(id), new Move.Label("washer", "seen again")).get();
            served.store.put(seen, 2, "somebody else", "looked").get();
            s.to("/houses/" + id + "/drafts/kitchen");
            s.look("moved-on").says("Recorded otherwise since revision 2: washer-wall");
            s.saysNot("Record it as done");
            s.press("Carry it over although");
            comes(s, "It was done");
            form(s, "It was done").getByRole(AriaRole.BUTTON).click();
            comes(s, "Entered as done");
            s.look("entered");
            KeptDraft kept = served.store.findDraft(id, "kitchen").orElseThrow();
            assertThat(kept.state().status()).isEqualTo(Status.ENTERED);
            assertThat(now(id).boxes()
                            .get("washer-wall")
                            .devices()
                            .get("washer")
                            .kind()
                            .guard())
                    .isNotNull();
        }
    }

    private static House now(String id) {
        return served.store.findHouse(id).orElseThrow().house();
    }

    @ParameterizedTest
    @ValueSource(ints = {PHONE, DESK})
    void aChangeIsMadeByHandAndLookedAtFromAllSides(int width) {
        String id = "by-hand-" + width;
        served.store.put(sample.withId(id), 0, "me", "new");
        try (Screen s = screen("by-hand", width)) {
            s.to("/houses/" + id + "/drafts").look("none-yet");
            s.type("Name", "stair").type("What for", "the stair light keeps to one circuit");
            s.press("Begin it").look("where");
            s.page.locator("main details.fold summary").first().click();
            s.follow("stair-head").look("in-the-box");
            Locator move = form(s, "A wire end or terminal leaves its joint and joins another");
            String first = move.locator("input[name=end]").first().inputValue();
            Locator cap = form(s, "A wire end leaves its joint and is capped");
            cap.getByLabel("Wire").selectOption(first);
            cap.getByRole(AriaRole.BUTTON).click();
            s.follow("To the comparison").look("comparison").says("Now, as recorded", "stair-head");
            s.follow("What a check would find after it").look("findings").says("DRAFT");
            s.follow("Back to the draft").follow("Ask about the house after it").says("DRAFT");
        }
    }

    @ParameterizedTest
    @ValueSource(ints = {PHONE, DESK})
    void aSearchTellsHowFarItIsAndIsEnded(int width) {
        String id = "looked-" + width;
        served.store.put(sample.withId(id), 0, "me", "new");
        try (Screen s = screen("search", width)) {
            s.to("/houses/" + id + "/look").look("ask");
            Locator wish = form(s, "Something else is wished for");
            wish.getByLabel("Wish").fill("gold");
            wish.getByRole(AriaRole.BUTTON).click();
            s.says("Nothing was stored", "Not a wish").look("wrong");
            wish = form(s, "Something else is wished for");
            wish.getByLabel("Wish").fill("ground-fault=living-1.top");
            wish.getByRole(AriaRole.BUTTON).click();
            s.picture("search-looking-" + width);
            Locator end = s.page.getByRole(
                    AriaRole.BUTTON,
                    new Page.GetByRoleOptions().setName("End it").setExact(true));
            Locator ended = s.page.getByText("changes were judged");
            end.or(ended).first().waitFor();
            if (end.isVisible()) {
                end.click();
            }
            ended.first().waitFor(new Locator.WaitForOptions().setTimeout(LONGEST_MILLIS));
            s.look("told");
        }
    }
}
