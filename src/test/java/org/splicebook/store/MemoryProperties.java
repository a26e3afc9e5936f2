package org.splicebook.store;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.problem.Where;
import org.splicebook.record.Property;

/** Properties for tests, in memory. */
public final class MemoryProperties implements PropertyStore {
    private final Map<String, List<StoredProperty>> all = new TreeMap<>();

    @Override
    public synchronized List<Revision> list() {
        return all.values().stream().map(l -> l.get(l.size() - 1).revision()).toList();
    }

    @Override
    public synchronized Optional<StoredProperty> find(String id) {
        List<StoredProperty> l = all.getOrDefault(id, List.of());
        return l.isEmpty() ? Optional.empty() : Optional.of(l.get(l.size() - 1));
    }

    @Override
    public synchronized Optional<StoredProperty> findRevision(String id, long revision) {
        return all.getOrDefault(id, List.of()).stream()
                .filter(p -> p.revision().number() == revision)
                .findFirst();
    }

    @Override
    public synchronized List<Revision> revisions(String id) {
        return all.getOrDefault(id, List.of()).stream()
                .map(StoredProperty::revision)
                .toList();
    }

    @Override
    public synchronized Result<Revision> put(Property property, long expected, String who, String why) {
        long newest = find(property.id()).map(s -> s.revision().number()).orElse(0L);
        if (newest != expected) {
            return Result.failed(
                    Problem.error(ProblemKind.STALE, Where.NOWHERE, "The newest revision is " + newest + ".", ""));
        }
        Revision r = new Revision(
                property.id(),
                property.said(),
                newest + 1,
                Instant.now(),
                who,
                why,
                false,
                Integer.toHexString(property.hashCode()));
        all.computeIfAbsent(property.id(), k -> new ArrayList<>()).add(new StoredProperty(property, r));
        return Result.ok(r);
    }

    @Override
    public synchronized Result<Revision> restore(List<StoredProperty> past) {
        String id = past.get(0).property().id();
        if (all.containsKey(id)) {
            return Result.failed(Problem.error(ProblemKind.CONFLICT, Where.NOWHERE, "The property is there.", ""));
        }
        all.put(id, new ArrayList<>(past));
        return Result.ok(past.get(past.size() - 1).revision());
    }
}
