package org.splicebook.render.drawing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.awt.geom.Rectangle2D;
import java.io.IOException;
import java.io.InputStream;
import java.io.StringReader;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Stream;
import javax.xml.parsers.DocumentBuilderFactory;
import org.apache.fontbox.ttf.TTFParser;
import org.apache.fontbox.ttf.TrueTypeFont;
import org.apache.pdfbox.io.RandomAccessReadBuffer;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.problem.ProblemException;
import org.splicebook.record.Box;
import org.splicebook.record.House;
import org.splicebook.wiring.Derivation;
import org.splicebook.wiring.LoadPointWiring;
import org.splicebook.wiring.Wiring;
import org.xml.sax.InputSource;

/** Every drawing of the sample house is legible, is whole XML and says in words what it shows. */
class DrawingsTest {
    private static final Wiring SAMPLE =
            Derivation.derive(HouseFiles.read(Path.of("sample-house")).get());

    /** How much wider the broadest of the usual sans-serif faces is than the one measured by. */
    private static final double BROADEST = 1.16;

    /** A face as broad as those that most browsers take. */
    private static final TrueTypeFont FACE = face();

    record Wanted(DrawingKind kind, String subject) {}

    static Stream<Wanted> all() {
        List<Wanted> all = new ArrayList<>();
        House h = SAMPLE.house();
        h.panels().values().forEach(p -> {
            all.add(new Wanted(DrawingKind.PANEL, p.name()));
            p.breakers().values().forEach(b -> {
                for (DrawingKind k : List.of(DrawingKind.CIRCUIT, DrawingKind.HOUSE, DrawingKind.REACH)) {
                    all.add(new Wanted(k, p.name() + "." + b.key()));
                }
            });
        });
        for (Box b : h.boxes().values()) {
            all.add(new Wanted(DrawingKind.BOX, b.name()));
            b.devices().values().stream()
                    .filter(d -> d.kind().guard() != null)
                    .forEach(d -> all.add(new Wanted(DrawingKind.REACH, d.name())));
        }
        SAMPLE.loadPoints().forEach(l -> all.add(new Wanted(DrawingKind.WAY, l.id())));
        all.add(new Wanted(DrawingKind.HOUSE, ""));
        return all.stream();
    }

    @ParameterizedTest
    @MethodSource("all")
    void isLegible(Wanted w) throws Exception {
        Drawing d = Drawings.of(w.kind, SAMPLE, w.subject);
        isLegible(d);
        var document = DocumentBuilderFactory.newInstance()
                .newDocumentBuilder()
                .parse(new InputSource(new StringReader(d.svg())));
        assertThat(document.getElementsByTagName("title").item(0).getTextContent())
                .isEqualTo(d.title());
        assertThat(document.getElementsByTagName("desc").item(0).getTextContent())
                .isNotBlank();
        assertThat(d.svg()).doesNotContain("style=", "<style", "<script", "href");
        if (System.getProperty("splicebook.pictures") != null) {
            Path folder = Files.createDirectories(Path.of("target/drawings"));
            Files.writeString(
                    folder.resolve(w.kind.word() + "-" + w.subject.replaceAll("[^a-z0-9+.-]", "_") + ".svg"), d.svg());
        }
    }

