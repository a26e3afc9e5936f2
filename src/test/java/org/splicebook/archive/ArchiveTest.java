package org.splicebook.archive;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.zip.ZipEntry;
import java.util.zip.ZipInputStream;
import java.util.zip.ZipOutputStream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.splicebook.housefile.DraftFiles;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.housefile.HouseWriter;
import org.splicebook.housefile.PropertyFiles;
import org.splicebook.housefile.SightingLine;
import org.splicebook.problem.ProblemException;
import org.splicebook.property.Properties;
import org.splicebook.record.Draft;
import org.splicebook.record.House;
import org.splicebook.record.Photo;
import org.splicebook.store.DraftState;
import org.splicebook.store.HouseStore;
import org.splicebook.store.MemoryFiles;
import org.splicebook.store.MemoryStore;
import org.splicebook.store.Papers;
import org.splicebook.store.Progress;
import org.splicebook.visits.Residents;
import org.splicebook.visits.VisitDesk;

class ArchiveTest {
    @TempDir
    Path folder;

    private final MemoryStore store = new MemoryStore();
    private Path file;

    @BeforeEach
    void write() throws IOException {
        file = folder.resolve("row.zip");
        put(Properties.text("common.yaml"), 0);
        put(Properties.text("unit-14a.yaml"), 0);
        put(Properties.text("unit-14a.yaml").replace("14A, ground floor", "14A, the ground floor"), 1);
        House unit = store.findHouse("alder-row-14a").orElseThrow().house();
        store.appendSightings(
                        "alder-row-14a",
                        List.of(SightingLine.parse(
                                        unit,
                                        Map.of(
                                                "id",
                                                "s1",
                                                "date",
                                                "2026-03-14",
                                                "with-off",
                                                "main.1",
                                                "at",
                                                "counter-gf",
                                                "before",
                                                "lit",
                                                "read",
                                                "not lit",
                                                "after",
                                                "lit",
                                                "instrument",
                                                "lamp"))
                                .get()))
                .get();
        put(Properties.text("unit-14b.yaml"), 0);
        store.delete("alder-row-14b", 1, "Rowan", "sold").get();
        store.properties()
                .put(
                        PropertyFiles.parse("row", Properties.text("alder-row.yaml"))
                                .get()
                                .property(),
                        0,
                        "Rowan",
                        "")
                .get();
        Files.write(file, bytes(store));
    }

    private void put(String text, long expected) {
        store.put(HouseFiles.parse("house", text).get(), expected, "Rowan", "walk " + expected)
                .get();
    }

    private static byte[] bytes(HouseStore from) throws IOException {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        ArchiveWriter.write(
                out,
                from,
                List.of("alder-row-common", "alder-row-14a", "alder-row-14b"),
                List.of("alder-row"),
                Map.of("record.pdf", new byte[] {37, 80, 68, 70}),
                Instant.EPOCH,
                Progress.NONE);
        return out.toByteArray();
    }

    @Test
    void whatIsRestoredIsWhatWasArchivedToTheLastByte() throws IOException {
        MemoryStore other = new MemoryStore();
        try (Archive archive = Archive.open(file)) {
            assertThat(Restore.all(archive, other, Progress.NONE)).hasSize(4);
        }
        assertThat(other.findHouse("alder-row-14a").orElseThrow().house())
                .isEqualTo(store.findHouse("alder-row-14a").orElseThrow().house());
        assertThat(other.revisions("alder-row-14a"))
                .extracting(r -> r.number() + r.who() + r.why() + r.stored())
                .containsExactlyElementsOf(store.revisions("alder-row-14a").stream()
                        .map(r -> r.number() + r.who() + r.why() + r.stored())
                        .toList());
        assertThat(other.sightings("alder-row-14a"))
                .isEqualTo(store.sightings("alder-row-14a"))
                .hasSize(1);
        assertThat(other.findHouse("alder-row-14b")).isEmpty();
        assertThat(other.findRevision("alder-row-14b", 1)).isPresent();
        assertThat(other.properties().find("alder-row").orElseThrow().property())
                .isEqualTo(store.properties().find("alder-row").orElseThrow().property());
        assertThat(bytes(other)).isEqualTo(Files.readAllBytes(file));
    }

