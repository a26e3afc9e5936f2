package org.splicebook.web;

import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Download;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.AriaRole;
import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.splicebook.answer.Answer;
import org.splicebook.ask.AnsweringStore;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.people.Estates;
import org.splicebook.people.MemoryPeople;
import org.splicebook.record.House;
import org.splicebook.record.Sighting;
import org.splicebook.store.MemoryFiles;
import org.splicebook.store.MemoryStore;
import org.splicebook.wiring.Derivation;

/** A pass of a survey walked with a phone: the network goes, the tab goes, another person goes on, a file carries what could not be sent. */
class SurveyWalkIT {
    private static final int PHONE = 390;
    private static final House QUAY = HouseFiles.parse("quay.yaml", """
                    splicebook: 1
                    house: quay-cottage
                    name: Quay cottage
                    panels:
                      main:
                        supply: service
                        breakers: {1: {rating: 15 A}, 2: {rating: 15 A}, 3: {rating: 15 A}, 4: {rating: 15 A}}
                    sources: {service: {system: split-phase 120/240, bond: main}}
                    places: {hall: {kind: hall, name: Hall}, shed: {kind: garage, name: Shed}}
                    boxes:
                      a: {place: hall, devices: {hall-1: {kind: luminaire}, hall-2: {kind: luminaire}}}
                      b: {place: hall, devices: {hall-3: {kind: luminaire}, hall-4: {kind: luminaire}}}
                      c: {place: shed, devices: {shed-1: {kind: luminaire}, shed-2: {kind: luminaire}}}
                      d: {place: shed, devices: {shed-3: {kind: luminaire}, shed-4: {kind: luminaire}}}
                    """).get();

    /** What really feeds each point, by the last figure of its name. */
    private static String feed(String point) {
        return "main." + point.charAt(point.length() - 1);
    }

    private static Chromium chromium;
    private static Served served;

