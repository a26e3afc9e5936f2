package org.splicebook.cli;

import org.jspecify.annotations.Nullable;
import org.splicebook.answer.Reply;
import org.splicebook.render.Json;
import org.splicebook.render.ReplyJson;
import org.splicebook.render.ReplyText;
import picocli.CommandLine.Option;

/** How to print. */
final class OutputOptions {
    static final String JSON = "--json";

    @Option(names = JSON, description = "Print JSON, for programs.")
    private boolean json;

    @Option(names = "--width", paramLabel = "COLUMNS", description = "Lay text out for so many columns.")
    private @Nullable Integer width;

    boolean json() {
        return json;
    }

    int width(Terminal terminal) {
        return Math.max(20, width == null ? terminal.width() : width);
    }

    void print(Reply reply, Terminal terminal) {
        terminal.out().print(json ? Json.text(ReplyJson.write(reply)) + "\n" : ReplyText.write(reply, width(terminal)));
    }
}
