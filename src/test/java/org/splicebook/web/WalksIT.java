package org.splicebook.web;

import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Download;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.AriaRole;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.record.Box;
import org.splicebook.record.House;

/**
 * Walks through the pages in a browser, on a phone and on a desk, each page looked at on the way. Pictures are left in
 * {@code target/screens}.
 */
class WalksIT {
    private static final int PHONE = 390;
    private static final int DESK = 1280;
    private static final String NAME = "The house with the pear tree";
    private static Chromium chromium;
    private static Served served;
    private static House sample;

    @BeforeAll
    static void start() {
        chromium = Chromium.start();
        served = Served.answering();
        sample = HouseFiles.read(Path.of("sample-house")).get();
        served.store.put(sample, 0, "me", "new");
    }

    @AfterAll
    static void stop() {
        if (chromium != null) {
            chromium.close();
            served.close();
        }
    }

    private static Screen screen(String walk, int width, boolean script) {
        return Screen.open(chromium.browser, served.server.url(), walk, width, script);
    }

    private static Screen screen(String walk, int width) {
        return screen(walk, width, true);
    }

    /** A house of its own for who writes. */
    private static String own(String id) {
        served.store.put(sample.withId(id), 0, "me", "new");
        return "/houses/" + id;
    }

    private static House now(String id) {
        return served.store.findHouse(id).orElseThrow().house();
    }

    @ParameterizedTest
    @ValueSource(ints = {PHONE, DESK})
    void whatToTurnOffBeforeTheHallLightIsChanged(int width) {
        try (Screen s = screen("hall-light", width)) {
            s.to("/").look("houses").follow(NAME).look("house");
            s.find("hall light").look("found").follow("hall-light").look("card").says("Fed by main.10");
            s.follow("What must be off before its box is opened").look("shut-off");
            s.says("main.10", "Before a hand goes near a wire", "No tap is buried");
            assertThat(s.link("main.10").isVisible())
                    .as("each throw leads to its card")
                    .isTrue();
            assertThat(s.link("Take it along as a sheet with boxes to tick").isVisible())
                    .isTrue();
        }
    }

    @ParameterizedTest
    @ValueSource(ints = {PHONE, DESK})
    void whyTheBathOutletIsDead(int width) {
        try (Screen s = screen("dead-outlet", width)) {
            s.to("/houses/pear-tree-house").type("Name", "bath-1").press("Look it up");
            s.follow("bath-1.top").look("card").says("If it is dead, look here first", "is it on, and not tripped?");
            Locator first = s.page.locator(
                            "section", new Page.LocatorOptions().setHasText("If it is dead, look here first"))
                    .getByRole(AriaRole.LINK)
                    .first();
            assertThat(first.innerText())
                    .as("the button in the workshop, before any breaker")
                    .isEqualTo("shop-gf");
            first.click();
            s.look("the-cause").says("Workshop", "shop-gf");
        }
    }

    @ParameterizedTest
    @ValueSource(ints = {PHONE, DESK})
    void boxJustOpenedIsRecordedAndCorrected(int width) {
        String id = "walk-" + width;
        String house = own(id);
        try (Screen s = screen("opened-box", width)) {
            s.to(house).follow("Record a box just opened").look("empty");
            s.type("Name of the box", "den-wall").choose("Where it is", "Living room");
            s.tick("Feed-through with pigtails").choose("Device", "Duplex receptacle");
            s.type("Cable towards the panel", "N1")
                    .type("Cable that goes on", "N2")
                    .press("Record it");
            s.look("recorded").says("N1.black with N2.black with den-wall-1.top.hot");
            s.page.locator("input[name=ends][value='N2.white']").check();
            s.press("Cap each");
            s.says("N2.white").look("corrected");
            Box den = now(id).boxes().get("den-wall");
            assertThat(den.joints())
                    .anyMatch(j ->
                            j.members().size() == 1 && j.members().get(0).said().equals("N2.white"));
            s.follow("Its card and drawing").look("its-card").says("N1", "N2", "not everything: more may be in it");
        }
    }

