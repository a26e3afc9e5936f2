package org.splicebook.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.contentstream.PDFStreamEngine;
import org.apache.pdfbox.contentstream.operator.DrawObject;
import org.apache.pdfbox.contentstream.operator.Operator;
import org.apache.pdfbox.contentstream.operator.OperatorName;
import org.apache.pdfbox.contentstream.operator.state.Concatenate;
import org.apache.pdfbox.contentstream.operator.state.Restore;
import org.apache.pdfbox.contentstream.operator.state.Save;
import org.apache.pdfbox.contentstream.operator.state.SetMatrix;
import org.apache.pdfbox.cos.COSBase;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.graphics.image.PDImageXObject;
import org.apache.pdfbox.text.PDFTextStripper;
import org.apache.pdfbox.util.Matrix;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.splicebook.ask.AnsweringStore;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.record.Box;
import org.splicebook.record.Cable;
import org.splicebook.record.Device;
import org.splicebook.record.House;
import org.splicebook.record.Panel;
import org.splicebook.record.Photo;
import org.splicebook.store.HouseStore;
import org.splicebook.store.MemoryFiles;
import org.splicebook.store.MemoryStore;
import org.splicebook.store.Pictures;
import org.splicebook.wiring.Derivation;

/** What a crew on paper sees of photographs: where they stand, whole, and with what under them. */
class SheetPhotographsTest {
    private static final House HOUSE = HouseFiles.read(Path.of("sample-house")).get();
    private static final Box BOX = HOUSE.boxes().values().stream()
            .filter(b -> !b.devices().isEmpty())
            .findFirst()
            .orElseThrow();
    private static final Device DEVICE = BOX.devices().values().iterator().next();
    private static final Panel PANEL = HOUSE.panels().values().iterator().next();
    private static final Cable CABLE = HOUSE.cables().values().iterator().next();
    private static final float MILLIMETRE = 72 / 25.4f;
    private static final float MARGIN = 30;

    private final MemoryFiles files = new MemoryFiles();

    /** A photograph that is no other, as large as that. */
    private Photo photo(String date, String note, int width, int height) {
        return new Photo(files.keep(Pictures.picture("jpg", width, height)), date, note);
    }

    private static House with(List<Photo> ofBox, List<Photo> ofDevice, List<Photo> ofPanel, List<Photo> ofCable) {
        Map<String, Device> devices = new LinkedHashMap<>(BOX.devices());
        devices.put(DEVICE.name(), DEVICE.withAbout(DEVICE.about().withPhotos(ofDevice)));
        Map<String, Box> boxes = new LinkedHashMap<>(HOUSE.boxes());
        boxes.put(BOX.name(), BOX.withAbout(BOX.about().withPhotos(ofBox)).withDevices(devices));
        Map<String, Panel> panels = new LinkedHashMap<>(HOUSE.panels());
        panels.put(PANEL.name(), PANEL.withAbout(PANEL.about().withPhotos(ofPanel)));
        Map<String, Cable> cables = new LinkedHashMap<>(HOUSE.cables());
        cables.put(CABLE.name(), CABLE.withAbout(CABLE.about().withPhotos(ofCable)));
        return HOUSE.withParts(panels, cables, boxes);
    }

    private PDDocument sheet(House house, String kind, String of, String paper) throws IOException {
        HouseStore store = new AnsweringStore(new MemoryStore(), Derivation::derive);
        store.put(house, 0, "Rowan", "new").get();
        byte[] pdf = HouseSheets.pdf(store, files, store.findHouse(house.id()).orElseThrow(), kind, of, paper);
        java.nio.file.Files.createDirectories(Path.of("target/sheets"));
        java.nio.file.Files.write(Path.of("target/sheets", kind + "-photographs-" + paper + ".pdf"), pdf);
        return Loader.loadPDF(pdf);
    }

    /** Where on a page, in points from its lower left, a picture stands. */
    private record Placed(int page, PDImageXObject image, float x, float y, float width, float height) {}

    private static List<Placed> placed(PDDocument d) throws IOException {
        List<Placed> all = new ArrayList<>();
        for (int n = 0; n < d.getNumberOfPages(); n++) {
            int page = n + 1;
            PDFStreamEngine engine = new PDFStreamEngine() {
                @Override
                protected void processOperator(Operator operator, List<COSBase> operands) throws IOException {
                    if (operator.getName().equals(OperatorName.DRAW_OBJECT)
                            && getResources().getXObject((COSName) operands.get(0)) instanceof PDImageXObject image) {
                        Matrix m = getGraphicsState().getCurrentTransformationMatrix();
                        all.add(new Placed(
                                page,
                                image,
                                m.getTranslateX(),
                                m.getTranslateY(),
                                m.getScalingFactorX(),
                                m.getScalingFactorY()));
                    } else {
                        super.processOperator(operator, operands);
                    }
                }
            };
            engine.addOperator(new Concatenate(engine));
            engine.addOperator(new DrawObject(engine));
            engine.addOperator(new Save(engine));
            engine.addOperator(new Restore(engine));
            engine.addOperator(new SetMatrix(engine));
            engine.processPage(d.getPage(n));
        }
        return all;
    }

