package org.splicebook.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.util.List;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.housefile.HouseWriter;
import org.splicebook.record.Box;
import org.splicebook.record.Complete;
import org.splicebook.record.House;
import org.splicebook.record.Photo;
import org.splicebook.store.Photograph;
import org.splicebook.store.Pictures;

class PhotoPagesIT {
    private static final String PAGE = "/houses/" + Served.ID;
    private static final String BENCH = PAGE + "/boxes/bench";
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

    /** Sends a form with a file in it; fields are name, value, name, value. */
    private HttpResponse<byte[]> send(String path, String fileName, byte[] file, String... fields) {
        ByteArrayOutputStream body = new ByteArrayOutputStream();
        for (int i = 0; i < fields.length; i += 2) {
            body.writeBytes(utf8("--x\r\nContent-Disposition: form-data; name=\"" + fields[i] + "\"\r\n\r\n"
                    + fields[i + 1] + "\r\n"));
        }
        body.writeBytes(utf8("--x\r\nContent-Disposition: form-data; name=\"photo\"; filename=\"" + fileName
                + "\"\r\nContent-Type: image/jpeg\r\n\r\n"));
        body.writeBytes(file);
        body.writeBytes(utf8("\r\n--x--\r\n"));
        return exchange(HttpRequest.newBuilder(URI.create(served.server.url() + path))
                .header("Content-Type", "multipart/form-data; boundary=x")
                .header("Origin", served.server.url())
                .POST(HttpRequest.BodyPublishers.ofByteArray(body.toByteArray()))
                .build());
    }

    private static HttpResponse<byte[]> exchange(HttpRequest request) {
        try {
            return HttpClient.newHttpClient().send(request, HttpResponse.BodyHandlers.ofByteArray());
        } catch (Exception e) {
            throw new IllegalStateException(e);
        }
    }

    private static byte[] utf8(String text) {
        return text.getBytes(StandardCharsets.UTF_8);
    }

    private static String text(HttpResponse<byte[]> answer) {
        return new String(answer.body(), StandardCharsets.UTF_8);
    }

    private House now() {
        return served.store.findHouse(Served.ID).orElseThrow().house();
    }

    private Box bench() {
        return now().boxes().get("bench");
    }

    @Test
    void photographIsKeptWithTheBoxShownOnItsCardAndUndone() {
        var sent = send(
                BENCH + "/photos", "a.jpg", Pictures.withExif(), "revision", "1", "of", "", "note", "As <b>found</b>");
        assertThat(sent.statusCode()).as(text(sent)).isEqualTo(303);
        List<Photo> photos = bench().about().photos();
        assertThat(photos).hasSize(1);
        assertThat(served.files.list()).containsExactly(photos.get(0).file());
        String address = PAGE + "/photos/" + photos.get(0).file();
        for (String page : new String[] {BENCH, BENCH + "/edit"}) {
            assertThat(served.get(page).body())
                    .as(page)
                    .contains(
                            "src=\"" + address + "?small=yes\"",
                            "href=\"" + address + "\"",
                            "alt=\"Photograph of box bench",
                            "As &lt;b&gt;found");
        }
        var shown = exchange(HttpRequest.newBuilder(URI.create(served.server.url() + address))
                .build());
        assertThat(shown.headers().firstValue("Content-Type")).hasValue("image/jpeg");
        assertThat(shown.headers().firstValue("X-Content-Type-Options")).hasValue("nosniff");
        assertThat(new String(shown.body(), StandardCharsets.ISO_8859_1)).doesNotContain("Exif", "GPS");

        served.send(
                "POST",
                PAGE + "/history",
                "revision=2&back-to=1",
                "Content-Type",
                "application/x-www-form-urlencoded",
                "Origin",
                served.server.url());
        assertThat(bench().about().photos()).isEmpty();
        assertThat(served.get(address).statusCode())
                .as("the record no longer speaks of it")
                .isEqualTo(404);
    }

    @Test
    void photographOfADeviceGoesWithTheRecordAndCanBeTakenOff() {
        send(BENCH + "/photos", "a.png", Pictures.picture("png", 30, 30), "revision", "1", "of", "bench-1", "note", "");
        List<Photo> photos = bench().devices().get("bench-1").about().photos();
        assertThat(photos).hasSize(1);
        assertThat(HouseFiles.parse("f", HouseWriter.write(now())).get()).isEqualTo(now());
        assertThat(served.get(PAGE + "/points/bench-1.top").statusCode()).isEqualTo(200);
        served.send(
                "POST",
                BENCH + "/photos/off",
                "revision=2&file=" + photos.get(0).file(),
                "Content-Type",
                "application/x-www-form-urlencoded",
                "Origin",
                served.server.url());
        assertThat(bench().devices().get("bench-1").about().photos()).isEmpty();
        assertThat(served.files.list()).as("earlier revisions still have it").hasSize(1);
    }

