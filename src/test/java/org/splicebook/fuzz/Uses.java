package org.splicebook.fuzz;

import static org.assertj.core.api.Assertions.assertThat;

import biweekly.Biweekly;
import java.io.StringReader;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.regex.Matcher;
import javax.xml.XMLConstants;
import javax.xml.parsers.DocumentBuilderFactory;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.housefile.HouseWriter;
import org.splicebook.loadflow.LoadCase;
import org.splicebook.loadflow.LoadFlow;
import org.splicebook.record.House;
import org.splicebook.render.GraphMl;
import org.splicebook.render.Json;
import org.splicebook.render.PanelDirectory;
import org.splicebook.render.drawing.DrawingKind;
import org.splicebook.render.drawing.Drawings;
import org.splicebook.rules.Checks;
import org.splicebook.rules.Packs;
import org.splicebook.upkeep.Due;
import org.splicebook.upkeep.DueCalendar;
import org.splicebook.upkeep.DueTests;
import org.splicebook.wiring.Derivation;
import org.splicebook.wiring.Wiring;
import org.xml.sax.InputSource;

/** What is made of a house that was taken: none of it may fall over, whatever the house says. */
final class Uses {
    private static final LocalDate TODAY = LocalDate.of(2026, 5, 1);
    private static final String EVERYTHING =
            Seeds.string(Path.of("src/test/resources/org/splicebook/housefile/everything.yaml"));

    private Uses() {}

    /** Reads a house; one that is taken is written and read again. */
    static Optional<House> read(String text) {
        var read = HouseFiles.parse("fuzz", text);
        if (!read.isOk()) {
            assertThat(read.problems()).isNotEmpty();
            return Optional.empty();
        }
        House house = read.get();
        assertThat(HouseFiles.parse("again", HouseWriter.write(house)).get()).isEqualTo(house);
        return Optional.of(house);
    }

    /** Reads a house and, where it is one, makes all of it. */
    static void of(String text) {
        House house = read(text).orElse(null);
        if (house == null) {
            return;
        }
        Wiring wiring = Derivation.derive(house);
        var findings = Checks.of(wiring, Packs.of(house));
        var solved = LoadFlow.of(house).solve(LoadCase.typical());
        made(wiring);
    }

    /** Puts a text wherever a record takes one, and makes all of it. */
    static void written(String text) {
        String said = Matcher.quoteReplacement(Json.text(Json.tree(text)));
        // What JSON quotes, YAML reads as the same.
        String all = EVERYTHING
                .replaceAll("note: [^,}\\]\n\"]+", "note: " + said)
                .replaceAll("label: [^,}\\]\n\"]+", "label: " + said)
                .replaceAll("name: (?:Every|Front)[^,}\n]+", "name: " + said);
        of(all.replaceFirst("name: .*", "name: " + said));
    }

    private static void made(Wiring wiring) {
        House house = wiring.house();
        wellFormed(GraphMl.of(wiring, 1));
        wellFormed(Drawings.of(DrawingKind.HOUSE, wiring, "").svg());
        for (String panel : house.panels().keySet()) {
            var directory = PanelDirectory.of(wiring, panel);
            wellFormed(Drawings.of(DrawingKind.PANEL, wiring, panel).svg());
        }
        house.boxes().keySet().stream()
                .limit(2)
                .forEach(b -> wellFormed(Drawings.of(DrawingKind.BOX, wiring, b).svg()));
        List<Due> due = DueTests.of(house, TODAY, 3650, true);
        Map<House, List<Due>> one = Map.of(house, due);
        String calendar = DueCalendar.of(one, TODAY);
        assertThat(calendar.lines()).allMatch(l -> l.matches("[ \t].*|[A-Z-]+[:;].*"));
        Map<String, Integer> kinds = new TreeMap<>();
        calendar.lines().filter(l -> l.startsWith("BEGIN:")).forEach(l -> kinds.merge(l, 1, Integer::sum));
        assertThat(kinds.keySet()).isSubsetOf("BEGIN:VCALENDAR", "BEGIN:VEVENT");
        assertThat(Biweekly.parse(calendar).first().getEvents()).hasSize(kinds.getOrDefault("BEGIN:VEVENT", 0));
    }

    private static void wellFormed(String xml) {
        try {
            DocumentBuilderFactory factory = DocumentBuilderFactory.newInstance();
            factory.setFeature(XMLConstants.FEATURE_SECURE_PROCESSING, true);
            factory.setFeature("http://apache.org/xml/features/disallow-doctype-decl", true);
            var builder = factory.newDocumentBuilder();
            builder.setErrorHandler(null);
            assertThat(builder.parse(new InputSource(new StringReader(xml)))).isNotNull();
        } catch (java.io.IOException | javax.xml.parsers.ParserConfigurationException | org.xml.sax.SAXException e) {
            throw new AssertionError("not well-formed: " + e.getMessage(), e);
        }
    }
}
