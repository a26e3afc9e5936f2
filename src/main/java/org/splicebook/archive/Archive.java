package org.splicebook.archive;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.DateTimeException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Enumeration;
import java.util.HashSet;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.regex.Pattern;
import java.util.zip.ZipEntry;
import java.util.zip.ZipFile;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.housefile.PropertyFiles;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.problem.Where;
import org.splicebook.record.House;
import org.splicebook.record.Property;
import org.splicebook.record.Sighting;
import org.splicebook.store.Document;
import org.splicebook.store.Paper;
import org.splicebook.store.Papers;
import org.splicebook.store.Past;
import org.splicebook.store.Revision;
import org.splicebook.store.SightingText;
import org.splicebook.store.StoredProperty;
import org.splicebook.visits.Beside;

/**
 * An archive that is open for reading. Nothing of it is ever written to a file, so that its names lead nowhere; what it inflates to is
 * limited, entry by entry and in all.
 */
public final class Archive implements AutoCloseable {
    private static final int MOST_ENTRIES = 500_000;
    private static final int MOST_BYTES = 6_000_000;
    private static final int MOST_FILE = 20_000_000;
    private static final int MOST_PAPERS = 100_000;
    private static final String FILES = "files/";
    private static final int MOST_MANIFEST = 200_000_000;
    private static final long MOST_IN_ALL = 4_000_000_000L;
    private static final Pattern NAME = Pattern.compile(
            "(houses|properties)/[a-z0-9][a-z0-9-]{0,63}/[0-9]{6,18}\\.yaml"
                    + "|houses/[a-z0-9][a-z0-9-]{0,63}/sightings\\.jsonl|houses/[a-z0-9][a-z0-9-]{0,63}/(visits|residents|drafts)\\.jsonl|papers/[a-z0-9-]{1,64}\\.pdf|files/[0-9a-f]{64}");

    private final ZipFile zip;
    private final Manifest manifest;
    private long inflated;

    private Archive(ZipFile zip, Manifest manifest) {
        this.zip = zip;
        this.manifest = manifest;
    }

    /**
     * Opens an archive and looks through its table of contents.
     *
     * @throws ProblemException when it is none, or names what an archive cannot hold
     */
    public static Archive open(Path file) {
        ZipFile zip = null;
        try {
            zip = new ZipFile(file.toFile(), StandardCharsets.UTF_8);
            if (zip.size() > MOST_ENTRIES) {
                throw wrong(ProblemKind.TOO_LARGE, "", "The archive has " + zip.size() + " entries.");
            }
            ZipEntry entry = zip.getEntry(Manifest.NAME);
            if (entry == null) {
                throw wrong(ProblemKind.MISSING, Manifest.NAME, "The archive has no manifest, or it is cut short.");
            }
            Manifest manifest = Manifest.read(new String(bytes(zip, entry, MOST_MANIFEST), StandardCharsets.UTF_8));
            check(zip, manifest);
            return new Archive(zip, manifest);
        } catch (IOException | IllegalArgumentException | NullPointerException e) {
            close(zip);
            throw wrong(ProblemKind.SYNTAX, "", "This is no archive of houses, or it is damaged.");
        } catch (ProblemException e) {
            close(zip);
            throw e;
        }
    }

    private static void close(@org.jspecify.annotations.Nullable ZipFile zip) {
        try {
            if (zip != null) {
                zip.close();
            }
        } catch (IOException e) {
            // It was only read.
        }
    }

    private static void check(ZipFile zip, Manifest manifest) {
        if (!Manifest.FORMAT.equals(manifest.format()) || manifest.version() != Manifest.VERSION) {
            throw wrong(
                    ProblemKind.BAD_VALUE,
                    Manifest.NAME,
                    "The archive is of a kind or version that is not known: " + manifest.format() + " "
                            + manifest.version() + ".");
        }
        Set<String> seen = new HashSet<>();
        for (Enumeration<? extends ZipEntry> all = zip.entries(); all.hasMoreElements(); ) {
            String name = all.nextElement().getName();
            if (!seen.add(name)) {
                throw wrong(ProblemKind.DUPLICATE, name, "This entry is there twice.");
            }
            if (!name.equals(Manifest.NAME)
                    && (!NAME.matcher(name).matches() || !manifest.entries().containsKey(name))) {
                throw wrong(ProblemKind.BAD_PATH, name, "This entry is none that the manifest names.");
            }
        }
        for (String name : manifest.entries().keySet()) {
            if (!seen.contains(name)) {
                throw wrong(ProblemKind.MISSING, name, "This entry is named and is not there.");
            }
        }
        Set<String> ids = new HashSet<>();
        manifest.houses().forEach(i -> item("houses", i, manifest, ids));
        manifest.properties().forEach(i -> item("properties", i, manifest, ids));
    }

