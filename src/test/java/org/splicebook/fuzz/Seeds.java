package org.splicebook.fuzz;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.apache.commons.compress.archivers.zip.ZipArchiveEntry;
import org.apache.commons.compress.archivers.zip.ZipFile;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.dhatim.fastexcel.Workbook;
import org.splicebook.archive.Archive;
import org.splicebook.archive.ArchiveWriter;
import org.splicebook.archive.Restore;
import org.splicebook.ask.AnsweringStore;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.property.Properties;
import org.splicebook.record.House;
import org.splicebook.store.MemoryStore;
import org.splicebook.store.Pictures;
import org.splicebook.store.Progress;
import org.splicebook.store.SightingText;
import org.splicebook.wiring.Derivation;

/** What the fuzzer begins with, out of the files of the program and its tests. */
final class Seeds {
    private static final Path RESOURCES = Path.of("src/test/resources/org/splicebook");
    private static final String ENTRY = "==> ";
    private static final ObjectMapper JSON = new ObjectMapper();

    /** A small house, to ask of and to change. */
    static final House HOUSE = HouseFiles.parse("a", string(RESOURCES.resolve("housefile/alder-row.yaml")))
            .get();

    private static final AnsweringStore STORE = store();

    private Seeds() {}

    private static AnsweringStore store() {
        MemoryStore memory = new MemoryStore();
        memory.put(HOUSE, 0, "Rowan", "").get();
        return new AnsweringStore(memory, Derivation::derive);
    }

    /** Asks a question; the first line is its id, the others are parameters. */
    static void ask(String text) {
        String[] lines = text.split("\n");
        Map<String, String> said = new LinkedHashMap<>();
        for (int i = 1; i < lines.length; i++) {
            String[] pair = lines[i].split("=", 2);
            said.put(pair[0], pair.length == 2 ? pair[1] : "");
        }
        var unused = STORE.ask(lines.length == 0 ? "" : lines[0], HOUSE.id(), said);
    }

    static List<byte[]> questions() {
        return STORE.questions().stream()
                .map(q -> {
                    StringBuilder text = new StringBuilder(q.id());
                    q.parameters()
                            .forEach(p -> text.append('\n')
                                    .append(p.name())
                                    .append('=')
                                    .append(p.otherwise().isEmpty() ? "main.1" : p.otherwise()));
                    return bytes(text.toString());
                })
                .toList();
    }

    static List<byte[]> symptoms() {
        String box = HOUSE.boxes().keySet().iterator().next();
        return Stream.of(
                        "dead: " + box,
                        "dead: " + box + "; volts at " + box + ": hn=2 hg=120 ng=118; sparks: " + box,
                        "bright: " + box + " with everything on; dim: " + box + "; hm")
                .map(Seeds::bytes)
                .toList();
    }

