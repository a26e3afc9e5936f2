package org.splicebook.store;

import java.time.Instant;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.problem.Where;

/** What is kept beside houses, in memory. */
public final class MemoryPapers implements Papers {
    private final Map<String, Paper> all = new TreeMap<>();
    private final Set<String> marked = new HashSet<>();

    private static String key(String kind, String house, String name) {
        return kind + "/" + house + "/" + name;
    }

    @Override
    public synchronized List<Paper> list(String kind, String house) {
        return all.values().stream()
                .filter(p -> p.kind().equals(kind) && p.house().equals(house))
                .toList();
    }

    @Override
    public synchronized Optional<Paper> find(String kind, String house, String name) {
        return Optional.ofNullable(all.get(key(kind, house, name)));
    }

    @Override
    public synchronized Result<Paper> append(
            String kind, String house, String name, String text, long expected, String who) {
        Paper before = all.getOrDefault(key(kind, house, name), new Paper(kind, house, name, List.of()));
        if (before.version() != expected) {
            return Result.failed(Problem.error(
                    ProblemKind.STALE,
                    Where.NOWHERE,
                    "This was added to " + expected + " lines, and it has " + before.version() + ".",
                    "Look again."));
        }
        List<Paper.Line> lines = new ArrayList<>(before.lines());
        lines.add(new Paper.Line(Instant.now(), who, text));
        Paper next = new Paper(kind, house, name, lines);
        all.put(key(kind, house, name), next);
        return Result.ok(next);
    }

    @Override
    public synchronized void keep(Paper paper, boolean isMarked) {
        String key = key(paper.kind(), paper.house(), paper.name());
        all.put(key, paper);
        marked.remove(key);
        if (isMarked) {
            marked.add(key);
        }
    }

    @Override
    public synchronized boolean erase(String kind, String house, String name) {
        marked.remove(key(kind, house, name));
        return all.remove(key(kind, house, name)) != null;
    }

    @Override
    public synchronized boolean isMarked(String kind, String house) {
        return marked.stream().anyMatch(k -> k.startsWith(kind + "/" + house + "/"));
    }
}
