package org.splicebook.graph;

import java.util.List;
import java.util.Map;
import org.splicebook.answer.Question;

/**
 * A question's file: a header of comments, then one Cypher statement that only reads.
 *
 * <pre>{@code
 * // Which breakers may feed what is in the box {box}?
 * // parameter box: a box, for example bench [default: any]
 * // columns: subject, status, basis
 * // kind: answer
 * }</pre>
 *
 * <p>A parameter with {@code [one of: a, b]} takes only these. {@code // across-houses} on a line of its own: it is asked of all houses. {@code // allow-trails: reason} lets it walk paths in
 * a way that does not prune. {@code // note: words} says something to its readers.
 *
 * @param question what it asks
 * @param choices the values that a parameter may have, by parameter; a parameter that is not here may have any
 * @param cypher the whole file
 * @param allowTrails the reason for which it may walk paths that do not prune; empty where it may not
 */
record QuestionFile(Question question, Map<String, List<String>> choices, String cypher, String allowTrails) {
    /** The columns that every answer begins with. */
    static final List<String> ANSWER_COLUMNS = List.of("subject", "status", "basis");
}