    private static String text(PDDocument d, int from, int to) throws IOException {
        PDFTextStripper s = new PDFTextStripper();
        s.setStartPage(from);
        s.setEndPage(to);
        return s.getText(d).replaceAll("\\s+", " ");
    }

    private static String text(PDDocument d) throws IOException {
        return text(d, 1, d.getNumberOfPages());
    }

    @ParameterizedTest
    @CsvSource({"card, a4", "card, letter", "record, a4", "record, letter"})
    void photographsOfABoxStandWholeOnTheSheetWithWhatTheyShow(String kind, String paper) throws IOException {
        House house = with(
                List.of(photo("2026-03-01", "as found", 2400, 1800), photo(null, null, 600, 800)),
                List.of(photo("2026-03-02", "its back", 1000, 1000)),
                List.of(),
                List.of());
        try (PDDocument d = sheet(house, kind, kind.equals("card") ? BOX.name() : "Rowan", paper)) {
            List<Placed> placed = placed(d);
            assertThat(placed).hasSize(3);
            for (Placed p : placed) {
                assertThat(p.x()).isGreaterThan(MARGIN);
                assertThat(p.y()).as("above the foot").isGreaterThan(50);
                assertThat(p.x() + p.width())
                        .isLessThan(d.getPage(p.page() - 1).getMediaBox().getWidth() - MARGIN);
                assertThat(p.y() + p.height())
                        .isLessThan(d.getPage(p.page() - 1).getMediaBox().getHeight() - MARGIN);
                assertThat(p.width()).isBetween(30 * MILLIMETRE, 85 * MILLIMETRE);
                assertThat(p.height()).isBetween(30 * MILLIMETRE, 67 * MILLIMETRE);
                assertThat(p.width() / p.height())
                        .as("not drawn out")
                        .isCloseTo(
                                (float) p.image().getWidth() / p.image().getHeight(),
                                org.assertj.core.data.Offset.offset(0.02f));
                assertThat(Math.max(p.image().getWidth(), p.image().getHeight()))
                        .as("small enough to be carried")
                        .isLessThanOrEqualTo(660);
                BufferedImage seen = p.image().getImage();
                assertThat(seen.getRGB(2, 2) & 0xFF).isLessThan(40);
                assertThat(seen.getRGB(seen.getWidth() - 3, 2) & 0xFF).isGreaterThan(150);
            }
            assertThat(text(d, placed.get(0).page(), placed.get(0).page()))
                    .contains(
                            "Photographs of box " + BOX.name(),
                            "What is live now they do not show.",
                            "box " + BOX.name() + ", 2026-03-01: as found");
            assertThat(text(d, placed.get(2).page(), placed.get(2).page()))
                    .contains(DEVICE.name() + ", 2026-03-02: its back");
        }
    }

    @Test
    void photographsOfAPanelGoWithItsDirectoryAndThoseOfACableWithTheRecord() throws IOException {
        House house = with(
                List.of(),
                List.of(),
                List.of(photo("2026-03-03", "cover off", 800, 600)),
                List.of(photo("2026-03-04", "where it was cut", 900, 600)));
        try (PDDocument d = sheet(house, "directory", PANEL.name(), "letter")) {
            assertThat(placed(d)).hasSize(1);
            assertThat(text(d)).contains("panel " + PANEL.name() + ", 2026-03-03: cover off");
        }
        try (PDDocument d = sheet(house, "record", "", "a4")) {
            assertThat(placed(d)).hasSize(2);
            assertThat(text(d)).contains("cover off", "cable " + CABLE.name() + ", 2026-03-04: where it was cut");
        }
        try (PDDocument d = sheet(HOUSE, "record", "", "a4")) {
            assertThat(text(d)).as("nothing is said where there are none").doesNotContain("hotograph");
        }
    }

    @Test
    void photographWhoseFileIsNotHereIsSaidSo() throws IOException {
        House house = with(
                List.of(new Photo("0".repeat(64), "2026-03-01", "as found"), photo("2026-03-02", "now", 40, 30)),
                List.of(),
                List.of(),
                List.of());
        try (PDDocument d = sheet(house, "card", BOX.name(), "a4")) {
            assertThat(placed(d)).hasSize(1);
            assertThat(text(d))
                    .contains(
                            "On record, but its file is not on the machine that printed this.", "2026-03-01: as found");
        }
    }

    @Test
    void ofManyTheNewestArePrintedAndTheOthersTold() throws IOException {
        List<Photo> many = IntStream.rangeClosed(1, 9)
                .mapToObj(n -> photo(null, "number " + n + " of them", 300 + n, 200))
                .toList();
        try (PDDocument d = sheet(with(many, List.of(), List.of(), List.of()), "card", BOX.name(), "letter")) {
            assertThat(placed(d)).hasSize(6);
            assertThat(text(d))
                    .contains("number 4 of", "number 9 of", "3 more are kept with the record")
                    .doesNotContain("number 3 of");
        }
    }
}