    static List<byte[]> houses() {
        List<byte[]> all = new ArrayList<>(resources("housefile"));
        try (Stream<Path> golden = Files.list(RESOURCES.resolve("golden"))) {
            golden.filter(p -> p.toString().endsWith(".house.yaml")).sorted().forEach(p -> all.add(bytes(string(p))));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return all;
    }

    static List<byte[]> folders() {
        return List.of(
                bytes(ENTRY + "a.yaml\nsplicebook: 1\nhouse: a\n" + ENTRY + "b.yaml\nnote: b\n"),
                bytes(ENTRY + "house.yaml\n" + string(Path.of("sample-house/house.yaml")) + ENTRY + "attic.yaml\n"
                        + string(Path.of("sample-house/attic.yaml")) + ENTRY + "panels.yaml\n"
                        + string(Path.of("sample-house/panels.yaml"))));
    }

    /** Writes a folder and reads it; names that a folder cannot have are left out. */
    static void folder(byte[] input) throws IOException {
        Path folder = Files.createTempDirectory("fuzz");
        try {
            for (Map.Entry<String, byte[]> e : parts(input).entrySet()) {
                if (e.getKey().matches("[A-Za-z0-9._ -]{1,60}") && !e.getKey().matches("\\.+")) {
                    Files.write(folder.resolve(e.getKey()), e.getValue());
                }
            }
            var unused = HouseFiles.read(folder);
        } finally {
            try (Stream<Path> left = Files.list(folder)) {
                for (Path p : left.toList()) {
                    Files.delete(p);
                }
            }
            Files.delete(folder);
        }
    }

    static List<byte[]> resources(String folder) {
        return files(RESOURCES.resolve(folder), 20);
    }

    static List<byte[]> files(Path folder, int most) {
        try (Stream<Path> all = Files.walk(folder)) {
            return all.filter(p -> p.toString().matches(".*\\.(yaml|cypher)"))
                    .sorted()
                    .limit(most)
                    .map(p -> bytes(string(p)))
                    .toList();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    static List<byte[]> lists(boolean asParts) {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        try (Workbook book = new Workbook(out, "Test", "1.0")) {
            var sheet = book.newWorksheet("List");
            String[] cells = {"outlet", "room", "type", "Counter", "Kitchen", "duplex-receptacle"};
            for (int c = 0; c < cells.length; c++) {
                sheet.value(c / 3, c % 3, cells[c]);
            }
            sheet.value(2, 0, 12.5);
            sheet.formula(2, 1, "A3+1");
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        List<byte[]> texts = List.of(
                bytes("space,rating,label,poles\n5,15,Hall,1\n2+4,30 A,\"Range, new\",2\n"),
                bytes("\uFEFFOutlet;Room;Type\nCounter;Kitchen;duplex-receptacle\n"));
        return asParts
                ? List.of(unzipped(out.toByteArray()))
                : Stream.concat(texts.stream(), Stream.of(out.toByteArray())).toList();
    }

    static List<byte[]> archives(boolean asParts) {
        MemoryStore store = new MemoryStore();
        for (String file : List.of("common.yaml", "unit-14a.yaml")) {
            store.put(HouseFiles.parse("a", Properties.text(file)).get(), 0, "Rowan", "new")
                    .get();
        }
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        try {
            ArchiveWriter.write(
                    out,
                    store,
                    List.of("alder-row-common", "alder-row-14a"),
                    List.of(),
                    Map.of(),
                    Instant.EPOCH,
                    Progress.NONE);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return List.of(asParts ? unzipped(out.toByteArray()) : out.toByteArray());
    }

    static void restore(byte[] zip) throws IOException {
        Path file = Files.createTempFile("fuzz", ".zip");
        try {
            Files.write(file, zip);
            try (Archive archive = Archive.open(file)) {
                archive.verify();
                MemoryStore into = new MemoryStore();
                var unused = Restore.all(archive, into, Progress.NONE);
            }
        } finally {
            Files.delete(file);
        }
    }

    static List<byte[]> moveFiles() {
        return List.of(
                bytes("draft: d\nhouse: " + HOUSE.id()
                        + "\nmoves:\n  - {cap: K1.black, in: bench}\n  - {untie: [1, 3], panel: main}\n"),
                bytes("draft: d\nhouse: " + HOUSE.id() + "\nreason: x\nrevision: 3\nmoves: [{shift: K1.black}]\n"));
    }

    static void moves(String text) {
        var read = org.splicebook.housefile.DraftFiles.parse("fuzz", text, HOUSE);
        if (read.isOk()) {
            var unused =
                    org.splicebook.rewire.Moves.apply(HOUSE, read.get().draft().moves());
        }
        var kept = org.splicebook.housefile.DraftFiles.parseKept(text);
    }

    static List<byte[]> sightings() {
        return HouseFiles.parse("a", string(RESOURCES.resolve("housefile/everything.yaml"))).get().sightings().stream()
                .map(s -> bytes(SightingText.write(s)))
                .toList();
    }

    static List<byte[]> rules() {
        return List.of(bytes("title: The town of Alder\nover: 2023\nrules:\n"
                + "  tamper-resistant: {off: yes, reason: \"not adopted\"}\n"
                + "  arc-fault-by-room:\n    values: {places: {without: [kitchen]}, amperes: [\"15\"]}\n    reason: so\n"
                + "  hidden-box: {severity: danger, article: \"town code 7\", cure: Open it., reason: fires}\n"));
    }

    static List<byte[]> intervals() {
        return List.of(
                bytes("start,kW\n2025-01-01T00:00,1\n2025-01-01T00:15,1.5\n2025-01-01T00:30,0\n"),
                bytes("date;time;kWh\n2025-01-01;00:00;1,5\n2025-01-01;01:00;2,5\n"));
    }

    static List<byte[]> texts() {
        return Stream.of("Hall", "<b onclick=\"x\">&'", "a\nBEGIN:VEVENT\nb;c,d\\", "=1+1", "]]>\t\uFEFF\u202E")
                .map(Seeds::bytes)
                .toList();
    }

    static List<byte[]> pictures() {
        return List.of(Pictures.picture("jpg", 20, 10), Pictures.picture("png", 20, 10), Pictures.withExif());
    }

    static List<byte[]> documents() {
        try (PDDocument d = new PDDocument()) {
            d.addPage(new PDPage());
            ByteArrayOutputStream out = new ByteArrayOutputStream();
            d.save(out);
            return List.of(out.toByteArray());
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** {@return a zip of the parts of a text; with digests, those that the manifest names are put right} */
    static byte[] zip(byte[] input, boolean withDigests) {
        Map<String, byte[]> parts = parts(input);
        byte[] manifest = parts.get("manifest.json");
        if (withDigests && manifest != null) {
            try {
                if (JSON.readTree(manifest) instanceof ObjectNode tree
                        && tree.get("entries") instanceof ObjectNode entries) {
                    parts.forEach((name, content) -> {
                        if (entries.has(name)) {
                            entries.put(name, digest(content));
                        }
                    });
                    parts.put("manifest.json", JSON.writeValueAsBytes(tree));
                }
            } catch (IOException e) {
                // The manifest is broken, which is for the archive to say.
            }
        }
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        try (ZipOutputStream zip = new ZipOutputStream(out)) {
            for (Map.Entry<String, byte[]> e : parts.entrySet()) {
                zip.putNextEntry(new ZipEntry(e.getKey()));
                zip.write(e.getValue());
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return out.toByteArray();
    }

    private static byte[] unzipped(byte[] file) {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        // Not as a stream: workbooks tell the sizes of their entries at the end alone.
        try (ZipFile zip = ZipFile.builder().setByteArray(file).get()) {
            for (ZipArchiveEntry e : Collections.list(zip.getEntries())) {
                out.write(bytes(ENTRY + e.getName() + "\n"));
                out.write(zip.getInputStream(e).readAllBytes());
                out.write('\n');
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return out.toByteArray();
    }

    private static Map<String, byte[]> parts(byte[] input) {
        Map<String, byte[]> parts = new LinkedHashMap<>();
        for (String part : ("\n" + new String(input, StandardCharsets.ISO_8859_1)).split("\n" + ENTRY)) {
            int end = part.indexOf('\n');
            String name = end < 0 ? part : part.substring(0, end);
            if (!part.isEmpty() && name.length() < 300) {
                parts.put(name, part.substring(end + 1).getBytes(StandardCharsets.ISO_8859_1));
            }
        }
        return parts;
    }

    private static String digest(byte[] content) {
        try {
            return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(content));
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException(e);
        }
    }

    static String text(byte[] input) {
        return new String(input, StandardCharsets.UTF_8);
    }

    static byte[] bytes(String text) {
        return text.getBytes(StandardCharsets.UTF_8);
    }

    static String string(Path file) {
        try {
            return Files.readString(file);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
