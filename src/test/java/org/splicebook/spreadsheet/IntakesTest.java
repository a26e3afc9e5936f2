package org.splicebook.spreadsheet;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.function.UnaryOperator;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.apache.commons.compress.archivers.zip.ZipArchiveEntry;
import org.apache.commons.compress.archivers.zip.ZipFile;
import org.apache.commons.compress.utils.SeekableInMemoryByteChannel;
import org.dhatim.fastexcel.Workbook;
import org.dhatim.fastexcel.Worksheet;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.record.Basis;
import org.splicebook.record.House;

class IntakesTest {
    private static final House HOUSE = HouseFiles.parse("bare", """
            splicebook: 1
            house: mill-lane-3
            basis: seen
            sources: {service: {system: split-phase 120/240, rating: 100 A, bond: main}}
            places: {kitchen: {name: Kitchen, kind: kitchen}}
            panels:
              main: {supply: service, spaces: 24, breakers: {9: {rating: 20 A, label: Freezer}}}
            """).get();

    private static Intake schedule(String csv) {
        return of(csv, ListKind.PANEL_SCHEDULE, Map.of());
    }

    private static Intake of(String csv, ListKind kind, Map<String, String> named) {
        return Intakes.of(HOUSE, Cells.read(csv.getBytes(StandardCharsets.UTF_8)), kind, "main", named);
    }

    private static List<String> said(Intake i) {
        return i.problems().stream().map(Problem::said).toList();
    }

    @Test
    void aScheduleAddsItsBreakersAsAssumed() {
        Intake i = schedule("Mill Lane 3,,\nCkt,Description,Amps\n1,Range,40/2\n3,-,\n5,Hall lights,15 A\n7,,\n");
        assertThat(said(i)).isEmpty();
        var breakers = i.house().panels().get("main").breakers();
        assertThat(breakers.keySet()).contains("1+3", "5", "9").doesNotContain("3", "7");
        assertThat(breakers.get("1+3").label()).isEqualTo("Range");
        assertThat(breakers.get("5").about().basis()).isEqualTo(Basis.ASSUMED);
        assertThat(breakers.get("9").label()).isEqualTo("Freezer");
        assertThat(i.lines()).anyMatch(l -> l.contains("Row 4: the other pole of main.1+3"));
    }

    @Test
    void twoHalvesSideBySideAreBothRead() {
        Intake i = schedule("Description,Amps,Ckt,Ckt,Amps,Description\nRange,40,1,2,15,Hall\nBath,20,5,4,20,Porch\n");
        assertThat(said(i)).isEmpty();
        var breakers = i.house().panels().get("main").breakers();
        assertThat(breakers.get("1").label()).isEqualTo("Range");
        assertThat(breakers.get("2").label()).isEqualTo("Hall");
        assertThat(breakers.get("4").label()).isEqualTo("Porch");
    }

    @Test
    void whatIsWrongIsToldByItsCellAndNothingIsAdded() {
        Intake i = schedule("space,rating,label\nfive,20,Hall\n6,lots,Bath\n9+11,20,Other\n8,20/2,A\n10,20,B\n");
        assertThat(i.house()).isNull();
        assertThat(said(i))
                .hasSize(4)
                .anyMatch(s -> s.startsWith("A2:") && s.contains("\"five\" is no space"))
                .anyMatch(s -> s.startsWith("B3:") && s.contains("\"lots\" is no rating"))
                .anyMatch(s -> s.startsWith("A4:") && s.contains("taken by 9"))
                .anyMatch(s -> s.startsWith("A6:") && s.contains("taken by 8+10"));
    }

    @Test
    void whatTheRecordHasStaysAndTheDifferenceIsTold() {
        Intake i = schedule("space,rating,label\n9,30,Washer\n");
        assertThat(i.house()).isEqualTo(HOUSE);
        assertThat(i.lines()).anyMatch(l -> l.contains("it says \"Freezer\", the list \"Washer\""));
    }

    @Test
    void columnsAreNamedByHandWhereTheyAreNotFound() {
        String csv = "slot,Wohin,A\n5,Hall,15\n";
        assertThat(schedule(csv).unused()).containsExactly("Wohin", "A");
        Intake i = of(csv, ListKind.PANEL_SCHEDULE, Map.of("label", "Wohin", "rating", "A"));
        assertThat(said(i)).isEmpty();
        assertThat(i.house().panels().get("main").breakers().get("5").label()).isEqualTo("Hall");
        assertThat(said(of(csv, ListKind.PANEL_SCHEDULE, Map.of("label", "Nowhere")))
                        .get(0))
                .contains("No column is headed \"Nowhere\"");
        assertThat(said(of("x,y\n1,2\n", ListKind.PANEL_SCHEDULE, Map.of())).get(0))
                .contains("No row of headings");
        assertThat(of(csv, ListKind.PANEL_SCHEDULE, Map.of("label", "Wohin", "rating", Intakes.NONE))
                        .columns())
                .doesNotContainKey("rating");
    }

