package org.splicebook.graph;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Stream;
import org.neo4j.driver.Query;
import org.neo4j.driver.Record;
import org.neo4j.driver.Result;
import org.neo4j.driver.exceptions.NoSuchRecordException;
import org.neo4j.driver.internal.summary.InternalResultSummary;
import org.neo4j.driver.summary.ResultSummary;
import org.neo4j.driver.summary.SummaryCounters;

/** All rows of a statement that was run in this process, to be gone through once, as the driver's are. */
final class InProcessResult implements Result {
    private final String cypher;
    private final List<String> keys;
    private final List<Record> rows;
    private final SummaryCounters counters;
    private int at;

    InProcessResult(String cypher, List<String> keys, List<Record> rows, SummaryCounters counters) {
        this.cypher = cypher;
        this.keys = keys;
        this.rows = rows;
        this.counters = counters;
    }

    @Override
    public List<String> keys() {
        return keys;
    }

    @Override
    public boolean hasNext() {
        return at < rows.size();
    }

    @Override
    public Record next() {
        if (!hasNext()) {
            throw new NoSuchRecordException("There is no further row.");
        }
        return rows.get(at++);
    }

    @Override
    public Record single() {
        if (rows.size() - at != 1) {
            throw new NoSuchRecordException("One row was to be found, and there are " + (rows.size() - at) + ".");
        }
        return next();
    }

    @Override
    public Record peek() {
        if (!hasNext()) {
            throw new NoSuchRecordException("There is no further row.");
        }
        return rows.get(at);
    }

    @Override
    public Stream<Record> stream() {
        return list().stream();
    }

    @Override
    public List<Record> list() {
        return list(r -> r);
    }

    @Override
    public <T> List<T> list(Function<Record, T> each) {
        List<T> list = new ArrayList<>(rows.size() - at);
        while (hasNext()) {
            list.add(each.apply(next()));
        }
        return list;
    }

    @Override
    public ResultSummary consume() {
        at = rows.size();
        return new InternalResultSummary(
                new Query(cypher), null, null, null, counters, null, null, List.of(), Set.of(), -1, -1);
    }

    @Override
    public boolean isOpen() {
        return hasNext();
    }
}
