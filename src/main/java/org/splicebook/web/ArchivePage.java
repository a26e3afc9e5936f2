package org.splicebook.web;

import io.javalin.http.Context;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import org.splicebook.archive.Archive;
import org.splicebook.archive.ArchiveWriter;
import org.splicebook.archive.Restore;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.store.HouseStore;
import org.splicebook.store.Progress;
import org.splicebook.store.Revision;
import org.splicebook.store.StoredHouse;
import org.splicebook.web.view.EditPage;
import org.splicebook.web.view.Entry;
import org.splicebook.web.view.Input;
import org.splicebook.web.view.Wrong;

/** Archives taken away and brought in: houses with their whole past. */
final class ArchivePage {
    private static final List<String> PAPERS = List.of("record", "directory", "emergency");
    private static final String PATH = "/archive";

    private final HouseStore store;
    private final org.splicebook.store.Files files;

    ArchivePage(HouseStore store, org.splicebook.store.Files files) {
        this.store = store;
        this.files = files;
    }

    List<Route> routes() {
        return List.of(Route.get(Api.BASE + "/houses/{house}/archive.zip", this::write));
    }

    List<Route> pages() {
        return List.of(Route.get(PATH, ctx -> ctx.html(page(Wrong.NONE))), Route.post(PATH, this::read));
    }

    private void write(Context ctx) {
        String id = Api.house(ctx);
        StoredHouse stored = store.findHouse(id).orElseThrow(() -> Api.notFound(ctx));
        Map<String, byte[]> papers = new java.util.TreeMap<>();
        if ("yes".equals(ctx.queryParam("papers"))) {
            PAPERS.forEach(kind -> papers.put(kind + ".pdf", HouseSheets.pdf(store, files, stored, kind, "", "a4")));
        }
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        try {
            ArchiveWriter.write(
                    out,
                    store,
                    List.of(id),
                    List.of(),
                    new ArchiveWriter.With(papers, files, "yes".equals(ctx.queryParam("residents"))),
                    Instant.now(),
                    Progress.NONE);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        ctx.contentType("application/zip")
                .header("Content-Disposition", "attachment; filename=\"" + id + ".zip\"")
                .result(out.toByteArray());
    }

    private void read(Context ctx) {
        Sent.attempt(
                ctx,
                () -> {
                    List<Revision> made = restore(ctx);
                    return made.size() == 1 ? new Paths(made.get(0).house()).base() : "/";
                },
                ArchivePage::page);
    }

    private List<Revision> restore(Context ctx) {
        var sent = ctx.uploadedFile("file");
        if (sent == null) {
            throw Failures.failure("file", ProblemKind.MISSING, "No file came with the form.", "Choose an archive.");
        }
        Path file = null;
        try (InputStream in = sent.content()) {
            file = Files.createTempFile("splicebook", ".zip");
            Files.copy(in, file, java.nio.file.StandardCopyOption.REPLACE_EXISTING);
            try (Archive archive = Archive.open(file)) {
                return Restore.all(archive, store, files, Progress.NONE);
            }
        } catch (IOException e) {
            throw new ProblemException(
                    Failures.problem(ProblemKind.SYNTAX, "The file could not be read.", "Send it again."));
        } finally {
            delete(file);
        }
    }

    private static void delete(@org.jspecify.annotations.Nullable Path file) {
        try {
            if (file != null) {
                Files.deleteIfExists(file);
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static String page(Wrong wrong) {
        return Templates.page(
                "edit",
                Map.of(
                        "page",
                        new EditPage(
                                "Bring an archive in",
                                "Houses with their whole past, from another Splicebook. Each must be new here; everything is verified"
                                        + " before anything is stored. Larger ones: the command restore.",
                                wrong,
                                List.of(new Entry(
                                        PATH,
                                        "An archive",
                                        List.of(Input.typed(Input.Kind.FILE, "file", "File", "", "a zip", true)),
                                        "Bring it in")),
                                List.of(),
                                List.of())));
    }
}