    @Test
    void outletsComeByRoomInBoxesOfTheirOwn() {
        Intake i = of(
                "Outlet,Room,Type,Circuit\nCounter 1,Kitchen,ground-fault-receptacle,7\nPorch light,Back porch,luminaire,\n",
                ListKind.OUTLETS,
                Map.of());
        assertThat(said(i)).isEmpty();
        var box = i.house().boxes().get("counter-1-box");
        assertThat(box.place()).isEqualTo("kitchen");
        assertThat(box.devices().get("counter-1").kind().name()).isEqualTo("ground-fault-receptacle");
        assertThat(box.devices().get("counter-1").about().note()).contains("breaker 7");
        assertThat(i.house().places()).containsKey("back-porch");
        Intake bad = of("Outlet,Type\nCounter,toaster\nCounter,luminaire\n", ListKind.OUTLETS, Map.of());
        assertThat(said(bad)).anyMatch(s -> s.startsWith("B2:")).anyMatch(s -> s.startsWith("A3:"));
    }

    private static byte[] book(String... cells) {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        try (Workbook book = new Workbook(out, "Test", "1.0")) {
            Worksheet sheet = book.newWorksheet("List");
            for (int c = 0; c < cells.length; c++) {
                if (cells[c].startsWith("=")) {
                    sheet.formula(c / 3, c % 3, cells[c].substring(1));
                } else {
                    sheet.value(c / 3, c % 3, cells[c]);
                }
            }
        } catch (IOException e) {
            throw new IllegalStateException(e);
        }
        return out.toByteArray();
    }

    private static byte[] changed(byte[] book, UnaryOperator<String> sheet) {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        try (ZipFile in = ZipFile.builder()
                        .setSeekableByteChannel(new SeekableInMemoryByteChannel(book))
                        .get();
                ZipOutputStream zip = new ZipOutputStream(out)) {
            for (ZipArchiveEntry e : Collections.list(in.getEntries())) {
                zip.putNextEntry(new ZipEntry(e.getName()));
                byte[] bytes = in.getInputStream(e).readAllBytes();
                zip.write(
                        e.getName().contains("sheet1")
                                ? sheet.apply(new String(bytes, StandardCharsets.UTF_8))
                                        .getBytes(StandardCharsets.UTF_8)
                                : bytes);
            }
        } catch (IOException e) {
            throw new IllegalStateException(e);
        }
        return out.toByteArray();
    }

    @Test
    void aWorkbookIsReadAndItsFormulasAreNotComputed() {
        Cells cells = Cells.read(book("space", "rating", "label", "5", "15", "Hall", "6", "=10+10", "=1+1"));
        assertThat(cells.rows().get(1)).containsExactly("5", "15", "Hall");
        assertThat(cells.formulas()).containsExactly("B3: =10+10", "C3: =1+1");
        Intake i = Intakes.of(HOUSE, cells, ListKind.PANEL_SCHEDULE, "main", Map.of());
        assertThat(said(i)).isEmpty();
        assertThat(i.house().panels().get("main").breakers()).containsKey("5").doesNotContainKey("6");
    }

    @Test
    void textThatLooksLikeAFormulaStaysText() {
        Intake i = schedule("space,label\n5,\"=HYPERLINK(\"\"x\"\")\"\n");
        assertThat(said(i)).isEmpty();
        assertThat(i.house().panels().get("main").breakers().get("5").label()).isEqualTo("=HYPERLINK(\"x\")");
    }