    @Test
    void visitsAndFilesGoAlongAndResidentsOnlyWhenAsked() throws IOException {
        byte[] picture = {(byte) 0xFF, (byte) 0xD8, 1, 2, 3};
        MemoryFiles files = new MemoryFiles();
        String name = files.keep(picture);
        House unit = store.findHouse("alder-row-14a").orElseThrow().house();
        String yaml = HouseWriter.write(unit);
        String box = unit.boxes().keySet().iterator().next();
        var b = unit.boxes().get(box);
        var boxes = new LinkedHashMap<>(unit.boxes());
        boxes.put(box, b.withAbout(b.about().withDocuments(List.of(new Photo(name, "2026-05-01", "Permit")))));
        store.put(unit.withParts(unit.panels(), unit.cables(), boxes), 2, "Rowan", "a document")
                .get();
        assertThat(yaml).doesNotContain(name);
        new VisitDesk(store).take("alder-row-14a", "visit-1", "report", Map.of("said", "half is out"), 0, "Rowan");
        new Residents(store)
                .keep("alder-row-14a", "one", Map.of("name", "Robin", "depends", "a pump"), Instant.EPOCH, "Rowan");
        Draft draft = DraftFiles.parseKept(
                        "draft: tie\nhouse: alder-row-14a\nrevision: 3\nreason: One handle.\nmoves:\n  - {untie: [1, 3], panel: main}\n")
                .get();
        store.putDraft(DraftState.open(draft), 0, "Hazel").get();
        for (boolean asked : new boolean[] {false, true}) {
            ByteArrayOutputStream out = new ByteArrayOutputStream();
            ArchiveWriter.write(
                    out,
                    store,
                    List.of("alder-row-14a"),
                    List.of(),
                    new ArchiveWriter.With(Map.of(), files, asked),
                    Instant.EPOCH,
                    Progress.NONE);
            Path zip = folder.resolve(asked + ".zip");
            Files.write(zip, out.toByteArray());
            MemoryStore other = new MemoryStore();
            MemoryFiles otherFiles = new MemoryFiles();
            try (Archive archive = Archive.open(zip)) {
                assertThat(Restore.all(archive, other, otherFiles, Progress.NONE))
                        .hasSize(1);
            }
            assertThat(other.findDraft("alder-row-14a", "tie").orElseThrow().state())
                    .isEqualTo(DraftState.open(draft));
            assertThat(otherFiles.find(name)).contains(picture);
            assertThat(new VisitDesk(other).list("alder-row-14a"))
                    .isEqualTo(new VisitDesk(store).list("alder-row-14a"))
                    .hasSize(1);
            assertThat(new Residents(other).list("alder-row-14a")).hasSize(asked ? 1 : 0);
            assertThat(other.papers().isMarked(Papers.RESIDENT, "alder-row-14a"))
                    .isEqualTo(asked);
        }
    }

    @Test
    void aFileThatIsNeitherPictureNorPdfIsRefused() throws IOException {
        MemoryFiles files = new MemoryFiles();
        String name = files.keep("<script>".getBytes(StandardCharsets.UTF_8));
        House unit = store.findHouse("alder-row-14a").orElseThrow().house();
        var boxes = new LinkedHashMap<>(unit.boxes());
        var b = boxes.values().iterator().next();
        boxes.put(b.name(), b.withAbout(b.about().withPhotos(List.of(new Photo(name, null, null)))));
        store.put(unit.withParts(unit.panels(), unit.cables(), boxes), 2, "Rowan", "x")
                .get();
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        ArchiveWriter.write(
                out,
                store,
                List.of("alder-row-14a"),
                List.of(),
                new ArchiveWriter.With(Map.of(), files, false),
                Instant.EPOCH,
                Progress.NONE);
        Path zip = folder.resolve("odd.zip");
        Files.write(zip, out.toByteArray());
        MemoryStore other = new MemoryStore();
        try (Archive archive = Archive.open(zip)) {
            assertThatThrownBy(() -> Restore.all(archive, other, new MemoryFiles(), Progress.NONE))
                    .hasMessageContaining("neither a picture nor a PDF");
        }
        assertThat(other.listHouses()).isEmpty();
    }

    @Test
    void whatIsThereAlreadyStopsItBeforeAnythingIsStored() {
        MemoryStore other = new MemoryStore();
        other.put(HouseFiles.parse("house", Properties.text("unit-14b.yaml")).get(), 0, "Wren", "")
                .get();
        try (Archive archive = Archive.open(file)) {
            assertThatThrownBy(() -> Restore.all(archive, other, Progress.NONE)).hasMessageContaining("alder-row-14b");
        }
        assertThat(other.listHouses()).hasSize(1);
    }

