package org.splicebook.housefile;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;

/** Makes one map of the texts of several files: sections are joined, and no key may stand twice. */
final class Merger {
    private final Problems problems;
    private int nodesLeft = Limits.NODES;

    Merger(Problems problems) {
        this.problems = problems;
    }

    Optional<Node> merge(List<HouseFiles.SourceText> texts) {
        List<Node.Entries> maps = new ArrayList<>();
        for (HouseFiles.SourceText t : texts) {
            if (t.text().length() > Limits.BYTES || t.text().getBytes(StandardCharsets.UTF_8).length > Limits.BYTES) {
                problems.error(ProblemKind.TOO_LARGE, file(t), "The file is too large.", FolderReader.SIZES);
                return Optional.empty();
            }
            Optional<Node> node = YamlReader.read(t.name(), t.text(), nodesLeft, problems);
            if (node.isPresent() && node.get() instanceof Node.Entries map) {
                maps.add(map);
                nodesLeft -= count(map);
            } else if (node.isPresent() && !(node.get() instanceof Node.Scalar s && s.isNothing())) {
                problems.error(
                        ProblemKind.BAD_VALUE,
                        node.get().at(),
                        "The file is " + node.get().said() + ".",
                        "A house file is a map that begins with splicebook: 1.");
            }
        }
        if (maps.isEmpty()) {
            if (!problems.any()) {
                problems.error(
                        ProblemKind.MISSING,
                        texts.isEmpty() ? Where.NOWHERE : file(texts.get(0)),
                        "Nothing is written here.",
                        "A house file begins with splicebook: 1 and house: its-id.");
            }
            return Optional.empty();
        }
        return Optional.of(maps.size() == 1 ? maps.get(0) : join(maps));
    }

    private static Where file(HouseFiles.SourceText t) {
        return new Where(t.name(), 1, 1, "");
    }

    private static int count(Node n) {
        int count = 1;
        if (n instanceof Node.Items list) {
            for (Node i : list.items()) {
                count += count(i);
            }
        } else if (n instanceof Node.Entries map) {
            for (Node.Entry e : map.entries()) {
                count += 1 + count(e.value());
            }
        }
        return count;
    }

    private Node join(List<Node.Entries> maps) {
        Map<String, Node.Entry> all = new LinkedHashMap<>();
        for (Node.Entries map : maps) {
            for (Node.Entry e : map.entries()) {
                all.merge(e.key().text(), e, this::join);
            }
        }
        return new Node.Entries(List.copyOf(all.values()), maps.get(0).at());
    }

    private Node.Entry join(Node.Entry first, Node.Entry second) {
        if (first.value() instanceof Node.Entries a && second.value() instanceof Node.Entries b && isSection(first)) {
            Map<String, Node.Entry> seen = new HashMap<>();
            List<Node.Entry> entries = new ArrayList<>(a.entries());
            a.entries().forEach(e -> seen.put(e.key().text(), e));
            for (Node.Entry e : b.entries()) {
                Node.Entry before = seen.putIfAbsent(e.key().text(), e);
                if (before == null) {
                    entries.add(e);
                } else {
                    twice(before, e);
                }
            }
            return new Node.Entry(first.key(), new Node.Entries(entries, a.at()));
        }
        if (first.value() instanceof Node.Items a && second.value() instanceof Node.Items b && isSection(first)) {
            List<Node> items = new ArrayList<>(a.items());
            items.addAll(b.items());
            return new Node.Entry(first.key(), new Node.Items(items, a.at()));
        }
        // Each file of a folder may say the version, so that it can be told what it is.
        if (!first.key().text().equals("splicebook")
                || !first.value().said().equals(second.value().said())) {
            twice(first, second);
        }
        return first;
    }

    private static boolean isSection(Node.Entry e) {
        return switch (e.key().text()) {
            case "sources", "places", "panels", "cables", "boxes", "sightings", "tests", "accepted" -> true;
            default -> false;
        };
    }

    private void twice(Node.Entry first, Node.Entry second) {
        problems.error(
                ProblemKind.DUPLICATE,
                second.key().at(),
                "The key " + second.key().said() + " stands here a second time.",
                "It stands first in " + first.key().at().said() + ". Keep one of them.");
    }
}
