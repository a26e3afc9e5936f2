package org.splicebook.graph;

import java.time.Clock;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.neo4j.driver.Record;
import org.neo4j.driver.TransactionContext;
import org.neo4j.driver.Value;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.problem.Where;
import org.splicebook.store.Paper;
import org.splicebook.store.Papers;

/** What is kept beside houses, each a node that is tied to nothing: no question reaches it, and taken away it is gone from the graph. */
record PaperShelf(Transactions transactions, Clock clock) implements Papers {
    static final SchemaPart SCHEMA =
            new SchemaPart("papers", 1, List.of(Indexed.unique("Paper", "key"), Indexed.plain("Paper", "shelf")));
    private static final String ROW =
            " RETURN p.kind AS kind, p.house AS house, p.name AS name, p.at AS at, p.who AS who, p.text AS text, p.token AS token";

    private record Kept(Paper paper, String token) {}

    private static String shelf(String kind, String house) {
        return kind + "/" + house;
    }

    private static String key(String kind, String house, String name) {
        return shelf(kind, house) + "/" + name;
    }

    @Override
    public List<Paper> list(String kind, String house) {
        return transactions.read(tx -> tx
                .run("MATCH (p:Paper {shelf: $shelf})" + ROW + " ORDER BY name", Map.of("shelf", shelf(kind, house)))
                .list(PaperShelf::kept)
                .stream()
                .map(Kept::paper)
                .toList());
    }

    @Override
    public Optional<Paper> find(String kind, String house, String name) {
        return transactions.read(tx -> find(tx, key(kind, house, name))).map(Kept::paper);
    }

    private static Optional<Kept> find(TransactionContext tx, String key) {
        return tx
                .run("MATCH (p:Paper {key: $key}) WHERE p.token IS NOT NULL" + ROW, Map.of("key", key))
                .list(PaperShelf::kept)
                .stream()
                .findFirst();
    }

    @Override
    public Result<Paper> append(String kind, String house, String name, String text, long expected, String who) {
        String token = Secret.random();
        return transactions.write(
                tx -> append(tx, new Paper(kind, house, name, List.of()), text, expected, who, token));
    }

    private Result<Paper> append(
            TransactionContext tx, Paper blank, String text, long expected, String who, String token) {
        String key = key(blank.kind(), blank.house(), blank.name());
        // Whoever adds to one paper at once waits here for the others, also where it is not there yet; a first line is
        // always written then.
        tx.run((expected == 0 ? "MERGE" : "MATCH") + " (p:Paper {key: $key}) SET p.lock = true", Map.of("key", key))
                .consume();
        Optional<Kept> before = find(tx, key);
        if (before.isPresent() && before.get().token().equals(token)) {
            // This write succeeded before, and only its answer was lost.
            return Result.ok(before.get().paper());
        }
        Paper paper = before.map(Kept::paper).orElse(blank);
        if (paper.version() != expected) {
            return Result.failed(Problem.error(
                    ProblemKind.STALE,
                    Where.field(blank.name()),
                    "This was added to " + expected + " lines of " + blank.name() + ", and it has " + paper.version()
                            + ".",
                    "Look at it again, and add to what is there."));
        }
        List<Paper.Line> lines = new ArrayList<>(paper.lines());
        lines.add(new Paper.Line(clock.instant().truncatedTo(ChronoUnit.MILLIS), who, text));
        Paper next = new Paper(blank.kind(), blank.house(), blank.name(), lines);
        write(tx, next, null, token);
        return Result.ok(next);
    }

    @Override
    public void keep(Paper paper, boolean isMarked) {
        transactions.write(tx -> {
            write(tx, paper, isMarked, Secret.random());
            return true;
        });
    }

    private static void write(TransactionContext tx, Paper p, @Nullable Boolean isMarked, String token) {
        Map<String, Object> row = new HashMap<>(Map.of(
                "kind", p.kind(),
                "house", p.house(),
                "name", p.name(),
                "shelf", shelf(p.kind(), p.house()),
                "token", token,
                "at", p.lines().stream().map(l -> l.at().toString()).toList(),
                "who", p.lines().stream().map(Paper.Line::who).toList(),
                "text", p.lines().stream().map(Paper.Line::text).toList()));
        if (isMarked != null) {
            row.put("marked", isMarked);
        }
        tx.run(
                        "MERGE (p:Paper {key: $key}) SET p += $row",
                        Map.of("key", key(p.kind(), p.house(), p.name()), "row", row))
                .consume();
    }

    @Override
    public boolean erase(String kind, String house, String name) {
        return transactions.write(tx ->
                tx.run("MATCH (p:Paper {key: $key}) DELETE p", Map.of("key", key(kind, house, name)))
                                .consume()
                                .counters()
                                .nodesDeleted()
                        > 0);
    }

    @Override
    public boolean isMarked(String kind, String house) {
        return transactions.read(tx -> tx.run(
                        "MATCH (p:Paper {shelf: $shelf}) WHERE p.marked RETURN p LIMIT 1",
                        Map.of("shelf", shelf(kind, house)))
                .hasNext());
    }

    private static Kept kept(Record row) {
        List<String> at = row.get("at").asList(Value::asString);
        List<String> who = row.get("who").asList(Value::asString);
        List<String> text = row.get("text").asList(Value::asString);
        List<Paper.Line> lines = new ArrayList<>();
        for (int i = 0; i < text.size(); i++) {
            lines.add(new Paper.Line(Instant.parse(at.get(i)), who.get(i), text.get(i)));
        }
        return new Kept(
                new Paper(
                        row.get("kind").asString(),
                        row.get("house").asString(),
                        row.get("name").asString(),
                        lines),
                row.get("token").asString());
    }
}
