package org.splicebook.web;

import io.javalin.http.Context;
import io.javalin.http.HandlerType;
import io.javalin.http.HttpStatus;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.function.Function;
import java.util.function.Supplier;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.problem.Where;
import org.splicebook.store.HouseStore;
import org.splicebook.store.StoredHouse;
import org.splicebook.web.view.EditPage;
import org.splicebook.web.view.Wrong;

/** What forms have in common: read what was sent, write it, show the next page; or the same page with what is wrong, nothing stored. */
final class Sent {
    /** The form's field with the revision that a change was made from. */
    static final String REVISION = "revision";

    /** What is not to be put right by filling a field in otherwise. */
    private static final Set<ProblemKind> OF_NO_FIELD = EnumSet.of(
            ProblemKind.STALE,
            ProblemKind.REFUSED,
            ProblemKind.SIGN_IN,
            ProblemKind.TOO_MANY,
            ProblemKind.STORE_AWAY,
            ProblemKind.TOO_SLOW,
            ProblemKind.INTERNAL);

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

    /** Does the work and goes where it says, or shows the page again with what is wrong at its fields. */
    static void attempt(Context ctx, Supplier<String> work, Function<Wrong, String> again) {
        attempt(ctx, Map.of(), work, again);
    }

    /**
     * The same.
     *
     * @param fields the fields of the form by what readers call them: a regular expression of the path that a problem names
     */
    static void attempt(Context ctx, Map<String, String> fields, Supplier<String> work, Function<Wrong, String> again) {
        try {
            ctx.redirect(work.get(), HttpStatus.SEE_OTHER);
        } catch (ProblemException e) {
            // The address of a form that failed may be one at which there is nothing to look at.
            ctx.header("HX-Push-Url", "false");
            ctx.status(Statuses.of(e.problems())).html(again.apply(wrong(ctx, fields, e.problems())));
        }
    }

    /** {@return what came back from the form of this request} */
    static Wrong wrong(Context ctx, Map<String, String> fields, List<Problem> problems) {
        Map<String, List<String>> sent =
                HandlerType.POST.equals(ctx.method()) ? ctx.formParamMap() : ctx.queryParamMap();
        return new Wrong(
                ctx.path(),
                sent,
                problems.stream().map(p -> said(fields, p)).distinct().toList());
    }

    /** {@return what is wrong with a page that no form led to} */
    static Wrong wrong(List<Problem> problems) {
        return new Wrong(
                "", Map.of(), problems.stream().map(p -> said(Map.of(), p)).toList());
    }

    private static Wrong.Said said(Map<String, String> fields, Problem p) {
        String path = p.where().path();
        List<String> all = new ArrayList<>();
        fields.forEach((pattern, field) -> {
            if (path.matches(pattern)) {
                all.add(field);
            }
        });
        List<String> keys = new ArrayList<>(
                List.of(path.replaceAll("\\[[^]]*]|, line .*", "").split("\\.")));
        Collections.reverse(keys);
        all.addAll(keys);
        // What a form is read as has lines of its own, which nobody typed; those of a field were.
        int line = path.indexOf(", line ");
        String words = p.message() + (p.cure().isEmpty() ? "" : " " + p.cure());
        return new Wrong.Said(
                all,
                OF_NO_FIELD.contains(p.kind()),
                line < 0 ? words : "Line " + path.substring(line + 7) + ": " + words);
    }

    /**
     * {@return what a text of the form was read as; what is wrong with it stands at its field, each with the line as it reads}
     *
     * @param read what reading it gave, its lines those of the text
     */
    static <T> T typed(String field, String text, Result<T> read) {
        if (read.isOk()) {
            return read.get();
        }
        List<String> lines = text.lines().toList();
        throw new ProblemException(read.problems().stream()
                .map(p -> {
                    int n = p.where().line();
                    boolean isThere = n > 0 && n <= lines.size();
                    String reads = isThere
                            ? " Line " + n + " reads: " + lines.get(n - 1).strip()
                            : "";
                    return new Problem(p.kind(), p.severity(), Where.field(field), p.said() + reads, "");
                })
                .toList());
    }

    static String page(StoredHouse stored, EditPage page) {
        return Templates.page("edit", Map.of("bar", Paths.bar(stored), "page", page));
    }
}