    @Test
    void documentIsKeptWithTheBoxAndSentAsAFile() throws Exception {
        ByteArrayOutputStream pdf = new ByteArrayOutputStream();
        try (PDDocument d = new PDDocument()) {
            d.addPage(new PDPage());
            d.getDocumentInformation().setAuthor("Robin Ash");
            d.save(pdf);
        }
        HttpResponse<byte[]> sent = send(
                BENCH + "/photos", "permit.jpg", pdf.toByteArray(), "revision", "1", "of", "", "note", "Permit <b>");
        assertThat(sent.statusCode()).as(text(sent)).isEqualTo(303);
        assertThat(bench().about().photos()).isEmpty();
        String file = bench().about().documents().get(0).file();
        HttpResponse<byte[]> shown =
                exchange(HttpRequest.newBuilder(URI.create(served.server.url() + PAGE + "/photos/" + file))
                        .build());
        assertThat(shown.headers().firstValue("Content-Type").orElse("")).startsWith("application/pdf");
        assertThat(shown.headers().firstValue("Content-Disposition").orElse("")).startsWith("attachment");
        assertThat(text(shown)).startsWith("%PDF").doesNotContain("Robin Ash");
        assertThat(served.get(BENCH).body()).contains("Documents", "Permit &lt;b");
        assertThat(send(BENCH + "/photos", "x.pdf", utf8("%PDF-1.7 nothing"), "revision", "2", "of", "", "note", "")
                        .statusCode())
                .isEqualTo(400);
        assertThat(served.send(
                                "POST",
                                BENCH + "/photos/off",
                                "revision=2&file=" + file,
                                "Content-Type",
                                "application/x-www-form-urlencoded",
                                "Origin",
                                served.server.url())
                        .statusCode())
                .isEqualTo(303);
        assertThat(bench().about().documents()).isEmpty();
    }

    @Test
    void panelsAndCablesTakePhotographsAndShowThem() {
        String panel = now().panels().keySet().iterator().next();
        String cable = now().cables().keySet().iterator().next();
        int revision = 1;
        for (String thing : List.of("panels/" + panel, "cables/" + cable)) {
            String card = PAGE + "/" + thing;
            assertThat(served.get(card).body())
                    .contains("href=\"" + card + "/photos\"")
                    .doesNotContain("<img");
            assertThat(served.get(card + "/photos").body())
                    .contains("enctype=\"multipart/form-data\"")
                    .doesNotContain("/photos/off");
            HttpResponse<byte[]> refused =
                    send(card + "/photos", "a.jpg", utf8("no picture"), "revision", "" + revision, "note", "");
            assertThat(refused.statusCode()).isEqualTo(415);
            assertThat(text(refused)).contains("Nothing was stored", "Photographs and documents of ");
            HttpResponse<byte[]> sent = send(
                    card + "/photos",
                    "a.jpg",
                    Pictures.picture("jpg", 1500, 1000 + revision),
                    "revision",
                    "" + revision,
                    "note",
                    "Cover <b>off");
            assertThat(sent.statusCode()).as(text(sent)).isEqualTo(303);
            assertThat(sent.headers().firstValue("Location").orElse("")).contains(card + "/photos?stored=");
            revision++;
            for (String page : List.of(card, card + "/photos")) {
                assertThat(served.get(page).body())
                        .contains("<img", thing.replace("s/", " ") + ", ", "Cover &lt;b>off");
            }
            assertThat(served.get(card + "/photos").body()).contains("Take it off");
        }
        Photo ofPanel = now().panels().get(panel).about().photos().get(0);
        Photo ofCable = now().cables().get(cable).about().photos().get(0);
        assertThat(ofPanel.file()).isNotEqualTo(ofCable.file());
        assertThat(HouseFiles.parse("f", HouseWriter.write(now())).get()).isEqualTo(now());
        assertThat(served.get(PAGE + "/panels/" + panel + "/directory").body())
                .as("the directory's page shows them too")
                .contains(ofPanel.file());
        assertThat(served.get(PAGE + "/cables/none/photos").statusCode()).isEqualTo(404);
        assertThat(send(
                                PAGE + "/panels/" + panel + "/photos",
                                "a.jpg",
                                Pictures.picture("jpg", 9, 9),
                                "revision",
                                "3",
                                "of",
                                "bench-1",
                                "note",
                                "")
                        .statusCode())
                .as("a panel has no devices")
                .isEqualTo(404);
        served.send(
                "POST",
                PAGE + "/cables/" + cable + "/photos/off",
                "revision=3&file=" + ofCable.file(),
                "Content-Type",
                "application/x-www-form-urlencoded",
                "Origin",
                served.server.url());
        assertThat(now().cables().get(cable).about().photos()).isEmpty();
        assertThat(now().panels().get(panel).about().photos()).containsExactly(ofPanel);
    }