    @BeforeAll
    static void start() {
        chromium = Chromium.start();
        served = Served.answering();
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

    private static String own(String id) {
        served.store.put(QUAY.withId(id), 0, "me", "new");
        return "/houses/" + id;
    }

    private static Answer ask(String house, String question) {
        return ask(served.store, house, question);
    }

    private static Answer ask(MemoryStore store, String house, String question) {
        return (Answer) new AnsweringStore(store, Derivation::derive)
                .ask(question, house, Map.of())
                .get();
    }

    private static List<String> off(String house) {
        return off(served.store, house);
    }

    private static List<String> off(MemoryStore store, String house) {
        List<String> off = new ArrayList<>();
        if (ask(store, house, "survey-pass").rows().get(0).columns().get("off") instanceof List<?> l) {
            l.forEach(o -> off.add(o.toString()));
        }
        return off;
    }

    /** Reads the point that the page shows, as it is in truth with these off. */
    private static String read(Screen s, List<String> off) {
        String point = s.page.locator(".point").innerText();
        s.press(off.contains(feed(point)) ? "Not lit" : "Lit");
        return point;
    }

    private static int readings(String house) {
        return served.store.sightings(house).size();
    }

    private static void waitForReadings(Screen s, String house, int count) {
        for (int i = 0; i < 200 && readings(house) < count; i++) {
            s.page.waitForTimeout(50);
        }
        assertThat(readings(house)).isEqualTo(count);
    }

    @ParameterizedTest
    @ValueSource(ints = {PHONE, 1280})
    void aPassIsWalkedUndoneSentAndTheNextOneDiffers(int width) {
        String id = "whole-" + width;
        try (Screen s = screen("walk", width)) {
            s.to(own(id)).follow("Map it by test: the next pass").look("begin");
            s.says("Before", "Turn off", "It never means dead");
            List<String> off = off(id);
            s.type("Who walks (may be left empty)", "The lodger").press("These are off: begin");
            s.look("point").says("1 of 8 in all", "0 not sent yet");
            s.press("Not tried");
            s.page.getByRole(AriaRole.BUTTON, new Page.GetByRoleOptions().setName("Undo "))
                    .click();
            s.says("1 of 8 in all");
            for (int i = 0; i < 8; i++) {
                read(s, off);
            }
            s.says("Every point of this pass is done", "After").look("end");
            s.press("Send now");
            waitForReadings(s, id, 8);
            assertThat(served.store.sightings(id)).allMatch(x -> "The lodger".equals(x.by()));
            s.page.getByText("0 not sent yet").waitFor(); // stored is sooner than answered
            s.press("Next pass");
            s.page.getByText("These are off: begin").waitFor();
            s.says("pass-2").look("second");
            assertThat(off(id)).isNotEqualTo(off);
        }
    }

    /** The server is gone while the tab is: the page comes from what the browser kept. */
    @Test
    void aWalkSurvivesALostNetworkAndADiscardedTab() throws IOException {
        String id = "lost";
        MemoryStore store = new MemoryStore();
        store.put(QUAY.withId(id), 0, "me", "new");
        int port;
        try (ServerSocket free = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
            port = free.getLocalPort();
        }
        WebServer server = serve(store, port);
        List<String> off = off(store, id);
        try (Screen s = Screen.open(chromium.browser, server.url(), "lost", PHONE, true)) {
            s.to("/houses/" + id).follow("Map it by test: the next pass");
            String address = s.page.url();
            s.press("These are off: begin");
            read(s, off);
            server.close();
            for (int i = 0; i < 6; i++) {
                read(s, off);
            }
            s.page.getByText("No network").waitFor();
            s.says("7 not sent yet", "8 of 8 in all").picture("lost-no-network-390");
            s.page.navigate("about:blank");
            s.page.navigate(address);
            s.page.locator(".point").waitFor();
            s.says("7 not sent yet", "8 of 8 in all");
            read(s, off);
            s.press("Send now");
            s.page.getByText("No network").waitFor();
            s.says("8 not sent yet");
            server = serve(store, port);
            s.press("Send now");
            s.page.getByText("0 not sent yet").waitFor();
            assertThat(store.sightings(id)).as("sent once").hasSize(8);
            s.press("Next pass");
            s.page.getByText("These are off: begin").waitFor();
            s.says("pass-2");
        } finally {
            server.close();
        }
    }

    private static WebServer serve(MemoryStore store, int port) {
        return WebServer.start(
                new AnsweringStore(store, Derivation::derive),
                new MemoryFiles(),
                new WebSettings("127.0.0.1", port, Set.of(), WebSettings.LARGEST_BODY, "9", Door.OPEN),
                new MemoryPeople(),
                Estates.NONE);
    }

    /** Some were sent, so that the server asks for another pass by now; the one that was begun is not lost. */
    @Test
    void aWalkThatWasBegunIsOfferedWhenTheHouseIsOpenedAnew() {
        String id = "begun";
        String house = own(id);
        try (Screen s = screen("begun", PHONE)) {
            s.to(house).follow("Map it by test: the next pass");
            List<String> off = off(id);
            s.press("These are off: begin");
            for (int i = 0; i < 7; i++) {
                read(s, off);
            }
            waitForReadings(s, id, 5);
            s.to(house).follow("Map it by test: the next pass");
            s.says("A walk was begun on this phone", "7 of 8 read here, 2 not sent")
                    .look("offered");
            s.press("Go on with it");
            s.says("8 of 8 in all");
            read(s, off);
            s.press("Send now");
            waitForReadings(s, id, 8);
            assertThat(served.store.sightings(id).stream().map(Sighting::pass).distinct())
                    .containsExactly("pass-1");
        }
    }

    @Test
    void whatCouldNotBeSentGoesByFileToAnotherPhoneAndIsTakenInOnce() {
        String id = "filed";
        String house = own(id);
        Path file;
        List<String> off = off(id);
        try (Screen s = screen("filed", PHONE)) {
            s.to(house).follow("Map it by test: the next pass");
            s.press("These are off: begin");
            s.page.context().setOffline(true);
            for (int i = 0; i < 8; i++) {
                read(s, off);
            }
            Download saved = s.page.waitForDownload(() -> s.press("Save as a file"));
            file = Path.of("target", "walk-" + saved.suggestedFilename());
            saved.saveAs(file);
        }
        assertThat(readings(id)).isZero();
        try (Screen other = screen("filed-other", PHONE)) {
            other.to(house).follow("Map it by test: the next pass");
            for (int twice = 0; twice < 2; twice++) {
                other.page.locator("input[type=file]").setInputFiles(file);
                other.page.getByText("8 readings of the file were taken in").waitFor();
            }
            other.look("taken-in");
            assertThat(readings(id)).isEqualTo(8);
            other.page.locator("input[type=file]").setInputFiles(Path.of("pom.xml"));
            other.page.getByText("That is no file of readings").waitFor();
            other.to(house).follow("Map it by test: the next pass");
            other.says("pass-2");
        }
    }

    /** Pass after pass, each by another person on another phone, until the survey ends by itself. */
    @Test
    void otherPeopleOnOtherPhonesGoOnUntilAllIsKnown() {
        String id = "people";
        String house = own(id);
        int passes = 0;
        while (!ask(id, "survey-pass").rows().isEmpty() && passes < 14) {
            passes++;
            List<String> off = off(id);
            try (Screen s = screen("people-" + passes, PHONE)) {
                s.to(house).follow("Map it by test: the next pass").press("These are off: begin");
                int before = readings(id);
                int walked = ask(id, "survey-pass").rows().size();
                for (int i = 0; i < walked; i++) {
                    read(s, off);
                }
                s.press("Send now");
                waitForReadings(s, id, before + walked);
            }
        }
        assertThat(passes).isLessThan(14);
        Answer status = ask(id, "survey-status");
        assertThat(status.rows())
                .allSatisfy(r -> assertThat(Objects.toString(r.columns().get("likeliest")))
                        .startsWith(feed(r.subject())));
        try (Screen s = screen("people-end", PHONE)) {
            s.to(house).follow("Map it by test: the next pass").look("known");
            s.says("known as surely as asked");
        }
    }
}
