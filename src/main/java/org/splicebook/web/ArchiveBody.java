package org.splicebook.web;

import io.javalin.http.Context;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.splicebook.archive.Archive;
import org.splicebook.archive.Restore;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.render.Json;
import org.splicebook.render.ProblemJson;
import org.splicebook.store.HouseStore;
import org.splicebook.store.Progress;
import org.splicebook.store.Revision;

/** An archive sent to a running server, restored there. */
final class ArchiveBody {
    /** Where it is sent. */
    static final String PATH = Api.BASE + "/archive";

    /** What it is. */
    static final String TYPE = "application/zip";

    private static final long MOST_BYTES = 4_000_000_000L;

    private final HouseStore store;
    private final org.splicebook.store.Files files;

    ArchiveBody(HouseStore store, org.splicebook.store.Files files) {
        this.store = store;
        this.files = files;
    }

    List<Route> routes() {
        return List.of(Route.post(PATH, this::restore));
    }

    /** Wrong archives are answered as such; then a line for each house keeps the connection alive, and the last tells what came of it. */
    private void restore(Context ctx) throws IOException {
        if (!TYPE.equals(ctx.header("Content-Type"))) {
            throw Failures.failure(
                    ProblemKind.MEDIA_TYPE,
                    "An archive is no JSON.",
                    "Say Content-Type: " + TYPE + " and send it as it is.");
        }
        Path file = Files.createTempFile("splicebook", ".zip");
        try {
            receive(ctx, file);
            try (Archive archive = Archive.open(file)) {
                Restore.check(archive, store);
                ctx.status(200).contentType("application/x-ndjson");
                OutputStream out = ctx.res().getOutputStream();
                line(out, Json.text(Json.object().put("houses", archive.houses().size())));
                line(out, done(archive, out));
            }
        } finally {
            Files.deleteIfExists(file);
        }
    }

    private String done(Archive archive, OutputStream out) {
        Progress progress = (at, of, id) ->
                line(out, Json.text(Json.object().put("at", at).put("of", of).put("house", id)));
        try {
            List<Revision> made = Restore.all(archive, store, files, progress);
            return Json.text(Json.object().set("restored", Json.list(made, RevisionJson::write)));
        } catch (ProblemException e) {
            return Json.text(Json.object().set("problems", Json.list(e.problems(), ProblemJson::write)));
        }
    }

    private static void line(OutputStream out, String json) {
        try {
            out.write((json.replace("\n", " ") + "\n").getBytes(StandardCharsets.UTF_8));
            out.flush();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static void receive(Context ctx, Path file) throws IOException {
        byte[] buffer = new byte[65_536];
        long all = 0;
        try (InputStream in = ctx.req().getInputStream();
                OutputStream out = Files.newOutputStream(file)) {
            for (int n = in.read(buffer); n >= 0; n = in.read(buffer)) {
                all += n;
                if (all > MOST_BYTES) {
                    throw Failures.failure(
                            ProblemKind.TOO_LARGE,
                            "The archive has more than " + MOST_BYTES + " bytes.",
                            "Archive fewer houses at a time.");
                }
                out.write(buffer, 0, n);
            }
        }
    }
}
