package org.splicebook.graph;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.neo4j.driver.AccessMode;
import org.neo4j.driver.Driver;
import org.neo4j.driver.Record;
import org.neo4j.driver.Session;
import org.neo4j.driver.TransactionConfig;
import org.neo4j.driver.exceptions.ClientException;
import org.neo4j.driver.exceptions.Neo4jException;
import org.neo4j.driver.summary.ResultSummary;
import org.splicebook.answer.Heading;
import org.splicebook.answer.Listing;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.problem.Where;

/**
 * Runs a query that the owner of the store wrote. The database explains it first, which runs nothing: what writes, calls procedures, reads
 * files or addresses, or asks about the database itself is refused by its plan, not by its text. Then it runs in a transaction that only
 * reads.
 */
final class Look {
    /** How long one may take. */
    static final Duration LIMIT = Duration.ofSeconds(10);

    private static final TransactionConfig LIMITED =
            TransactionConfig.builder().withTimeout(LIMIT).build();

    private Look() {}

    static Result<Listing> run(Driver driver, String cypher, int most) {
        try (Session session = DriverDoor.session(driver, AccessMode.READ)) {
            ResultSummary explained = session.run("EXPLAIN " + cypher, LIMITED).consume();
            List<String> broken = new ArrayList<>(PlanRules.broken(explained, true));
            if (!explained.hasPlan()) {
                broken.add("the database does not say how it would run it");
            }
            if (!broken.isEmpty()) {
                return failed(
                        ProblemKind.REFUSED,
                        "It is refused: " + String.join("; ", broken) + ".",
                        "Only look: MATCH ... RETURN.");
            }
            return session.executeRead(tx -> read(tx.run(cypher), cypher, most), LIMITED);
        } catch (ClientException e) {
            return Asking.isTooSlow(e)
                    ? failed(
                            ProblemKind.TOO_SLOW,
                            "It took longer than " + LIMIT.toSeconds() + " s and was stopped.",
                            "Begin at one named thing, and ask for less at once.")
                    : failed(ProblemKind.SYNTAX, "The database does not take it: " + e.getMessage(), "");
        } catch (Neo4jException e) {
            throw Transactions.problem(e);
        }
    }

    private static Result<Listing> read(org.neo4j.driver.Result found, String cypher, int most) {
        List<List<Object>> rows = new ArrayList<>();
        while (found.hasNext()) {
            if (rows.size() == most) {
                return failed(
                        ProblemKind.TOO_LARGE,
                        "It has more than " + most + " rows.",
                        "Add LIMIT, or ask for more rows.");
            }
            Record row = found.next();
            rows.add(row.values().stream()
                    .map(v -> v.isNull() ? "" : said(v.asObject()))
                    .toList());
        }
        List<String> columns = found.keys();
        if (found.consume().hasPlan()) {
            return failed(
                    ProblemKind.REFUSED,
                    "It asks how it would run, not for what is there.",
                    "Leave EXPLAIN or PROFILE out.");
        }
        Heading heading = new Heading("cypher", cypher, "", "", 0, Instant.now(), Map.of(), false);
        return Result.ok(new Listing(heading, columns, rows));
    }

    private static Object said(Object value) {
        if (value instanceof org.neo4j.driver.types.Node node) {
            return String.join(":", node.labels()) + " " + properties(node.asMap());
        }
        if (value instanceof org.neo4j.driver.types.Relationship between) {
            return between.type() + " " + properties(between.asMap());
        }
        if (value instanceof List<?> list) {
            return list.stream().map(v -> v == null ? "" : said(v)).toList();
        }
        return value instanceof Number || value instanceof Boolean ? value : String.valueOf(value);
    }

    private static String properties(Map<String, Object> all) {
        Map<String, Object> shown = new LinkedHashMap<>();
        all.keySet().stream()
                .sorted()
                .forEach(k -> shown.put(k, all.get(k) instanceof byte[] b ? b.length + " bytes" : all.get(k)));
        return shown.toString();
    }

    private static Result<Listing> failed(ProblemKind kind, String message, String cure) {
        return Result.failed(Problem.error(kind, Where.field("cypher"), message, cure));
    }
}