    @Test
    void pageShowsASmallerPictureAndSaysWhichFilesAreNotHere() throws Exception {
        send(BENCH + "/photos", "a.jpg", Pictures.picture("jpg", 2000, 1000), "revision", "1", "of", "", "note", "");
        String here = bench().about().photos().get(0).file();
        byte[] small = exchange(HttpRequest.newBuilder(
                                URI.create(served.server.url() + PAGE + "/photos/" + here + "?small=yes"))
                        .build())
                .body();
        assertThat(Photograph.size(small)).isEqualTo(new java.awt.Dimension(800, 400));

        String away = "0".repeat(64);
        House house = now();
        Box box = house.boxes()
                .get("bench")
                .withAbout(bench().about().withPhotos(List.of(new Photo(away, "2026-01-02", "as found"))));
        var boxes = new java.util.LinkedHashMap<>(house.boxes());
        boxes.put("bench", box);
        served.store.put(house.withParts(house.panels(), house.cables(), boxes), 2, "me", "from elsewhere");
        assertThat(served.get(BENCH).body())
                .contains("its file is not on this machine", "2026-01-02: as found")
                .doesNotContain("<img");
        HttpResponse<byte[]> shown = exchange(
                HttpRequest.newBuilder(URI.create(served.server.url() + PAGE + "/photos/" + away + "?small=yes"))
                        .build());
        assertThat(shown.statusCode()).isEqualTo(404);
        assertThat(text(shown)).contains("<svg", "not on this machine");
        assertThat(served.get(PAGE + "/photos/" + away).body()).contains("not on this machine");
    }

    @Test
    void whatIsNoPictureIsToldOnThePageAndNothingIsStored() {
        byte[] svg = utf8("<svg xmlns='http://www.w3.org/2000/svg'><script>alert(1)</script></svg>");
        var refused = send(BENCH + "/photos", "../../../etc/x.jpg", svg, "revision", "1", "of", "", "note", "");
        assertThat(refused.statusCode()).isEqualTo(415);
        assertThat(text(refused)).contains("Nothing was stored", "neither a JPEG nor a PNG");
        assertThat(send(BENCH + "/photos", "a.jpg", new byte[0], "revision", "1", "of", "", "note", "")
                        .statusCode())
                .isEqualTo(422);
        assertThat(send(
                                BENCH + "/photos",
                                "a.jpg",
                                Pictures.hugePng(50_000, 50_000),
                                "revision",
                                "1",
                                "of",
                                "",
                                "note",
                                "")
                        .statusCode())
                .isEqualTo(413);
        assertThat(send(
                                BENCH + "/photos",
                                "a.jpg",
                                Pictures.picture("jpg", 9, 9),
                                "revision",
                                "1",
                                "of",
                                "none",
                                "note",
                                "")
                        .statusCode())
                .isEqualTo(404);
        assertThat(send(
                                BENCH + "/photos",
                                "a.jpg",
                                Pictures.picture("jpg", 9, 9),
                                "revision",
                                "7",
                                "of",
                                "",
                                "note",
                                "")
                        .statusCode())
                .isIn(409, 412);
        assertThat(bench().about().photos()).isEmpty();
        assertThat(served.store.findHouse(Served.ID).orElseThrow().revision().number())
                .isEqualTo(1);
    }

    @Test
    void formThatIsTooLargeIsRefusedAndTheServerGoesOn() {
        byte[] large = new byte[Photograph.MOST_BYTES + 2_000_000];
        assertThat(send(BENCH + "/photos", "a.jpg", large, "revision", "1", "of", "", "note", "")
                        .statusCode())
                .isEqualTo(413);
        assertThat(served.get(BENCH).statusCode()).isEqualTo(200);
    }

    @Test
    void pictureOfAnotherHouseIsNotShown() {
        String name = served.files.keep(Pictures.picture("jpg", 9, 9));
        for (String file : new String[] {name, "..%2F..%2Fpom.xml", "x"}) {
            assertThat(served.get(PAGE + "/photos/" + file).statusCode())
                    .as(file)
                    .isIn(400, 404);
        }
    }

    @Test
    void boxIsBegunByAPhotographAloneAndItsWiresAreNamedLater() {
        byte[] photo = Pictures.picture("jpg", 40, 30);
        var made = send(
                PAGE + "/new-box",
                "a.jpg",
                photo,
                "revision",
                "1",
                "name",
                "den",
                "template",
                "photographed",
                "in",
                "",
                "out",
                "");
        assertThat(made.statusCode()).as(text(made)).isEqualTo(303);
        Box den = now().boxes().get("den");
        assertThat(den.about().photos()).hasSize(1);
        assertThat(den.joints()).isEmpty();
        assertThat(now().isComplete(den, Complete.CABLES)).isFalse();
        assertThat(served.get(PAGE + "/boxes/den").body()).contains("<img src=\"" + PAGE + "/photos/");

        var wrong = send(
                PAGE + "/new-box",
                "a.jpg",
                utf8("no picture"),
                "revision",
                "2",
                "name",
                "attic-2",
                "template",
                "photographed");
        assertThat(wrong.statusCode()).isEqualTo(415);
        assertThat(now().boxes()).as("nothing half stored").doesNotContainKey("attic-2");
    }
}