    @Test
    void whatWasReadIsTheSameOnceWrittenAsCsv() {
        Random random = new Random(7);
        String letters = "ab,;\"'=\t ä\n1";
        for (int n = 0; n < 300; n++) {
            StringBuilder csv = new StringBuilder();
            for (int k = 0; k < 30; k++) {
                csv.append(letters.charAt(random.nextInt(letters.length())));
            }
            try {
                Cells once = Cells.read(("x,y,z\n" + csv).getBytes(StandardCharsets.UTF_8));
                assertThat(Cells.read(once.csv().getBytes(StandardCharsets.UTF_8))
                                .rows())
                        .as("seed 7, number " + n + ": " + csv)
                        .isEqualTo(once.rows());
            } catch (ProblemException e) {
                assertThat(e.problems().get(0).said()).contains("no CSV");
            }
        }
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "<!DOCTYPE x [<!ENTITY a SYSTEM \"file:///etc/hostname\">]>",
                "<!DOCTYPE x [<!ENTITY a \"ha\"><!ENTITY b \"&a;&a;&a;\">]>"
            })
    void typeDeclarationsAreRefused(String declaration) {
        byte[] book = changed(book("space", "rating", "label"), s -> s.replace("?>", "?>" + declaration));
        assertThatThrownBy(() -> Cells.read(book)).hasMessageContaining("type declaration");
    }

    @Test
    void cellsFarOutAreRefusedBeforeRoomIsMadeForThem() {
        for (String at : List.of("ZZZZZZ1", "&#65;1", "A99999999999")) {
            byte[] book = changed(book("space", "rating", "label"), s -> s.replace("r=\"A1\"", "r='" + at + "'"));
            assertThatThrownBy(() -> Cells.read(book)).as(at).isInstanceOf(ProblemException.class);
        }
        byte[] wide = changed(book("space", "rating", "label"), s -> s.replace("r=\"C1\"", "r=\"XFD1\""));
        assertThatThrownBy(() -> Cells.read(wide)).hasMessageContaining("columns");
        byte[] deep = changed(
                book("space", "rating", "label"),
                s -> s.replace("r=\"A1\"", "r=\"A1048576\"").replace("r=\"1\"", "r=\"1048576\""));
        assertThatThrownBy(() -> Cells.read(deep)).isInstanceOf(ProblemException.class);
    }

    @Test
    void aNumberOfMoreDigitsThanThereIsMemoryIsNotWrittenOut() {
        for (String number : List.of("1e999999999", "1E-999999999")) {
            byte[] book = changed(
                    book("space", "rating", "label", "5", "15", "Hall"),
                    s -> s.replaceFirst("(?s)<c r=\"A2\".*?</c>", "<c r=\"A2\"><v>" + number + "</v></c>"));
            assertThat(Cells.read(book).rows().get(1).get(0)).hasSizeLessThan(20);
        }
    }

    @Test
    void aBombOfBombsOrOfManyEntriesIsRefused() throws IOException {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        try (ZipOutputStream zip = new ZipOutputStream(out)) {
            for (int i = 0; i < 1_100; i++) {
                zip.putNextEntry(new ZipEntry("xl/" + i));
            }
        }
        assertThatThrownBy(() -> Cells.read(out.toByteArray())).isInstanceOf(ProblemException.class);
        ByteArrayOutputStream inner = new ByteArrayOutputStream();
        try (ZipOutputStream zip = new ZipOutputStream(inner)) {
            zip.putNextEntry(new ZipEntry("deeper.xlsx"));
            zip.write(out.toByteArray());
        }
        assertThatThrownBy(() -> Cells.read(inner.toByteArray())).isInstanceOf(ProblemException.class);
    }

    @Test
    void aBombIsRefusedWhileItIsUnpacked() throws IOException {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        try (ZipOutputStream zip = new ZipOutputStream(out)) {
            zip.putNextEntry(new ZipEntry("xl/worksheets/sheet1.xml"));
            byte[] zeros = new byte[1_000_000];
            for (int i = 0; i < 60; i++) {
                zip.write(zeros);
            }
        }
        assertThat(out.size()).isLessThan(200_000);
        assertThatThrownBy(() -> Cells.read(out.toByteArray())).hasMessageContaining("unpacks to more");
    }

    @Test
    void brokenFilesAreToldAndNeverThrownAtThePerson() {
        byte[] book = book("space", "rating", "label", "5", "15", "Hall");
        Random random = new Random(11);
        List<String> odd = new ArrayList<>();
        for (int n = 0; n < 300; n++) {
            byte[] broken = book.clone();
            for (int k = 0; k <= random.nextInt(6); k++) {
                broken[2 + random.nextInt(broken.length - 2)] = (byte) random.nextInt(256);
            }
            try {
                Intake unused = Intakes.of(HOUSE, Cells.read(broken), ListKind.PANEL_SCHEDULE, "main", Map.of());
            } catch (ProblemException e) {
                continue;
            } catch (RuntimeException e) {
                odd.add("seed 11, number " + n + ": " + e);
            }
        }
        assertThat(odd).isEmpty();
    }
}