    @ParameterizedTest
    @ValueSource(ints = {PHONE, DESK})
    void boxIsEditedAndWhatIsWrongStandsOnThePage(int width) {
        String id = "edit-" + width;
        own(id);
        try (Screen s = screen("edit", width)) {
            s.to("/houses/" + id + "/boxes/hall-ceiling").follow("Record what is in it, wire by wire");
            s.look("begin");
            Locator device = s.page.locator("form", new Page.LocatorOptions().setHasText("A device is in it"));
            device.getByLabel("Name").fill("hall-light");
            device.getByRole(AriaRole.BUTTON).click();
            s.says("Nothing was stored", "hall-light").look("wrong");
            assertThat(s.page.evaluate("() => document.activeElement.name"))
                    .as("what is wrong has the focus")
                    .isEqualTo("device");
            device.getByLabel("Name").fill("hall-fan");
            device.getByLabel("Kind").selectOption("fan");
            device.getByRole(AriaRole.BUTTON).click();
            s.saysNot("Nothing was stored");
            s.says("Recorded as revision 2");
            s.page.locator("input[name=ends][value='hall-fan.hot']").check();
            s.page.locator("select[name=to]").selectOption("hall-light.hot");
            s.press("They go there");
            s.look("done");
            assertThat(now(id).boxes().get("hall-ceiling").joints())
                    .anyMatch(j -> j.members().stream().anyMatch(m -> m.said().equals("hall-fan.hot"))
                            && j.members().size() > 1);
            s.says("Recorded as revision 3")
                    .press("Take it back")
                    .says("Took back revision 3")
                    .look("undone");
            assertThat(now(id).boxes().get("hall-ceiling").joints())
                    .as("undone")
                    .noneMatch(j -> j.members().stream().anyMatch(m -> m.said().equals("hall-fan.hot")));
        }
    }

    @ParameterizedTest
    @ValueSource(ints = {PHONE, DESK})
    void recordIsHandedToTheElectrician(int width) throws IOException {
        try (Screen s = screen("hand-over", width)) {
            s.to("/houses/pear-tree-house").follow("Hand it to someone").look("page");
            s.type("Who hands it over", "The owner");
            String paper = s.page.waitForRequest(r -> r.url().contains("record.pdf"), () -> s.press("Make the PDF"))
                    .url();
            try (PDDocument pdf = Loader.loadPDF(s.page.request().get(paper).body())) {
                assertThat(new PDFTextStripper().getText(pdf)).contains("The owner", NAME, "hall-light");
            }
            s.to("/houses/pear-tree-house/hand-over");
            Download file = s.page.waitForDownload(() -> s.follow("The house file"));
            assertThat(HouseFiles.parse("file", Files.readString(file.path()))
                            .get()
                            .boxes())
                    .hasSameSizeAs(sample.boxes());
        }
    }

    @ParameterizedTest
    @ValueSource(ints = {PHONE, DESK})
    void placeIsKeptWhileJointsAreTappedAndSearchAnswersAsOneTypes(int width) {
        String id = "tapped-" + width;
        own(id);
        try (Screen s = screen("tapped", width)) {
            s.to("/houses/" + id + "/boxes/hall-ceiling/edit").page.evaluate("() => { window.isSamePage = true; }");
            List<String> ends = s.page.locator("input[name=ends]").all().stream()
                    .map(e -> e.getAttribute("value"))
                    .limit(2)
                    .toList();
            ends.forEach(
                    e -> s.page.locator("input[name=ends][value='" + e + "']").check());
            s.press("Join these").says("Recorded as revision 2");
            assertThat((boolean) s.page.evaluate("() => { const b = document.activeElement.getBoundingClientRect();"
                            + " return b.top >= 0 && b.bottom <= innerHeight; }"))
                    .as("the place is kept: the button is in sight")
                    .isTrue();
            assertThat(now(id).boxes().get("hall-ceiling").joints())
                    .anyMatch(j ->
                            j.members().stream().map(m -> m.said()).toList().equals(ends));
            assertThat((boolean) s.page.evaluate("() => window.isSamePage")).isTrue();
            assertThat(s.page.locator("footer").innerText()).contains("revision 2");
            assertThat(s.page.evaluate("() => document.activeElement.innerText"))
                    .as("the button has the focus still")
                    .isEqualTo("Join these");
            s.look("joined").press("Join these").says("Nothing was stored", "Nothing is tapped");
            assertThat(s.page.url()).contains("/boxes/hall-ceiling/edit");
            s.to("/houses/" + id + "/boxes/hall-ceiling/edit?stored=2").press("Take it back");
            s.says("Took back revision 2").picture("tapped-undone-" + width);
            s.page.getByRole(AriaRole.SEARCHBOX).pressSequentially("hall li");
            s.page.locator("#found a").first().waitFor();
            assertThat(s.page.locator("#found").innerText()).contains("hall-light");
            s.look("found");
        }
    }

