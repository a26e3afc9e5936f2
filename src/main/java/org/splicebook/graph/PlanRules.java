package org.splicebook.graph;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;
import org.neo4j.driver.summary.Plan;
import org.neo4j.driver.summary.QueryType;
import org.neo4j.driver.summary.ResultSummary;

/** What the plan of a question may not hold: writes, procedures, files, and path forms that do not end on a ringed house. */
final class PlanRules {
    private static final Map<String, String> NEVER = Map.of(
            "ProcedureCall", "it calls a procedure",
            "LoadCSV", "it reads a file or an address with LOAD CSV",
            "TransactionForeach", "it runs transactions of its own",
            "TransactionApply", "it runs transactions of its own");

    private static final Map<String, String> TRAILS = Map.of(
            "Repeat(Trail)", "it repeats a group of several hops",
            "VarLengthExpand(Into)", "it walks every path between two bound ends",
            "VarLengthExpand(All)", "it walks every path");

    private PlanRules() {}

    /**
     * {@return why the question is refused, empty when it is not}
     *
     * @param explained the summary of its EXPLAIN
     * @param trailsAllowed whether its header allows paths that do not prune
     */
    static List<String> broken(ResultSummary explained, boolean trailsAllowed) {
        List<String> reasons = new ArrayList<>();
        if (explained.queryType() != QueryType.READ_ONLY) {
            reasons.add("it writes, or changes the database");
        }
        if (explained.hasPlan()) {
            walk(explained.plan(), operator -> {
                if (operator.startsWith("Show") || operator.startsWith("Terminate")) {
                    reasons.add("it asks about the database, not about houses (" + operator + ")");
                } else if (NEVER.containsKey(operator)) {
                    reasons.add(NEVER.get(operator));
                } else if (TRAILS.containsKey(operator) && !trailsAllowed) {
                    reasons.add(
                            TRAILS.get(operator) + ", which may never end where wires form a ring (" + operator + ")");
                }
            });
        }
        return reasons.stream().distinct().toList();
    }

    private static void walk(Plan plan, Consumer<String> each) {
        String operator = plan.operatorType();
        int at = operator.indexOf('@');
        each.accept(at < 0 ? operator : operator.substring(0, at));
        plan.children().forEach(child -> walk(child, each));
    }
}