    private static TrueTypeFont face() {
        try (InputStream in = Objects.requireNonNull(
                PDDocument.class.getResourceAsStream("/org/apache/pdfbox/resources/ttf/LiberationSans-Regular.ttf"))) {
            return new TTFParser(true).parse(new RandomAccessReadBuffer(in));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** In units of the letters' height. */
    private static double width(String text) throws IOException {
        double units = 0;
        for (int c : text.codePoints().toArray()) {
            units += FACE.getAdvanceWidth(FACE.getUnicodeCmapLookup().getGlyphId(c));
        }
        return units / FACE.getUnitsPerEm() * BROADEST;
    }

    /** No two lines of words touch. */
    static void isLegible(Drawing d) throws IOException {
        List<Rectangle2D> taken = new ArrayList<>();
        for (Drawing.Label l : d.labels()) {
            double width = width(l.text()) * l.size() * (l.bold() ? 1.08 : 1);
            Rectangle2D r = new Rectangle2D.Double(l.x(), l.baseline() - l.size() * 0.75, width, l.size() * 0.95);
            assertThat(r.getMaxX()).as(l.text()).isLessThanOrEqualTo(d.width());
            for (int i = 0; i < taken.size(); i++) {
                assertThat(taken.get(i).intersects(r))
                        .as(
                                "%s: '%s' over '%s'",
                                d.title(), l.text(), d.labels().get(i).text())
                        .isFalse();
            }
            taken.add(r);
        }
    }

    @Test
    void circuitOfManyBoxesIsLegible() throws IOException {
        StringBuilder cables = new StringBuilder("cables:\n");
        StringBuilder boxes = new StringBuilder("boxes:\n");
        for (int i = 1; i <= 150; i++) {
            String from = i == 1 ? "main" : "box-" + i / 2;
            cables.append("  K" + i + ": {kind: NM-B, wires: 12/2+ground, ends: [" + from + ", box-" + i + "]}\n");
            List<String> on = new ArrayList<>(List.of("K" + i));
            for (int k : List.of(2 * i, 2 * i + 1)) {
                if (k <= 150 && k > 1) {
                    on.add("K" + k);
                }
            }
            boxes.append("  box-" + i + ":\n    devices: {out-" + i + ": {kind: duplex-receptacle}}\n    joints:\n");
            for (String w : List.of("black", "white")) {
                boxes.append("      - {join: ["
                        + String.join(", ", on.stream().map(c -> c + "." + w).toList()) + "], tail: out-" + i
                        + (w.equals("black") ? ".hot" : ".neutral") + "}\n");
            }
        }
        String text =
                "splicebook: 1\nhouse: many\nsources: {service: {kind: service, system: split-phase 120/240, bond: main}}\n"
                        + "panels:\n  main:\n    supply: [service]\n    spaces: 2\n    breakers: {1: {rating: 20 A}}\n    joints:\n"
                        + "      - [K1.black, 1]\n      - [K1.white, n]\n" + cables + boxes;
        Wiring wiring = Derivation.derive(HouseFiles.parse("many.yaml", text).get());
        Drawing d = Drawings.of(DrawingKind.CIRCUIT, wiring, "main.1");
        for (int i = 1; i <= 150; i++) {
            String box = "box-" + i;
            assertThat(d.labels()).anyMatch(l -> l.text().equals(box));
        }
        isLegible(d);
    }

    @Test
    void houseMarksWhatABreakerTakesDownAndNothingElse() {
        Map<String, Boolean> fed = new LinkedHashMap<>();
        for (LoadPointWiring l : SAMPLE.loadPoints()) {
            fed.put(l.id(), l.feeds().stream().anyMatch(f -> f.breaker().equals("main.13")));
        }
        Drawing d = Drawings.of(DrawingKind.HOUSE, SAMPLE, "main.13");
        fed.forEach((id, is) -> {
            if (!is) {
                assertThat(d.said()).doesNotContain(id + " should lose power");
            }
        });
    }

    @Test
    void boxSaysEveryColourAndDrawsOnlyInsulationInColour() {
        Drawing d = Drawings.of(DrawingKind.BOX, SAMPLE, "bench-left");
        assertThat(d.labels().stream().map(Drawing.Label::text)).contains("black", "red", "white", "bare");
        assertThat(d.said()).contains("Joined: C13a.red, C13b.black");
        assertThat(Drawings.of(DrawingKind.PANEL, SAMPLE, "main").svg()).doesNotContainPattern("#[0-9a-f]{6}");
    }

    @Test
    void saysWhatWouldBeRightForASubjectThatIsNotThere() {
        assertThatThrownBy(() -> Drawings.of(DrawingKind.BOX, SAMPLE, "nowhere"))
                .isInstanceOf(ProblemException.class)
                .hasMessageContaining("nowhere");
    }
}
