package org.splicebook.visits;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.time.DateTimeException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.store.Paper;
import org.splicebook.store.Papers;

/** What is kept beside a house as lines of text, one for each paper, as archives hold it. */
public final class Beside {
    private static final ObjectMapper JSON = new ObjectMapper();

    private Beside() {}

    /** {@return the papers as text; empty where there are none} */
    public static String write(List<Paper> papers) {
        StringBuilder out = new StringBuilder();
        for (Paper p : papers) {
            ObjectNode o = JSON.createObjectNode().put("name", p.name());
            ArrayNode lines = o.putArray("lines");
            p.lines()
                    .forEach(l -> lines.addObject()
                            .put("at", l.at().toString())
                            .put("who", l.who())
                            .put("text", l.text()));
            out.append(o).append('\n');
        }
        return out.toString();
    }

    /**
     * {@return what {@link #write} wrote}
     *
     * @throws ProblemException where a line is none of this program's
     */
    public static List<Paper> read(String kind, String house, String text) {
        List<Paper> all = new ArrayList<>();
        for (String line : text.lines().toList()) {
            try {
                JsonNode o = JSON.readTree(line);
                List<Paper.Line> lines = new ArrayList<>();
                for (JsonNode l : o.path("lines")) {
                    lines.add(new Paper.Line(
                            Instant.parse(l.path("at").asText()),
                            l.path("who").asText(),
                            l.path("text").asText()));
                }
                Paper paper = new Paper(kind, house, o.path("name").asText(), lines);
                if (lines.isEmpty() || !paper.name().matches("[a-z0-9][a-z0-9-]{0,63}")) {
                    throw wrong(house);
                }
                Said.check(paper);
                all.add(paper);
            } catch (JsonProcessingException | DateTimeException e) {
                throw wrong(house);
            }
        }
        return all;
    }

    /** Keeps papers as they were elsewhere. */
    public static void restore(Papers into, List<Paper> papers) {
        papers.forEach(p -> into.keep(p, Residents.depends(p)));
    }

    private static ProblemException wrong(String house) {
        return new ProblemException(Problem.error(
                ProblemKind.SYNTAX,
                Where.field(house),
                "What stands beside this house cannot be read.",
                "Nothing was stored. Take another copy of the archive."));
    }
}
