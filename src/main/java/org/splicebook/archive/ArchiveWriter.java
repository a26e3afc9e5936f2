package org.splicebook.archive;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.splicebook.housefile.HouseWriter;
import org.splicebook.housefile.PropertyFiles;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.record.Attachments;
import org.splicebook.record.Sighting;
import org.splicebook.store.Files;
import org.splicebook.store.HouseStore;
import org.splicebook.store.Papers;
import org.splicebook.store.Progress;
import org.splicebook.store.Revision;
import org.splicebook.store.SightingText;
import org.splicebook.store.StoredHouse;
import org.splicebook.store.StoredProperty;
import org.splicebook.visits.Beside;

/**
 * Writes houses and properties with their past. What is written meanwhile does no harm: each house is as it was at some moment while the
 * archive was made, since a revision never changes.
 */
public final class ArchiveWriter {
    /** The same archive has the same bytes whenever it is written: entries carry no time of their own. */
    private static final long NO_TIME = 315_532_800_000L;

    private final ZipOutputStream zip;
    private final HouseStore store;
    private final Map<String, String> entries = new TreeMap<>();
    private final Set<String> files = new TreeSet<>();

    private ArchiveWriter(ZipOutputStream zip, HouseStore store) {
        this.zip = zip;
        this.store = store;
    }

    /** Writes an archive without photographs and documents. */
    public static void write(
            OutputStream out,
            HouseStore store,
            List<String> houses,
            List<String> properties,
            Map<String, byte[]> papers,
            Instant now,
            Progress progress)
            throws IOException {
        write(out, store, houses, properties, new With(papers, Files.NONE, false), now, progress);
    }

    /**
     * What goes with the houses.
     *
     * @param sheets sheets to print, by file name: {@code record.pdf}
     * @param files where the photographs and documents are that the records speak of
     * @param residents whether what is personal goes along
     */
    public record With(Map<String, byte[]> sheets, Files files, boolean residents) {
        public With {
            sheets = Map.copyOf(sheets);
        }
    }

    /**
     * Writes an archive.
     *
     * @param out where to; it is not closed
     * @param houses the ids of the houses
     * @param properties the ids of the properties
     * @param with what goes with the houses
     * @param now the moment that it says it was made
     * @throws ProblemException when there is no such house or property
     */
    public static void write(
            OutputStream out,
            HouseStore store,
            List<String> houses,
            List<String> properties,
            With with,
            Instant now,
            Progress progress)
            throws IOException {
        ZipOutputStream zip = new ZipOutputStream(out, StandardCharsets.UTF_8);
        ArchiveWriter w = new ArchiveWriter(zip, store);
        List<Manifest.Item> housesIn = new ArrayList<>();
        for (String id : houses) {
            housesIn.add(w.house(id));
            w.beside(Papers.VISIT, id);
            String drafts = DraftLines.write(store.drafts(id));
            if (!drafts.isEmpty()) {
                w.entry(Manifest.drafts(id), drafts.getBytes(StandardCharsets.UTF_8));
            }
            if (with.residents()) {
                w.beside(Papers.RESIDENT, id);
            }
            progress.at(housesIn.size(), houses.size(), id);
        }
        List<Manifest.Item> propertiesIn = new ArrayList<>();
        for (String id : properties) {
            propertiesIn.add(w.property(id));
        }
        for (Map.Entry<String, byte[]> p : new TreeMap<>(with.sheets()).entrySet()) {
            w.entry("papers/" + p.getKey(), p.getValue());
        }
        for (String name : w.files) {
            // What is on another machine is not here: the record goes without it, as it stands here.
            Optional<byte[]> content = with.files().find(name);
            if (content.isPresent()) {
                w.entry(Manifest.file(name), content.get());
            }
        }
        Manifest manifest = new Manifest(
                Manifest.FORMAT, Manifest.VERSION, now.toString(), housesIn, propertiesIn, Map.copyOf(w.entries));
        w.put(Manifest.NAME, manifest.write().getBytes(StandardCharsets.UTF_8));
        zip.finish();
    }

    private void beside(String kind, String id) throws IOException {
        String text = Beside.write(store.papers().list(kind, id));
        if (!text.isEmpty()) {
            entry(Manifest.beside(kind, id), text.getBytes(StandardCharsets.UTF_8));
        }
    }

    private Manifest.Item house(String id) throws IOException {
        List<Manifest.Step> steps = new ArrayList<>();
        StoredHouse newest = null;
        for (Revision r : store.revisions(id)) {
            if (!r.deleted()) {
                Optional<StoredHouse> stored = store.findRevision(id, r.number());
                newest = stored.orElseThrow(() -> none("revision " + r.number() + " of " + id));
                Attachments.of(newest.house()).forEach(p -> files.add(p.file()));
                entry(
                        Manifest.entry("houses", id, r.number()),
                        HouseWriter.write(newest.house()).getBytes(StandardCharsets.UTF_8));
            }
            steps.add(Manifest.Step.of(r));
        }
        if (steps.isEmpty()) {
            throw none("house " + id);
        }
        sightings(id, newest);
        return new Manifest.Item(id, steps);
    }

    private void sightings(String id, @org.jspecify.annotations.Nullable StoredHouse newest) throws IOException {
        Set<String> recorded = new HashSet<>();
        if (newest != null) {
            newest.house().sightings().forEach(s -> recorded.add(s.id()));
        }
        StringBuilder lines = new StringBuilder();
        for (Sighting s : store.sightings(id)) {
            if (!recorded.contains(s.id())) {
                lines.append(SightingText.write(s)).append('\n');
            }
        }
        if (!lines.isEmpty()) {
            entry(Manifest.sightings(id), lines.toString().getBytes(StandardCharsets.UTF_8));
        }
    }

    private Manifest.Item property(String id) throws IOException {
        List<Manifest.Step> steps = new ArrayList<>();
        for (Revision r : store.properties().revisions(id)) {
            StoredProperty stored = store.properties()
                    .findRevision(id, r.number())
                    .orElseThrow(() -> none("revision " + r.number() + " of " + id));
            entry(
                    Manifest.entry("properties", id, r.number()),
                    PropertyFiles.write(stored.property()).getBytes(StandardCharsets.UTF_8));
            steps.add(Manifest.Step.of(r));
        }
        if (steps.isEmpty()) {
            throw none("property " + id);
        }
        return new Manifest.Item(id, steps);
    }

    private void entry(String name, byte[] bytes) throws IOException {
        entries.put(name, Digests.of(bytes));
        put(name, bytes);
    }

    private void put(String name, byte[] bytes) throws IOException {
        ZipEntry e = new ZipEntry(name);
        e.setTime(NO_TIME);
        zip.putNextEntry(e);
        zip.write(bytes);
        zip.closeEntry();
    }

    private static ProblemException none(String what) {
        return new ProblemException(Problem.error(
                ProblemKind.NOT_FOUND, Where.NOWHERE, "There is no " + what + ".", "Look at the list of houses."));
    }
}