    private static void item(String folder, Manifest.Item item, Manifest manifest, Set<String> ids) {
        String at = folder + "/" + item.id();
        if (!ids.add(at) || item.revisions().isEmpty()) {
            throw wrong(ProblemKind.BAD_VALUE, at, "This stands twice, or has no revision.");
        }
        long before = 0;
        for (Manifest.Step s : item.revisions()) {
            boolean isThere = manifest.entries().containsKey(Manifest.entry(folder, item.id(), s.number()));
            if (s.number() <= before || isThere == s.deleted()) {
                throw wrong(ProblemKind.BAD_VALUE, at, "Its revisions are not in order, or a record is not there.");
            }
            before = s.number();
            Objects.requireNonNull(s.who());
            Objects.requireNonNull(s.why());
            Objects.requireNonNull(s.name());
        }
    }

    /** {@return the ids of its houses} */
    public List<String> houses() {
        return manifest.houses().stream().map(Manifest.Item::id).toList();
    }

    /** {@return the ids of its properties} */
    public List<String> properties() {
        return manifest.properties().stream().map(Manifest.Item::id).toList();
    }

    /** {@return when it was made, as it says} */
    public String made() {
        return manifest.made();
    }

    /**
     * {@return a house with its whole past}
     *
     * @throws ProblemException when a record is not what was archived, or cannot be read
     */
    public Past house(String id) {
        Manifest.Item item = item(manifest.houses(), id);
        List<Past.Step> steps = new ArrayList<>();
        for (Manifest.Step s : item.revisions()) {
            String name = Manifest.entry("houses", id, s.number());
            House house = s.deleted() ? null : read(HouseFiles.parse(name, text(name)), House::id, id, name);
            steps.add(new Past.Step(revision(id, s), house));
        }
        String sightings = Manifest.sightings(id);
        List<Sighting> appended =
                manifest.entries().containsKey(sightings) ? sightings(sightings, text(sightings)) : List.of();
        return new Past(steps, appended);
    }

    /** {@return a property's revisions, oldest first} */
    public List<StoredProperty> property(String id) {
        List<StoredProperty> all = new ArrayList<>();
        for (Manifest.Step s : item(manifest.properties(), id).revisions()) {
            String name = Manifest.entry("properties", id, s.number());
            Property p = read(
                    PropertyFiles.parse(name, text(name)).map(PropertyFiles.Written::property), Property::id, id, name);
            all.add(new StoredProperty(p, revision(id, s)));
        }
        return all;
    }

    /** Reads every entry once, papers too; what is wrong is thrown. */
    public void verify() {
        for (String name : manifest.entries().keySet()) {
            int unused = name.startsWith(FILES) ? file(name.substring(FILES.length())).length : raw(name).length;
        }
        houses().forEach(h -> {
            Past unused = house(h);
            int papers = drafts(h).size()
                    + beside(Papers.VISIT, h).size()
                    + beside(Papers.RESIDENT, h).size();
            if (papers > MOST_PAPERS) {
                throw wrong(ProblemKind.TOO_LARGE, h, "There is more beside this house than is read.");
            }
        });
        properties().forEach(this::property);
    }

    private static <T> T read(Result<T> read, java.util.function.Function<T, String> ids, String id, String name) {
        T t = read.get();
        if (!ids.apply(t).equals(id)) {
            throw wrong(ProblemKind.BAD_VALUE, name, "This record is of " + ids.apply(t) + ".");
        }
        return t;
    }

