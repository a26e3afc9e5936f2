package org.splicebook.web;

import io.javalin.http.Context;
import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.splicebook.problem.ProblemKind;
import org.splicebook.render.Json;

/** Reads the body of a request: how large it may be, in which form it comes. */
final class Body {
    /** What a body, or an answer, is written in. */
    enum Format {
        YAML,
        JSON
    }

    private Body() {}

    /** {@return the format that a Content-Type names, or null where it is none that is read here} */
    static @Nullable Format format(@Nullable String contentType) {
        if (contentType == null) {
            return null;
        }
        String[] parts = contentType
                .toLowerCase(Locale.ROOT)
                .replace(" ", "")
                .replace("\"", "")
                .split(";");
        for (int i = 1; i < parts.length; i++) {
            if (parts[i].startsWith("charset=") && !parts[i].equals("charset=utf-8")) {
                return null;
            }
        }
        return switch (parts[0]) {
            case "application/json" -> Format.JSON;
            case "application/yaml" -> Format.YAML;
            default -> null;
        };
    }

    /** {@return whether a Content-Type is one that a form of a page sends} */
    static boolean isForm(@Nullable String contentType) {
        String type = contentType == null ? "" : contentType.toLowerCase(Locale.ROOT);
        return type.startsWith("application/x-www-form-urlencoded") || type.startsWith("multipart/form-data");
    }

    /** {@return the body as text that a reader of YAML takes; JSON is checked to be JSON first} */
    static String text(Context ctx, int largest) throws IOException {
        String text = raw(ctx, largest);
        if (format(ctx.header("Content-Type")) == Format.JSON) {
            var unused = Json.read(text);
            // In JSON a tab stands only between tokens, where YAML may refuse it; columns stay as they are.
            return text.replace('\t', ' ');
        }
        return text;
    }

    private static String raw(Context ctx, int largest) throws IOException {
        byte[] bytes;
        try (InputStream in = ctx.bodyInputStream()) {
            bytes = in.readNBytes(largest + 1);
        }
        if (bytes.length > largest) {
            throw Failures.failure(
                    ProblemKind.TOO_LARGE, "The body has more than " + largest + " bytes.", "Send it in parts.");
        }
        try {
            return StandardCharsets.UTF_8
                    .newDecoder()
                    .decode(ByteBuffer.wrap(bytes))
                    .toString();
        } catch (CharacterCodingException e) {
            throw Failures.failure(ProblemKind.SYNTAX, "The body is not in UTF-8.", "Send it in UTF-8.");
        }
    }
}
