package org.splicebook.graph;

import static java.util.Map.entry;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.neo4j.driver.TransactionContext;
import org.splicebook.answer.Nearest;
import org.splicebook.answer.Question;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;

/** Parameters that name a thing of the house. What a parameter names follows from what it is called. */
final class Names {
    /** Parameter: the label, or labels, of what it names. */
    private static final Map<String, List<String>> NAMED = Map.ofEntries(
            entry("thing", List.of("Thing")),
            entry("point", List.of("LoadPoint")),
            entry("breaker", List.of("Breaker")),
            entry("device", List.of("Device", "Breaker", "Main")),
            entry("box", List.of("Box", "Panel")),
            entry("cable", List.of("Cable")),
            entry("wire", List.of("Wire")),
            entry("place", List.of("Place")));

    private static final String OF_HOUSE = "MATCH (n:LABEL) WHERE n.key STARTS WITH $house + '/' RETURN n.name AS name";

    /** A wire end has no node of its own. */
    private static final String ENDS = "MATCH (w:Wire) WHERE w.key STARTS WITH $house + '/'"
            + " UNWIND ['@1', '@2'] AS end RETURN w.name + end AS name";

    private Names() {}

    /** {@return a problem for each parameter that names what the house does not have; defaults name nothing} */
    static List<Problem> unknown(TransactionContext tx, Question question, String house, Map<String, String> all) {
        List<Problem> problems = new ArrayList<>();
        for (Question.Parameter p : question.parameters()) {
            List<String> labels = NAMED.getOrDefault(p.name(), List.of());
            String value = all.getOrDefault(p.name(), "");
            if (labels.isEmpty() || value.equals(p.otherwise())) {
                continue;
            }
            List<String> names = new ArrayList<>();
            List<String> reads = new ArrayList<>(
                    labels.stream().map(l -> OF_HOUSE.replace("LABEL", l)).toList());
            if (labels.contains(RowBuilder.THING)) {
                reads.add(ENDS);
            }
            for (String read : reads) {
                names.addAll(tx.run(read, Map.of("house", house))
                        .list(r -> r.get("name").asString()));
            }
            if (!names.contains(value)) {
                problems.add(Problem.error(
                        ProblemKind.NOT_FOUND,
                        Where.field(p.name()),
                        "The house " + house + " has no " + said(p.name()) + " " + value + ".",
                        Nearest.cure(value, names)));
            }
        }
        return problems;
    }

    private static String said(String parameter) {
        return parameter.equals("point") ? "load point" : parameter;
    }

    /** {@return the ids of all houses} */
    static List<String> houses(TransactionContext tx) {
        return tx.run("MATCH (h:House) RETURN h.key AS id")
                .list(r -> r.get("id").asString());
    }
}
