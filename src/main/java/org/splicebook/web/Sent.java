package org.splicebook.web;

import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.function.Function;
import java.util.function.Supplier;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.store.HouseStore;
import org.splicebook.store.StoredHouse;
import org.splicebook.web.view.EditPage;

/** What forms have in common: read what was sent, write it, show the next page; or the same page with what is wrong, nothing stored. */
final class Sent {
    /** The form's field with the revision that a change was made from. */
    static final String REVISION = "revision";

    private Sent() {}

    /** {@return a field of the form, without white space around it; empty where it was not sent} */
    static String field(Context ctx, String name) {
        return Objects.requireNonNullElse(ctx.formParam(name), "").strip();
    }

    /** {@return the text of a file that came with the form; empty where none did} */
    static String file(Context ctx, String name) {
        var file = ctx.uploadedFile(name);
        if (file == null) {
            return "";
        }
        try (InputStream in = file.content()) {
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw Failures.failure(ProblemKind.SYNTAX, "The file could not be read.", "Send it again.");
        }
    }

    /** {@return the content of a file that came with the form, at most one byte more than {@code most}; empty where none did} */
    static byte[] bytes(Context ctx, String name, int most) {
        var file = ctx.uploadedFile(name);
        if (file == null) {
            return new byte[0];
        }
        try (InputStream in = file.content()) {
            return in.readNBytes(most + 1);
        } catch (IOException e) {
            throw Failures.failure(ProblemKind.SYNTAX, "The file could not be read.", "Send it again.");
        }
    }

    /** {@return the revision that what was sent is a change of} */
    static long revision(Context ctx) {
        return HouseApi.number(field(ctx, REVISION));
    }

    static StoredHouse house(HouseStore store, Context ctx) {
        return store.findHouse(Api.house(ctx)).orElseThrow(() -> Api.notFound(ctx));
    }

    /** Does the work and goes where it says, or shows the page again with the problems. */
    static void attempt(Context ctx, Supplier<String> work, Function<List<Problem>, String> again) {
        try {
            ctx.redirect(work.get(), HttpStatus.SEE_OTHER);
        } catch (ProblemException e) {
            ctx.status(Statuses.of(e.problems())).html(again.apply(e.problems()));
        }
    }

    static List<String> said(List<Problem> problems) {
        return problems.stream().map(Problem::said).toList();
    }

    static String page(StoredHouse stored, EditPage page) {
        return Templates.page("edit", Map.of("bar", Paths.bar(stored), "page", page));
    }
}