    /** Whatever byte is changed or cut, nothing is stored, or what is stored is what was archived. */
    @ParameterizedTest
    @ValueSource(longs = {11, 12, 13})
    void aDamagedArchiveIsRefusedOrWhole(long seed) throws IOException {
        byte[] whole = Files.readAllBytes(file);
        Random random = new Random(seed);
        Path damaged = folder.resolve("damaged.zip");
        for (int i = 0; i < 60; i++) {
            byte[] bytes = whole.clone();
            int at = random.nextInt(bytes.length);
            bytes[at] ^= (byte) (1 + random.nextInt(255));
            Files.write(damaged, random.nextInt(4) == 0 ? java.util.Arrays.copyOf(whole, at) : bytes);
            MemoryStore other = new MemoryStore();
            try (Archive archive = Archive.open(damaged)) {
                var unused = Restore.all(archive, other, Progress.NONE);
                assertThat(other.findHouse("alder-row-14a").orElseThrow().house())
                        .as("seed %d, byte %d", seed, at)
                        .isEqualTo(
                                store.findHouse("alder-row-14a").orElseThrow().house());
            } catch (ProblemException e) {
                assertThat(other.listHouses()).as("seed %d, byte %d", seed, at).isEmpty();
            }
        }
    }

    private Map<String, byte[]> entries() throws IOException {
        Map<String, byte[]> entries = new LinkedHashMap<>();
        try (ZipInputStream in = new ZipInputStream(new ByteArrayInputStream(Files.readAllBytes(file)))) {
            for (ZipEntry e = in.getNextEntry(); e != null; e = in.getNextEntry()) {
                entries.put(e.getName(), in.readAllBytes());
            }
        }
        return entries;
    }

    private void refused(Map<String, byte[]> entries, String said) throws IOException {
        Path hostile = folder.resolve("hostile.zip");
        try (ZipOutputStream out = new ZipOutputStream(Files.newOutputStream(hostile))) {
            for (Map.Entry<String, byte[]> e : entries.entrySet()) {
                out.putNextEntry(new ZipEntry(e.getKey()));
                out.write(e.getValue());
                out.closeEntry();
            }
        }
        MemoryStore other = new MemoryStore();
        assertThatThrownBy(() -> {
                    try (Archive archive = Archive.open(hostile)) {
                        var unused = Restore.all(archive, other, Progress.NONE);
                    }
                })
                .isInstanceOf(ProblemException.class)
                .hasMessageContaining(said);
        assertThat(other.listHouses()).isEmpty();
        assertThat(folder.getParent().resolve("evil.yaml")).doesNotExist();
    }

    @Test
    void hostileArchivesAreRefusedWithAReason() throws IOException {
        Map<String, byte[]> e = entries();
        e.put("../evil.yaml", new byte[] {1});
        refused(e, "none that the manifest names");

        for (String out : List.of(
                "/evil.yaml",
                "houses/../../evil.yaml",
                "..\\evil.yaml",
                "C:evil.yaml",
                "manifest.json/evil.yaml",
                "files/\u0000")) {
            e = entries();
            e.put(out, new byte[] {1});
            refused(e, "none that the manifest names");
        }

        // One in another, and one that names itself.
        e = entries();
        e.put("inner.zip", Files.readAllBytes(file));
        refused(e, "none that the manifest names");
        e = entries();
        e.put(
                "manifest.json",
                new String(e.get("manifest.json"), StandardCharsets.UTF_8)
                        .replaceFirst("\"entries\" : \\{", "\"entries\" : {\"../evil.yaml\": \"00\",")
                        .getBytes(StandardCharsets.UTF_8));
        e.put("../evil.yaml", new byte[] {1});
        refused(e, "none that the manifest names");

        e = entries();
        String name = "houses/alder-row-14a/000001.yaml";
        e.put(name, "splicebook: 1".getBytes(StandardCharsets.UTF_8));
        refused(e, "its digest differs");

        e = entries();
        byte[] bomb = new byte[7_000_000];
        e.put(name, bomb);
        e.put(
                "manifest.json",
                new String(e.get("manifest.json"), StandardCharsets.UTF_8)
                        .replaceAll("(\"" + name + "\" : \")[0-9a-f]+", "$1" + Digests.of(bomb))
                        .getBytes(StandardCharsets.UTF_8));
        refused(e, "This entry is too large");

        e = entries();
        byte[] other = "splicebook: 1\nhouse: other\n".getBytes(StandardCharsets.UTF_8);
        e.put(name, other);
        e.put(
                "manifest.json",
                new String(e.get("manifest.json"), StandardCharsets.UTF_8)
                        .replaceAll("(\"" + name + "\" : \")[0-9a-f]+", "$1" + Digests.of(other))
                        .getBytes(StandardCharsets.UTF_8));
        refused(e, "is of other");

        e = entries();
        e.remove("manifest.json");
        refused(e, "no manifest");

        e = entries();
        e.put("manifest.json", "{\"format\": \"splicebook-archive\"}".getBytes(StandardCharsets.UTF_8));
        refused(e, "");
    }
}
