package org.splicebook.render;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;

/** A problem as JSON and back. */
public final class ProblemJson {
    private ProblemJson() {}

    /** {@return the problem as a tree} */
    public static ObjectNode write(Problem p) {
        ObjectNode o = Json.object();
        o.put("code", p.kind().code());
        o.put("severity", p.severity().name().toLowerCase(Locale.ROOT));
        if (p.where().file() != null) {
            o.put("file", p.where().file());
        }
        if (p.where().line() > 0) {
            o.put("line", p.where().line());
            o.put("column", p.where().column());
        }
        if (!p.where().path().isEmpty()) {
            o.put("path", p.where().path());
        }
        o.put("message", p.message());
        o.put("cure", p.cure());
        return o;
    }

    /** {@return the problems of a list of trees; a code that is not known here becomes an internal one} */
    public static List<Problem> readAll(JsonNode list) {
        List<Problem> problems = new ArrayList<>();
        list.forEach(p -> problems.add(read(p)));
        return problems;
    }

    private static Problem read(JsonNode p) {
        return new Problem(
                kind(p.path("code").asText()),
                Problem.Severity.valueOf(p.path("severity").asText("error").toUpperCase(Locale.ROOT)),
                new Where(
                        p.hasNonNull("file") ? p.path("file").asText() : null,
                        p.path("line").asInt(),
                        p.path("column").asInt(),
                        p.path("path").asText()),
                p.path("message").asText(),
                p.path("cure").asText());
    }

    private static ProblemKind kind(String code) {
        for (ProblemKind k : ProblemKind.values()) {
            if (k.code().equals(code)) {
                return k;
            }
        }
        return ProblemKind.INTERNAL;
    }
}