    private static List<Sighting> sightings(String name, String text) {
        List<Sighting> all = new ArrayList<>();
        for (String line : text.split("\n")) {
            try {
                all.add(Objects.requireNonNull(SightingText.read(line)));
            } catch (IllegalStateException | NullPointerException e) {
                throw wrong(ProblemKind.SYNTAX, name, "Line " + (all.size() + 1) + " is no sighting.");
            }
        }
        return all;
    }

    private static Manifest.Item item(List<Manifest.Item> items, String id) {
        return items.stream()
                .filter(i -> i.id().equals(id))
                .findFirst()
                .orElseThrow(() -> wrong(ProblemKind.NOT_FOUND, id, "The archive does not hold it."));
    }

    private static Revision revision(String id, Manifest.Step s) {
        try {
            return new Revision(id, s.name(), s.number(), Instant.parse(s.stored()), s.who(), s.why(), s.deleted(), "");
        } catch (DateTimeException e) {
            throw wrong(ProblemKind.BAD_VALUE, id, "Revision " + s.number() + " has no moment.");
        }
    }

    private String text(String name) {
        return new String(raw(name), StandardCharsets.UTF_8);
    }

    private byte[] raw(String name) {
        ZipEntry entry = zip.getEntry(name);
        if (entry == null) {
            throw wrong(ProblemKind.MISSING, name, "This entry is not there.");
        }
        try {
            int most = name.startsWith("papers/") ? MOST_MANIFEST : name.startsWith(FILES) ? MOST_FILE : MOST_BYTES;
            byte[] bytes = bytes(zip, entry, most);
            inflated += bytes.length;
            if (inflated > MOST_IN_ALL) {
                throw wrong(ProblemKind.TOO_LARGE, name, "The archive holds more than is read.");
            }
            if (!Digests.of(bytes).equals(manifest.entries().get(name))) {
                throw wrong(ProblemKind.CONFLICT, name, "This entry is not what was archived: its digest differs.");
            }
            return bytes;
        } catch (IOException e) {
            throw wrong(ProblemKind.SYNTAX, name, "This entry is damaged.");
        }
    }

    /** {@return the names of the photographs and documents that it holds} */
    public List<String> files() {
        return manifest.entries().keySet().stream()
                .filter(n -> n.startsWith(FILES))
                .map(n -> n.substring(FILES.length()))
                .sorted()
                .toList();
    }

    /**
     * {@return a photograph or document}
     *
     * @throws ProblemException when it is not what its name says, or neither a picture nor a PDF
     */
    public byte[] file(String name) {
        byte[] content = raw(FILES + name);
        if (!Digests.of(content).equals(name)) {
            throw wrong(ProblemKind.CONFLICT, FILES + name, "This file is not what its name says.");
        }
        boolean isPicture = content.length > 2 && (content[0] & 0xFF) == 0xFF && (content[1] & 0xFF) == 0xD8;
        if (!isPicture && !Document.isPdf(content)) {
            throw wrong(ProblemKind.MEDIA_TYPE, FILES + name, "This file is neither a picture nor a PDF.");
        }
        return content;
    }

    /** {@return the drafts of a house} */
    List<DraftLines.Line> drafts(String house) {
        String name = Manifest.drafts(house);
        return manifest.entries().containsKey(name) ? DraftLines.read(house, text(name)) : List.of();
    }

    /** {@return what the archive holds of a kind beside a house} */
    public List<Paper> beside(String kind, String house) {
        String name = Manifest.beside(kind, house);
        return manifest.entries().containsKey(name) ? Beside.read(kind, house, text(name)) : List.of();
    }

    private static byte[] bytes(ZipFile zip, ZipEntry entry, int most) throws IOException {
        try (InputStream in = zip.getInputStream(entry)) {
            byte[] bytes = in.readNBytes(most + 1);
            if (bytes.length > most) {
                throw wrong(ProblemKind.TOO_LARGE, entry.getName(), "This entry is too large.");
            }
            return bytes;
        }
    }

    private static ProblemException wrong(ProblemKind kind, String entry, String message) {
        return new ProblemException(Problem.error(
                kind, Where.field(entry), message, "Nothing was stored. Take another copy of the archive."));
    }

    @Override
    public void close() {
        close(zip);
    }
}
