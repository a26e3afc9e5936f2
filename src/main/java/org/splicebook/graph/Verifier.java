package org.splicebook.graph;

import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.neo4j.driver.TransactionContext;
import org.neo4j.driver.exceptions.DatabaseException;
import org.splicebook.problem.ProblemException;
import org.splicebook.record.House;
import org.splicebook.store.Progress;
import org.splicebook.store.RecordText;
import org.splicebook.store.Revision;
import org.splicebook.store.VerifyReport;

/** Compares the graph of every house and property with its record, and every record with its digest. */
final class Verifier {
    private static final int TOLD = 10;

    private final Transactions transactions;
    private final RecordText text;
    private final Projection projection;
    private final PropertyVerifier properties;

    Verifier(Transactions transactions, RecordText text, Projection projection) {
        this.transactions = transactions;
        this.text = text;
        this.projection = projection;
        this.properties = new PropertyVerifier(transactions, text);
    }

    VerifyReport verify(boolean rebuild, Progress progress) {
        List<String> houses = transactions.read(Verifier::houses);
        List<String> differences = new ArrayList<>();
        List<String> rebuilt = new ArrayList<>();
        long done = 0;
        for (String house : houses) {
            try {
                verify(house, rebuild, differences, rebuilt);
            } catch (ProblemException e) {
                if (!(e.getCause() instanceof DatabaseException)) {
                    throw e;
                }
                differences.add(
                        house + ": cannot be read. " + e.problems().get(0).said());
            }
            progress.at(++done, houses.size(), house);
        }
        properties.verify(rebuild, differences, rebuilt);
        return new VerifyReport(houses.size(), differences, rebuilt);
    }

    private void verify(String house, boolean rebuild, List<String> differences, List<String> rebuilt) {
        differences.addAll(transactions.read(tx -> damaged(tx, house)));
        if (transactions.read(tx -> compare(tx, house)).isEmpty()) {
            return;
        }
        // Looked at again with the house locked: a writer may have come between.
        List<String> found = transactions.write(tx -> {
            Ledger.lock(tx, house);
            List<String> words = compare(tx, house);
            return rebuild && !words.isEmpty() && rebuild(tx, house) ? List.of() : words;
        });
        differences.addAll(found);
        if (rebuild && found.isEmpty()) {
            rebuilt.add(house);
        }
    }

    /** Rebuilds the graph of a house from its newest record; {@return whether that could be done}. The house must be locked. */
    boolean rebuild(TransactionContext tx, String house) {
        GraphRows rows;
        try {
            rows = expected(tx, house);
        } catch (ProblemException | UncheckedIOException e) {
            return false;
        }
        GraphWriter.replace(tx, house, rows);
        return true;
    }

    private List<String> compare(TransactionContext tx, String house) {
        GraphRows expected;
        try {
            expected = expected(tx, house);
        } catch (ProblemException | UncheckedIOException e) {
            return List.of(house + ": the newest record cannot be read, so its graph cannot be judged.");
        }
        return differences(
                house, expected.lines(), GraphWriter.read(tx, house).rows().lines());
    }

    private GraphRows expected(TransactionContext tx, String house) {
        Optional<Ledger.Kept> newest = Ledger.newest(tx, house);
        if (newest.isEmpty() || newest.get().revision().deleted()) {
            return new GraphRows(List.of(), List.of());
        }
        House record = text.read(newest.get().record().text());
        return projection.of(projection.derive(record), newest.get().revision());
    }

    /** {@return in words, the first of them, what of a thing's graph is there and should not be or the other way round, line by line} */
    static List<String> differences(String house, List<String> wanted, List<String> there) {
        Map<String, Integer> count = new HashMap<>();
        wanted.forEach(l -> count.merge(l, 1, Integer::sum));
        there.forEach(l -> count.merge(l, -1, Integer::sum));
        List<String> words = new ArrayList<>();
        count.forEach((line, n) -> {
            if (n != 0) {
                words.add(house + ": the graph " + (n > 0 ? "lacks " : "has, and should not, ") + line + ".");
            }
        });
        words.sort(String::compareTo);
        if (words.size() <= TOLD) {
            return words;
        }
        List<String> told = new ArrayList<>(words.subList(0, TOLD));
        told.add(house + ": and " + (words.size() - TOLD) + " differences more.");
        return told;
    }

    private static List<String> damaged(TransactionContext tx, String house) {
        List<String> words = new ArrayList<>();
        for (Revision r : Ledger.all(tx, house)) {
            String said = house + ": the record of revision " + r.number() + " is not what was stored.";
            try {
                boolean isIntact = Ledger.find(tx, house, r.number())
                        .map(k -> Packed.digest(k.record().text()).equals(r.digest()))
                        .orElse(false);
                if (!isIntact) {
                    words.add(said);
                }
            } catch (UncheckedIOException e) {
                words.add(said);
            }
        }
        DraftShelf.damaged(tx, house).forEach(d -> words.add(house + ": the draft " + d + " is not what was stored."));
        return words;
    }

    private static List<String> houses(TransactionContext tx) {
        return tx
                .run("MATCH (l:Ledger) RETURN l.house AS house UNION MATCH (h:House) RETURN h.key AS house")
                .list(r -> r.get("house").asString())
                .stream()
                .sorted()
                .toList();
    }
}
