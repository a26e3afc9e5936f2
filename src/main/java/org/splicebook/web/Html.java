package org.splicebook.web;

import java.util.Collection;
import java.util.function.Function;
import java.util.stream.Collectors;

/** Pieces of pages. Whatever comes from a record goes through {@link #text}. */
final class Html {
    private Html() {}

    /** {@return the text as HTML shows it, in content and in quoted attributes alike} */
    static String text(Object value) {
        return String.valueOf(value)
                .replace("&", "&amp;")
                .replace("<", "&lt;")
                .replace(">", "&gt;")
                .replace("\"", "&quot;")
                .replace("'", "&#39;");
    }

    /** {@return a whole page} */
    static String page(String title, String body) {
        return """
                <!DOCTYPE html>
                <html lang="en">
                <head>
                <meta charset="utf-8">
                <meta name="viewport" content="width=device-width, initial-scale=1">
                <title>%s</title>
                <link rel="stylesheet" href="/assets/style.css">
                </head>
                <body>
                <nav aria-label="Pages"><a href="/">Splicebook</a> <a href="/api">API</a></nav>
                <main>
                <h1>%s</h1>
                %s
                </main>
                </body>
                </html>
                """.formatted(text(title), text(title), body);
    }

    /** {@return one piece for each, one after the other} */
    static <T> String each(Collection<T> all, Function<T, String> piece) {
        return all.stream().map(piece).collect(Collectors.joining("\n"));
    }

    /** {@return a titled list of texts; nothing where there are none} */
    static String list(String title, Collection<String> texts) {
        return texts.isEmpty()
                ? ""
                : "<h2>" + text(title) + "</h2>\n<ul>" + each(texts, t -> "<li>" + text(t) + "</li>") + "</ul>\n";
    }

    /** {@return the same, numbered} */
    static String steps(String title, Collection<String> texts) {
        return list(title, texts).replace("<ul>", "<ol>").replace("</ul>", "</ol>");
    }

    /** {@return a table} */
    static String table(Collection<String> columns, Collection<? extends Collection<String>> rows) {
        return "<div class=\"wide\"><table><thead><tr>"
                + each(columns, c -> "<th scope=\"col\">" + text(c) + "</th>")
                + "</tr></thead><tbody>"
                + each(rows, r -> "<tr>" + each(r, c -> "<td>" + text(c) + "</td>") + "</tr>")
                + "</tbody></table></div>\n";
    }
}