    @ParameterizedTest
    @ValueSource(ints = {PHONE, DESK})
    void recordIsBegunWithNothing(int width) {
        String name = "Begun " + width;
        String begin = "/houses/begun-" + width + "/begin";
        try (Screen s = screen("begun", width)) {
            s.to("/new-house").look("name").type("Name of the house", name).press("Begin it");
            s.look("panel")
                    .says("Step 1 of 5")
                    .type("Spaces for breakers or fuses", "many")
                    .press("Record the panel");
            s.look("wrong").type("Spaces for breakers or fuses", "8").press("Record the panel");
            s.says("Step 2 of 5").tick("Kitchen").tick("Bathroom").press("Record the rooms");
            s.look("breakers")
                    .says("Step 3 of 5")
                    .type("Space", "1+3")
                    .tick("40 A")
                    .press("Add it");
            s.says("nothing recorded of main in 2, 4, 5, 6, 7, 8");
            s.to("/houses/begun-" + width).look("house").follow("Next: The first receptacles and lights");
            s.look("points").choose("Room", "Kitchen").tick("Duplex receptacle").press("Add it");
            s.to(begin).look("box").says("Step 5 of 5").type("Name of the box", "kitchen-wall");
            s.tick("Photographed only, wires named later").press("Record it").says("Recorded as revision");
        }
    }

    @Test
    void allThatIsReadAndWrittenNeedsNoScript() {
        String house = own("no-script");
        try (Screen s = screen("no-script", PHONE, false)) {
            s.to(house).find("hall light").follow("hall-light").says("Fed by main.10");
            s.follow("What must be off before its box is opened").says("main.10");
            s.to(house).follow("Record what was observed");
            s.page.locator("input[name=read][value='not lit']").check();
            s.tick("Choose among 34");
            s.page.locator("input[name=with-off][value='main.10']").check();
            s.choose("Load point", "hall-light").tickIn("Before they went off it was", "Lit");
            s.tickIn("When they were on again it was", "Lit").press("Record it");
            s.says("hall-light").picture("no-script-observed-" + PHONE);
            assertThat(served.store.sightings("no-script"))
                    .hasSize(served.store.sightings(sample.id()).size() + 1);
        }
    }

    @Test
    void everyPageIsReachedByKeyboardWithItsFocusSeen() {
        try (Screen s = screen("keyboard", DESK)) {
            s.to("/houses/pear-tree-house");
            s.page.keyboard().press("Tab");
            assertThat(s.focused()).isEqualTo("To the content");
            s.picture("keyboard-skip-" + DESK);
            s.page.keyboard().press("Enter");
            s.page.keyboard().press("Tab");
            assertThat((boolean)
                            s.page.evaluate("() => document.querySelector('main').contains(document.activeElement)"))
                    .as("the skip link leads past the header")
                    .isTrue();
            assertThat(s.page.evaluate("() => getComputedStyle(document.activeElement).outlineStyle"))
                    .isEqualTo("solid");
        }
    }
}
